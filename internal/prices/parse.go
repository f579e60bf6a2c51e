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
	"scantling/internal/region"
	"scantling/internal/screw"
	"scantling/internal/snag"
	"scantling/internal/span"
	"scantling/internal/spell"
	"scantling/internal/wood"
)

const (
	boardHeader    = "size,wood,grade,treatment,length_ft,price"
	metricHeader   = "size,wood,grade,treatment,length_mm,price"
	hardwareHeader = "hardware,count,price"
)

// Parse reads a price book; file names it in the snags. A row that is wrong is
// left out and told, with its place.
func Parse(file string, src []byte) (*Book, snag.List) {
	p := &parser{file: file, src: src, lines: []int{0}, book: &Book{Currency: "$"}, seen: map[string]int{}}
	for i, c := range src {
		if c == '\n' {
			p.lines = append(p.lines, i+1)
		}
	}
	p.r = csv.NewReader(bytes.NewReader(src))
	p.r.Comment, p.r.FieldsPerRecord, p.r.TrimLeadingSpace = '#', -1, true
	for {
		fields, err := p.r.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			p.broken(err)
			break
		}
		for i := range fields {
			fields[i] = strings.TrimSpace(fields[i])
		}
		p.fields = fields
		p.line(fields)
	}
	if len(p.book.Sold)+len(p.book.Hardware) == 0 && len(p.snags) == 0 {
		p.tell(span.Range{File: file}, "begin with the line "+boardHeader, "the price book holds no prices")
	}
	return p.book, p.snags
}

type parser struct {
	file     string
	src      []byte
	lines    []int // where each begins
	r        *csv.Reader
	fields   []string // of the present line
	book     *Book
	header   string         // of the part being read
	regional bool           // the book says its region
	seen     map[string]int // what has a price, and the line it stands on
	snags    snag.List
}

func (p *parser) tell(at span.Range, mend, what string, a ...any) {
	p.snags = append(p.snags, snag.Snag{Code: "price-book", Severity: snag.Error, Tier: snag.Settled, At: at,
		What: fmt.Sprintf(what, a...), Mends: []snag.Mend{snag.Say(mend)}})
}

// fault tells of a field of the present line.
func (p *parser) fault(field int, mend, what string, a ...any) {
	p.tell(p.at(field), mend, what, a...)
}

// at returns where a field of the present line stands.
func (p *parser) at(field int) span.Range {
	line, column := p.r.FieldPos(field)
	start := min(p.lines[line-1]+column-1, len(p.src))
	end := min(start+len(p.fields[field]), len(p.src))
	return span.Range{File: p.file, Start: start, End: end}
}

// broken tells of a line that is no CSV.
func (p *parser) broken(err error) {
	at := span.Range{File: p.file, Start: len(p.src), End: len(p.src)}
	says := err.Error()
	var bad *csv.ParseError
	if errors.As(err, &bad) {
		at.Start = min(p.lines[bad.StartLine-1], len(p.src))
		if bad.StartLine < len(p.lines) {
			at.End = p.lines[bad.StartLine] - 1
		}
		says = bad.Err.Error()
	}
	p.tell(at, `put a field that holds a comma or a quotation mark in quotation marks, and double those inside: "bolt 1/2"""`,
		"this is no line of a CSV file: %s", says)
}

func (p *parser) line(f []string) {
	switch joined := strings.ToLower(strings.Join(f, ",")); joined {
	case boardHeader, metricHeader, hardwareHeader:
		p.header = joined
		return
	}
	switch p.header {
	case boardHeader, metricHeader:
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
	case "region":
		r, ok := region.Parse(f[1])
		if !ok {
			p.fault(1, "write North America, UK and Europe, or Australia and New Zealand", "%q is no region known here", f[1])
		}
		p.book.Region, p.regional = r, ok
	case "currency":
		if f[1] != "$" && f[1] != "£" && f[1] != "€" {
			p.fault(1, "write $, £ or €", "%q is no sign of money known here", f[1])
			return
		}
		p.book.Currency = f[1]
	default:
		p.fault(0, didYouMean(spell.Nearest(f[0], []string{"place", "date", "basis", "region", "currency"}), "a book says its place, date, basis, region and currency"), "%q is nothing a book says of itself", f[0])
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
	before := len(p.snags)
	size, kind, err := p.stock(f[0], f[1])
	p.name(0, err[0])
	p.name(1, err[1])
	treatment, bad := lumber.ParseTreatment(f[3])
	p.name(3, bad)
	length, says := p.length(f[4])
	price := p.price(5, f[5])
	if len(p.snags) > before {
		return
	}
	b := Board{size.Name, kind.Name, f[2], treatment, Offer{length, price}}
	stock := lumber.StockOf(size, b.Wood, b.Grade, b.Treatment)
	if p.once(stock.String() + ", " + says) {
		p.book.Sold = append(p.book.Sold, b)
	}
}

// stock looks a size and a wood up by the names of the book's region, or by
// anybody's if it says none.
func (p *parser) stock(size, kind string) (s lumber.Size, w wood.Wood, err [2]error) {
	if p.regional {
		s, err[0] = lumber.LookupIn(p.book.Region, size)
		w, err[1] = wood.LookupIn(p.book.Region, kind)
	} else {
		s, err[0] = lumber.Lookup(size)
		w, err[1] = wood.Lookup(kind)
	}
	return s, w, err
}

// length reads feet or, under the metric header, millimetres.
func (p *parser) length(s string) (l measure.Length, says string) {
	n, err := strconv.Atoi(s)
	if p.header == metricHeader {
		if err != nil || n < 300 || n > 12000 {
			p.fault(4, "write whole millimetres from 300 to 12000", "%q is no length in millimetres", s)
		}
		return measure.Length(n) * measure.Millimetre, strconv.Itoa(n) + " mm"
	}
	if err != nil || n < 1 || n > 40 {
		p.fault(4, "write whole feet from 1 to 40", "%q is no length in feet", s)
	}
	return measure.Length(n) * measure.Foot, strconv.Itoa(n) + " ft"
}

func (p *parser) pack(f []string) {
	if !p.wide(f) {
		return
	}
	before := len(p.snags)
	what := p.hardware(f[0])
	count, err := strconv.Atoi(f[1])
	if err != nil || count < 1 || count > 100000 {
		p.fault(1, "write how many are in the pack, from 1 to 100000", "%q is no count", f[1])
	}
	price := p.price(2, f[2])
	if len(p.snags) > before {
		return
	}
	if p.once(fmt.Sprintf("%s, %d together", what, count)) {
		p.book.Hardware = append(p.book.Hardware, Pack{what, count, price})
	}
}

// hardware reads a fastener, a nut or washer by the size of its bolt, or the
// name of anything else that is like no fastener's.
func (p *parser) hardware(s string) string {
	for _, trim := range []string{"nut ", "washer "} {
		if size, ok := strings.CutPrefix(strings.ToLower(s), trim); ok {
			bolt, err := screw.Parse("carriage bolt " + size)
			if err != nil {
				p.fault(0, "name it by its bolt: nut 5/16", "%q is no nut or washer sold for a bolt", s)
			}
			return trim + bolt.Size
		}
	}
	if strings.HasPrefix(s, "plug ") {
		return s
	}
	f, err := screw.Parse(s)
	var bad *screw.PhraseError
	switch {
	case errors.As(err, &bad):
		if bad.Other {
			return s
		}
		p.fault(0, bad.Mend, "%s", bad.What)
		if last := &p.snags[len(p.snags)-1]; bad.Fix != "" {
			last.Mends[0] = snag.Replace(bad.Mend, last.At, s[:bad.Start]+bad.Fix+s[bad.End:])
		}
	case f.Length == 0 && f.Family != screw.Glue:
		what := "screw"
		if f.Bolted() {
			what = "bolt"
		}
		p.fault(0, "write its length: "+s+" x 4", "how long is this %s?", what)
	}
	return f.Name()
}

// name tells of a name that no catalogue holds, or several rows of one.
func (p *parser) name(field int, err error) {
	var names []string
	var size *lumber.NameError
	var kind *wood.NameError
	switch {
	case err == nil:
		return
	case errors.As(err, &size):
		names = append(size.Candidates, size.Nearest...)
	case errors.As(err, &kind):
		names = append(kind.Candidates, kind.Nearest...)
	}
	p.fault(field, "write the name as the catalogue has it", "%s", err)
	last := &p.snags[len(p.snags)-1]
	for i, n := range names {
		mend := snag.Replace("write "+n, last.At, n)
		if i == 0 {
			last.Mends = nil
		}
		last.Mends = append(last.Mends, mend)
	}
}

// price reads dollars and cents, or the book's money, with or without its sign.
func (p *parser) price(field int, s string) measure.Money {
	whole, cents, dotted := strings.Cut(strings.TrimPrefix(s, p.book.Currency), ".")
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
