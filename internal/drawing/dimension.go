package drawing

import (
	"math"
	"sort"
	"strings"

	"scantling/internal/typeset"
)

// A Side of a figure is where dimensions stand.
type Side uint8

const (
	Below Side = iota
	Above
	LeftOf
	RightOf
)

func (s Side) level() bool { return s == Below || s == Above }

// A Place is a point of a figure in mm of wood, x to the right and y up.
type Place struct{ X, Y float64 }

// A Dim is the distance between two places, measured level (Below, Above) or
// upright (LeftOf, RightOf) and written outside the figure on that side.
type Dim struct {
	From, To Place
	Side     Side
	Text     string // as printed: `33 13/16"`
}

// A Running is marks measured from one end, so that no error adds up. The datum
// bears a ring, each mark an arrow and its distance.
type Running struct {
	Datum Place
	Side  Side
	Marks []RunningMark
}

// A RunningMark is one distance from the datum.
type RunningMark struct {
	At   Place
	Text string
}

// Sizes of dimensions, in mm of paper.
const (
	firstLine = 6.0 // from the outline to the nearest dimension line
	pastLine  = 1.6 // how far extension lines run past it
	offWood   = 1.0 // gap between the wood and an extension line
	arrowLong = 2.2
	arrowWide = 0.8
	labelGap  = 1.2 // clear of a label on either side
)

var labelStyle = typeset.Style{Face: typeset.Regular, Size: 9.5}

func label(text string) typeset.Line {
	return typeset.Set(typeset.Span{Text: text, Style: labelStyle, Kind: typeset.Figure})
}

// words sets prose that may hold figures: each of its blank-separated pieces that
// begins with a digit is one.
func words(text string) typeset.Line {
	var spans []typeset.Span
	for i, w := range strings.Split(text, " ") {
		if i > 0 {
			spans = append(spans, typeset.Span{Text: " ", Style: labelStyle})
		}
		kind := typeset.Words
		if w != "" && w[0] >= '0' && w[0] <= '9' {
			kind = typeset.Figure
		}
		spans = append(spans, typeset.Span{Text: w, Style: labelStyle, Kind: kind})
	}
	return typeset.Set(spans...)
}

func height(l typeset.Line) float64 { return l.Ascent + l.Descent }

// A rank is dimensions that share one line alongside the figure.
type rank struct {
	dims    []Dim
	running *Running
	taken   [][2]float64 // stretches along the side already used
	deep    float64      // mm of paper it needs across
}

// ranks stacks the dimensions of one side: running marks nearest the wood, then
// the shortest distances, so that no extension line crosses a dimension line.
func (f *Figure) ranks(side Side, m mapping) []rank {
	var out []rank
	for i := range f.Running {
		if r := &f.Running[i]; r.Side == side {
			out = append(out, rank{running: r, deep: runningDepth(r, m)})
		}
	}
	first := len(out)
	var dims []Dim
	for _, d := range f.Dims {
		if d.Side == side {
			dims = append(dims, d)
		}
	}
	sort.SliceStable(dims, func(i, j int) bool { return reachOf(dims[i], side) < reachOf(dims[j], side) })
	for _, d := range dims {
		lo, hi, deep := d.extent(m)
		placed := false
		for i := first; i < len(out) && !placed; i++ {
			if out[i].free(lo, hi) {
				out[i].put(d, lo, hi, deep)
				placed = true
			}
		}
		if !placed {
			out = append(out, rank{})
			out[len(out)-1].put(d, lo, hi, deep)
		}
	}
	return out
}

func (r *rank) free(lo, hi float64) bool {
	for _, t := range r.taken {
		if lo < t[1] && t[0] < hi {
			return false
		}
	}
	return true
}

func (r *rank) put(d Dim, lo, hi, deep float64) {
	r.dims = append(r.dims, d)
	r.taken = append(r.taken, [2]float64{lo, hi})
	r.deep = math.Max(r.deep, deep)
}

func reachOf(d Dim, side Side) float64 {
	if side.level() {
		return math.Abs(d.To.X - d.From.X)
	}
	return math.Abs(d.To.Y - d.From.Y)
}

// extent returns the stretch of the side a dimension takes on paper, its label
// included, and how deep it is across.
func (d Dim) extent(m mapping) (lo, hi, deep float64) {
	l := label(d.Text)
	a, b := m.point(d.From), m.point(d.To)
	long, across := l.Width, height(l)
	lo, hi = math.Min(a.X, b.X), math.Max(a.X, b.X)
	if !d.Side.level() {
		long, across = across, long
		lo, hi = math.Min(a.Y, b.Y), math.Max(a.Y, b.Y)
	}
	if hi-lo < long+float64(2*(arrowLong+labelGap)) { // label beyond the end
		if d.Side.level() {
			return lo - arrowLong - 1, hi + arrowLong + long + float64(2*labelGap), across + 2
		}
		return lo - arrowLong - long - float64(2*labelGap), hi + arrowLong + 1, across + 2
	}
	return lo, hi, across + 2
}

// A mapping carries a figure's places to paper.
type mapping struct {
	scale      float64
	left, base float64 // paper place of (x0, y0)
	x0, y0     float64
}

func (m mapping) point(p Place) Point {
	return Point{m.left + float64((p.X-m.x0)*m.scale), m.base - float64((p.Y-m.y0)*m.scale)}
}

// along returns a paper point from a coordinate along a side and one across it.
func along(side Side, t, across float64) Point {
	if side.level() {
		return Point{t, across}
	}
	return Point{across, t}
}

func split(side Side, p Point) (t, across float64) {
	if side.level() {
		return p.X, p.Y
	}
	return p.Y, p.X
}

// outward is the paper direction away from the figure: down and right count up.
func outward(side Side) float64 {
	if side == Below || side == RightOf {
		return 1
	}
	return -1
}

// drawRank draws the dimensions of a rank with their line at the given paper
// coordinate across the side.
func drawRank(g *Group, r rank, side Side, line float64, m mapping) {
	if r.running != nil {
		drawRunning(g, r.running, line, m)
		return
	}
	for _, d := range r.dims {
		a, b := m.point(d.From), m.point(d.To)
		ta, ca := split(side, a)
		tb, cb := split(side, b)
		if tb < ta {
			ta, tb, ca, cb = tb, ta, cb, ca
		}
		extension(g, side, ta, ca, line)
		extension(g, side, tb, cb, line)
		l := label(d.Text)
		long := l.Width
		if !side.level() {
			long = height(l)
		}
		if tb-ta >= long+float64(2*(arrowLong+labelGap)) {
			stroke(g, along(side, ta, line), along(side, tb, line))
			arrow(g, side, ta, line, 1)
			arrow(g, side, tb, line, -1)
			put(g, l, along(side, (ta+tb)/2, line))
			continue
		}
		stroke(g, along(side, ta-arrowLong-1, line), along(side, ta, line))
		arrow(g, side, ta, line, -1)
		arrow(g, side, tb, line, 1)
		stroke(g, along(side, tb, line), along(side, tb+arrowLong+1, line))
		if side.level() {
			put(g, l, along(side, tb+arrowLong+labelGap+float64(long/2)+0.6, line))
		} else {
			put(g, l, along(side, ta-arrowLong-labelGap-float64(long/2)-0.6, line))
		}
	}
}

// runningRows spreads labels over rows so that none lies over another: the
// first row where it is free.
func runningRows(r *Running, m mapping) (rows []int, count int) {
	var ends []float64 // how far each row is taken
	rows = make([]int, len(r.Marks))
	order := make([]int, len(r.Marks))
	for i := range order {
		order[i] = i
	}
	at := func(i int) float64 { t, _ := split(r.Side, m.point(r.Marks[i].At)); return t }
	sort.SliceStable(order, func(a, b int) bool { return at(order[a]) < at(order[b]) })
	for _, i := range order {
		l := label(r.Marks[i].Text)
		half := float64(l.Width/2) + labelGap/2
		if !r.Side.level() {
			half = float64(height(l)/2) + 0.4
		}
		row := 0
		for row < len(ends) && ends[row] > at(i)-half {
			row++
		}
		if row == len(ends) {
			ends = append(ends, 0)
		}
		ends[row] = at(i) + half
		rows[i] = row
	}
	return rows, len(ends)
}

// rowPitch is the distance between rows of running labels.
func rowPitch(r *Running) float64 {
	pitch := 0.0
	for _, mk := range r.Marks {
		l := label(mk.Text)
		if r.Side.level() {
			pitch = math.Max(pitch, height(l)+0.6)
		} else {
			pitch = math.Max(pitch, l.Width+labelGap)
		}
	}
	return pitch
}

func runningDepth(r *Running, m mapping) float64 {
	_, rows := runningRows(r, m)
	return float64(float64(rows)*rowPitch(r)) + pastLine + 1
}

func drawRunning(g *Group, r *Running, line float64, m mapping) {
	td, cd := split(r.Side, m.point(r.Datum))
	extension(g, r.Side, td, cd, line)
	ring(g, along(r.Side, td, line))
	rows, _ := runningRows(r, m)
	pitch, out := rowPitch(r), outward(r.Side)
	far := td
	for i, mk := range r.Marks {
		t, c := split(r.Side, m.point(mk.At))
		if math.Abs(t-td) > math.Abs(far-td) {
			far = t
		}
		extension(g, r.Side, t, c, line)
		way := -1.0
		if t < td {
			way = 1
		}
		arrow(g, r.Side, t, line, way)
		l := label(mk.Text)
		deep := height(l)
		if !r.Side.level() {
			deep = l.Width
		}
		near := line + float64(out*(pastLine+0.4+float64(float64(rows[i])*pitch)))
		put(g, l, along(r.Side, t, near+float64(out*deep/2)))
		if rows[i] > 0 {
			stroke(g, along(r.Side, t, line+float64(out*pastLine)), along(r.Side, t, near))
		}
	}
	stroke(g, along(r.Side, td, line), along(r.Side, far, line))
}

func extension(g *Group, side Side, t, from, line float64) {
	out := outward(side)
	a := from + float64(out*offWood)
	b := line + float64(out*pastLine)
	if (b-a)*out <= 0 {
		return
	}
	stroke(g, along(side, t, a), along(side, t, b))
}

// arrow draws a head whose point stands at t and which opens toward way.
func arrow(g *Group, side Side, t, line, way float64) {
	back := t + float64(way*arrowLong)
	g.Add(Fill{Tone: ToneDark, Loops: [][]Point{{along(side, t, line),
		along(side, back, line-arrowWide/2), along(side, back, line+arrowWide/2)}}})
}

func ring(g *Group, at Point) {
	const n, r = 16, 0.8
	loop := make([]Point, n)
	for i := range loop {
		s, c := sinCos(float64(i) / n)
		loop[i] = Point{at.X + float64(r*c), at.Y + float64(r*s)}
	}
	g.Add(Fill{Tone: TonePaper, Loops: [][]Point{loop}}, Stroke{Path: loop, Closed: true, Weight: Narrow})
}

func stroke(g *Group, a, b Point) {
	g.Add(Stroke{Path: []Point{a, b}, Weight: Narrow})
}

// put sets a label with its middle at a point, clear of what lies behind.
func put(g *Group, l typeset.Line, middle Point) {
	g.Add(Text{At: Point{middle.X - float64(l.Width/2), middle.Y + float64((l.Ascent-l.Descent)/2)}, Line: l, Halo: true})
}
