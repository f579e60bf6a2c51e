package book

import (
	"math"
	"strconv"

	"scantling/internal/drawing"
	"scantling/internal/measure"
	"scantling/internal/shop"
	"scantling/internal/typeset"
)

// marks is how a stretch of tape is divided: a small mark every minor units, a
// long one with its number every major units.
type marks struct {
	unit         float64 // counts of the quantity in one unit: an inch is 25.4e6 nm
	minor, major float64 // units
}

// divide chooses marks for a range so that no more than about ten numbers stand
// on it.
func divide(s shop.Size, metric bool) (marks, bool) {
	m := marks{unit: 1}
	steps := []float64{1, 2, 5, 10, 20, 50, 100}
	switch s.Value.Exact.D {
	case measure.DimLength:
		m.unit, steps = 25.4e6, []float64{1, 2, 3, 6, 12, 24}
		if metric {
			m.unit, steps = 1e6, []float64{10, 20, 50, 100, 200, 500}
		}
	case measure.DimAngle:
		m.unit = 1e9
	case measure.DimNone:
	default:
		return m, false
	}
	long := (s.Most.Exact.V - s.Least.Exact.V) / m.unit
	if !(long > 0) {
		return m, false
	}
	for _, step := range steps {
		m.major = step
		if long/step <= 10.5 {
			break
		}
	}
	if long/m.major > 40 {
		return m, false
	}
	switch {
	case m.major == 1 && s.Value.Exact.D == measure.DimNone:
		m.minor = 1
	case m.major <= 3:
		m.minor = m.major / 4
	case m.major == 24:
		m.minor = 6
	default:
		m.minor = m.major / 5
		if s.Value.Exact.D == measure.DimLength && !metric {
			m.minor = m.major / 6
		}
	}
	return m, true
}

// Sizes of a tape, in mm.
const (
	tapeHigh  = 7.5
	tapeEnd   = 2.5 // of tape past the ends of its range
	tickShort = 1.6
	tickLong  = 2.8
)

// sizeTape draws a size as a piece of tape from its least to its most, with a
// mark where it stands. Its top left corner is at 0, 0; it returns its height.
func (b *book) sizeTape(s shop.Size, width float64) (items []drawing.Item, high float64) {
	name := s.Says
	if name == "" {
		name = s.Name
	}
	value := drawing.Label(drawing.Point{X: width, Y: 4}, typeset.Right, typeset.Span{Text: s.Value.Text, Kind: typeset.Figure,
		Style: typeset.Style{Face: typeset.Semibold, Size: 11, Ink: typeset.Live}})
	p := typeset.Break(typeset.Format{Width: width - value.Line.Width - 3}, say(name, bodyStyle)...)
	value.At.Y = p.Y[0]
	items = []drawing.Item{&drawing.Group{Role: drawing.RolePara, Items: append(text(p, 0, 0), value)}}
	high = p.Height
	m, ok := divide(s, b.r.Units != "inches")
	if !ok {
		return items, high
	}
	fig := &drawing.Group{Role: drawing.RoleFigure, Alt: name + ": " + s.Value.Text + ", from " + s.Least.Text + " to " + s.Most.Text}
	top := high + 3.8
	lo, hi := s.Least.Exact.V/m.unit, s.Most.Exact.V/m.unit
	scale := (width - 2*tapeEnd) / (hi - lo)
	at := func(v float64) float64 { return tapeEnd + float64((v-lo)*scale) }
	fig.Add(tapeBody(0, top, width, tapeHigh)...)
	for k := math.Ceil(lo/m.minor - fits); float64(k*m.minor) <= hi+fits; k++ {
		v := float64(k * m.minor)
		deep := tickShort
		if whole := v / m.major; math.Abs(whole-math.Round(whole)) < fits {
			deep = tickLong
			fig.Add(drawing.Label(drawing.Point{X: at(v), Y: top + tapeHigh - 1.1}, typeset.Centre, say(number(v), tapeStyle)...))
		}
		fig.Add(tick(at(v), top, deep))
	}
	x := at(s.Value.Exact.V / m.unit)
	fig.Add(drawing.Fill{Tone: drawing.ToneMark, Loops: [][]drawing.Point{{{X: x - 1.6, Y: top - 3.2}, {X: x + 1.6, Y: top - 3.2}, {X: x, Y: top - 0.2}}}},
		drawing.Stroke{Path: []drawing.Point{{X: x, Y: top - 0.4}, {X: x, Y: top + tickLong}}, Weight: drawing.Wide, Ink: typeset.Live})
	return append(items, fig), top + tapeHigh + 0.5
}

func number(v float64) string {
	if v = math.Round(v*1000) / 1000; v == 0 {
		return "0" // not "-0"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

func tapeBody(x, y, w, h float64) []drawing.Item {
	r := drawing.Rect(x, y, w, h)
	return []drawing.Item{drawing.Fill{Loops: [][]drawing.Point{r}, Tone: drawing.ToneTape},
		drawing.Stroke{Path: r, Closed: true, Weight: drawing.Hair}}
}

func tick(x, y, deep float64) drawing.Item {
	return drawing.Stroke{Path: []drawing.Point{{X: x, Y: y}, {X: x, Y: y + deep}}, Weight: drawing.Hair}
}
