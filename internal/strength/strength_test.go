package strength

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"testing"

	"scantling/internal/design"
	"scantling/internal/frame"
	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/source"
)

// A worked is an example with its meetings and joints.
type worked struct {
	piece    *design.Piece
	meetings *joint.Meetings
	joints   []joint.Joint
}

func examples(tb testing.TB) map[string]worked {
	tb.Helper()
	files, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(files) < 5 {
		tb.Fatal(files, err)
	}
	out := map[string]worked{}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			tb.Fatal(err)
		}
		tree, _ := source.Parse(file, src)
		p, _ := design.Open(tree).Evaluate(nil)
		m := joint.Meet(p)
		joints, _ := joint.Find(p, m)
		out[filepath.Base(file)] = worked{p, m, joints}
	}
	return out
}

// In every case of every example the ground carries what stands on it, no bearing
// pulls, no head pushes, and nothing moves freely under the piece's own weight.
func TestStatics(t *testing.T) {
	for name, w := range examples(t) {
		m := build(w.piece, w.meetings, w.joints, 1)
		s := frame.New(m.heldDown())
		free := frame.New(&m.m)
		for i, c := range m.cases() {
			model, r := &m.m, free.Solve(context.Background(), c.Case)
			if r.Mechanism != nil {
				if i == 0 {
					t.Errorf("%s: moves freely under its own weight", name)
				}
				model, r = m.heldDown(), s.Solve(context.Background(), c.Case)
			}
			if !r.Settled || r.Mechanism != nil {
				t.Errorf("%s, %s: settled %v, mechanism %v", name, c.Name, r.Settled, r.Mechanism != nil)
				continue
			}
			force, moment := model.Balance(c.Case, r)
			whole := m.weight + c.Newton
			if force.Length() > 1e-9*whole || moment.Length() > 1e-9*whole*2000 {
				t.Errorf("%s, %s: %.3g N and %.3g N·mm of %.0f N are left over", name, c.Name, force.Length(), moment.Length(), whole)
			}
			for k, l := range model.Links {
				if l.Acts == frame.Push && r.Force[k] > 0 || l.Acts == frame.Pull && r.Force[k] < 0 {
					t.Errorf("%s, %s: link %d carries %v N the wrong way", name, c.Name, k, r.Force[k])
				}
			}
		}
	}
}

// The frame weighs what its boards do, whatever notches and tapers leave of them.
func TestWeight(t *testing.T) {
	for name, w := range examples(t) {
		m := build(w.piece, w.meetings, w.joints, 1)
		want := 0.0
		for i := range m.members {
			want += m.members[i].b.Solid.Volume * m.members[i].density
		}
		own := m.own()
		got := 0.0
		for _, l := range own.Loads {
			got -= l.Force.Z
		}
		for _, s := range own.Spread {
			b := m.m.Beams[s.Beam]
			got -= s.PerMM.Z * m.m.Nodes[b.From].At.Distance(m.m.Nodes[b.To].At)
		}
		if math.Abs(got/want-1) > 1e-9 {
			t.Errorf("%s: the frame weighs %v N, its boards %v", name, got, want)
		}
	}
}

// Sections against the closed forms of a rectangle and of one with a notch.
func TestSections(t *testing.T) {
	var saw geom.Saw
	saw.Blank(1000, 89, 38)
	whole := cut(saw.Solid(), 500)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"area", whole.area, 89 * 38}, {"∫y²", whole.aboutZ, 38 * 89 * 89 * 89 / 12.0}, {"∫z²", whole.aboutY, 89 * 38 * 38 * 38 / 12.0},
		{"centre across", whole.y, 44.5}, {"centre of thickness", whole.z, 19}, {"width", whole.wideY, 89}, {"thickness", whole.wideZ, 38},
	} {
		if math.Abs(c.got/c.want-1) > 1e-9 {
			t.Errorf("%s of 38 x 89: %v, want %v", c.what, c.got, c.want)
		}
	}
	// A notch 30 deep from one edge leaves 59 of the width.
	at := geom.Unmoved()
	at.At = geom.Vec{X: 400, Y: -1, Z: -1}
	planes := geom.BoxPlanes(at, geom.Vec{X: 200, Y: 31, Z: 40})
	saw.Blank(1000, 89, 38)
	saw.Remove(planes, []geom.Tag{geom.FirstCut, geom.FirstCut + 1, geom.FirstCut + 2, geom.FirstCut + 3, geom.FirstCut + 4, geom.FirstCut + 5})
	solid := saw.Solid()
	notched := cut(solid, 500)
	if math.Abs(notched.area-59*38) > 1e-6 || math.Abs(notched.y-59.5) > 1e-9 || math.Abs(notched.aboutZ/(38*59*59*59/12.0)-1) > 1e-9 {
		t.Errorf("notched: %+v", notched)
	}
	if s := cut(solid, -5); s.area != 0 {
		t.Errorf("past the end there is %v mm² of wood", s.area)
	}
}

func BenchmarkCheck(b *testing.B) {
	for name, w := range examples(b) {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Check(context.Background(), w.piece, w.meetings, w.joints); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
