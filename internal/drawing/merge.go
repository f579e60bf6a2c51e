package drawing

import (
	"cmp"
	"math"
	"slices"

	"scantling/internal/geom"
	"scantling/internal/steady"
)

// stretch is a stretch of an edge, visible or hidden along its whole length, in the
// frame of the paper.
type stretch struct {
	a, b    geom.Vec
	way     geom.Vec // unit, on the paper, of the whole edge
	visible bool
	board   int
	outline bool

	turn     float64 // direction, from −π/2 to π/2, the same for both ways along a line
	off      float64 // of the line from the paper's origin, to its left
	from, to float64 // along the line
}

// Strokes lie on one line if their directions differ by less than sameWay radians
// and they lie within sameLine mm. An edge is at least Same long, most are a
// thousand times that or more; noise of 1e-12 mm at its ends turns it by 1e-9.
const (
	sameWay  = 1e-8
	sameLine = 2 * geom.Same
)

// merge lays the stretches that fall together on one another: on every line of the
// paper visible covers hidden, nearer covers farther, and what is left is a Line.
func merge(stretches []stretch) []Line {
	for i := range stretches {
		s := &stretches[i]
		if s.way.X < -sameWay || s.way.X < sameWay && s.way.Y < 0 {
			s.a, s.b, s.way = s.b, s.a, s.way.Negated()
		}
		s.turn = steady.Atan2(s.way.Y, s.way.X)
	}
	slices.SortStableFunc(stretches, func(a, b stretch) int { return cmp.Compare(a.turn, b.turn) })
	var lines []Line
	for len(stretches) > 0 {
		n := 1
		for n < len(stretches) && stretches[n].turn-stretches[n-1].turn <= sameWay {
			n++
		}
		lines = mergeParallel(lines, stretches[:n])
		stretches = stretches[n:]
	}
	return lines
}

func mergeParallel(lines []Line, stretches []stretch) []Line {
	way := stretches[0].way
	for i := range stretches {
		s := &stretches[i]
		s.off = float64(way.X*s.a.Y) - float64(way.Y*s.a.X)
		s.from = float64(way.X*s.a.X) + float64(way.Y*s.a.Y)
		s.to = float64(way.X*s.b.X) + float64(way.Y*s.b.Y)
	}
	slices.SortStableFunc(stretches, func(a, b stretch) int { return cmp.Compare(a.off, b.off) })
	for len(stretches) > 0 {
		n := 1
		for n < len(stretches) && stretches[n].off-stretches[n-1].off <= sameLine {
			n++
		}
		lines = mergeLine(lines, stretches[:n])
		stretches = stretches[n:]
	}
	return lines
}

// mergeLine sweeps along one line and cuts it where a stretch starts or stops.
func mergeLine(lines []Line, stretches []stretch) []Line {
	slices.SortStableFunc(stretches, func(a, b stretch) int { return cmp.Compare(a.from, b.from) })
	stops := make([]float64, 0, 2*len(stretches))
	for _, s := range stretches {
		stops = append(stops, s.from, s.to)
	}
	slices.Sort(stops)
	var on []*stretch
	var last *stretch // the stretch the last line came from
	next, at := 0, math.Inf(-1)
	for _, stop := range stops {
		if stop-at > geom.Same {
			if top := topmost(on, at, stop); top == nil {
				last = nil
			} else {
				b := top.at(stop)
				if last != nil && last.visible == top.visible && last.board == top.board && last.outline == top.outline {
					lines[len(lines)-1].B = b
				} else {
					lines = append(lines, Line{A: top.at(at), B: b, Visible: top.visible, Board: top.board, Outline: top.outline})
				}
				last = top
			}
			at = stop
		}
		for next < len(stretches) && stretches[next].from <= stop+geom.Same {
			on = append(on, &stretches[next])
			next++
		}
		on = slices.DeleteFunc(on, func(s *stretch) bool { return s.to <= stop+geom.Same })
	}
	return lines
}

// topmost returns the stretch that shows between from and to: visible before
// hidden, then the nearest to the eye, then an outline.
func topmost(on []*stretch, from, to float64) (top *stretch) {
	best, middle := math.Inf(-1), float64((from+to)/2)
	for _, s := range on {
		depth := s.depth(middle)
		better := depth > best+geom.Same || depth > best-geom.Same && s.outline && !top.outline
		if top == nil || s.visible && !top.visible || s.visible == top.visible && better {
			top, best = s, depth
		}
	}
	return top
}

// depth returns how near the eye the stretch lies at a place along its line.
func (s *stretch) depth(at float64) float64 {
	return s.a.Z + float64((s.b.Z-s.a.Z)*((at-s.from)/(s.to-s.from)))
}

// at returns the stretch's point at a place along its line.
func (s *stretch) at(at float64) Place {
	p := s.a.Along(s.b.Minus(s.a), (at-s.from)/(s.to-s.from))
	return Place{p.X, p.Y}
}
