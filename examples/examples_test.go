// Package examples_test builds every example at the corners of what a reader may
// ask of it, and checks the pieces against sums done without this program.
package examples_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/measure"
	"scantling/internal/snag"
	"scantling/internal/source"
)

const inch = 25.4 // mm

// A built is one example under one set of sizes and choices.
type built struct {
	*design.Piece
	meetings *joint.Meetings
	joints   []joint.Joint
	snags    snag.List
}

func open(t *testing.T, file string) (*design.Design, []byte) {
	t.Helper()
	src, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	tree, snags := source.Parse(file, src)
	if len(snags) > 0 {
		t.Fatal(snags.Text(snag.Sources{file: src}))
	}
	return design.Open(tree), src
}

func build(d *design.Design, set design.Settings) built {
	piece, snags := d.Evaluate(set)
	b := built{Piece: piece, snags: snags}
	if piece == nil {
		return b
	}
	b.meetings = joint.Meet(piece)
	b.snags = append(b.snags, b.meetings.Snags()...)
	joints, more := joint.Find(piece, b.meetings)
	b.joints, b.snags = joints, append(b.snags, more...)
	return b
}

func files(t *testing.T) []string {
	t.Helper()
	all, err := filepath.Glob("*.yaml")
	if err != nil || len(all) < 2 {
		t.Fatalf("found %v, %v", all, err)
	}
	return all
}

// settings returns the file's own values, and every corner of the ranges, under
// every combination of choices; over most of them, a fixed sample.
func settings(p *design.Piece, most int) (all []design.Settings, sample bool) {
	choices := []design.Settings{nil}
	for _, c := range p.Choices {
		var more []design.Settings
		for _, s := range choices {
			for _, word := range c.Of {
				more = append(more, with(s, c.Name, word))
			}
		}
		choices = more
	}
	corners := choices
	for _, s := range p.Sizes {
		var more []design.Settings
		for _, c := range corners {
			for _, q := range []measure.Quantity{s.Least, s.Most} {
				more = append(more, with(c, s.Name, q.Exact(p.Units)))
			}
		}
		corners = more
	}
	all = append(choices, corners...)
	if len(all) <= most {
		return all, false
	}
	rand.New(rand.NewPCG(1, 2)).Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	return all[:most], true
}

func with(s design.Settings, name, value string) design.Settings {
	return append(append(design.Settings(nil), s...), design.Setting{Name: name, Value: value})
}

func TestEveryCornerCanBeBuilt(t *testing.T) {
	for _, file := range files(t) {
		t.Run(strings.TrimSuffix(file, ".yaml"), func(t *testing.T) {
			d, src := open(t, file)
			piece, _ := d.Evaluate(nil)
			if piece == nil {
				t.Fatal(build(d, nil).snags.Text(snag.Sources{file: src}))
			}
			all, sample := settings(piece, 256)
			if sample {
				t.Logf("%s has more corners than are built: these are a fixed sample of %d", file, len(all))
			}
			for _, set := range all {
				b := build(d, set)
				if b.snags.Errors() > 0 || b.Piece == nil {
					t.Fatalf("%v:\n%s", set, b.snags.Text(snag.Sources{file: src}))
				}
				check(t, set, b, standing[file])
			}
		})
	}
}

// standing is how many boards of an example stand on the floor.
var standing = map[string]int{"herb-planter.yaml": 4, "pickers-chair.yaml": 4, "picnic-table.yaml": 4, "sorting-table.yaml": 4, "yard-gate.yaml": 0}

// check finds what a carpenter would see at once: boards in one another, feet
// off the floor, boards that nothing holds.
func check(t *testing.T, set design.Settings, b built, stand int) {
	t.Helper()
	for _, m := range b.meetings.All {
		if m.Clash != nil {
			t.Errorf("%v: %s and %s share wood %.3f mm deep", set, b.Boards[m.A].Spoken, b.Boards[m.B].Spoken, m.Clash.Depth)
		}
	}
	for _, n := range b.Needs {
		if !n.Known || n.Stop && !n.Holds {
			t.Errorf("%v: need %q: known %v, holds %v", set, n.That, n.Known, n.Holds)
		}
	}
	feet := 0
	for _, board := range b.Boards {
		if err := board.Solid.Check(); err != nil {
			t.Errorf("%v: %s: %v", set, board.Spoken, err)
		}
		low, _ := extent(board, geom.Vec{Z: 1})
		if low < -geom.Same {
			t.Errorf("%v: %s reaches %.3f mm below the floor", set, board.Spoken, -low)
		}
		if low < geom.Same {
			feet++
		}
	}
	if feet != stand {
		t.Errorf("%v: %d boards stand on the floor, want %d", set, feet, stand)
	}
	held(t, set, b)
	drilled(t, set, b)
	steps(t, set, b)
}

// held checks that fasteners tie every board to every other by some way, and
// that each is fastened to two boards, or along half its length to one (common
// practice: a board held at one end turns).
func held(t *testing.T, set design.Settings, b built) {
	t.Helper()
	number := map[*design.Board]int{}
	for i, x := range b.Boards {
		number[x] = i
	}
	group := make([]int, len(b.Boards))
	for i := range group {
		group[i] = i
	}
	find := func(i int) int {
		for group[i] != i {
			i = group[i]
		}
		return i
	}
	to, along := make([]int, len(b.Boards)), make([]float64, len(b.Boards))
	for _, j := range b.joints {
		for _, p := range j.Pairs {
			for _, x := range []*design.Board{p.A, p.B} {
				i := number[x]
				to[i]++
				low, high := math.Inf(1), math.Inf(-1)
				for _, loop := range p.Contact.Loops {
					for _, v := range loop {
						at := x.Pose.In(v).X
						low, high = math.Min(low, at), math.Max(high, at)
					}
				}
				along[i] = math.Max(along[i], (high-low)/x.L)
			}
			group[find(number[p.A])] = find(number[p.B])
		}
	}
	for i, x := range b.Boards {
		if find(i) != find(0) {
			t.Errorf("%v: nothing fastens %s to %s", set, x.Spoken, b.Boards[0].Spoken)
		}
		if to[i] < 2 && along[i] < 0.5 {
			t.Errorf("%v: %s is fastened to %d board, along %.0f %% of its length", set, x.Spoken, to[i], 100*along[i])
		}
	}
}

// steps checks that every board is added exactly once.
func steps(t *testing.T, set design.Settings, b built) {
	t.Helper()
	added := map[string]int{}
	for _, s := range b.Steps {
		for _, id := range s.Add {
			added[string(id)]++
		}
	}
	for _, x := range b.Boards {
		if n := added[string(x.ID)]; n != 1 {
			t.Errorf("%v: %s is added %d times", set, x.Spoken, n)
		}
	}
}

func extent(b *design.Board, way geom.Vec) (low, high float64) { return b.Placed().Extent(way) }

// named returns the first board of a name, and of its copies the one whose
// spoken name holds the words.
func (b built) named(t *testing.T, name string, words ...string) *design.Board {
	t.Helper()
	for _, x := range b.Boards {
		ok := x.Name == name
		for _, w := range words {
			ok = ok && strings.Contains(x.Spoken, w)
		}
		if ok {
			return x
		}
	}
	t.Fatalf("no %v %s among the boards", words, name)
	return nil
}

func (b built) row(t *testing.T, name string) design.Row {
	t.Helper()
	for _, r := range b.Rows {
		if r.Name == name {
			return r
		}
	}
	t.Fatalf("no row %s", name)
	return design.Row{}
}

// volume is the wood of the boards of a name, or of all, in cubic inches.
func (b built) volume(name string) float64 {
	sum := 0.0
	for _, x := range b.Boards {
		if name == "" || x.Name == name {
			sum += x.Solid.Volume
		}
	}
	return sum / (inch * inch * inch)
}

func (b built) hull() (low, high geom.Vec) {
	low, high = geom.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}, geom.Vec{X: math.Inf(-1), Y: math.Inf(-1), Z: math.Inf(-1)}
	for _, x := range b.Boards {
		box := x.Placed().Around()
		low = geom.Vec{X: math.Min(low.X, box.Low.X), Y: math.Min(low.Y, box.Low.Y), Z: math.Min(low.Z, box.Low.Z)}
		high = geom.Vec{X: math.Max(high.X, box.High.X), Y: math.Max(high.Y, box.High.Y), Z: math.Max(high.Z, box.High.Z)}
	}
	return low, high
}

// A fact is one number of a piece, in inches, square or cubic inches, degrees
// or counts, beside a sum done without this program.
type fact struct {
	name   string
	got    float64
	want   float64
	within float64
	source string
}

func checkFacts(t *testing.T, facts []fact) {
	t.Helper()
	for _, f := range facts {
		if !(math.Abs(f.got-f.want) <= f.within) {
			t.Errorf("%s: %.6f, want %.6f ± %g (%s)", f.name, f.got, f.want, f.within, f.source)
		}
	}
}

func degrees(radians float64) float64 { return radians * 180 / math.Pi }

func figure(f design.Figure) float64 { return float64(f.Q.V) / float64(measure.Inch) }

// pairs is how many pairs of boards a joint fastens, in all copies of its group.
func (b built) pairs(joint string) float64 {
	n := 0
	for _, j := range b.joints {
		if j.Name == joint {
			n += len(j.Pairs)
		}
	}
	return float64(n)
}

// area is the least contact area, in square inches, of a joint's pairs.
func (b built) area(joint string) float64 {
	least := math.NaN()
	for _, j := range b.joints {
		if j.Name != joint {
			continue
		}
		for _, p := range j.Pairs {
			if least = p.Area / (inch * inch); p.Area/(inch*inch) < least {
				least = p.Area / (inch * inch)
			}
		}
	}
	return least
}

func settingsOf(words ...string) design.Settings {
	var s design.Settings
	for i := 0; i < len(words); i += 2 {
		s = append(s, design.Setting{Name: words[i], Value: words[i+1]})
	}
	return s
}

// Sources of the sums below.
const (
	byHand = "by hand: "
	cutter = "a convex cutter written apart in Python: boards as boxes clipped by planes, volumes by the divergence theorem"
)

func TestSortingTable(t *testing.T) {
	d, _ := open(t, "sorting-table.yaml")
	b := build(d, nil)
	if b.Piece == nil {
		t.Fatal("no piece")
	}
	leg := b.named(t, "leg", "front", "left")
	left, _ := extent(leg, geom.Vec{X: 1})
	foot := footWidth(leg)
	low, high := b.hull()
	top, shelf := b.row(t, "top_slat"), b.row(t, "shelf_slat")
	lower := b.named(t, "lower_rail", "left")
	upper := b.named(t, "upper_rail", "left")
	apron := b.named(t, "long_apron", "front")
	apronFront, _ := extent(apron, geom.Vec{Y: 1})
	checkFacts(t, []fact{
		{"leg along an edge", leg.EdgeLength / inch, 33.324310, 1e-6, byHand + "33 / cos 8°"},
		{"leg, long point", leg.L / inch, 33.886473, 1e-6, byHand + "33 / cos 8° + 4 tan 8°: the ends are parallel, the taper takes the short point"},
		{"foot reach", left / inch, -35.950348, 1e-6, byHand + "−69.5/2 + 3.4375 − 33 tan 8°, where 3.4375 is 33 tan 8° − 1.25 = 3.388 up to the next 1/16"},
		{"foot on the floor", foot / inch, 2.777026, 1e-6, byHand + "2.75 / cos 8°"},
		{"taper", degrees(taperAngle(leg)), 2.602564, 1e-6, byHand + "atan(1.25 / (33.324310 − 6 + 1.25 tan 8°))"},
		{"upper rail leans", lean(upper), 8, 1e-9, "it lies on the leg's edge"},
		{"lower rail leans", lean(lower), 10.602564, 1e-6, byHand + "8 + 2.602564: it lies on the taper"},
		{"rails", upper.L / inch, 22.5, 1e-9, byHand + "27 − 2·3/4 − 2·1 1/2 − 0: between the aprons"},
		{"lower rail", lower.L / inch, 22.5, 1e-9, "from leg to leg over all, as the upper one"},
		{"aprons, over all", -2 * apronFront / inch, 25.5, 1e-9, byHand + "27 − 2·3/4"},
		{"aprons, corner to corner", math.Hypot(apron.L, 2*apronFront) / inch, 74.030399, 1e-6, byHand + "√(69.5² + 25.5²)"},
		{"top slats", top.Count.Q.V, 13, 0, byHand + "⌈(70.5 + 3/16) / 5.6875⌉ = ⌈12.43⌉"},
		{"end slats", float64(top.Widths[0].V) / float64(measure.Inch), 3.875, 1e-9, byHand + "(70.5 − 11·5.5 − 12·3/16) / 2"},
		{"top gap", figure(top.Gap), 0.1875, 1e-9, "as asked"},
		{"shelf span", figure(shelf.Span), 69.652042, 1e-6, byHand + "2 (35.950348 − 8 tan 8°), 8 in up the legs"},
		{"shelf slats", shelf.Count.Q.V, 12, 0, byHand + "12 leave (69.652 − 66)/11 = 0.332, 11 leave 0.915; 0.332 is nearer 3/8"},
		{"shelf gap", figure(shelf.Gap), 0.332004, 1e-6, byHand + "(69.652042 − 66) / 11"},
		{"length over all", (high.X - low.X) / inch, 72, 1e-6, "the feet stay under the top"},
		{"depth over all", (high.Y - low.Y) / inch, 27, 1e-6, "the rim takes the place of the overhang"},
		{"height over all", high.Z / inch, 35.25, 1e-6, byHand + "34 + 1 1/4"},
		{"leg", b.volume("leg") / 4, 174.329319, 2e-6, cutter},
		{"shelf and its notches", b.volume("shelf_slat"), 1462.480165, 2e-4, cutter + "; 10 whole slats of 123.75"},
		{"stretcher", b.volume("stretcher") / 2, 368.255657, 2e-6, cutter},
		{"all the wood", b.volume(""), 6343.402496, 2e-4, cutter},
		{"screws into a leg's edge", b.area("rail_screws"), 5.25, 1e-6, byHand + "the lower rail, 3 1/2 · 1 1/2"},
		{"bolts through a leg", b.area("leg_bolts"), 14.137659, 1e-3, byHand + "4 / cos 8° · 3 1/2"},
		{"rail pairs", b.pairs("rail_screws"), 8, 0, "two rails a side, two legs each"},
		{"top pairs", b.pairs("top_screws"), 26, 0, "13 slats on two aprons"},
		{"shelf pairs", b.pairs("shelf_screws"), 24, 0, "12 slats on two stretchers"},
	})
	for _, c := range []struct {
		set  design.Settings
		want float64
	}{
		{settingsOf("rim", "none"), 6116.808746},
		{settingsOf("length", `96"`, "depth", `28"`, "height", `38"`, "splay", "12°", "shelf_height", `12"`, "rim", "none"), 8019.534966},
		{settingsOf("length", `48"`, "depth", `22"`, "height", `30"`, "splay", "0°", "shelf_height", `6"`), 3826.379236},
	} {
		got := build(d, c.set)
		if got.Piece == nil {
			t.Errorf("%v: no piece", c.set)
			continue
		}
		checkFacts(t, []fact{{fmt.Sprint(c.set, " all the wood"), got.volume(""), c.want, 2e-3, cutter}})
	}
}

// The legs stand in from the end of the frame as far as their feet kick out
// again, so that the hull of everything is the top.
func TestTableFeetStayUnderTheTop(t *testing.T) {
	d, _ := open(t, "sorting-table.yaml")
	for _, c := range []struct {
		splay  string
		in     float64 // of the leg from the end of the apron
		source string
	}{
		{"0°", 2.5, "the least that keeps a bolt off the apron's end"},
		{"8°", 3.4375, byHand + "33 tan 8° − 1.25 = 3.388, up to the next 1/16"},
		{"10°", 4.625, byHand + "33 tan 10° − 1.25 = 4.569"},
		{"12°", 5.8125, byHand + "33 tan 12° − 1.25 = 5.764"},
	} {
		b := build(d, settingsOf("splay", c.splay))
		leg := b.named(t, "leg", "front", "left")
		_, right := extent(leg, geom.Vec{X: 1})
		tan := math.Tan(degreesOf(c.splay) * math.Pi / 180)
		cos := math.Cos(degreesOf(c.splay) * math.Pi / 180)
		low, high := b.hull()
		checkFacts(t, []fact{
			{c.splay + " leg in", right/inch - 4/cos + 34.75, c.in, 1e-6, c.source},
			{c.splay + " length over all", (high.X - low.X) / inch, 72, 1e-6, "the top"},
			{c.splay + " long point", leg.L / inch, 33/cos + 4*tan, 1e-6, byHand + "33 / cos a + 4 tan a"},
		})
	}
}

func degreesOf(s string) float64 {
	var v float64
	fmt.Sscanf(s, "%g", &v)
	return v
}

// footWidth is how far a leg's foot reaches along the floor, in mm.
func footWidth(b *design.Board) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	corners, _ := b.Solid.Mesh()
	for _, c := range corners {
		if p := b.Pose.Out(c); math.Abs(p.Z) < geom.Same {
			low, high = math.Min(low, p.X), math.Max(high, p.X)
		}
	}
	return high - low
}

// taperAngle is the angle of a board's taper to its run.
func taperAngle(b *design.Board) float64 {
	for _, c := range b.Cuts {
		if c.Mark.Wide > 0 {
			return math.Asin(math.Abs(c.Plane.N.X))
		}
	}
	return math.NaN()
}

// lean is the tilt of a board's face from upright, in degrees.
func lean(b *design.Board) float64 { return degrees(math.Asin(math.Abs(b.Pose.Z.Z))) }

func TestPickersChair(t *testing.T) {
	d, _ := open(t, "pickers-chair.yaml")
	b := build(d, nil)
	if b.Piece == nil {
		t.Fatal("no piece")
	}
	post, side := b.named(t, "back_post"), b.named(t, "side_rail")
	front, rear := b.named(t, "front_leg"), b.named(t, "rear_leg")
	toe, _ := extent(front, geom.Vec{Y: 1})
	_, heel := extent(rear, geom.Vec{Y: 1})
	seat, back := b.row(t, "seat_slat"), b.row(t, "back_slat")
	slope := degrees(math.Asin(math.Abs(side.Pose.X.Z)))
	rake := 90 - degrees(math.Asin(math.Abs(post.Pose.X.Z)))
	last := b.Boards[0]
	for _, x := range b.Boards {
		if x.Name == "back_slat" && x.Row == 5 {
			last = x
		}
	}
	_, topOfBack := last.Placed().Extent(geom.Vec{Y: math.Sin(rake * math.Pi / 180), Z: math.Cos(rake * math.Pi / 180)})
	low, high := b.hull()
	checkFacts(t, []fact{
		{"seat falls", slope, 3.366461, 1e-6, byHand + "atan(1/17)"},
		{"seat to back", 90 + rake - slope, 101.633539, 1e-6, byHand + "90 + 15 − 3.366461"},
		{"front feet behind the edge", toe/inch + 17, 1.625, 1e-6, byHand + "1/8 + 1 1/2; 60 mm − 20·431.8/600 = 45.6 mm = 1.796 would do (EN 1022 pattern, read)"},
		{"rear feet behind the back", heel / inch, 10.293517, 1e-6, byHand + "post back at 24 in up, (0.75 + 3.5)/cos 15° + (24 − 16) tan 15° = 6.543517, + 1/4 + 3 1/2; 0.905 would do"},
		{"seat slats", seat.Count.Q.V, 5, 0, byHand + "⌈(17/cos 3.366461° + 1.375 + 0.25) / 3.75⌉ = ⌈4.97⌉"},
		{"last seat slat", float64(seat.Widths[4].V) / float64(measure.Inch), 3.404386, 1e-6, byHand + "17.029386 + 1.375 − 4·3.75"},
		{"back slats", back.Count.Q.V, 5, 0, "as asked"},
		{"back gap", figure(back.Gap), 0.375, 1e-9, byHand + "(20 − 1 − 17 1/2) / 4"},
		{"back above the seat", topOfBack/inch - upAtSeat(15), 20, 1e-6, byHand + "1 + 5·3 1/2 + 4·3/8 along the posts, from where their fronts meet the seat"},
		{"width over all", (high.X - low.X) / inch, 32, 1e-6, byHand + "21 + 2·5 1/2"},
		{"height over all", high.Z / inch, 35.756514, 1e-5, cutter},
		{"side rail", side.Solid.Volume / (inch * inch * inch), 142.881276, 2e-6, cutter},
		{"back post and its notch", b.volume("back_post") / 2, 134.795766, 2e-6, cutter},
		{"seat and its notches", b.volume("seat_slat"), 410.054468, 2e-5, cutter + "; 4 whole slats of 83.125"},
		{"front rail, hollowed", b.volume("front_rail"), 141.75 - 14.267747, 0.08, byHand + "27·3 1/2·1 1/2, less 1 1/2 of a segment of 19 by 3/4: R = 60.541667; chords lie inside the arc"},
		{"all the wood", b.volume(""), 2558.844178 - curves(21), 0.1, cutter + ", less the curves"},
		{"notch takes the rail", b.area("rear_rail_screws"), 7.5, 1e-6, byHand + "the bottom of the notch 3 1/2 · 1 1/2, and its walls 2 · 3/4 · 1 1/2"},
		{"bolt pairs at the legs", b.pairs("leg_bolts"), 4, 0, "four legs"},
		{"bolt pairs at the posts", b.pairs("post_bolts"), 4, 0, "two posts, two rails each"},
		{"seat pairs", b.pairs("seat_screws"), 10, 0, "five slats on two rails"},
		{"back pairs", b.pairs("back_screws"), 10, 0, "five slats on two posts"},
	})
	for _, c := range []struct {
		set     design.Settings
		between float64
		want    float64
	}{
		{settingsOf("arms", "slim"), 21, 2477.338626},
		{settingsOf("seat_height", `18 1/2"`, "seat_depth", `18"`, "seat_fall", `1 1/2"`, "between_arms", `22"`, "rake", "20°", "back_slats", "6", "arms", "slim"), 22, 2727.547130 - 17.0129}, // five whole slats for four and two ripped: 24 3/4 (3 1/2 − 4.18739)
		{settingsOf("seat_height", `16"`, "seat_depth", `16"`, "seat_fall", `1/2"`, "between_arms", `20"`, "rake", "8°", "back_slats", "4"), 20, 2310.391731},
	} {
		got := build(d, c.set)
		if got.Piece == nil {
			t.Errorf("%v: no piece", c.set)
			continue
		}
		checkFacts(t, []fact{{fmt.Sprint(c.set, " all the wood"), got.volume(""), c.want - curves(c.between), 0.1, cutter + ", less the curves"}})
	}
}

// curves is the wood in cubic inches that is sawn off the chair in curves: the
// hollow of the front rail, a segment 3/4 in high between 4 in left straight at
// either end; the front corners of the arms at 1 1/2 in, 1 in thick; the upper
// corners of the top slat at 1 in, 3/4 thick.
func curves(betweenArms float64) float64 {
	chord, rise := betweenArms+6-8, 0.75
	r := (chord*chord/4 + rise*rise) / (2 * rise)
	segment := r*r*math.Asin(chord/2/r) - chord/2*(r-rise)
	return 1.5*segment + (4*1.5*1.5+2*0.75)*(1-math.Pi/4)
}

// upAtSeat is how far along the posts, from the origin, their fronts meet the
// seat: the point of the plane of the fronts, 3/4 in square behind the seat's
// back line 16 in up, that lies on the seat.
func upAtSeat(rake float64) float64 {
	sin, cos := math.Sincos(rake * math.Pi / 180)
	fall := math.Atan(1. / 17)
	y0, z0 := 0.75/cos, 16.0 // on the fronts
	// Along (sin, cos) from there to the seat: z = 16 − y tan fall.
	t := (16 - float64(y0*math.Tan(fall)) - z0) / (cos + float64(sin*math.Tan(fall)))
	y, z := y0+float64(t*sin), z0+float64(t*cos)
	return float64(y*sin) + float64(z*cos)
}
