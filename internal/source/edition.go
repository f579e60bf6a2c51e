package source

import (
	"strings"

	"scantling/internal/measure"
	"scantling/internal/region"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// Edition returns the tree as it stands in one region. A value may be said once
// for each, parted by upright strokes:
//
//	size: 2x4 | 45x95 | 90x45        three: as region.All lists them
//	gap: 3/16" | 5 mm                two: where lumber is sold in inches, and in millimetres
//	left: 1/4" | 6 mm in from leg    within a measure, numbers with their units
//	say: Leave {1/8" | 3 mm}.        within the braces of a text
//
// The other alternatives are left out, and every value keeps its place in the
// file. t itself is not changed, and is returned where nothing is said twice.
func (t *Tree) Edition(r region.Region) (*Tree, snag.List) {
	e := edition{region: r, scalars: map[*Node]*Node{}}
	for _, n := range t.Scalars {
		if strings.IndexByte(n.Text, '|') >= 0 && n.Style != Literal {
			e.scalar(n)
		}
	}
	if len(e.scalars) == 0 {
		return t, e.told
	}
	out := *t
	out.Root = e.tree(t.Root)
	out.Scalars = make([]*Node, len(t.Scalars))
	for i, n := range t.Scalars {
		out.Scalars[i] = e.tree(n)
	}
	return &out, e.told
}

// Written returns the file as it would be written for one region: without what the
// others say.
func (t *Tree) Written(r region.Region) []byte {
	e := edition{region: r, scalars: map[*Node]*Node{}}
	for _, n := range t.Scalars {
		e.scalar(n)
	}
	out, ok := span.Apply(t.Src, e.cuts)
	if !ok {
		panic("source: alternatives overlap in " + t.File)
	}
	return out
}

type edition struct {
	region  region.Region
	cuts    []span.Edit     // what the edition leaves out
	scalars map[*Node]*Node // those that differ
	told    snag.List
}

// tree returns a copy of n with the scalars of the edition.
func (e *edition) tree(n *Node) *Node {
	if s, ok := e.scalars[n]; ok {
		return s
	}
	if n == nil || n.Kind != Map && n.Kind != List {
		return n
	}
	out := *n
	out.Items = make([]*Node, len(n.Items))
	for i, item := range n.Items {
		out.Items[i] = e.tree(item)
	}
	return &out
}

// scalar keeps what n says in the edition.
func (e *edition) scalar(n *Node) {
	text := []byte(n.Text)
	start, end := e.choose(n, text, 0, len(text))
	first, last := start > 0, end < len(text)
	for start < end && text[start] == ' ' {
		start++
	}
	for end > start && text[end-1] == ' ' {
		end--
	}
	if first {
		e.cut(n, 0, start)
	}
	if last {
		e.cut(n, end, len(text))
	}
	e.scalars[n] = n.part(string(text), start, end)
}

// choose blanks out, in text[from:to], what the edition does not say, and returns
// where its own alternative stands when the whole stretch has several.
func (e *edition) choose(n *Node, text []byte, from, to int) (int, int) {
	parts := []int{from} // where whole alternatives begin
	for i := from; i < to; {
		switch c := text[i]; {
		case c == '{':
			close := to
			if j := strings.IndexByte(string(text[i:to]), '}'); j >= 0 {
				close = i + j
			}
			a, b := e.choose(n, text, i+1, close)
			e.blank(n, text, i+1, a)
			e.blank(n, text, b, close)
			i = close + 1
		case c == '|':
			parts = append(parts, i+1)
			i++
		case wordByte(c):
			if stop := measured(text, i, to); stop > 0 {
				i = e.chain(n, text, i, stop, to)
				continue
			}
			for i < to && (wordByte(text[i]) || text[i] == '.') {
				i++
			}
		default:
			i++
		}
	}
	k, ok := e.pick(n, len(parts), from, to)
	if !ok || len(parts) == 1 {
		return from, to
	}
	start, end := parts[k], to
	if k+1 < len(parts) {
		end = parts[k+1] - 1
	}
	if strings.TrimSpace(string(text[start:end])) == "" {
		e.told = append(e.told, snag.Snag{Code: "alternatives", At: n.Sub(from, to), What: "nothing is said here for " + e.region.String(),
			Mends: []snag.Mend{snag.Say("write a value on both sides of each |")}})
	}
	return start, end
}

// chain reads numbers with units parted by strokes, of which text[i:stop] is the
// first, and keeps the edition's. It returns where reading goes on.
func (e *edition) chain(n *Node, text []byte, i, stop, to int) int {
	at := [][2]int{{i, stop}}
	for {
		j := skip(text, stop, to)
		if j == to || text[j] != '|' {
			break
		}
		if j = skip(text, j+1, to); j == to {
			break
		}
		next := measured(text, j, to)
		if next == 0 {
			break
		}
		at, stop = append(at, [2]int{j, next}), next
	}
	k, ok := e.pick(n, len(at), i, stop)
	if ok && len(at) > 1 {
		e.blank(n, text, i, at[k][0])
		e.blank(n, text, at[k][1], stop)
	}
	return stop
}

// pick returns which of so many alternatives is the edition's.
func (e *edition) pick(n *Node, of, from, to int) (int, bool) {
	switch {
	case of == 1:
		return 0, true
	case of == 2 && e.region.Metric():
		return 1, true
	case of == 2:
		return 0, true
	case of == len(region.All()):
		return int(e.region), true
	}
	e.told = append(e.told, snag.Snag{Code: "alternatives", At: n.Sub(from, to), What: "a value is said for two editions or for three, and here are more",
		Why:   "two are inch and metric; three are North America, UK and Europe, Australia and New Zealand",
		Mends: []snag.Mend{snag.Say("keep two or three, parted by |")}})
	return 0, false
}

// measured returns the end of the number with a unit that begins at text[i], or 0.
func measured(text []byte, i, to int) int {
	s := string(text[i:to])
	q, n, err := measure.ScanNumber(s)
	if err != nil || n == 0 || q.D == measure.DimNone || i+n < to && wordByte(text[i+n]) {
		return 0
	}
	return i + len(strings.TrimRight(s[:n], " "))
}

func skip(text []byte, i, to int) int {
	for i < to && text[i] == ' ' {
		i++
	}
	return i
}

// blank leaves out text[from:to] of n.
func (e *edition) blank(n *Node, text []byte, from, to int) {
	for i := from; i < to; i++ {
		text[i] = ' '
	}
	e.cut(n, from, to)
}

func (e *edition) cut(n *Node, from, to int) {
	if from < to {
		e.cuts = append(e.cuts, span.Edit{At: n.Sub(from, to)})
	}
}

func wordByte(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_' || c >= 0x80
}

// part returns n as it is with text for its own and only [start, end) of that.
func (n *Node) part(text string, start, end int) *Node {
	out := *n
	out.Range = span.Range{File: n.File, Start: n.Offset(start), End: n.Offset(max(start, end-1)) + 1}
	if start == 0 && end == len(text) {
		out.Range = n.Range
	}
	out.Text, out.pieces = text[start:end], nil
	for _, p := range n.pieces {
		out.pieces = append(out.pieces, piece{max(0, p.text-start), p.src + max(0, start-p.text)})
	}
	return &out
}

// Inches returns where the tree says lengths in feet or inches, in file order.
func (t *Tree) Inches() []span.Range {
	var out []span.Range
	for _, n := range t.Scalars {
		text := []byte(n.Text)
		for i := 0; i < len(text); {
			if !wordByte(text[i]) {
				i++
				continue
			}
			stop := measured(text, i, len(text))
			for _, unit := range []string{`"`, "'", "inch", "inches", "ft", "foot", "feet"} {
				if stop > 0 && strings.HasSuffix(string(text[i:stop]), unit) {
					out = append(out, n.Sub(i, stop))
					break
				}
			}
			for i = max(i, stop); i < len(text) && wordByte(text[i]); {
				i++
			}
		}
	}
	return out
}
