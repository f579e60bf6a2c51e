package prices

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/screw"
	"scantling/internal/spell"
	"scantling/internal/wood"
)

// An Error says what is wrong in a price book, where (line and column count
// from 1, columns in bytes), and how to mend it.
type Error struct {
	Line, Column int
	What, Mend   string
}

func (e *Error) Error() string {
	return fmt.Sprintf("line %d, column %d: %s; %s", e.Line, e.Column, e.What, e.Mend)
}

// Errors are all that is wrong with a book, in the order of its lines.
type Errors []*Error

func (es Errors) Error() string {
	var lines []string
	for _, e := range es {
		lines = append(lines, e.Error())
	}
	return strings.Join(lines, "\n")
}

const (
	boardHeader    = "size,wood,grade,treatment,length_ft,price"
	hardwareHeader = "hardware,count,price"
)

// Parse reads a price book. When anything is wrong it returns the rows that are
// right and an error of type Errors.
func Parse(src []byte) (*Book, error) {
	p := &parser{book: &Book{}, seen: map[string]int{}}
	p.r = csv.NewReader(bytes.NewReader(src))
	p.r.Comment, p.r.FieldsPerRecord, p.r.TrimLeadingSpace = '#', -1, true
	for {
		fields, err := p.r.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			var bad *csv.ParseError
			if !errors.As(err, &bad) {
				return p.book, err
			}
			p.errors = append(p.errors, &Error{bad.Line, bad.Column, "this is no line of a CSV file: " + bad.Err.Error(),
				`put a field that holds a comma or a quotation mark in quotation marks, and double those inside: "1/2"" bolt"`})
			break
		}
		for i := range fields {
			fields[i] = strings.TrimSpace(fields[i])
		}
		p.line(fields)
	}
	if len(p.book.Boards)+len(p.book.Packs) == 0 && len(p.errors) == 0 {
		p.errors = append(p.errors, &Error{1, 1, "the book holds no prices", "begin with the line " + boardHeader})
	}
	if len(p.errors) > 0 {
		return p.book, p.errors
	}
	return p.book, nil
}

type parser struct {
	r      *csv.Reader
	book   *Book
	header string         // of the part being read
	seen   map[string]int // what has a price, and the line it stands on
	errors Errors
}

// fault records an error at a field of the present line.
func (p *parser) fault(field int, mend, what string, a ...any) {
	line, column := p.r.FieldPos(field)
	p.errors = append(p.errors, &Error{line, column, fmt.Sprintf(what, a...), mend})
}

func (p *parser) line(f []string) {
	switch joined := strings.ToLower(strings.Join(f, ",")); joined {
	case boardHeader, hardwareHeader:
		p.header = joined
		return
	}
	switch p.header {
	case boardHeader:
		p.board(f)
	case hardwareHeader:
		p.pack(f)
	default:
		p.about(f)
	}
}

// about reads a line before the first header.
func (p *parser) about(f []string) {
	if len(f) != 2 {
		p.fault(0, "the lines before "+boardHeader+" are place, date and basis, each with one value", "%q is no line about the book", strings.Join(f, ","))
		return
	}
	switch f[0] {
	case "place":
		p.book.Place = f[1]
	case "date":
		if !isDate(f[1]) {
			p.fault(1, "write it year first: 2026-03-01", "%q is no date", f[1])
		}
		p.book.Date = f[1]
	case "basis":
		if f[1] != "invented" && f[1] != "asked" {
			p.fault(1, "write invented, or asked for prices a yard gave", "%q is no basis of a price", f[1])
		}
		p.book.Invented = f[1] == "invented"
	default:
		p.fault(0, didYouMean(spell.Nearest(f[0], []string{"place", "date", "basis"}), "a book says its place, date and basis"), "%q is nothing a book says of itself", f[0])
	}
}

func isDate(s string) bool {
	if len(s) != 10 || s[4] != '-' || s[7] != '-' {
		return false
	}
	y, e1 := strconv.Atoi(s[:4])
	m, e2 := strconv.Atoi(s[5:7])
	d, e3 := strconv.Atoi(s[8:])
	return e1 == nil && e2 == nil && e3 == nil && y > 1900 && m >= 1 && m <= 12 && d >= 1 && d <= 31
}

func didYouMean(names []string, otherwise string) string {
	if len(names) == 0 {
		return otherwise
	}
	return "did you mean " + strings.Join(names, " or ") + "?"
}

// wide checks the number of fields of a row.
func (p *parser) wide(f []string) bool {
	if want := strings.Count(p.header, ",") + 1; len(f) != want {
		p.fault(0, "write "+p.header, "the row has %d fields and should have %d", len(f), want)
		return false
	}
	return true
}

func (p *parser) board(f []string) {
	if !p.wide(f) {
		return
	}
	before := len(p.errors)
	size, err := lumber.Lookup(f[0])
	p.name(0, err)
	kind, err := wood.Lookup(f[1])
	p.name(1, err)
	treatment, err := lumber.ParseTreatment(f[3])
	p.name(3, err)
	feet, err := strconv.Atoi(f[4])
	if err != nil || feet < 1 || feet > 40 {
		p.fault(4, "write whole feet from 1 to 40", "%q is no length in feet", f[4])
	}
	price := p.price(5, f[5])
	if len(p.errors) > before {
		return
	}
	b := Board{size.Name, kind.Name, f[2], treatment, measure.Length(feet) * measure.Foot, price}
	if p.once(strings.Join([]string{string(b.Size), b.Wood, b.Grade, treatment.String(), f[4]}, ", ") + " ft") {
		p.book.Boards = append(p.book.Boards, b)
	}
}

func (p *parser) pack(f []string) {
	if !p.wide(f) {
		return
	}
	before := len(p.errors)
	what := p.hardware(f[0])
	count, err := strconv.Atoi(f[1])
	if err != nil || count < 1 || count > 100000 {
		p.fault(1, "write how many are in the pack, from 1 to 100000", "%q is no count", f[1])
	}
	price := p.price(2, f[2])
	if len(p.errors) > before {
		return
	}
	if p.once(what + ", " + f[1]) {
		p.book.Packs = append(p.book.Packs, Pack{what, count, price})
	}
}

// hardware reads a fastener, or a nut or washer by the size of its bolt.
func (p *parser) hardware(s string) string {
	for _, trim := range []string{"nut ", "washer "} {
		if size, ok := strings.CutPrefix(strings.ToLower(s), trim); ok {
			if _, err := screw.Parse("carriage bolt " + size); err != nil {
				p.fault(0, "name it by its bolt: nut 5/16", "%q is no nut or washer sold for a bolt", s)
			}
			return trim + strings.TrimSpace(size)
		}
	}
	f, err := screw.Parse(s)
	var bad *screw.PhraseError
	switch {
	case errors.As(err, &bad):
		p.fault(0, bad.Mend, "%s", bad.What)
	case f.Bolted() && f.Length == 0:
		p.fault(0, "write its length: "+s+" x 4", "how long is this bolt?")
	}
	return f.Name()
}

// name records an error of a catalogue at a field.
func (p *parser) name(field int, err error) {
	if err != nil {
		p.fault(field, "write the name as the catalogue has it", "%s", err)
	}
}

// price reads dollars and cents, with or without a dollar sign.
func (p *parser) price(field int, s string) measure.Money {
	whole, cents, dotted := strings.Cut(strings.TrimPrefix(s, "$"), ".")
	d, err := strconv.ParseUint(whole, 10, 20)
	c, err2 := strconv.ParseUint(cents, 10, 8)
	if err != nil || dotted && (err2 != nil || len(cents) != 2) || d == 0 && c == 0 {
		p.fault(field, "write dollars and two places of cents: 5.48", "%q is no price", s)
		return 0
	}
	return measure.Money(d)*measure.Dollar + measure.Money(c)
}

// once reports whether a thing has no price yet.
func (p *parser) once(what string) bool {
	line, _ := p.r.FieldPos(0)
	if first, ok := p.seen[what]; ok {
		p.fault(0, fmt.Sprintf("keep this line or line %d", first), "%s has a price already", what)
		return false
	}
	p.seen[what] = line
	return true
}
