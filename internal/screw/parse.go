package screw

import (
	"fmt"
	"slices"
	"strings"

	"scantling/internal/measure"
	"scantling/internal/spell"
)

// A PhraseError says what is wrong in the bytes [Start, End) of a phrase. Fix,
// when not empty, is what those bytes should read. Other says that the phrase
// is like the name of no fastener: it may well name something else.
type PhraseError struct {
	Start, End int
	What, Mend string
	Fix        string
	Other      bool
}

func (e *PhraseError) Error() string { return e.What + "; " + e.Mend }

// A calling is a name families are asked for by.
type calling struct {
	words    string
	families []Family
}

// spoken are the names families are asked for by. "screw" alone is a deck
// screw where those are sold in the gauge and length asked, else a wood screw;
// "bolt" alone a carriage bolt, else a hex bolt.
var spoken = []calling{
	{"screw", []Family{DeckScrew, WoodScrew}},
	{"deck screw", []Family{DeckScrew}},
	{"wood screw", []Family{WoodScrew}},
	{"nail", []Family{CommonNail}},
	{"common nail", []Family{CommonNail}},
	{"box nail", []Family{BoxNail}},
	{"finish nail", []Family{FinishNail}},
	{"carriage bolt", []Family{CarriageBolt}},
	{"hex bolt", []Family{HexBolt}},
	{"bolt", []Family{CarriageBolt, HexBolt}},
	{"structural screw", []Family{Structural}},
	{"lag screw", []Family{LagScrew}},
	{"lag", []Family{LagScrew}},
	{"dowel", []Family{Dowel}},
	{"threaded insert", []Family{Insert}},
	{"flat bracket", []Family{FlatBracket}},
	{"corner bracket", []Family{Corner}},
	{"outdoor glue", []Family{Glue}},
}

// Parse reads the name of a fastener: "screw 8 x 2 1/2", "screw no. 10 x 3",
// "carriage bolt 5/16", "carriage bolt 5/16 x 4", "nail 8d", "lag screw 3/8 x
// 3", "dowel 3/8 x 2", "outdoor glue". Lengths and diameters are inches, a mark
// after them is free. Bolts and screws may leave their length to be found. A
// finish may come first: "stainless screw 8 x 2", "galvanized carriage bolt 5/16".
//
// What is sold by the millimetre is asked for so: "screw 4.5 x 60 mm", "coach
// bolt M8", "screw 10g x 75 mm", under the names of any region.
// The error is a *PhraseError.
func Parse(phrase string) (Fastener, error) {
	toks, err := tokens(phrase)
	if err != nil {
		return Fastener{}, err
	}
	p := &phraseParser{text: phrase, toks: toks}
	f, e := p.fastener()
	if e != nil {
		return Fastener{}, e
	}
	return f, nil
}

type phraseParser struct {
	text string
	toks []token // ends with a token of kind end
	at   int
}

func (p *phraseParser) next() token { return p.toks[p.at] }

// take returns the next token and moves on, if it is of kind k.
func (p *phraseParser) take(k kind) (token, bool) {
	t := p.toks[p.at]
	if t.kind != k {
		return t, false
	}
	p.at++
	return t, true
}

func (p *phraseParser) fastener() (Fastener, *PhraseError) {
	finish := p.finish()
	f, e := p.unfinished()
	f.Finish = finish
	return f, e
}

// finish reads the words of a finish, if the phrase begins with one.
func (p *phraseParser) finish() Finish {
	for _, s := range finishes {
		if s.words == "" {
			continue
		}
		at := p.at
		for _, w := range strings.Fields(s.words) {
			if t := p.next(); t.kind != word || t.text != w {
				p.at = at
				break
			}
			p.at++
			p.take(dash)
		}
		if p.at > at {
			return s.finish
		}
	}
	return Unsaid
}

func (p *phraseParser) unfinished() (Fastener, *PhraseError) {
	families, where := p.family()
	if families == nil {
		return Fastener{}, unknownFamily(p.text, where)
	}
	if families[0] == Glue {
		f := Fastener{Row: rowsOf(families)[0]}
		return f, p.done()
	}
	if f, e, ok := p.metric(families, where); ok {
		return f, e
	}
	size, spot, e := p.size(families[0])
	if e != nil {
		return Fastener{}, e
	}
	rows := rowsOf(families)
	var sizes []string
	rows = slices.DeleteFunc(rows, func(r Row) bool {
		if !slices.Contains(sizes, r.Size) {
			sizes = append(sizes, r.Size)
		}
		return r.Size != size
	})
	said := p.text[where.start:where.end]
	if len(rows) == 0 {
		return Fastener{}, &PhraseError{Start: spot.start, End: spot.end,
			What: fmt.Sprintf("no %s is sold in size %s", said, size), Mend: "sold are " + strings.Join(sizes, ", ")}
	}
	return p.length(rows, said)
}

// family reads the leading words and returns the families they name, nil when
// they name none, and where they stand.
func (p *phraseParser) family() ([]Family, token) {
	where := p.next()
	var words []string
	for p.next().kind == word && p.next().text != "no" {
		t, _ := p.take(word)
		words = append(words, t.text)
		where.end = t.end
	}
	said := strings.Join(words, " ")
	for _, s := range append(spoken[:len(spoken):len(spoken)], spokenAbroad...) {
		if said == s.words || said == s.words+"s" {
			return s.families, where
		}
	}
	return nil, where
}

// size reads a gauge, a diameter or a pennyweight.
func (p *phraseParser) size(f Family) (string, token, *PhraseError) {
	if t, ok := p.take(word); ok { // "no", as in "no. 8"
		if _, dotted := p.take(dot); !dotted && p.next().kind != number {
			return "", t, &PhraseError{Start: t.start, End: t.end, What: "the number is missing after no.", Mend: "write it: no. 8"}
		}
	}
	p.take(hash)
	t, ok := p.take(number)
	if !ok {
		return "", t, &PhraseError{Start: t.start, End: t.end, What: fmt.Sprintf("the size of the %s is missing", f), Mend: fmt.Sprintf("write it: %s %s", f, example(f))}
	}
	size := t.text
	if d, ok := p.take(word); ok {
		if d.text != "d" || d.start != t.end {
			return "", d, &PhraseError{Start: d.start, End: d.end, What: fmt.Sprintf("%q does not belong in a size", d.text), Mend: "write " + example(f)}
		}
		size, t.end = size+"d", d.end
	}
	if more := p.next(); more.kind == number && (f == FlatBracket || f == Corner) {
		size, t.end = size+" "+more.text, more.end
		p.at++
	}
	p.take(mark)
	return size, t, nil
}

// length reads "x" and a length, and returns the first row sold so long.
func (p *phraseParser) length(rows []Row, said string) (Fastener, *PhraseError) {
	f := Fastener{Row: rows[0]}
	if f.sized() {
		f.Length = f.Lengths[0]
	}
	t, ok := p.take(times)
	if !ok {
		if e := p.done(); e != nil || f.Length != 0 || f.Bolted() || f.Screwed() {
			return f, e
		}
		return f, &PhraseError{Start: 0, End: len(p.text),
			What: fmt.Sprintf("how long is this %s?", said), Mend: fmt.Sprintf("write the length: %s x %s", f.Name(), inches(f.Lengths[len(f.Lengths)/2]))}
	}
	start := p.next().start
	l, e := p.inches(t)
	if e != nil {
		return f, e
	}
	end := p.toks[p.at-1].end
	if e := p.done(); e != nil {
		return f, e
	}
	var lengths []measure.Length
	for _, r := range rows {
		if slices.Contains(r.Lengths, l) {
			return Fastener{Row: r, Length: l}, nil
		}
		lengths = append(lengths, r.Lengths...)
	}
	slices.Sort(lengths)
	lengths = slices.Compact(lengths)
	near := lengths[0]
	for _, have := range lengths {
		if max(have-l, l-have) < max(near-l, l-near) {
			near = have
		}
	}
	return f, &PhraseError{Start: start, End: end,
		What: fmt.Sprintf("%s %s is not sold %s in long", said, f.Size, strings.TrimSpace(p.text[start:end])),
		Mend: fmt.Sprintf("nearest is %s; sold are %s in", inches(near), listed(lengths)), Fix: inches(near)}
}

// inches reads a mixed number and the mark after it.
func (p *phraseParser) inches(after token) (measure.Length, *PhraseError) {
	t, ok := p.take(number)
	if !ok {
		return 0, &PhraseError{Start: after.start, End: after.end, What: "the length is missing after x", Mend: "write it in inches: x 2 1/2"}
	}
	text := t.text
	p.take(dash)
	if fraction, ok := p.take(number); ok {
		text, t.end = text+" "+fraction.text, fraction.end
	}
	p.take(mark)
	l, rest, ok := scanInches(text)
	if !ok || rest != "" || l <= 0 {
		return 0, &PhraseError{Start: t.start, End: t.end, What: fmt.Sprintf("%q is no length", p.text[t.start:t.end]), Mend: "write inches and a fraction down to 1/64: 2 1/2"}
	}
	return l, nil
}

// done reports what is left over.
func (p *phraseParser) done() *PhraseError {
	t := p.next()
	if t.kind == end {
		return nil
	}
	last := p.toks[len(p.toks)-2].end
	return &PhraseError{Start: t.start, End: last, What: fmt.Sprintf("%q is more than a fastener's name", p.text[t.start:last]), Mend: "leave it out"}
}

func unknownFamily(text string, where token) *PhraseError {
	e := &PhraseError{Start: where.start, End: where.end, What: "this names no fastener"}
	said := strings.ToLower(text[where.start:where.end])
	var known []string
	for _, s := range spoken {
		known = append(known, s.words)
	}
	if near := spell.Nearest(said, known); near != nil {
		e.Fix = near[0]
	}
	if said != "" {
		e.What = fmt.Sprintf("%q names no fastener", said)
	}
	if strings.HasSuffix(said, "bolt") {
		e.Fix = string(CarriageBolt)
	}
	if e.Fix != "" {
		e.Mend = "did you mean " + e.Fix + "?"
	} else {
		e.Other = said != ""
		e.Mend = "known are " + strings.Join(known, ", ")
	}
	return e
}

// rowsOf returns the rows of the families, in the order the families come.
func rowsOf(families []Family) []Row {
	var out []Row
	for _, f := range families {
		for _, r := range Rows() {
			if r.Family == f {
				out = append(out, r)
			}
		}
	}
	return out
}

// example returns a size and length of f for a message.
func example(f Family) string {
	switch f {
	case DeckScrew, WoodScrew:
		return "8 x 2"
	case CommonNail, BoxNail, FinishNail:
		return "8d"
	case CarriageBolt, HexBolt:
		return "5/16"
	case Structural:
		return "1/4 x 4"
	case Insert:
		return "1/4"
	case FlatBracket, Corner:
		return "3"
	case LagScrew:
		return "3/8 x 3"
	}
	return "3/8 x 2"
}

func listed(ls []measure.Length) string {
	var out []string
	for _, l := range ls {
		out = append(out, inches(l))
	}
	return strings.Join(out, ", ")
}
