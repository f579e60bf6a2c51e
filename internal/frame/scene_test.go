package frame

import (
	"bufio"
	"context"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"

	"scantling/internal/geom"
)

// scenes is the folder of the larger public frames, for benchmarks.
var scenes = flag.String("scenes", "", "folder with frames/frame_N.txt and their answers")

// read returns the model and load case of a frame file: N, mm, MPa, beams stiff
// in shear. The answers beside the files were found by two other programs.
func read(tb testing.TB, path string) (*Model, Case) {
	tb.Helper()
	file, err := os.Open(path)
	if err != nil {
		tb.Fatal(err)
	}
	defer file.Close()
	in := bufio.NewReader(file)
	scan := func(into ...any) {
		tb.Helper()
		if _, err := fmt.Fscan(in, into...); err != nil {
			tb.Fatalf("%s: %v", path, err)
		}
	}
	var word, ways string
	var e, nu float64
	var n int
	scan(&word, &e, &nu, &word, &n)
	sections := make([]Section, n)
	for i := range sections {
		var b, h float64
		scan(&b, &h)
		sections[i] = Rectangle(b, h).ShearStiff()
	}
	m, c := new(Model), Case{}
	scan(&word, &n)
	for range n {
		var at geom.Vec
		scan(&at.X, &at.Y, &at.Z)
		m.Nodes = append(m.Nodes, Node{At: at})
	}
	scan(&word, &n)
	for range n {
		b := Beam{E: e, G: e / (2 * (1 + nu))}
		var s int
		scan(&b.From, &b.To, &s, &b.Web.X, &b.Web.Y, &b.Web.Z)
		b.Section = sections[s]
		m.Beams = append(m.Beams, b)
	}
	scan(&word, &n)
	for range n {
		var node int
		scan(&node, &ways)
		for _, w := range ways {
			m.Nodes[node].Held[w-'1'] = true
		}
	}
	scan(&word, &n)
	for range n {
		var l Load
		scan(&l.Node, &l.Force.X, &l.Force.Y, &l.Force.Z)
		l.At = m.Nodes[l.Node].At
		c.Loads = append(c.Loads, l)
	}
	scan(&word, &n)
	for range n {
		var s Spread
		scan(&s.Beam, &s.PerMM.X, &s.PerMM.Y, &s.PerMM.Z)
		c.Spread = append(c.Spread, s)
	}
	return m, c
}

// apart returns the greatest difference between a result and an answer file,
// relative to the greatest movement of its kind.
func apart(tb testing.TB, r Result, path string) float64 {
	tb.Helper()
	file, err := os.Open(path)
	if err != nil {
		tb.Fatal(err)
	}
	defer file.Close()
	in := bufio.NewReader(file)
	var most, worst [2]float64
	for node := 0; ; node++ {
		var n int
		var want [6]float64
		if _, err := fmt.Fscan(in, &n, &want[0], &want[1], &want[2], &want[3], &want[4], &want[5]); err != nil {
			if node == 0 {
				tb.Fatal(err)
			}
			break
		}
		for i, w := range want {
			kind := i / 3
			most[kind] = math.Max(most[kind], math.Abs(w))
			worst[kind] = math.Max(worst[kind], math.Abs(w-r.Moved[n*6+i]))
		}
	}
	return math.Max(worst[0]/most[0], worst[1]/most[1])
}

func TestPublishedFrames(t *testing.T) {
	for _, name := range []string{"frame_20", "frame_100"} {
		m, c := read(t, filepath.Join("testdata", name+".txt"))
		r := New(m).Solve(context.Background(), c)
		if d := apart(t, r, filepath.Join("testdata", name+".answer.txt")); d > 1e-8 {
			t.Errorf("%s: off by %.2g of the greatest movement", name, d)
		}
		balanced(t, m, c, r)
	}
	for _, q := range []struct {
		name      string
		node, way int
		want      float64
		closed    string
	}{
		{"cant", 1, 2, -1.4931600949082418, "PL³/3EI"},
		{"udl", 1, 2, -9.33225059317651, "5wL⁴/384EI"},
		{"portal", 1, 0, 11.94948504226533, "with axial stretch"},
	} {
		m, c := read(t, filepath.Join("testdata", q.name+".txt"))
		r := New(m).Solve(context.Background(), c)
		if got := r.Moved[q.node*6+q.way]; math.Abs(got/q.want-1) > 1e-9 {
			t.Errorf("%s: %v mm, want %v (%s)", q.name, got, q.want, q.closed)
		}
	}
}

// balanced fails when a result does not carry its loads to the ground to 1e-9.
func balanced(tb interface{ Errorf(string, ...any) }, m *Model, c Case, r Result) {
	force, moment := m.Balance(c, r)
	scale, reach := 0.0, 1.0
	for _, l := range c.Loads {
		scale += l.Force.Length()
	}
	for _, s := range c.Spread {
		length, _ := m.span(m.Beams[s.Beam])
		scale += s.PerMM.Length() * length
	}
	for _, n := range m.Nodes {
		reach = math.Max(reach, n.At.Length())
	}
	if force.Length() > 1e-9*scale || moment.Length() > 1e-9*scale*reach {
		tb.Errorf("loads of %.4g N in all leave %.3g N and %.3g N·mm over", scale, force.Length(), moment.Length())
	}
}

func BenchmarkFrames(b *testing.B) {
	names := []string{"testdata/frame_20", "testdata/frame_100"}
	if *scenes != "" {
		names = append(names, filepath.Join(*scenes, "frames", "frame_500"), filepath.Join(*scenes, "frames", "frame_2000"))
	}
	for _, name := range names {
		m, c := read(b, name+".txt")
		b.Run(filepath.Base(name), func(b *testing.B) {
			var r Result
			for b.Loop() {
				r = New(m).Solve(context.Background(), c)
			}
			if d := apart(b, r, name+".answer.txt"); d > 1e-8 {
				b.Errorf("off by %.2g of the greatest movement", d)
			}
		})
	}
}
