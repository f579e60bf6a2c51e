package shop

import (
	"testing"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/setout"
	"scantling/internal/steady"
)

// blank is a 2x4, 30 in long, its sides named as of a rail seen from the front.
func blank(cuts ...board.Cut) *board.Board {
	b := &board.Board{ID: "rail", L: 30 * inch, W: inches(3.5), T: inches(1.5), Cuts: cuts, Pose: geom.Unmoved(),
		Sides: [6]string{"left", "right", "bottom", "top", "back", "front"}}
	b.Build()
	return b
}

// box returns the walls of a box, in inches, without those of the sides it opens at.
func box(kind board.Kind, side board.Side, low, high geom.Vec, open ...board.Side) board.Cut {
	c := board.Cut{Kind: kind, Side: side, Low: low.Times(inch), High: high.Times(inch), Open: open}
	for s := board.Start; s <= board.Show; s++ {
		if opens(c, s) || s == side || kind == board.Notch && s.IsFace() {
			continue
		}
		at := c.Low
		if s&1 == 1 {
			at = c.High
		}
		c.Waste = append(c.Waste, geom.Facing(at, s.Out()))
	}
	return c
}

func TestCutsInWords(t *testing.T) {
	v := func(x, y, z float64) geom.Vec { return geom.Vec{X: x, Y: y, Z: z} }
	corner := box(board.Notch, board.Show, v(0, 0, 0), v(3, 1.25, 1.5), board.Start, board.Near)
	far := box(board.Notch, board.Show, v(26, 2.5, 0), v(30, 3.5, 1.5), board.Finish, board.Far)
	middle := box(board.Notch, board.Show, v(10, 2.5, 0), v(13.5, 3.5, 1.5), board.Far)
	closed := box(board.Notch, board.Show, v(10, 1, 0), v(12, 2, 1.5))
	dado := box(board.Housing, board.Show, v(10, 0, 1), v(13.5, 3.5, 1.5), board.Near, board.Far)
	dado.Depth, dado.Meets = 0.5*inch, "post"
	inEdge := box(board.Housing, board.Far, v(10, 2.75, 0), v(11.5, 3.5, 1), board.Under)
	inEdge.Depth = 0.75 * inch
	// Let in round a post that leans 20 degrees: 3 1/2 along the post's own width is
	// 3 1/2 ÷ cos 20° = 3.725 along the rail, and 3.5·tan 20° = 1.274 further along at
	// the top than at the bottom.
	slanted := dado
	n := geom.Vec{X: steady.Cos(rad(20)), Y: -steady.Sin(rad(20))}
	slanted.Waste = []geom.Plane{geom.Facing(v(10, 0, 0).Times(inch), n.Negated()), geom.Facing(v(10+3.5/steady.Cos(rad(20)), 0, 0).Times(inch), n)}
	snip := board.Cut{Kind: board.Snip, Plane: geom.Facing(v(28, 3.5, 0).Times(inch), v(1, 2, 0))}
	lap := box(board.HalfLap, board.Under, v(10, 0, 0), v(13.5, 3.5, 0.75), board.Near, board.Far)
	lap.Depth, lap.Meets = 0.75*inch, "rail"
	groove := box(board.Housing, board.Under, v(0, 1, 0), v(30, 1.375, 0.25), board.Start, board.Finish)
	groove.Depth = 0.25 * inch
	sized := lying(30, 3.5, 1.5)
	slot := recess(t, sized, setout.Recess{Kind: board.Slot, Side: board.Show, Round: true,
		Along: setout.Stretch{From: board.Start, Lo: 6 * inch, Hi: 10 * inch}, Across: setout.Stretch{From: board.Near, Lo: 1.25 * inch, Hi: 2.25 * inch}})
	half := curved(t)(sized.RoundEnd("", board.Finish, 0))
	segment := curved(t)(sized.RoundEnd("", board.Finish, 2.5*inch))
	quarter := curved(t)(sized.RoundCorner("", board.Start, board.Far, 1*inch))
	arch := curved(t)(sized.Arch("", board.Near, 3*inch, 3*inch, 1.5*inch))
	mitre := board.Cut{Kind: board.EndCut, Side: board.Finish, Plane: geom.Facing(v(30, 3.5, 0).Times(inch), v(1, -0.5, 0))}
	atMitre := box(board.Notch, board.Show, v(25.25, 0, 0), v(30, 1, 1.5), board.Near, board.Finish)

	for _, c := range []struct {
		name string
		b    *board.Board
		cut  board.Cut
		want string
	}{
		{"corner", blank(corner), corner, `Cut a notch through the thickness: 3" from the left end along the bottom edge, 1 1/4" in from the bottom edge.`},
		{"far corner", blank(far), far, `Cut a notch through the thickness: 4" from the right end along the top edge, 1" in from the top edge.`},
		{"in an edge", blank(middle), middle, `Cut a notch through the thickness: from 10" to 13 1/2" from the left end along the top edge, 1" in from the top edge.`},
		{"closed", blank(closed), closed, `Cut a notch through the thickness: from 10" to 12" from the left end along the bottom edge, from 1" to 2" in from the bottom edge.`},
		{"housing", blank(dado), dado, `Let into the front face, 1/2" deep: from 10" to 13 1/2" from the left end along the bottom edge, all the way across; it goes round the post.`},
		{"housing in an edge", blank(inEdge), inEdge, `Let into the top edge, 3/4" deep: from 10" to 11 1/2" from the left end along the back face, 1" in from the back face.`},
		{"slanted housing", blank(slanted), slanted, `Let into the front face, 1/2" deep: from 10" to 13 3/4" from the left end along the bottom edge; from 11 1/4" to 15" from the left end along the top edge; join them, 20° off square, all the way across; it goes round the post.`},
		{"corner sawn off", blank(snip), snip, `Saw off the corner of the right end and the top edge: mark 2" along the edge and 1" along the end, and join.`},
		// The end falls back 3.5·0.5 = 1 3/4 along the bottom edge: 28 1/4 − 25 1/4 = 3.
		{"at a mitred end", blank(mitre, atMitre), atMitre, `Cut a notch through the thickness: 3" from the right end along the bottom edge, 1" in from the bottom edge.`},
		{"half lap", blank(lap), lap, `Lap into the back face, 3/4" deep: from 10" to 13 1/2" from the left end along the bottom edge, all the way across; it crosses the rail there.`},
		{"groove by size", blank(groove), groove, `Let into the back face, 1/4" deep: from end to end, from 1" to 1 3/8" in from the bottom edge: with a straight bit of 3/8" or less, or a saw and a chisel.`},
		{"slot", blank(slot), slot, `Cut a slot through the front face: drill two holes of 1", centre 6 1/2" and 9 1/2" from the left end, 1 3/4" in from the bottom edge, and saw out the wood between.`},
		{"round end", blank(half), half, `Round the right end: set a compass to 1 3/4", its point in the middle of the width 1 3/4" from the right end. Draw it once on a template if there are several.`},
		// 2 1/2 − √(2 1/2² − 1 3/4²) = 0.715.
		{"flat round end", blank(segment), segment, `Round the right end: set a compass to 2 1/2", its point in the middle of the width 2 1/2" from the right end; it meets the edges 11/16" from the right end. Draw it once on a template if there are several.`},
		{"round corner", blank(quarter), quarter, `Round the corner of the left end and the top edge: set a compass to 1", its point 1" from both. Draw it once on a template if there are several.`},
		// A chord of 24 and a rise of 1 1/2 have a radius of (144 + 2.25)/3 = 48.75; at 6 in from the middle it stands
		// √(48.75² − 36) − 47.25 = 1.129 in.
		{"arch", blank(arch), arch, `Hollow the bottom edge in one curve: from 3" from the left end to 3" from the right end, 1 1/2" in halfway and 1 1/8" in at the quarters; bend a thin strip through the marks and draw along it (a radius of 48 3/4").`},
	} {
		if got := (&shop{}).cut(c.b, c.cut).Words.String(); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// lying returns a square-ended blank of the given sizes in inches.
func lying(l, w, t float64) setout.Blank {
	f := setout.Frame{Run: geom.Vec{X: 1}, Edge: geom.Vec{Y: 1}, Face: geom.Vec{Z: 1}}
	end := func(n geom.Vec, d float64) setout.End { return setout.End{Planes: []geom.Plane{{N: n, D: d}}} }
	b, err := setout.Fit(setout.Bar{Frame: f, Width: setout.Slab{N: f.Edge, Hi: w * inch}, Thick: setout.Slab{N: f.Face, Hi: t * inch}},
		end(geom.Vec{X: -1}, 0), end(geom.Vec{X: 1}, l*inch), 0, nil)
	if err != nil {
		panic(err)
	}
	return b
}

func curved(t *testing.T) func(board.Cut, error) board.Cut {
	return func(c board.Cut, err error) board.Cut {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
}

func recess(t *testing.T, b setout.Blank, r setout.Recess) board.Cut {
	t.Helper()
	return curved(t)(b.Recess(r))
}

func TestEdgesAndHolesInWords(t *testing.T) {
	s := &shop{}
	b := blank()
	edge := func(work board.EdgeWork, size float64, along ...board.Arris) string {
		return s.edge(b, board.Edge{Work: work, Size: inches(size), Along: along}).Words.String()
	}
	hole := func(at, way geom.Vec, bit, depth float64) string {
		return s.hole(b, board.Hole{At: at.Times(inch), Way: way, Diameter: bit * inch, Depth: depth * inch}).Words.String()
	}
	show := board.Show
	for _, c := range []struct{ got, want string }{
		{edge(board.Round, 0.25, board.Arris{board.Near, show}, board.Arris{board.Far, show}), `round over both long corners of the front face, 1/4" (a router and a round-over bit, or sandpaper)`},
		{edge(board.Chamfer, 0.125, board.Arris{board.Start, show}, board.Arris{board.Finish, show}, board.Arris{board.Near, show}, board.Arris{board.Far, show}), `chamfer all round the front face, 1/8" (a router and a chamfer bit, or a plane)`},
		{edge(board.Bead, 0.25, board.Arris{board.Near, show}), `bead the corner between front face and bottom edge, 1/4" (a router and a beading bit)`},
		{hole(geom.Vec{X: 2, Y: 1, Z: 1.5}, geom.Vec{Z: -1}, 11.0/32, 0), `drill 11/32" in the front face, centre 2" from the left end and 1" from the bottom edge, all the way through`},
		{hole(geom.Vec{X: 29, Y: 3.5, Z: 1}, geom.Vec{Y: -1}, 0.375, 2), `drill 3/8" in the top edge, centre 29" from the left end and 1/2" from the front face, 2" deep`},
	} {
		if c.got != c.want {
			t.Errorf("\n got %s\nwant %s", c.got, c.want)
		}
	}
}

func TestLengthsTakenFromTheWork(t *testing.T) {
	end := func(side board.Side, meets string) board.Cut {
		return board.Cut{Kind: board.EndCut, Side: side, Square: true, Meets: meets}
	}
	for _, c := range []struct{ start, finish, want string }{
		{"long apron, back", "long apron, front", "cut to fit: measure from the back of one long apron to the front of the other first"},
		{"floor", "deck, bottom", "cut to fit: measure from the floor to the bottom of the deck first"},
		{"", "post, left", "cut to fit: measure to the left of the post first"},
		{"", "", "cut to fit: measure the place first"},
	} {
		b := &board.Board{Cuts: []board.Cut{end(board.Start, c.start), end(board.Finish, c.finish)}}
		if got := toFit(b); got != c.want {
			t.Errorf("got %s, want %s", got, c.want)
		}
	}
	// A rail made before what it fits between follows from the plan, not the work.
	for _, c := range []struct {
		steps []design.Step
		want  Origin
	}{
		{[]design.Step{{Add: []board.ID{"short"}}, {Add: []board.ID{"long"}}}, Reference},
		{[]design.Step{{Add: []board.ID{"long"}}, {Add: []board.ID{"short"}}}, ToFit},
	} {
		p := tableFrame(t)
		p.Boards = p.Boards[:3]
		short := p.Boards[2]
		short.LengthIs, short.Cuts = ToFit, []board.Cut{end(board.Start, "long apron, back"), end(board.Finish, "long apron, front")}
		p.Steps, p.Joints, p.Rows = c.steps, nil, nil
		for _, q := range compute(p).Parts {
			if q.Name == "short apron" && q.Long.Origin != c.want {
				t.Errorf("origin %d, want %d", q.Long.Origin, c.want)
			}
		}
	}
}

func TestWallsOfANotchHaveNames(t *testing.T) {
	b := &design.Board{Board: blank(box(board.Notch, board.Show, geom.Vec{X: 10, Y: 2.5}, geom.Vec{X: 13.5, Y: 3.5, Z: 1.5}, board.Far))}
	at := geom.Vec{X: 304.8, Y: 65, Z: 10}
	for _, c := range []struct {
		n    geom.Vec
		want string
	}{
		{geom.Vec{X: 1}, "shoulder toward the " + sideName(b.Board, board.Finish) + " of the notch"},
		{geom.Vec{X: -1}, "shoulder toward the " + sideName(b.Board, board.Start) + " of the notch"},
		{geom.Vec{Y: 1}, "bottom of the notch"},
	} {
		if got := wallName(b, board.TagOf(0), c.n, at); got != c.want {
			t.Errorf("%v: %s, want %s", c.n, got, c.want)
		}
	}
	if got := wallName(b, geom.Tag(board.Far), geom.Vec{Y: 1}, at); got != "top edge" {
		t.Error(got)
	}
	// A second notch: they are told apart by the end each is nearest.
	two := b.Cuts[0]
	two.Low.X, two.High.X = two.Low.X+200, two.High.X+200
	b.Cuts = append(b.Cuts, two)
	if got, want := wallName(b, board.TagOf(0), geom.Vec{Y: 1}, at.Plus(geom.Vec{X: 200})), "bottom of the notch nearest the "+sideName(b.Board, board.Finish); got != want {
		t.Errorf("%s, want %s", got, want)
	}
}
