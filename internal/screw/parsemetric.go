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
	f, e, ok := p.readMetric(families, where)
	if !ok {
		p.at = start
	}
	return f, e, ok
}

func (p *phraseParser) readMetric(families []Family, where token) (f Fastener, e *PhraseError, ok bool) {
	t, isNumber := p.take(number)
	if !isNumber || strings.Contains(t.text, "/") {
		return f, nil, false
	}
	size := t.text
	if g, ok := p.take(word); ok {
		if g.text != "g" || g.start != t.end {
			return f, nil, false
		}
		size, t.end = size+"g", g.end
	}
	plain := strings.Trim(size, "0123456789") == "" // no gauge of inches either, if mm follows
	said := p.text[where.start:where.end]
	x, long := p.take(times)
	var length token
	if long {
		length, _ = p.take(number)
		for k := p.next().kind; k == number || k == dash || k == mark; k = p.next().kind { // inches, by mistake
			length.text, length.end = "", p.next().end
			p.at++
		}
		if unit, ok := p.take(word); ok {
			if unit.text != "mm" {
				return f, nil, false
			}
			length.end = unit.end
		} else if plain {
			return f, nil, false
		}
	} else if plain {
		return f, nil, false
	}
	var all, rows []Row
	for _, r := range MetricRows() {
		if slices.Contains(families, r.Family) {
			if all = append(all, r); r.Size == size || r.Size == "M"+size || alike(r.Size, size) {
				rows = append(rows, r)
			}
		}
	}
	slices.SortStableFunc(rows, func(a, b Row) int { return slices.Index(families, a.Family) - slices.Index(families, b.Family) })
	millimetre, err := strconv.Atoi(length.text)
	switch {
	case plain && (len(rows) == 0 || millimetre < 10):
		return f, nil, false // inches, with a slip at the end
	case len(all) == 0:
		return f, &PhraseError{Start: where.start, End: where.end, What: "no " + said + " is sold by the millimetre here", Mend: fmt.Sprintf("write it in inches: %s %s", said, example(families[0]))}, true
	case len(rows) == 0:
		return f, &PhraseError{Start: t.start, End: t.end, What: fmt.Sprintf("no %s is sold in size %s", said, size), Mend: "sold are " + sizes(all)}, true
	}
	f.Row = rows[0]
	if !long {
		if e := p.done(); e != nil || f.Bolted() || f.Screwed() {
			return f, e, true
		}
		return f, &PhraseError{Start: 0, End: len(p.text), What: fmt.Sprintf("how long is this %s?", said),
			Mend: fmt.Sprintf("write the length: %s x %s", f.Name(), f.sale(f.Lengths[len(f.Lengths)/2]))}, true
	}
	if err != nil || millimetre == 0 {
		at := length
		if length.kind != number {
			at = x
		}
		return f, &PhraseError{Start: at.start, End: at.end, What: "a length in whole millimetres should stand after x", Mend: "write it in millimetres: x " + f.sale(f.Lengths[0])}, true
	}
	if e := p.done(); e != nil {
		return f, e, true
	}
	asked := measure.Length(millimetre) * mm
	var lengths []measure.Length
	for _, r := range rows {
		if slices.Contains(r.Lengths, asked) {
			return Fastener{Row: r, Length: asked}, nil, true
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
	return f, &PhraseError{Start: length.start, End: length.end, What: fmt.Sprintf("%s %s is not sold %d mm long", said, f.Size, millimetre),
		Mend: fmt.Sprintf("nearest is %s; sold are %s mm", f.sale(near), strings.Join(sold, ", ")), Fix: f.sale(near)}, true
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
