// Package picture draws what a plan shows: the piece from its four sides with
// its dimensions, a sheet for every shaped part, and each step of building it.
//
// It decides what is drawn and which figures stand beside it; how lines are
// found and dimensions laid out is drawing's work, and every number printed is
// rounded by shop. Start from Draw.
package picture

import (
	"math"
	"sort"

	"scantling/internal/board"
	"scantling/internal/drawing"
	"scantling/internal/geom"
	"scantling/internal/shop"
	"scantling/internal/span"
)

// Pictures are the drawings of a plan.
type Pictures struct {
	Piece *drawing.Figure            // the piece from the corner
	Views []*drawing.Figure          // front, right side and top, with dimensions
	Parts map[string]*drawing.Figure // of each shaped part, by its letter
	Steps []*drawing.Figure          // Steps[i] shows Readings.Steps[i]; nil where nothing is added
}

// Draw makes the pictures of a plan.
func Draw(r *shop.Readings) Pictures {
	if len(r.Boards) == 0 {
		return Pictures{} // nothing stands yet that could be looked at
	}
	s := newScene(r)
	out := Pictures{
		Piece: s.cover(),
		Views: []*drawing.Figure{s.front(), s.side(), s.top()},
		Parts: map[string]*drawing.Figure{},
	}
	for _, p := range r.Parts {
		if p.Shaped {
			out.Parts[p.Letter] = s.part(p)
		}
	}
	for i := range r.Steps {
		out.Steps = append(out.Steps, s.step(&r.Steps[i]))
	}
	return out
}

// Sheets draws only the shaped parts: what a page shows while the sizes change.
func Sheets(r *shop.Readings) Pictures {
	s := newScene(r)
	out := Pictures{Parts: map[string]*drawing.Figure{}}
	for _, p := range r.Parts {
		if p.Shaped {
			out.Parts[p.Letter] = s.part(p)
		}
	}
	return out
}

// A scene is the boards of a plan, ready to be looked at.
type scene struct {
	r      *shop.Readings
	pen    shop.Pen
	placed []geom.Placed // boards
	all    []geom.Placed // and then hardware
	index  map[board.ID]int
	low    geom.Vec // of the hull of everything
	high   geom.Vec
}

func newScene(r *shop.Readings) *scene {
	s := &scene{r: r, pen: r.Pen, index: map[board.ID]int{}}
	box := geom.EmptyBox()
	for i, b := range r.Boards {
		s.index[b.ID] = i
		p := b.Board.Placed()
		s.placed = append(s.placed, p)
		box = box.Union(p.Around())
	}
	s.low, s.high = box.Low, box.High
	s.all = append(s.placed[:len(s.placed):len(s.placed)], r.Fixed...)
	return s
}

// lines draws the boards as seen along v: what is behind dashed when asked for.
func lines(v drawing.View, placed []geom.Placed, behind bool) []drawing.Edge {
	var out []drawing.Edge
	for _, l := range drawing.Project(v, placed) {
		e := drawing.Edge{A: l.A, B: l.B, Weight: drawing.Narrow}
		switch {
		case !l.Visible && !behind:
			continue
		case !l.Visible:
			e.Weight, e.Dash = drawing.Hair, drawing.Hidden
		case l.Outline:
			e.Weight = drawing.Wide
		}
		out = append(out, e)
	}
	return out
}

func (s *scene) cover() *drawing.Figure {
	v := drawing.Corner()
	f := &drawing.Figure{Name: "corner", Title: s.r.Piece + ", from the front right corner",
		Alt: s.r.Piece + " seen from its front right corner, a little from above."}
	for _, p := range drawing.Patches(v, s.all) {
		tone := drawing.ToneEarlier
		if p.Board >= len(s.placed) {
			tone = drawing.TonePaper
		} else if facesUp(s.r.Boards[p.Board].Board) {
			tone = drawing.ToneNew
		}
		f.Areas = append(f.Areas, drawing.Area{Loops: p.Loops, Tone: tone})
	}
	f.Lines = lines(v, s.all, false)
	return f
}

// facesUp reports whether a board is one of those a person puts things on.
func facesUp(b *board.Board) bool { return b.Sides[board.Show] == "top" }

func (s *scene) front() *drawing.Figure {
	v := drawing.Front()
	f := s.view("front", "From the front", v)
	f.Dims = append(f.Dims, s.overall(v, drawing.Below, 0), s.overall(v, drawing.RightOf, 2))
	f.Dims = append(f.Dims, s.levels(v)...)
	f.Dims = append(f.Dims, s.footprint(v, drawing.Below)...)
	return f
}

func (s *scene) side() *drawing.Figure {
	v := drawing.FromRight()
	f := s.view("side", "From the right", v)
	f.Dims = append(f.Dims, s.overall(v, drawing.Below, 1), s.overall(v, drawing.RightOf, 2))
	f.Dims = append(f.Dims, s.footprint(v, drawing.Below)...)
	return f
}

func (s *scene) top() *drawing.Figure {
	v := drawing.Top()
	f := s.view("top", "From above; the front is at the foot of the page", v)
	f.Dims = append(f.Dims, s.overall(v, drawing.Below, 0), s.overall(v, drawing.RightOf, 1))
	return f
}

func (s *scene) view(name, title string, v drawing.View) *drawing.Figure {
	return &drawing.Figure{Name: name, Title: title,
		Alt:   s.r.Piece + ", " + title + ", with its overall sizes. Dashed lines are hidden.",
		Lines: lines(v, s.all, name != "top")}
}

// overall is the size of the hull of everything along one axis of the piece.
func (s *scene) overall(v drawing.View, side drawing.Side, axis int) drawing.Dim {
	return drawing.Dim{From: s.corner(v, side, false), To: s.corner(v, side, true), Side: side, Text: s.r.Overall[axis].Text}
}

// corner is the end of the hull on a side of a view, low or high along it.
func (s *scene) corner(v drawing.View, side drawing.Side, high bool) drawing.Place {
	lo, hi := v.Place(s.low), v.Place(s.high)
	lo, hi = drawing.Place{X: math.Min(lo.X, hi.X), Y: math.Min(lo.Y, hi.Y)}, drawing.Place{X: math.Max(lo.X, hi.X), Y: math.Max(lo.Y, hi.Y)}
	switch side {
	case drawing.Below:
		if high {
			return drawing.Place{X: hi.X, Y: lo.Y}
		}
		return lo
	default: // RightOf
		if high {
			return hi
		}
		return drawing.Place{X: hi.X, Y: lo.Y}
	}
}

// levels are the heights of the surfaces things are put on, below the top of
// everything: the highest place of each part or row that faces up.
func (s *scene) levels(v drawing.View) []drawing.Dim {
	type level struct {
		z    float64
		from span.Set
	}
	var all []level
	at := map[string]int{}
	for _, b := range s.r.Boards {
		if !facesUp(b.Board) {
			continue
		}
		_, z := b.Board.Placed().Extent(geom.Vec{Z: 1})
		i, ok := at[b.Board.Part]
		if !ok {
			i = len(all)
			at[b.Board.Part] = i
			all = append(all, level{z: z})
		}
		all[i] = level{math.Max(all[i].z, z), all[i].from.Union(b.From)}
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].z < all[j].z })
	var out []drawing.Dim
	last := ""
	for _, l := range all {
		text := s.pen.Length(l.z, l.from).Text
		if text == last || l.z > s.high.Z-geom.Alike {
			continue
		}
		last = text
		x := v.Place(s.low).X
		out = append(out, drawing.Dim{From: drawing.Place{X: x}, To: drawing.Place{X: x, Y: l.z}, Side: drawing.LeftOf, Text: text})
	}
	return out
}

// footprint is how far apart the outsides of the feet stand on the floor, when
// that is less than the whole.
func (s *scene) footprint(v drawing.View, side drawing.Side) []drawing.Dim {
	lo, hi := math.Inf(1), math.Inf(-1)
	var from span.Set
	for i, b := range s.r.Boards {
		touches := false
		for _, f := range s.placed[i].Faces {
			for _, loop := range f.Loops {
				for _, p := range loop {
					q := s.placed[i].Pose.Out(p)
					if q.Z < geom.Touch {
						x := v.Place(q).X
						lo, hi, touches = math.Min(lo, x), math.Max(hi, x), true
					}
				}
			}
		}
		if touches {
			from = from.Union(b.From)
		}
	}
	if !(hi > lo) || hi-lo > v.Place(s.high).X-v.Place(s.low).X-geom.Alike {
		return nil
	}
	return []drawing.Dim{{From: drawing.Place{X: lo}, To: drawing.Place{X: hi}, Side: side, Text: s.pen.Length(hi-lo, from).Text}}
}
