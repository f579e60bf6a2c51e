package plan

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"slices"
	"sort"
	"strings"
	"testing"
)

// A vertex is a point as plan.json has it, in mm.
type vertex = [3]float64

// An outside is what a stranger reads who knows doc/plan-json.md and nothing of
// this program: plain slices and maps.
type outside struct {
	Boards []struct {
		ID    string
		Part  string
		Pose  struct{ X, Y, Z, At_mm vertex }
		Solid struct {
			Vertices_mm []vertex
			Faces       []struct{ Loops [][]int }
		}
	}
	Parts []struct {
		Letter, Hand, Twin       string
		Count                    int
		Length, Width, Thickness struct{ Mm float64 }
		Volume                   struct{ Mm3 float64 }
		Boards                   []string
	}
	Steps []struct {
		Boards []string
		Add    []struct {
			Part  string
			Count int
		}
	}
	Cuts   struct{ Cost_cents, Bound_cents int }
	Totals struct {
		Width, Depth, Height struct{ Mm float64 }
		Boards, Parts        int
	}
}

func minus(a, b vertex) vertex { return vertex{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
func dot(a, b vertex) float64 {
	return float64(a[0]*b[0]) + float64(a[1]*b[1]) + float64(a[2]*b[2])
}
func cross(a, b vertex) vertex {
	return vertex{float64(a[1]*b[2]) - float64(a[2]*b[1]), float64(a[2]*b[0]) - float64(a[0]*b[2]), float64(a[0]*b[1]) - float64(a[1]*b[0])}
}
func size(a vertex) float64 { return math.Sqrt(dot(a, a)) }

// The solids of plan.json stand on their own: a reader with nothing but vertices
// and faces finds closed bodies with the volumes the parts list says, as many of
// each part as it says, all congruent, mirror twins mirrored, in the hull it says.
func TestJSONStandsOnItsOwn(t *testing.T) {
	for _, file := range examples {
		src := example(t, file)
		first := sound(t, src, Live)
		n := len(first.Piece.Sizes)
		for _, set := range [][]string{nil, corner(first, 0), corner(first, 1<<n-1), corner(first, 0b010101)} {
			var doc outside
			if err := json.Unmarshal(sound(t, src, Settled, set...).JSON(), &doc); err != nil {
				t.Fatal(err)
			}
			for _, e := range doc.wrong() {
				t.Errorf("%s %v: %s", file, set, e)
			}
		}
	}
}

// wrong returns everything about the solids and their parts that does not agree.
func (doc *outside) wrong() (found []string) {
	say := func(format string, args ...any) { found = append(found, fmt.Sprintf(format, args...)) }
	part := map[string]int{}
	made := map[string][]int{} // boards of each part, by place
	for i, p := range doc.Parts {
		part[p.Letter] = i
	}
	low, high := vertex{math.Inf(1), math.Inf(1), math.Inf(1)}, vertex{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	for i, b := range doc.Boards {
		at, ok := part[b.Part]
		if !ok {
			say("%s is of no part (%q)", b.ID, b.Part)
			continue
		}
		p := doc.Parts[at]
		made[b.Part] = append(made[b.Part], i)
		if !slices.Contains(p.Boards, b.ID) {
			say("part %s does not list %s", b.Part, b.ID)
		}
		if v := doc.volume(i, say); math.Abs(v-p.Volume.Mm3) > 1e-9*p.Volume.Mm3 {
			say("%s: %.6f mm³ by the divergence theorem, part %s says %.6f", b.ID, v, b.Part, p.Volume.Mm3)
		}
		// The pose is a rotation, and in its frame the board fills its blank.
		if f := b.Pose; size(minus(cross(f.X, f.Y), f.Z)) > 1e-12 || math.Abs(size(f.X)-1) > 1e-12 || math.Abs(dot(f.X, f.Y)) > 1e-12 {
			say("%s: its pose %v is no right-handed frame", b.ID, f)
		}
		from, to := vertex{math.Inf(1), math.Inf(1), math.Inf(1)}, vertex{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
		for _, v := range b.Solid.Vertices_mm {
			own := minus(v, b.Pose.At_mm)
			own = vertex{dot(own, b.Pose.X), dot(own, b.Pose.Y), dot(own, b.Pose.Z)}
			for k := range 3 {
				from[k], to[k] = min(from[k], own[k]), max(to[k], own[k])
				low[k], high[k] = min(low[k], v[k]), max(high[k], v[k])
			}
		}
		if blank := (vertex{p.Length.Mm, p.Width.Mm, p.Thickness.Mm}); size(from) > 1e-6 || size(minus(to, blank)) > 1e-6 {
			say("%s: in its own frame it reaches from %v to %v, its part is %v", b.ID, from, to, blank)
		}
	}
	if hull := minus(high, low); size(minus(hull, vertex{doc.Totals.Width.Mm, doc.Totals.Depth.Mm, doc.Totals.Height.Mm})) > 1e-6 {
		say("the hull of all vertices is %v, totals say %v", hull, doc.Totals)
	}
	if doc.Totals.Boards != len(doc.Boards) || doc.Totals.Parts != len(doc.Parts) {
		say("totals count %d boards and %d parts of %d and %d", doc.Totals.Boards, doc.Totals.Parts, len(doc.Boards), len(doc.Parts))
	}
	shapes := map[string][]float64{}
	for _, p := range doc.Parts {
		if len(made[p.Letter]) != p.Count || len(p.Boards) != p.Count {
			say("part %s: count %d, lists %d boards, %d stand in place", p.Letter, p.Count, len(p.Boards), len(made[p.Letter]))
			continue
		}
		master := doc.distances(made[p.Letter][0])
		for _, i := range made[p.Letter][1:] {
			if !near(master, doc.distances(i)) {
				say("part %s: %s and %s are not congruent", p.Letter, doc.Boards[made[p.Letter][0]].ID, doc.Boards[i].ID)
			}
		}
		if q, ok := part[p.Twin]; p.Twin != "" && (!ok || doc.Parts[q].Twin != p.Letter || doc.Parts[q].Hand == p.Hand || doc.Parts[q].Count != p.Count) {
			say("part %s (%s) has the twin %q, which does not agree", p.Letter, p.Hand, p.Twin)
		}
		shapes[p.Letter] = master
	}
	for _, p := range doc.Parts {
		if p.Twin != "" && !near(shapes[p.Letter], shapes[p.Twin]) {
			say("parts %s and %s are no mirror images", p.Letter, p.Twin)
		}
	}
	added, reached := map[string]int{}, map[string]bool{}
	for _, s := range doc.Steps {
		for _, a := range s.Add {
			added[a.Part] += a.Count
		}
		for _, id := range s.Boards {
			reached[id] = true
		}
	}
	for _, p := range doc.Parts {
		if added[p.Letter] != p.Count {
			say("part %s: %d boards, the steps add %d", p.Letter, p.Count, added[p.Letter])
		}
	}
	for _, b := range doc.Boards {
		if !reached[b.ID] {
			say("no step has %s", b.ID)
		}
	}
	if doc.Cuts.Bound_cents > doc.Cuts.Cost_cents {
		say("the bound of %d cents is above the cost of %d", doc.Cuts.Bound_cents, doc.Cuts.Cost_cents)
	}
	return found
}

// volume sums the tetrahedra from a board's first vertex to its faces, and checks
// that every directed edge has its opposite and every face is plane.
func (doc *outside) volume(board int, say func(string, ...any)) float64 {
	b := doc.Boards[board]
	at := b.Solid.Vertices_mm
	edges := map[[2]int]int{}
	six := 0.0
	for f, face := range b.Solid.Faces {
		var normal vertex // twice the area, holes taken off
		for _, loop := range face.Loops {
			for i, v := range loop {
				w := loop[(i+1)%len(loop)]
				edges[[2]int{v, w}]++
				if n := cross(minus(at[v], at[face.Loops[0][0]]), minus(at[w], at[face.Loops[0][0]])); true {
					normal = vertex{normal[0] + n[0], normal[1] + n[1], normal[2] + n[2]}
				}
			}
		}
		six += dot(normal, minus(at[face.Loops[0][0]], at[0]))
		for _, loop := range face.Loops {
			for _, v := range loop {
				if d := dot(normal, minus(at[v], at[face.Loops[0][0]])) / size(normal); math.Abs(d) > 1e-6 {
					say("%s: vertex %d lies %g mm off face %d", b.ID, v, d, f)
				}
			}
		}
	}
	for e, n := range edges {
		if n != 1 || edges[[2]int{e[1], e[0]}] != 1 {
			say("%s: edge %v is there %d times, its opposite %d", b.ID, e, n, edges[[2]int{e[1], e[0]}])
		}
	}
	return six / 6
}

// distances are those between all pairs of a board's vertices, sorted: the same
// for congruent boards and for mirror images.
func (doc *outside) distances(board int) []float64 {
	var out []float64
	at := doc.Boards[board].Solid.Vertices_mm
	for i := range at {
		for k := range i {
			out = append(out, size(minus(at[i], at[k])))
		}
	}
	sort.Float64s(out)
	return out
}

func near(a, b []float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool { return math.Abs(x-y) <= 0.01 }) // alike, as parts are
}

// The checks above see what they should: a vertex moved, a board left out, a
// volume misprinted.
func TestJSONChecksBite(t *testing.T) {
	text := sound(t, example(t, "pickers-chair"), Settled).JSON()
	for name, spoil := range map[string]func(*outside){
		"a vertex moved":   func(d *outside) { d.Boards[3].Solid.Vertices_mm[0][1] += 0.5 },
		"a face left out":  func(d *outside) { d.Boards[0].Solid.Faces = d.Boards[0].Solid.Faces[1:] },
		"a board left out": func(d *outside) { d.Boards = d.Boards[1:] },
		"a wrong volume":   func(d *outside) { d.Parts[0].Volume.Mm3 *= 1 + 1e-8 },
		"a wrong count":    func(d *outside) { d.Parts[1].Count++ },
		"a twin of none":   func(d *outside) { d.Parts[1].Twin = "A" },
		"a board elsewhere": func(d *outside) {
			d.Boards[0].Pose.At_mm[2]++
		},
	} {
		var doc outside
		if err := json.Unmarshal(text, &doc); err != nil {
			t.Fatal(err)
		}
		if spoil(&doc); len(doc.wrong()) == 0 {
			t.Errorf("%s goes unseen", name)
		}
	}
}

var unitKeys = []string{"mm", "mm2", "mm3", "deg", "kg", "n", "cents", "newton", "mpa", "newton_per_mm"}

// Every number object holds one unit, a text, and places that are whole scalars
// of the design file; prose is spans of words or such numbers, and a digit in
// words is never a figure the piece was computed to.
func TestJSONNumbers(t *testing.T) {
	for _, file := range examples {
		src := example(t, file)
		p := sound(t, src, Settled)
		scalars := map[[2]int]bool{}
		for _, s := range p.tree.Scalars {
			scalars[[2]int{s.Start, s.End}] = true
		}
		numbers, traced, spans := 0, 0, 0
		places := func(path string, v any) {
			list, ok := v.([]any)
			if !ok && !strings.Contains(path, ".reach.boards") { // from which side
				t.Errorf("%s: %s: from is %v", file, path, v)
			}
			for _, x := range list {
				r := x.([]any)
				at := [2]int{int(r[0].(float64)), int(r[1].(float64))}
				if !scalars[at] {
					t.Errorf("%s: %s: from %v is no value of the file", file, path, at)
				}
			}
			if len(list) > 0 {
				traced++
			}
		}
		var walk func(path string, v any)
		walk = func(path string, v any) {
			switch v := v.(type) {
			case []any:
				for i, x := range v {
					walk(fmt.Sprintf("%s[%d]", path, i), x)
				}
			case map[string]any:
				if shown, ok := v["shown"]; ok {
					numbers++
					held := 0
					for _, u := range unitKeys {
						if x, ok := v[u]; ok {
							if _, ok := x.(float64); !ok {
								t.Errorf("%s: %s: %s is %v", file, path, u, x)
							}
							held++
						}
					}
					if held != 1 || shown == "" {
						t.Errorf("%s: %s holds %d units and shows %q", file, path, held, shown)
					}
					for k := range v {
						if !slices.Contains(unitKeys, k) && !slices.Contains([]string{"shown", "how", "from"}, k) {
							t.Errorf("%s: %s holds %q", file, path, k)
						}
					}
					places(path, v["from"])
					return
				}
				if from, ok := v["from"]; ok {
					places(path, from)
				}
				_, words := v["words"].(string)
				_, number := v["number"].(map[string]any)
				if len(v) == 1 && (words || number) {
					spans++
				}
				for k, x := range v {
					if k != "from" {
						walk(path+"."+k, x)
					}
				}
			}
		}
		var doc map[string]any
		if err := json.Unmarshal(p.JSON(), &doc); err != nil {
			t.Fatal(err)
		}
		walk("", doc)
		if numbers < 200 || traced < numbers*3/4 || spans < 200 {
			t.Errorf("%s: %d numbers, %d traced, %d spans: the walk saw too little", file, numbers, traced, spans)
		}
		if int(doc["version"].(float64)) != FormatVersion {
			t.Errorf("version %v", doc["version"])
		}
	}
}

// lengthInWords is a length or an angle as the plan prints it.
var lengthInWords = regexp.MustCompile(`\d[\d/ ]*(?:"|′|″|°)`)

// Figures in prose are spans with their places, never digits typed into words.
// Lengths the author wrote into words stand in
// the file so.
func TestProseHoldsNoUntracedFigures(t *testing.T) {
	for _, file := range examples {
		src := example(t, file)
		text, seen := string(src), 0
		for path, l := range leaves(sound(t, src, Settled).Readings) {
			if l.number != nil || !strings.Contains(path, ".Words") {
				continue
			}
			seen++
			for _, m := range lengthInWords.FindAllString(l.words, -1) {
				if !strings.Contains(text, m) {
					t.Errorf("%s: %s: %q stands in words: %s", file, path, m, l.words)
				}
			}
		}
		if seen < 200 {
			t.Errorf("%s: only %d stretches of words read", file, seen)
		}
	}
}

// The same plan is the same bytes, from one session and from another.
func TestJSONTwice(t *testing.T) {
	for _, file := range examples {
		src := example(t, file)
		if a, b := sound(t, src, Settled), sound(t, src, Settled); !bytes.Equal(a.JSON(), b.JSON()) || !bytes.Equal(a.JSON(), a.JSON()) {
			t.Errorf("%s: plan.json differs from one run to the next", file)
		}
	}
}
