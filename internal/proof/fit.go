package proof

import (
	"fmt"
	"math"
	"sort"

	"scantling/internal/geom"
)

// reach is how far apart, in mm, two faces may lie and still be taken for those
// that are meant to meet.
const reach = 12.0

// A Fit is how one joint came out, in mm; the worst of the three builds.
type Fit struct {
	Joint  string
	Boards [2]string
	Gap    float64 // how far its faces stand apart at most
	Over   float64 // how deep its boards run into one another
	Hole   float64 // how far its holes miss one another, or the wood they go into
}

// A Built is what became of one build.
type Built struct {
	Way             Way
	Gap, Over, Hole float64
	shop            *shop
}

// A Proof is the verdict on the pages of a plan.
type Proof struct {
	Proved          bool
	Gap, Over, Hole float64 // the worst of all builds, mm
	Builds          []Built
	Joints          []Fit
	Clashes         []Fit    // boards that are not joined and run into one another deeper than Allowed
	Unclear         []string // what the words leave open
}

// Build builds the piece from its pages in all three ways and measures every joint.
func Build(p *Pages) *Proof {
	out := &Proof{}
	said := map[string]bool{}
	at := map[[3]string]int{}
	for way := BySetting; way <= ByOffset; way++ {
		b := Built{Way: way}
		sheets := map[string]*sheet{}
		var open []string
		for i := range p.Parts {
			s, err := saw(&p.Parts[i], way)
			if err != nil {
				open = append(open, fmt.Sprintf("part %s, %s: %v", p.Parts[i].Letter, p.Parts[i].Name, err))
				continue
			}
			sheets[p.Parts[i].Letter] = s
		}
		b.shop = assemble(p, sheets)
		fits, missing := b.shop.measure(p)
		for _, u := range append(append(open, b.shop.open...), missing...) {
			if !said[u] {
				said[u] = true
				out.Unclear = append(out.Unclear, u)
			}
		}
		for _, f := range fits {
			b.Gap, b.Over, b.Hole = math.Max(b.Gap, f.Gap), math.Max(b.Over, f.Over), math.Max(b.Hole, f.Hole)
			key := [3]string{f.Joint, f.Boards[0], f.Boards[1]}
			k, ok := at[key]
			list := &out.Joints
			if f.Joint == "" {
				list = &out.Clashes
			}
			if !ok {
				at[key] = len(*list)
				*list = append(*list, f)
				continue
			}
			w := &(*list)[k]
			w.Gap, w.Over, w.Hole = math.Max(w.Gap, f.Gap), math.Max(w.Over, f.Over), math.Max(w.Hole, f.Hole)
		}
		out.Gap, out.Over, out.Hole = math.Max(out.Gap, b.Gap), math.Max(out.Over, b.Over), math.Max(out.Hole, b.Hole)
		out.Builds = append(out.Builds, b)
	}
	out.Proved = len(out.Unclear) == 0 && len(out.Joints) > 0 &&
		out.Gap <= Allowed && out.Over <= Allowed && out.Hole <= Allowed
	return out
}

// measure measures every joint, and every other two boards that run into one
// another.
func (s *shop) measure(p *Pages) (fits []Fit, open []string) {
	joined := map[[2]string]bool{}
	for _, j := range p.Joints {
		for _, pair := range j.Pairs {
			a, b := s.byID[pair.Boards[0]], s.byID[pair.Boards[1]]
			if a == nil || b == nil {
				open = append(open, fmt.Sprintf("%s: it joins a board there is not", j.Name))
				continue
			}
			if a.in == 0 || b.in == 0 {
				continue // told before
			}
			if a.in != b.in {
				open = append(open, fmt.Sprintf("%s: the %s and the %s never come together", j.Name, a.board.Called, b.board.Called))
				continue
			}
			joined[pair.Boards], joined[[2]string{pair.Boards[1], pair.Boards[0]}] = true, true
			f := Fit{Joint: j.Name, Boards: pair.Boards}
			meet, ok := facing(a.placed(), b.placed())
			if !ok {
				open = append(open, fmt.Sprintf("%s: the %s and the %s do not meet within %.0f mm", j.Name, a.board.Called, b.board.Called, reach))
				continue
			}
			f.Gap, f.Over = meet.apart, depth(a.placed(), b.placed())
			if a.fitted(meet.tags[0]) || b.fitted(meet.tags[1]) { // its length is taken from the work
				if f.Gap <= Drift {
					f.Gap = 0
				}
				if f.Over <= Drift {
					f.Over = 0
				}
			}
			f.Hole = holes(j.Name, a, b, meet.plane)
			fits = append(fits, f)
		}
	}
	var boxes []geom.Box
	for _, b := range s.boards {
		boxes = append(boxes, b.placed().Around())
	}
	for _, pair := range geom.Pairs(boxes, 0) {
		a, b := s.boards[pair[0]], s.boards[pair[1]]
		if a.in == 0 || a.in != b.in || joined[[2]string{a.board.ID, b.board.ID}] {
			continue
		}
		d := depth(a.placed(), b.placed())
		if a.sheet.toFit() || b.sheet.toFit() { // shortened or planed on the work
			d = max(0, d-Drift)
		}
		if d > geom.Touch {
			fits = append(fits, Fit{Boards: [2]string{a.board.ID, b.board.ID}, Over: d})
		}
	}
	return fits, open
}

func (b *standing) placed() geom.Placed { return geom.Placed{Solid: b.sheet.solid, Pose: b.pose} }

// depth returns how deep two boards run into one another: of all their convex
// cells, two by two, the least way that would part them along a normal of a face.
func depth(a, b geom.Placed) float64 {
	worst := 0.0
	var mine, theirs []geom.Vec
	for i := range a.Cells {
		mine = append(mine[:0], outs(a.Pose, a.Cells[i].Verts)...)
		for k := range b.Cells {
			theirs = append(theirs[:0], outs(b.Pose, b.Cells[k].Verts)...)
			least := math.Inf(1)
			for _, of := range []struct {
				pose   geom.Pose
				planes []geom.Plane
			}{{a.Pose, a.Cells[i].Planes}, {b.Pose, b.Cells[k].Planes}} {
				for _, h := range of.planes {
					if least > worst {
						least = math.Min(least, shared(mine, theirs, of.pose.OutWay(h.N)))
					}
				}
			}
			worst = math.Max(worst, least)
		}
	}
	return worst
}

// shared returns how far the shadows of two sets of points on a line overlap.
func shared(a, b []geom.Vec, way geom.Vec) float64 {
	low, high := shadow(a, way)
	least, most := shadow(b, way)
	return math.Min(high-least, most-low)
}

func shadow(points []geom.Vec, way geom.Vec) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range points {
		d := p.Dot(way)
		low, high = math.Min(low, d), math.Max(high, d)
	}
	return low, high
}

// A meeting is the two faces of a joint that look at one another over the largest
// area.
type meeting struct {
	plane  geom.Plane // of the first board
	apart  float64    // mm at the worst corner of the shared area, at least 0
	deep   float64    // mm one is inside the other there
	area   float64
	tags   [2]geom.Tag // of the faces
	middle geom.Vec
}

// fitted reports whether a face is an end of a board that is cut to fit.
func (b *standing) fitted(face geom.Tag) bool {
	end := face <= geom.XHigh || face == geom.FirstCut || face == geom.FirstCut+1
	return end && b.sheet.toFit()
}

// toFit reports whether a part is cut to what is measured on the work.
func (s *sheet) toFit() bool { return s.part.Long.How == "cut to fit" }

// facing finds the faces by which two boards meet: of those that look at one
// another from near by, the two that share the largest area.
func facing(a, b geom.Placed) (best meeting, ok bool) {
	var clip geom.Convex
	for i := range a.Faces {
		f := a.Pose.OutPlane(a.Faces[i].Plane)
		for k := range b.Faces {
			g := b.Pose.OutPlane(b.Faces[k].Plane)
			if f.N.Dot(g.N) > -0.99 {
				continue
			}
			m := meeting{plane: f, tags: [2]geom.Tag{a.Faces[i].Tag, b.Faces[k].Tag}}
			for _, piece := range a.Faces[i].Pieces {
				mine := outs(a.Pose, piece)
				for _, other := range b.Faces[k].Pieces {
					shared := mine
					theirs := outs(b.Pose, other)
					for e := range theirs {
						p, q := theirs[e], theirs[(e+1)%len(theirs)]
						shared = clip.Inside(shared, geom.Facing(p, q.Minus(p).Cross(g.N)))
						if shared == nil {
							break
						}
					}
					for _, v := range shared {
						m.apart, m.deep = math.Max(m.apart, g.Over(v)), math.Max(m.deep, -g.Over(v))
					}
					area := areaOf(shared, f.N)
					m.area += area
					for _, v := range shared {
						m.middle = m.middle.Along(v, area/float64(len(shared)))
					}
				}
			}
			if m.area < 1 || m.apart > reach || m.deep > reach {
				continue
			}
			m.middle = m.middle.Times(1 / m.area)
			if !ok || m.area > 1.01*best.area || m.area > 0.99*best.area && m.apart+m.deep < best.apart+best.deep {
				best, ok = m, true
			}
		}
	}
	return best, ok
}

func outs(p geom.Pose, loop []geom.Vec) []geom.Vec {
	out := make([]geom.Vec, len(loop))
	for i, v := range loop {
		out[i] = p.Out(v)
	}
	return out
}

func areaOf(loop []geom.Vec, n geom.Vec) float64 {
	sum := geom.Vec{}
	for i := 2; i < len(loop); i++ {
		sum = sum.Plus(loop[i-1].Minus(loop[0]).Cross(loop[i].Minus(loop[0])))
	}
	return abs(sum.Dot(n)) / 2
}

// holes returns by how much the holes of a joint miss: where both boards are
// drilled at the bench, how far apart the two lines are in the plane of the joint;
// where the second is drilled through the first, how far its edge stands out of the
// wood.
func holes(joint string, a, b *standing, plane geom.Plane) float64 {
	worst := 0.0
	pa, pb := a.through(joint, plane), b.through(joint, plane)
	for _, h := range pa {
		worst = math.Max(worst, h.miss(pb, b, plane))
	}
	for _, h := range pb {
		worst = math.Max(worst, h.miss(pa, a, plane))
	}
	return worst
}

// A drilled is where a hole crosses the plane of a joint.
type drilled struct {
	at     geom.Vec
	radius float64
	way    geom.Vec
}

// through returns where the holes a board's sheet gives for a joint cross a plane
// of it.
func (b *standing) through(joint string, plane geom.Plane) []drilled {
	var out []drilled
	for _, h := range b.sheet.holes {
		if h.joint != joint {
			continue
		}
		at, way := b.pose.Out(h.at), b.pose.OutWay(h.way)
		t, ok := plane.Hit(at, way)
		if !ok || t < -reach || h.deep > 0 && t > h.deep {
			continue
		}
		out = append(out, drilled{at.Along(way, t), h.radius, way})
	}
	sort.SliceStable(out, func(i, k int) bool { return out[i].radius < out[k].radius })
	return out
}

// miss returns how far a hole misses its mate among those of the other board; if
// that board has none, how much of the hole stands outside its wood. A hole that
// crosses the plane beside the other board belongs to another of its mates.
func (h drilled) miss(mates []drilled, other *standing, plane geom.Plane) float64 {
	if len(mates) > 0 {
		best := math.Inf(1)
		for _, m := range mates {
			best = math.Min(best, m.at.Distance(h.at))
		}
		if best > 2*25.4 {
			return 0
		}
		return best
	}
	return 0
}
