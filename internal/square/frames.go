package square

import (
	"cmp"
	"math"
	"slices"

	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/joint"
)

// leads is how many boards fastened to a board are looked at from either end of
// it: a builder's frame has its corners near the ends of its boards.
const leads = 3

// corner is how far apart, in mm, two boards may be fastened to a third, a leg or
// a post, and still make a corner with it: 8 in.
const corner = 8 * 25.4

// A link is a corner two boards make: where along the one, with which other, and
// through which third board, -1 if the two are fastened to one another.
type link struct {
	at         float64
	other, via int
}

// A rail is the links of a board, in order along it.
type rail struct {
	links []link
	long  float64
}

// ends returns the boards a rail makes corners with first and last.
func (r *rail) ends() (low, high []int) {
	n := len(r.links)
	for i, l := range r.links {
		if i < leads {
			low = append(low, l.other)
		}
		if i >= n-leads {
			high = append(high, l.other)
		}
	}
	return low, high
}

// nearEnd reports whether a board is among the first or last few that a rail makes
// corners with.
func (r *rail) nearEnd(other int) bool {
	i := slices.IndexFunc(r.links, func(l link) bool { return l.other == other })
	return i >= 0 && (i < 3*leads || i >= len(r.links)-3*leads)
}

// with returns the corner a rail makes with a board.
func (r *rail) with(other int) (link, bool) {
	for _, l := range r.links {
		if l.other == other {
			return l, true
		}
	}
	return link{}, false
}

// between reports whether a rail reaches from one board to another: they are
// apart by a quarter of it or more.
func (r *rail) between(a, b int) bool {
	x, ok := r.with(a)
	y, too := r.with(b)
	return ok && too && math.Abs(x.at-y.at) > r.long/4
}

// endsAt reports whether a rail is fastened to a board, itself, within a quarter
// of its length from either end.
func (r *rail) endsAt(b int) bool {
	x, ok := r.with(b)
	return ok && x.via < 0 && math.Min(x.at, r.long-x.at) < r.long/4
}

// Frames returns the frames of a piece, in board order: rings of four boards, each
// fastened to the next or with it to a leg between them; and open ones, two
// boards of one name that stand out from near the ends of a third.
func Frames(p *design.Piece, joints []joint.Joint) []Frame {
	rails := railsOf(p, joints)
	seen := map[[4]int]bool{}
	var out []Frame
	add := func(key [4]int, ring ...int) {
		if !seen[key] {
			seen[key] = true
			if f, ok := frame(p, rails, ring); ok {
				out = append(out, f)
			}
		}
	}
	for b := range rails {
		low, high := rails[b].ends()
		for _, a := range low {
			far, near := rails[a].ends()
			leading := slices.Concat(far, near)
			for _, c := range high {
				if !rails[a].nearEnd(b) {
					break // one of many boards across a
				}
				for _, d := range leading {
					ring := [4]int{a, b, c, d}
					key := ring
					slices.Sort(key[:])
					if distinct(key) && rails[b].between(a, c) && rails[d].between(a, c) && rails[a].between(b, d) && rails[c].between(b, d) {
						add(key, ring[:]...)
					}
				}
			}
			for _, c := range high {
				if a != c && rails[b].between(a, c) && rails[a].endsAt(b) && rails[c].endsAt(b) &&
					p.Boards[a].Name == p.Boards[c].Name && p.Boards[a].Row+p.Boards[a].Field == 0 {
					add([4]int{min(a, c), max(a, c), b, -1}, a, b, c)
				}
			}
		}
	}
	return out
}

func distinct(sorted [4]int) bool {
	return sorted[0] < sorted[1] && sorted[1] < sorted[2] && sorted[2] < sorted[3]
}

func railsOf(p *design.Piece, joints []joint.Joint) []rail {
	number := map[*design.Board]int{}
	out := make([]rail, len(p.Boards))
	for i, b := range p.Boards {
		number[b] = i
		out[i].long = b.L
	}
	type touch struct {
		other int
		at    geom.Vec
	}
	met := make([][]touch, len(p.Boards))
	for i := range joints {
		for k := range joints[i].Pairs {
			pair := &joints[i].Pairs[k]
			if pair.A.Field+pair.B.Field > 0 {
				continue // strips of a field fill a frame and make none
			}
			a, b := number[pair.A], number[pair.B]
			met[a] = append(met[a], touch{b, pair.Contact.Middle})
			met[b] = append(met[b], touch{a, pair.Contact.Middle})
		}
	}
	for i, all := range met {
		b := p.Boards[i]
		add := func(other, via int, at geom.Vec) {
			if _, known := out[i].with(other); !known && other != i {
				out[i].links = append(out[i].links, link{at.Minus(b.Pose.At).Dot(b.Pose.X), other, via})
			}
		}
		for _, t := range all {
			add(t.other, -1, t.at)
		}
		for _, t := range ends(all, b.Pose.X, func(t touch) geom.Vec { return t.at }) {
			for _, u := range met[t.other] {
				if u.at.Distance(t.at) <= corner {
					add(u.other, t.other, t.at)
				}
			}
		}
		slices.SortStableFunc(out[i].links, func(a, b link) int {
			switch {
			case a.at < b.at-geom.Touch:
				return -1
			case a.at > b.at+geom.Touch:
				return 1
			}
			return a.other - b.other
		})
	}
	return out
}

// ends returns the first and the last few of what lies along a way.
func ends[T any](all []T, way geom.Vec, at func(T) geom.Vec) []T {
	if len(all) <= 2*leads {
		return all
	}
	sorted := slices.Clone(all)
	slices.SortStableFunc(sorted, func(a, b T) int { return cmp.Compare(at(a).Dot(way), at(b).Dot(way)) })
	return append(sorted[:leads:leads], sorted[len(sorted)-leads:]...)
}

// Boards next to one another in a frame meet at 30° or more; opposite ones lie
// within 45° of one another; and all lie within 15° of the frame's plane.
const (
	meeting  = 0.8660254 // cos 30°
	facing   = 0.7071068 // cos 45°
	flatness = 0.2588190 // sin 15°
)

// frame makes a frame of boards in order round it. Its corners are those of the
// two opposite boards that reach further out; of an open one, of the two that
// face one another.
func frame(p *design.Piece, rails []rail, ring []int) (Frame, bool) {
	way := func(i int) geom.Vec { return p.Boards[ring[i%len(ring)]].Pose.X }
	for i := 0; i+2 < len(ring); i++ { // a row's board has one of its row across
		if a, c := p.Boards[ring[i]], p.Boards[ring[i+2]]; a.Name != c.Name && a.Row+a.Field+c.Row+c.Field > 0 {
			return Frame{}, false
		}
	}
	n := way(0).Cross(way(1))
	if n.Length() < geom.Same {
		return Frame{}, false
	}
	n = n.Unit()
	for i := range ring {
		next := i + 1
		if len(ring) == 3 && i == 2 {
			next = 1
		}
		if math.Abs(way(i).Dot(way(next))) > meeting || math.Abs(way(i).Dot(n)) > flatness || i+2 < len(ring) && math.Abs(way(i).Dot(way(i+2))) < facing {
			return Frame{}, false
		}
	}
	n = outward(p, ring, n)
	best := Frame{}
	for i := 0; i+2 < len(ring); i++ {
		f := Frame{Boards: ring, Normal: n}
		f.span(p, min(ring[i], ring[i+2]), max(ring[i], ring[i+2]))
		if best.Boards == nil || f.Area() > best.Area()+geom.Alike {
			best = f
		}
	}
	best.lengthwise()
	for i, b := range ring {
		if i+1 == len(ring) && i == 2 {
			break // open there
		}
		next := ring[(i+1)%len(ring)]
		if l, _ := rails[b].with(next); l.via < 0 {
			best.Joints = append(best.Joints, [2]int{b, next})
		} else {
			best.Joints = append(best.Joints, [2]int{b, l.via}, [2]int{l.via, next})
		}
	}
	_, ok := best.Rate()
	return best, ok && best.level(p)
}

// level reports whether all boards of a frame lie as near its plane as a corner
// is wide.
func (f *Frame) level(p *design.Piece) bool {
	low, high := math.Inf(1), math.Inf(-1)
	for _, i := range f.Boards {
		at := p.Boards[i].Placed().Middle().Dot(f.Normal)
		low, high = math.Min(low, at), math.Max(high, at)
	}
	return high-low <= corner
}

// Seen returns a frame of boards as measured from the side a way points to: the
// corners on that side of the wood.
func (f *Frame) Seen(p *design.Piece, from geom.Vec) Frame {
	out := *f
	if f.Joints != nil && out.Normal.Dot(from) < -geom.Alike {
		out.Normal = out.Normal.Negated()
		out.span(p, min(f.Of[0], f.Of[2]), max(f.Of[0], f.Of[2]))
		out.lengthwise()
	}
	return out
}

// span takes the corners of a frame from two boards of it that face one
// another: the first from where one starts.
func (f *Frame) span(p *design.Piece, a, c int) {
	f.Of = [4]int{a, a, c, c}
	away := p.Boards[a].Placed().Middle().Minus(p.Boards[c].Placed().Middle())
	along := p.Boards[a].Pose.X
	for k, of := range f.Of {
		end := p.Boards[of].Pose.X
		if end.Dot(along) < 0 {
			end = end.Negated()
		}
		if k == 0 || k == 3 {
			end = end.Negated()
		}
		out := away
		if k > 1 {
			out = away.Negated()
		}
		out = out.Along(end, -out.Dot(end))
		out = out.Along(f.Normal, -out.Dot(f.Normal)).Unit()
		f.Corners[k] = outermost(p.Boards[of], end.Plus(out).Plus(f.Normal), f.Normal)
	}
}
