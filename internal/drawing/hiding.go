package drawing

import (
	"cmp"
	"slices"

	"scantling/internal/geom"
)

// hiding finds which stretches of one edge are hidden. Stretches are in mm along
// the edge on the paper, from its end a.
type hiding struct {
	paperEdge
	way         geom.Vec // unit, on the paper
	length      float64
	hidden      [][2]float64
	left, right []float64 // where an outline is crossed, left and right of the edge
	off, along  []float64
}

// begin takes up an edge.
func (h *hiding) begin(e paperEdge) {
	h.paperEdge = e
	d := e.b.Minus(e.a)
	d.Z = 0
	h.length = d.Length()
	h.way = d.Times(1 / h.length)
	h.hidden = h.hidden[:0]
}

// behind hides the edge where it lies behind a shield.
func (h *hiding) behind(s *shield) {
	if s.box.High.Z <= h.box.Low.Z || !sharePaper(&s.box, &h.box) {
		return
	}
	// Where the edge is behind the plane: over runs evenly from end to end.
	from, to := 0.0, h.length
	a, b := s.plane.Over(h.a)+geom.Same, s.plane.Over(h.b)+geom.Same
	switch {
	case a >= 0 && b >= 0:
		return
	case a >= 0:
		from = float64(h.length*a) / (a - b)
	case b >= 0:
		to = float64(h.length*a) / (a - b)
	}
	if !h.cross(s) {
		return
	}
	for i, j := 0, 0; i+1 < len(h.left) && j+1 < len(h.right); {
		low := max(h.left[i], h.right[j], from)
		high := min(h.left[i+1], h.right[j+1], to)
		if high-low > geom.Same {
			h.hidden = append(h.hidden, [2]float64{low, high})
		}
		if h.left[i+1] < h.right[j+1] {
			i += 2
		} else {
			j += 2
		}
	}
}

// sharePaper reports whether one box reaches inside the other on the paper.
func sharePaper(a, b *geom.Box) bool {
	return a.Low.X < b.High.X && b.Low.X < a.High.X && a.Low.Y < b.High.Y && b.Low.Y < a.High.Y
}

// cross sets left and right to where the line through the edge, moved a hair to
// that side, crosses the shield's outline, in order. It returns false if the line
// does not run inside it.
func (h *hiding) cross(s *shield) bool {
	h.left, h.right = h.left[:0], h.right[:0]
	for _, loop := range s.loops {
		h.off, h.along = h.off[:0], h.along[:0]
		low, high := 0.0, 0.0
		for _, p := range loop {
			x, y := p.X-h.a.X, p.Y-h.a.Y
			d := float64(h.way.X*y) - float64(h.way.Y*x)
			h.off = append(h.off, d)
			h.along = append(h.along, float64(h.way.X*x)+float64(h.way.Y*y))
			low, high = min(low, d), max(high, d)
		}
		if low >= -geom.Same || high <= geom.Same {
			continue
		}
		last := len(loop) - 1
		for i := range loop {
			d, e := h.off[last], h.off[i]
			if (d > geom.Same) != (e > geom.Same) {
				h.left = append(h.left, h.crossing(last, i))
			}
			if (d < -geom.Same) != (e < -geom.Same) {
				h.right = append(h.right, h.crossing(last, i))
			}
			last = i
		}
	}
	slices.Sort(h.left)
	slices.Sort(h.right)
	return len(h.left) > 0 && len(h.right) > 0
}

// crossing returns where the outline from corner i to corner j crosses the line; a
// corner on the line is the crossing.
func (h *hiding) crossing(i, j int) float64 {
	d, e := h.off[i], h.off[j]
	switch {
	case d >= -geom.Same && d <= geom.Same:
		return h.along[i]
	case e >= -geom.Same && e <= geom.Same:
		return h.along[j]
	}
	return h.along[i] + float64((h.along[j]-h.along[i])*(d/(d-e)))
}

// end appends the edge's stretches, visible and hidden by turns.
func (h *hiding) end(stretches []stretch, board int) []stretch {
	slices.SortFunc(h.hidden, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	at := 0.0
	add := func(to float64, visible bool) {
		if to-at > geom.Same {
			stretches = append(stretches, stretch{
				a: h.point(at), b: h.point(to), way: h.way,
				visible: visible, board: board, outline: h.outline})
			at = to
		}
	}
	for i := 0; i < len(h.hidden); {
		from, to := h.hidden[i][0], h.hidden[i][1]
		for i++; i < len(h.hidden) && h.hidden[i][0] <= to+geom.Same; i++ {
			to = max(to, h.hidden[i][1])
		}
		add(min(from, h.length), true)
		add(min(to, h.length), false)
	}
	add(h.length, true)
	return stretches
}

func (h *hiding) point(at float64) geom.Vec { return h.a.Along(h.b.Minus(h.a), at/h.length) }
