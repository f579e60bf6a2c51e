package screw

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"scantling/internal/measure"
)

// spokenAbroad are names of other regions for what America calls otherwise. A
// coach bolt takes a nut; a coach screw does not.
var spokenAbroad = []calling{
	{"coach bolt", []Family{CarriageBolt}},
	{"cup head bolt", []Family{CarriageBolt}},
	{"cup square bolt", []Family{CarriageBolt}},
	{"coach screw", []Family{LagScrew}},
	{"decking screw", []Family{DeckScrew}},
	{"round wire nail", []Family{CommonNail}},
	{"flat head nail", []Family{CommonNail}},
	{"lost head nail", []Family{FinishNail}},
	{"bullet head nail", []Family{FinishNail}},
}

// metric reads the size and length of a fastener sold by the millimetre. It
// returns false, having read nothing, if the phrase names none: by a size with a
// point, an M or a g, or by mm after the length.
func (p *phraseParser) metric(families []Family, where token) (Fastener, *PhraseError, bool) {
	start := p.at
	a, ok := p.metricAsk()
	said := p.text[where.start:where.end]
	var all, rows []Row
	for _, f := range families {
		for _, r := range MetricRows() {
			if r.Family != f {
				continue
			}
			if all = append(all, r); r.Size == a.size.text || r.Size == "M"+a.size.text || alike(r.Size, a.size.text) {
				rows = append(rows, r)
			}
		}
	}
	switch {
	case !ok || a.plain && (len(rows) == 0 || a.millimetres() < 10): // inches, perhaps with a slip at the end
		p.at = start
		return Fastener{}, nil, false
	case len(all) == 0:
		return Fastener{}, &PhraseError{Start: where.start, End: where.end, What: "no " + said + " is sold by the millimetre here",
			Mend: fmt.Sprintf("write it in inches: %s %s", said, example(families[0]))}, true
	case len(rows) == 0:
		return Fastener{}, &PhraseError{Start: a.size.start, End: a.size.end, What: fmt.Sprintf("no %s is sold in size %s", said, a.size.text),
			Mend: "sold are " + sizes(all)}, true
	}
	f, e := p.metricLength(rows, a, said)
	return f, e, true
}

// A metricAsk is what a phrase asks for, as far as it may be metric.
type metricAsk struct {
	size, length token
	x            token // before the length
	long         bool  // a length is given
	plain        bool  // the size alone might be a gauge of inches
}

// millimetres returns the length asked for, 0 if it is no whole number of them.
func (a metricAsk) millimetres() int {
	n, err := strconv.Atoi(a.length.text)
	if err != nil {
		return 0
	}
	return n
}

// metricAsk reads a size and a length; false if they cannot be metric.
func (p *phraseParser) metricAsk() (a metricAsk, ok bool) {
	if a.size, ok = p.take(number); !ok || strings.Contains(a.size.text, "/") {
		return a, false
	}
	if g, ok := p.take(word); ok {
		switch {
		case g.text == "g" && g.start == a.size.end:
			a.size.text += "g"
		case g.text == "mm":
			a.size.text += " mm"
		default:
			return a, false
		}
		a.size.end = g.end
	}
	a.plain = strings.Trim(a.size.text, "0123456789") == ""
	if a.x, a.long = p.take(times); !a.long {
		return a, !a.plain
	}
	a.length, _ = p.take(number)
	for k := p.next().kind; k == number || k == dash || k == mark; k = p.next().kind { // inches, by mistake
		a.length.text, a.length.end = "", p.next().end
		p.at++
	}
	unit, ok := p.take(word)
	if !ok { // nothing is sold this many inches long
		return a, !a.plain || a.millimetres() >= 15
	}
	a.length.end = unit.end
	return a, unit.text == "mm"
}

// metricLength returns the first row sold as long as is asked for.
func (p *phraseParser) metricLength(rows []Row, a metricAsk, said string) (Fastener, *PhraseError) {
	f := Fastener{Row: rows[0]}
	n := a.millimetres()
	switch {
	case a.long && n == 0:
		at := a.length
		if at.kind != number {
			at = a.x
		}
		return f, &PhraseError{Start: at.start, End: at.end, What: "a length in whole millimetres should stand after x", Mend: "write it in millimetres: x " + f.sale(f.Lengths[0])}
	case !a.long:
		if f.Fitting() {
			f.Length = f.Lengths[0]
		}
		if e := p.done(); e != nil || f.Bolted() || f.Screwed() || f.Fitting() {
			return f, e
		}
		return f, &PhraseError{Start: 0, End: len(p.text), What: fmt.Sprintf("how long is this %s?", said),
			Mend: fmt.Sprintf("write the length: %s x %s", f.Name(), f.sale(f.Lengths[len(f.Lengths)/2]))}
	}
	if e := p.done(); e != nil {
		return f, e
	}
	if f.Fitting() && measure.Length(n)*mm == f.Lengths[0] {
		f.Length = f.Lengths[0]
		return f, nil
	}
	asked := measure.Length(n) * mm
	var lengths []measure.Length
	for _, r := range rows {
		if slices.Contains(r.Lengths, asked) {
			return Fastener{Row: r, Length: asked}, nil
		}
		lengths = append(lengths, r.Lengths...)
	}
	slices.Sort(lengths)
	lengths = slices.Compact(lengths)
	near := slices.MinFunc(lengths, func(a, b measure.Length) int { return int(max(a-asked, asked-a) - max(b-asked, asked-b)) })
	var sold []string
	for _, l := range lengths {
		sold = append(sold, millimetres(l))
	}
	return f, &PhraseError{Start: a.length.start, End: a.length.end, What: fmt.Sprintf("%s %s is not sold %d mm long", said, f.Size, n),
		Mend: fmt.Sprintf("nearest is %s; sold are %s mm", f.sale(near), strings.Join(sold, ", ")), Fix: f.sale(near)}
}

// alike reports whether two metric sizes are one number: 4.0, 4 and 4.00; a
// gauge may leave out its g.
func alike(size, asked string) bool {
	if strings.HasSuffix(size, "g") {
		return asked+"g" == size
	}
	trim := func(s string) string {
		if strings.Contains(s, ".") {
			s = strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
		}
		return s
	}
	return trim(size) == trim(asked)
}

// sizes lists the sizes of rows, each once.
func sizes(rows []Row) string {
	var out []string
	for _, r := range rows {
		if !slices.Contains(out, r.Size) {
			out = append(out, r.Size)
		}
	}
	return strings.Join(out, ", ")
}
