// Package plan runs the whole chain: from the bytes of a design file, and what a
// reader sets, to everything the plan says.
//
// Open takes a design file; Session.Run computes its plan. Both are pure: the
// same bytes and options give the same plan, byte for byte, in a terminal and in
// a browser. Everything outside this package that wants a plan imports this
// package and no other of the engine.
package plan

import (
	"bytes"
	"context"
	"fmt"
	"strings"
	"sync"

	"scantling/internal/book"
	"scantling/internal/care"
	"scantling/internal/design"
	"scantling/internal/drawing"
	"scantling/internal/joint"
	"scantling/internal/measure"
	"scantling/internal/order"
	"scantling/internal/part"
	"scantling/internal/pdf"
	"scantling/internal/picture"
	"scantling/internal/prices"
	"scantling/internal/proof"
	"scantling/internal/region"
	"scantling/internal/shop"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/svg"
	"scantling/internal/words"
)

// A Setting gives a size or a choice another value than the file's.
type Setting struct{ Name, Value string }

// Want says how far Run goes. What it does not reach is left empty.
type Want int

const (
	Live    Want = iota // values, solids, contacts, clashes: Piece and Snags
	Settled             // joints, parts, cutting: Readings
	Book                // pictures and pages
)

// Options is everything outside the design file that a plan depends on.
type Options struct {
	Set        []Setting
	Prices     []byte // a price book; the demonstration's when nil
	PricesFile string // its name, for messages
	Paper      string // "letter" or "a4"; what is sold in the region when empty
	Revision   string // printed on every page; a code made from the design when empty
	Date       string // printed on the front; none when empty
	Want       Want
	Measured   []Measured         // what the reader's boards really measure
	OnHand     []OnHand           // boards the reader has
	Tools      []Tool             // how large the reader's tools are, where not usual
	Kerf       measure.Length     // what the blade cuts away; 1/8 in or 3 mm when 0
	Squared    *measure.Length    // what squaring an end takes, kerf included; 1/2 in or 12 mm when nil
	Reserve    measure.Length     // kept free at the far end of every board, for knots and splits
	Car        measure.Length     // the longest board that can be brought home; any when 0
	FewestCuts bool               // the fewest boards rather than the cheapest
	Tape       measure.Graduation // the marks of the reader's tape: Sixteenth or ThirtySecond; a metric plan has WholeMM
	Region     *region.Region     // whose edition; where the file was drawn for when nil
	Everywhere bool               // also tell what only other sizes and choices bring about
	Nodes      int                // how far the cutting search goes; see cutplan.Options
	Progress   func(stage string) // told of each stage of a long run; may be nil
}

// A Session is one design file. It may be run many times.
type Session struct {
	file     string
	src      []byte
	tree     *source.Tree
	home     region.Region // where the file was drawn for
	editions [3]func() *design.Design
	snags    snag.List // of the file as such
}

// A Plan is what the chain computed. Parts of it are empty when errors or
// Options.Want kept them from being computed.
type Plan struct {
	File     string
	Source   []byte
	Piece    *design.Piece
	Readings *shop.Readings
	Proof    *proof.Proof    // what came of building it again from its pages; nil when nothing was to build
	Likeness *proof.Likeness // how that resembles the design
	Hangs    *Hangs          // what a sixteenth does; nil until the book is made
	Pictures picture.Pictures
	Book     *drawing.Document
	Snags    snag.List // sorted, gravest first

	pages  *proof.Pages // what it was built from
	tree   *source.Tree
	tape   measure.Graduation
	region region.Region
	prices snag.Sources // the price book, for messages that point into it
}

// Open reads a design file named file. It never fails: what is wrong with the
// file is among the snags of its plan.
func Open(file string, src []byte) *Session {
	s := &Session{file: file, src: src}
	s.tree, s.snags = source.Parse(file, src)
	if s.tree == nil {
		return s
	}
	s.home, _ = design.Home(s.tree)
	for _, r := range region.All() {
		s.editions[r] = sync.OnceValue(func() *design.Design {
			if r == s.home {
				return design.Open(s.tree)
			}
			return design.OpenIn(s.tree, r)
		})
	}
	return s
}

// Region returns where the file was drawn for.
func (s *Session) Region() region.Region { return s.home }

// Run computes the plan. Its error is ctx's when it was stopped, else about an
// option that makes no sense; everything about the design is in Plan.Snags.
func (s *Session) Run(ctx context.Context, o Options) (*Plan, error) {
	if err := o.settle(s.home); err != nil {
		return nil, err
	}
	paper, err := paperOf(o.Paper)
	if err != nil {
		return nil, err
	}
	p, err := s.Settle(ctx, o)
	if err != nil || p.Readings == nil || o.Want < Book {
		return p, err
	}
	if o.Progress != nil {
		o.Progress("drawing")
	}
	p.care()
	p.Pictures = picture.Draw(p.Readings)
	p.Book = book.Make(p.Readings, book.Pictures(p.Pictures), paper)
	return p, ctx.Err()
}

// Settle is Run without pictures and pages, whatever Options.Want says: a program
// that calls only this is smaller by all that draws and sets type.
func (s *Session) Settle(ctx context.Context, o Options) (*Plan, error) {
	stage := func(what string) error {
		if o.Progress != nil {
			o.Progress(what)
		}
		return ctx.Err()
	}
	if err := o.settle(s.home); err != nil {
		return nil, err
	}
	p := &Plan{File: s.file, Source: s.src, tree: s.tree, tape: o.Tape, region: *o.Region, prices: snag.Sources{}}
	p.Snags = append(p.Snags, s.snags...)
	defer func() { p.Snags = p.Snags.Sorted() }()
	if s.tree == nil {
		return p, nil
	}
	defer func() {
		// A mend that would break the quotes it stands in is left in words.
		for i := range p.Snags {
			for k := range p.Snags[i].Mends {
				if m := &p.Snags[i].Mends[k]; !s.tree.Holds(m.Edits) {
					m.Edits = nil
				}
			}
		}
	}()
	edition := s.editions[*o.Region]()
	p.tree = edition.Tree()

	if err := stage("setting out"); err != nil {
		return nil, err
	}
	var settings design.Settings
	for _, set := range o.Set {
		settings = append(settings, design.Setting{Name: set.Name, Value: set.Value})
	}
	d, more := edition.Measured(o.sections())
	p.Snags = append(p.Snags, more...)
	piece, more := d.Evaluate(settings)
	p.Snags = append(p.Snags, more...)
	p.Piece = piece
	if o.Everywhere {
		p.Snags = append(p.Snags, d.Everywhere()...)
	}
	meetings := joint.Meet(piece)
	p.Snags = append(p.Snags, meetings.Snags()...)
	if o.Want == Live {
		return p, ctx.Err()
	}

	if err := stage("joints and parts"); err != nil {
		return nil, err
	}
	joints, more := joint.Find(piece, meetings)
	p.Snags = append(p.Snags, more...)
	p.Snags = append(p.Snags, care.Check(piece, meetings, joints)...)
	tools, err := o.tools()
	if err != nil {
		return nil, err
	}
	work := order.NewWork(piece, meetings, joints, tools)
	if s.tree.Root.Get("steps") == nil && len(piece.Boards) > 0 {
		piece.Steps = work.Propose()
	}
	looks, more := work.Check(s.tree)
	p.Snags = append(p.Snags, more...)
	parts := part.Sort(piece)
	list, more := p.priceBook(o)
	p.Snags = append(p.Snags, more...)
	readings, more := shop.Compute(piece, meetings, joints, parts, shop.Pen{Tape: o.Tape, Currency: list.Currency})
	p.Snags = append(p.Snags, more...)
	p.Readings = readings
	readings.SetReach(piece, looks)
	readings.Date, readings.Revision = o.Date, o.Revision
	if readings.Revision == "" {
		readings.Revision = s.revision(&o)
	}
	p.prove()

	if err := stage("choosing boards"); err != nil {
		return nil, err
	}
	more, err = p.buy(ctx, joints, list, &o)
	if err != nil {
		return nil, err
	}
	p.Snags = append(p.Snags, more...)
	p.Snags = p.Snags.Sorted()
	readings.Ready = p.Snags.Errors() == 0
	readings.Notes = shop.Notes(p.Snags, piece, readings)
	readings.Changes = p.changes(edition, settings, &o)
	pack := words.For(*o.Region)
	readings.Speak(pack)
	for i := range p.Snags {
		p.Snags[i].What, p.Snags[i].Why = pack.Local(p.Snags[i].What), pack.Local(p.Snags[i].Why)
	}
	return p, ctx.Err()
}

func paperOf(name string) (book.Paper, error) {
	switch name {
	case "letter":
		return book.Letter, nil
	case "a4":
		return book.A4, nil
	}
	return book.Letter, fmt.Errorf("paper %q is not known; use letter or a4", name)
}

// priceBook reads the price book, or the demonstration's when there is none.
func (p *Plan) priceBook(o Options) (*prices.Book, snag.List) {
	if o.Prices == nil {
		return prices.DemoIn(*o.Region), nil
	}
	p.prices[o.PricesFile] = o.Prices
	return prices.Parse(o.PricesFile, o.Prices)
}

// Messages returns the snags as a terminal shows them, gravest first.
func (p *Plan) Messages() string {
	src := snag.Sources{p.File: p.Source}
	for name, text := range p.prices {
		src[name] = text
	}
	return p.Snags.Text(src)
}

// A File is one file of the written plan; Path has forward slashes.
type File struct {
	Path  string
	Bytes []byte
}

// Files returns everything `scantling plan` writes: plan.pdf, plan.json,
// lists/*.csv and drawings/*.svg. What could not be computed is not among them.
func (p *Plan) Files() ([]File, error) {
	var out []File
	if p.Book != nil {
		var b bytes.Buffer
		if err := pdf.Write(&b, p.Book); err != nil {
			return nil, fmt.Errorf("the plan as PDF: %w", err)
		}
		out = append(out, File{"plan.pdf", b.Bytes()})
	}
	if p.Readings != nil {
		out = append(out, File{"plan.json", p.JSON()})
		out = append(out, p.Lists()...)
	}
	for _, s := range p.sheets() {
		var b bytes.Buffer
		if err := svg.Write(&b, s.sheet); err != nil {
			return nil, fmt.Errorf("the drawing %s: %w", s.name, err)
		}
		out = append(out, File{"drawings/" + s.name + ".svg", b.Bytes()})
	}
	return out, nil
}

type namedSheet struct {
	name  string
	sheet *drawing.Sheet
}

// Sizes of the drawings written as files, in mm.
const drawingWidth, drawingHeight = 180, 140

// sheets are the pictures under the names they are written as.
func (p *Plan) sheets() []namedSheet {
	var out []namedSheet
	add := func(name string, f *drawing.Figure) {
		if f != nil {
			out = append(out, namedSheet{name, f.Sheet(drawingWidth, drawingHeight)})
		}
	}
	add("corner", p.Pictures.Piece)
	for _, f := range p.Pictures.Views {
		add(f.Name, f)
	}
	if p.Readings == nil {
		return out
	}
	for _, pt := range p.Readings.Parts {
		add("part-"+pt.Letter, p.Pictures.Parts[pt.Letter])
	}
	for i, f := range p.Pictures.Steps {
		add(fmt.Sprintf("step-%02d", p.Readings.Steps[i].Number), f)
	}
	return out
}

// Schema returns the JSON Schema of the design file, for editors.
func Schema() []byte { return design.Schema() }

// Explain returns what a message's code means, with the smallest design that
// gets it. Without a code it lists all. It returns false, and what to do, for a
// code there is not.
func Explain(code string) (string, bool) {
	if code == "" {
		var b strings.Builder
		for _, c := range snag.Codes() {
			fmt.Fprintf(&b, "%-22s %s\n", c.Code, c.Title)
		}
		return b.String(), true
	}
	c, ok := snag.Explain(snag.Code(code))
	if !ok {
		return fmt.Sprintf("there is no code %q; scantling explain lists all", code), false
	}
	text := c.Title + ".\n\n" + c.Meaning + "\n"
	if c.Example != "" {
		text += "\nFor example:\n\n" + indent(c.Example)
	}
	return text, true
}

// indent moves each line of a text four blanks in.
func indent(text string) string {
	var b strings.Builder
	for line := range strings.Lines(text) {
		b.WriteString("    " + line)
	}
	return b.String()
}
