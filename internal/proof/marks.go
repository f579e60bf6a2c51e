package proof

import (
	"fmt"
	"math"
	"strings"

	"scantling/internal/geom"
)

// A rule is one mark of a step, read: a face or corner of the board that is placed,
// what it goes by on a board that is there, and how far.
type rule struct {
	mine, theirs spot
	board        string    // whose theirs is
	against      bool      // the two faces look at one another
	off          float64   // mm mine stands out past theirs
	row          []float64 // of a row: what to add to off, for each board
	beyond       string    // theirs is a corner, and mine lies above it, right of it …
	tips         bool      // both are corners, off apart
}

// A spot is a face or a corner, as words.
type spot struct{ words string }

// beyonds are the words for where a face lies from a corner, and the way they look.
var beyonds = map[string]string{"above": "top", "below": "bottom", "right of": "right", "left of": "left",
	"behind": "back", "in front of": "front"}

// readMark reads the sentence of one mark; nil and no error for a sentence that
// fixes nothing. names gives the boards by what they are called.
func readMark(p Prose, names map[string]string) (*rule, error) {
	said := p.String()
	if said == "comes first; the rest is placed from it" || strings.HasPrefix(said, "go by its ") {
		return nil, nil
	}
	var words strings.Builder // with # for each figure
	var figures []Figure
	for _, s := range p {
		words.WriteString(s.Words)
		if s.Number != nil {
			words.WriteString("#")
			figures = append(figures, *s.Number)
		}
	}
	var mm []float64
	for _, f := range figures {
		v, err := f.mm()
		if err != nil {
			return nil, err
		}
		mm = append(mm, v)
	}
	text := words.String()
	r := &rule{}
	var theirs string
	switch {
	case strings.Contains(text, ", running: #"):
		text, _, _ = strings.Cut(text, ", running: ")
		r.mine.words, theirs, _ = strings.Cut(text, " from the ")
		for _, v := range mm {
			r.row = append(r.row, -v)
		}
	case len(mm) == 0 && strings.Contains(text, " against the "):
		r.against = true
		r.mine.words, theirs, _ = strings.Cut(text, " against the ")
	case len(mm) == 0 && strings.Contains(text, " flush with the "):
		r.mine.words, theirs, _ = strings.Cut(text, " flush with the ")
	case len(mm) == 1:
		mine, rest, _ := strings.Cut(text, " # ")
		r.mine.words = mine
		relation, what, ok := strings.Cut(rest, " the ")
		if !ok {
			return nil, fmt.Errorf("%q cannot be read", said)
		}
		theirs = what
		switch relation {
		case "out past":
			r.off = mm[0]
		case "in from":
			r.off = -mm[0]
		case "from":
			r.off, r.tips = mm[0], true
		default:
			if r.beyond, ok = beyonds[relation]; !ok {
				return nil, fmt.Errorf("%q does not say on which side", said)
			}
			r.off = mm[0]
		}
	default:
		return nil, fmt.Errorf("%q cannot be read", said)
	}
	// "bottom of the notch of the left back post"
	for from := 0; ; {
		i := strings.Index(theirs[from:], " of the ")
		if i < 0 {
			return nil, fmt.Errorf("%q speaks of no board there is", said)
		}
		if id, ok := names[theirs[from+i+len(" of the "):]]; ok {
			if id == "" {
				return nil, fmt.Errorf("%q may mean more than one board", said)
			}
			r.theirs.words, r.board = theirs[:from+i], id
			return r, nil
		}
		from += i + 1
	}
}

// A face is a plane of a board by which it is placed, in its sheet's frame.
type face struct {
	plane  geom.Plane
	middle geom.Vec
	rim    []geom.Vec // corners
	area   float64
	turns  bool // it is long and true enough to turn a board by
}

// sideCalled returns the side of the sheet that is called so in place.
func (b *standing) sideCalled(words string) (int, error) {
	out, kind, ok := side(words)
	if !ok {
		return 0, fmt.Errorf("the %s has no %q", b.board.Called, words)
	}
	for k := range b.sheet.sides {
		if b.rough.OutWay(outOf(k)).Distance(out) < 0.5 {
			is := [...]string{"end", "edge", "face"}[k/2]
			if is != kind && !(b.sheet.size.Y == b.sheet.size.Z && k >= nearEdge && kind != "end") {
				break
			}
			return k, nil
		}
	}
	return 0, fmt.Errorf("the %s has no %q", b.board.Called, words)
}

// faceCalled returns the face of a board in place that is called so.
func (b *standing) faceCalled(words string) (face, error) {
	s := b.sheet
	if what, kind, ok := strings.Cut(words, " of the "); ok {
		return b.wallCalled(what, kind)
	}
	if end, edge, ok := strings.Cut(words, " toward the "); ok {
		return b.halfCalled(end, edge)
	}
	if side, ok := strings.CutPrefix(words, "tapered "); ok {
		k, err := b.sideCalled(side)
		if err != nil {
			return face{}, err
		}
		for _, t := range s.taper {
			if t.side == k {
				return b.face(t.plane, true)
			}
		}
		return face{}, fmt.Errorf("the %s of the %s is not tapered", side, b.board.Called)
	}
	k, err := b.sideCalled(words)
	if err != nil {
		return face{}, err
	}
	return b.face(s.sides[k], k > otherEnd || !s.angle[k])
}

// wallCalled returns a wall of a notch: its bottom lies along the grain, its
// shoulders across it.
func (b *standing) wallCalled(what, kind string) (face, error) {
	kind, near, _ := strings.Cut(kind, " nearest the ")
	what, toward, _ := strings.Cut(what, " toward the ")
	var found []wall
	least := 0.0
	for _, w := range b.sheet.walls {
		across := w.plane.N.X*w.plane.N.X > 0.5
		if w.kind != kind || across != (what == "shoulder") || what != "shoulder" && what != "bottom" {
			continue
		}
		if toward != "" { // the wood's outside looks there
			k, err := b.sideCalled(toward)
			if err != nil {
				return face{}, err
			}
			if w.plane.N.Dot(outOf(k)) < 0.5 {
				continue
			}
		}
		if near != "" {
			k, err := b.sideCalled(near)
			if err != nil || k > otherEnd {
				return face{}, fmt.Errorf("the %s has no %q", b.board.Called, near)
			}
			middle := b.middleOf(w.cut)
			far := -middle.Dot(outOf(k))
			if len(found) > 0 && far > least-geom.Same {
				continue
			}
			found, least = found[:0], far
		}
		found = append(found, w)
	}
	if len(found) != 1 {
		return face{}, fmt.Errorf("the %s has %d of what is called %s of the %s", b.board.Called, len(found), what, kind)
	}
	return b.face(found[0].plane, what == "bottom")
}

// middleOf returns the middle of what stands about a cut.
func (b *standing) middleOf(cut int) geom.Vec {
	sum, n := geom.Vec{}, 0.0
	for _, w := range b.sheet.walls {
		if w.cut == cut && w.plane.N.X*w.plane.N.X > 0.5 {
			sum, n = sum.Plus(w.at), n+1
		}
	}
	if n == 0 {
		return sum
	}
	return sum.Times(1 / n)
}

// face gathers what of a plane is on the outside of the board.
func (b *standing) face(p geom.Plane, turns bool) (face, error) {
	f := face{plane: p, turns: turns}
	sum := geom.Vec{}
	for i := range b.sheet.solid.Faces {
		g := &b.sheet.solid.Faces[i]
		if g.Plane.N.Distance(p.N) > 1e-6 || abs(g.Plane.D-p.D) > geom.Touch {
			continue
		}
		f.area += g.Area()
		for _, loop := range g.Loops {
			for _, v := range loop {
				f.rim = append(f.rim, v)
				sum = sum.Plus(v)
			}
		}
	}
	if len(f.rim) == 0 {
		return f, fmt.Errorf("nothing is left of a face of the %s", b.board.Called)
	}
	f.middle = sum.Times(1 / float64(len(f.rim)))
	return f, nil
}

// cornersCalled returns the corners of a board called so: of an end, at an edge.
func (b *standing) cornersCalled(words string) ([]geom.Vec, error) {
	name, ok := strings.CutSuffix(words, " corner")
	end, edge, _ := strings.Cut(name, " ")
	k, err := b.sideCalled(end + " end")
	way, fine := toward(edge)
	if !ok || err != nil || !fine {
		return nil, fmt.Errorf("the %s has no %q", b.board.Called, words)
	}
	at := b.sheet.sides[k]
	for _, h := range b.sheet.point {
		if h.end == k && b.rough.OutWay(outOf(h.edge)).Dot(way) > 0.5 {
			at = h.plane
		}
	}
	f, err := b.face(at, true)
	if err != nil {
		return nil, err
	}
	var out []geom.Vec
	in := b.rough.InWay(way)
	most := math.Inf(-1)
	for _, v := range f.rim {
		most = math.Max(most, v.Dot(in))
	}
	for _, v := range f.rim {
		if v.Dot(in) > most-geom.Touch {
			out = append(out, v)
		}
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("the %s has no %q", b.board.Called, words)
	}
	return out, nil
}

func abs(x float64) float64 { return max(x, -x) }
