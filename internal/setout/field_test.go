package setout

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// swung is the orientation of boards that face up and run right, their right end
// swung so many degrees toward the back.
func swung(t testing.TB, degrees float64) Frame {
	return must[Frame](t)(Orient(Piece(), Right, Up, []Tilt{{Right, deg(degrees), Back}}, false))
}

// inches makes an outline on the floor of corners in inches.
func inches(at ...float64) []geom.Vec {
	var out []geom.Vec
	for i := 0; i < len(at); i += 2 {
		out = append(out, geom.Vec{X: at[i] * inch, Y: at[i+1] * inch})
	}
	return out
}

// sawn makes the boards of a field, an inch thick.
func sawn(t testing.TB, f Frame, p Panel) []*board.Board {
	t.Helper()
	var out []*board.Board
	for i, k := range p.Pieces {
		b, cuts, err := k.Blank(f, Slab{f.Face, 0, inch}, "hollow")
		if err != nil {
			t.Fatalf("piece %d: %v", i+1, err)
		}
		made := b.Board(nil, cuts)
		if err := made.Solid.Check(); err != nil {
			t.Fatalf("piece %d: %v", i+1, err)
		}
		if d := made.Solid.Volume/inch - k.Area; math.Abs(d) > 1e-3 { // widths are sawn to the nanometre
			t.Fatalf("piece %d: the board's face has %v mm², the outline %v", i+1, made.Solid.Volume/inch, k.Area)
		}
		out = append(out, made)
	}
	return out
}

// cornerArea is the area of a wide × deep rectangle within d of a corner, measured
// at 45°: a triangle d², then a band, then all but the triangle at the other end.
func cornerArea(wide, deep, d float64) float64 {
	short, all := math.Min(wide, deep), (wide+deep)/math.Sqrt2
	switch a := short / math.Sqrt2; {
	case d <= a:
		return d * d
	case d <= all-a:
		return a*a + (d-a)*short*math.Sqrt2
	default:
		return wide*deep - (all-d)*(all-d)
	}
}

func TestDiagonalPanel(t *testing.T) {
	const wide, deep, w = 26.5, 27.0, 5.5
	across := (wide + deep) / math.Sqrt2 // 37.830
	for _, c := range []struct {
		what          string
		rest          Rest
		gap, least    float64
		n             int
		first, second float64 // in: width of the first strip and the last
		bare          float64 // in: before the first
		source        string
	}{
		{"halved", Halved, 0.125, 0, 8, 1.9776, 1.9776, 0, "by hand: (37.830 − 6·5.5 − 7/8)/2"},
		{"halved, 2 1/2 at least", Halved, 0.125, 2.5, 7, 4.7901, 4.7901, 0, "by hand: one board and one gap less, 5.625/2 more each"},
		{"all last", AllLast, 0.125, 0, 7, 5.5, 4.0802, 0, "by hand: 37.830 − 6·5.625"},
		{"all first", AllFirst, 0.125, 0, 7, 4.0802, 5.5, 0, "the other way about"},
		{"all last, shared", AllLast, 0.125, 4.5, 7, 5.5, 4.7901, 0, "rule 23: (5.5 + 4.0802)/2"},
		{"a board in the middle", MiddleBoard, 0.125, 0, 7, 4.7901, 4.7901, 0, "by hand: (37.830 − 5·5.5 − 6/8)/2"},
		{"a gap in the middle", MiddleGap, 0.125, 0, 8, 1.9776, 1.9776, 0, "by hand: as halved, 6 whole boards"},
		{"a gap in the middle, wide gaps", MiddleGap, 1, 0, 6, 5.4151, 5.4151, 0, "by hand: (37.830 − 4·5.5 − 5)/2"},
		{"a board in the middle, wide gaps", MiddleBoard, 1.3, 0, 7, 1.2651, 1.2651, 0, "by hand: (37.830 − 5·5.5 − 6·1.3)/2"},
	} {
		f := swung(t, 45)
		outline := inches(0, 0, wide, 0, wide, deep, 0, deep)
		p := must[Panel](t)(LayField(f, Field{Outline: outline, Width: w * inch, Gap: c.gap * inch, Least: c.least * inch, Rest: c.rest}))
		if len(p.Pieces) != c.n || len(p.Strips) != c.n {
			t.Errorf("%s: %d pieces in %d strips, want %d (%s)", c.what, len(p.Pieces), len(p.Strips), c.n, c.source)
			continue
		}
		near(t, c.what+": across", p.Across/inch, across, 1e-9)
		first, last := p.Strips[0], p.Strips[c.n-1]
		near(t, c.what+": first ("+c.source+")", (first.Hi-first.Lo)/inch, c.first, 5e-5)
		near(t, c.what+": last", (last.Hi-last.Lo)/inch, c.second, 5e-5)
		near(t, c.what+": before the first", first.Lo/inch, c.bare, 1e-9)
		near(t, c.what+": after the last", across-last.Hi/inch, c.bare, 1e-9)
		total, gaps := 0.0, 0.0
		for i, k := range p.Pieces {
			s := p.Strips[i]
			near(t, c.what+": area of a piece", k.Area/(inch*inch), cornerArea(wide, deep, s.Hi/inch)-cornerArea(wide, deep, s.Lo/inch), 1e-9)
			total += k.Area
			if i > 0 {
				g := p.Strips[i-1].Hi
				near(t, c.what+": gap", (s.Lo-g)/inch, c.gap, 1e-9)
				gaps += cornerArea(wide, deep, s.Lo/inch) - cornerArea(wide, deep, g/inch)
			}
		}
		near(t, c.what+": boards and gaps", total/(inch*inch)+gaps, wide*deep, 1e-9)
		sawn(t, f, p)
	}
}

// The corner pieces of a square panel are triangles, and number 1 lies at the
// front; what is too small to hold is told.
func TestPanelPieces(t *testing.T) {
	f := swung(t, 45)
	p := must[Panel](t)(LayField(f, Field{Outline: inches(0, 0, 22, 0, 22, 22, 0, 22), Width: 5.5 * inch, Gap: 0.125 * inch, Rest: MiddleBoard}))
	boards := sawn(t, f, p)
	first := boards[0]
	if middle := first.Placed().Middle(); middle.X < 20*inch || middle.Y > 2*inch {
		t.Errorf("the first piece lies at %v, want the front right corner", middle)
	}
	half := (22*math.Sqrt2 - 5*5.5 - 6*0.125) / 2 // by hand: 1.431
	near(t, "corner piece, long point", first.L/inch, 2*half, 1e-9)
	near(t, "corner piece, short point", first.Short, 0, 1e-9)
	if len(p.Faults) != 2 || p.Faults[0].Kind != PieceShort || p.Faults[0].Count != 1 || p.Faults[1].Count != 7 {
		t.Fatalf("faults %v, want the two corners", p.Faults)
	}
	near(t, "so long", p.Faults[0].Has/inch, 2*half, 1e-9)
	// The board through a corner of the panel is pointed there: two cuts on that end.
	two := 0
	for _, k := range p.Pieces {
		for _, e := range k.Ends {
			if len(e.Planes) == 2 {
				two++
			}
		}
	}
	if two != 2 {
		t.Errorf("%d pointed ends, want 2: of the middle board", two)
	}
	for _, b := range boards {
		for _, c := range append(b.End(board.Start), b.End(board.Finish)...) {
			mitre, bevel := board.Setting(c.Plane)
			near(t, "mitre", math.Abs(mitre), deg(45), 1e-9)
			near(t, "bevel", bevel, 0, 1e-12)
		}
	}
	thin := must[Panel](t)(LayField(swung(t, 0), Field{Outline: inches(0, 0, 30, 0, 30, 6, 0, 6), Width: 5.5 * inch, Gap: 0.125 * inch, Rest: AllLast}))
	if len(thin.Faults) != 1 || thin.Faults[0].Kind != PieceThin {
		t.Fatalf("faults %v, want a strip of 3/8 in", thin.Faults)
	}
	near(t, "so thin", thin.Faults[0].Has/inch, 0.375, 1e-9)
}

func TestOutlinesThatLookIn(t *testing.T) {
	for _, c := range []struct {
		what    string
		outline []geom.Vec
		swing   float64
		pieces  int
		hollows int
		area    float64 // in²
		source  string
	}{
		{"a U across the boards parts the strips", inches(0, 0, 30, 0, 30, 20, 20, 20, 20, 5, 10, 5, 10, 20, 0, 20), 0, 7, 0, 30*20 - 10*15,
			"by hand: strips of 5, the first whole, three parted"},
		{"a step along the boards", inches(0, 0, 30, 0, 30, 20, 15, 20, 15, 8, 0, 8), 0, 4, 1, 15*8 + 15*20, "by hand: the second strip is hollowed 2 in"},
		{"a bite out of one end", inches(0, 0, 30, 0, 30, 20, 0, 20, 6, 12.5), 0, 4, 1, 600 - 60, "by hand: less a triangle 20 × 6 / 2"},
		{"a bite with a flat bottom", inches(0, 0, 30, 0, 30, 20, 0, 20, 4, 14, 4, 11), 0, 4, 1, 600 - 4*(20+3)/2, "by hand: less a trapezium"},
		{"a hexagon", inches(10, 0, 30, 0, 40, 17, 30, 34, 10, 34, 0, 17), 0, 7, 0, 20*34 + 2*10*34/2, "by hand"},
		{"a triangle", inches(0, 0, 40, 0, 20, 30), 0, 6, 0, 600, "by hand"},
	} {
		for _, turned := range []bool{false, true} {
			outline := c.outline
			if turned {
				outline = reversed(outline)
			}
			f := swung(t, c.swing)
			p := must[Panel](t)(LayField(f, Field{Outline: outline, Width: 5 * inch, Rest: AllLast}))
			total, n := 0.0, 0
			for _, k := range p.Pieces {
				total += k.Area
				n += len(k.Hollows)
			}
			if len(p.Pieces) != c.pieces || n != c.hollows {
				t.Errorf("%s: %d pieces, %d hollows, want %d and %d (%s)", c.what, len(p.Pieces), n, c.pieces, c.hollows, c.source)
			}
			near(t, c.what+": area", total/(inch*inch), c.area, 1e-9)
			near(t, c.what+": outline", p.Area/(inch*inch), c.area, 1e-9)
			sawn(t, f, p)
		}
	}
}

func TestFieldRefuses(t *testing.T) {
	f := swung(t, 45)
	square := inches(0, 0, 24, 0, 24, 24, 0, 24)
	for _, c := range []struct {
		what string
		f    Frame
		in   Field
		kind FaultKind
	}{
		{"no inside", f, Field{Outline: inches(0, 0, 24, 0, 12, 0), Width: 100}, NoRow},
		{"two corners", f, Field{Outline: inches(0, 0, 24, 24), Width: 100}, NoRow},
		{"no width", f, Field{Outline: square}, NoRow},
		{"a bow tie", f, Field{Outline: inches(0, 0, 24, 24, 30, 0, 0, 30), Width: 100}, Crosses},
		{"corners too narrow", f, Field{Outline: square, Width: 5.5 * inch, Gap: 0.125 * inch, Least: 6 * inch}, RowNarrow},
		{"an edge along the boards, nearly", swung(t, 5), Field{Outline: square, Width: 5.5 * inch}, Grazing},
		{"a million", f, Field{Outline: square, Width: 0.01}, TooMany},
	} {
		_, err := LayField(c.f, c.in)
		fault(t, c.what, err, c.kind)
	}
}

// Whatever the outline, and however the boards run in it, they fill it; and the
// mirrored field has the mirrored boards.
func TestFieldsFillTheirOutline(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		n := rapid.IntRange(3, 7).Draw(r, "corners")
		var outline []geom.Vec
		for i := range n { // star-shaped: it crosses itself nowhere
			angle := deg(float64(i)*360/float64(n) + float64(rapid.IntRange(0, 30).Draw(r, "turn")))
			reach := float64(rapid.IntRange(300, 1500).Draw(r, "reach"))
			outline = append(outline, geom.Vec{X: reach * math.Cos(angle), Y: reach * math.Sin(angle)})
		}
		swing := float64(rapid.IntRange(-70, 70).Draw(r, "swing"))
		in := Field{Outline: outline, Width: float64(rapid.IntRange(80, 400).Draw(r, "width")), Rest: Rest(rapid.IntRange(0, 4).Draw(r, "rest"))}
		f, err := Orient(Piece(), Right, Up, []Tilt{{Right, deg(swing), Back}}, false)
		if err != nil {
			r.Fatal(err)
		}
		p, err := LayField(f, in)
		if err != nil {
			return // an edge too near the boards' run
		}
		total, volume := 0.0, 0.0
		for i, k := range p.Pieces {
			total += k.Area
			b, cuts, err := k.Blank(f, Slab{f.Face, 0, 25}, "hollow")
			if err != nil {
				r.Fatalf("piece %d: %v", i+1, err)
			}
			made := b.Board(nil, cuts)
			if err := made.Solid.Check(); err != nil && k.Area > 1000 { // slivers are told, and nobody saws them
				r.Fatalf("piece %d: %v", i+1, err)
			}
			volume += made.Solid.Volume
		}
		if math.Abs(total-p.Area) > 1e-3+0.02*float64(len(p.Pieces)) {
			r.Fatalf("boards cover %v mm², the outline %v", total, p.Area)
		}
		if math.Abs(volume/25-total) > 1e-3 {
			r.Fatalf("boards hold %v mm², outlines %v", volume/25, total)
		}
		m := Mirror(Piece(), Right, 40)
		in.Outline = nil
		for _, v := range outline {
			in.Outline = append(in.Outline, m.Point(v))
		}
		g, _ := Orient(Piece(), Left, Up, []Tilt{{Left, deg(swing), Back}}, false)
		image, err := LayField(g, in)
		if err != nil || len(image.Pieces) != len(p.Pieces) {
			r.Fatalf("the mirrored field: %d pieces, %v; want %d", len(image.Pieces), err, len(p.Pieces))
		}
		for i, k := range image.Pieces {
			if math.Abs(k.Area-p.Pieces[i].Area) > 1e-3 {
				r.Fatalf("piece %d has %v mm², its image %v", i+1, p.Pieces[i].Area, k.Area)
			}
		}
	})
}
