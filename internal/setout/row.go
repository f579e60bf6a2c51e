package setout

import (
	"math"

	"scantling/internal/geom"
)

// A Leftover says where what whole boards and gaps leave over goes (rule 23).
type Leftover int8

const (
	Exact   Leftover = iota // unsaid: nothing may be left over
	Even                    // all gaps alike
	RipLast                 // the last board is ripped
	RipBoth                 // the first and the last are ripped alike
	RipAll                  // all are ripped alike
	AtStart                 // space before the first
	AtEnd                   // space after the last
	AtBoth                  // half of it at either end
)

// An Outside says what stands outside the first and the last board.
type Outside int8

const (
	NoGap Outside = iota
	HalfGap
	FullGap
)

// A Row is what rule 23 needs to divide a row. Lengths are mm.
type Row struct {
	Span     float64 // from limit to limit; not looked at when Open
	Open     bool    // one limit only, or `about`: needs Count; the row is as long as it comes out
	Width    float64 // of one board before ripping
	Gap      float64 // the gap, or with Even the gap aimed at
	Least    float64 // rips: narrowest board allowed; Even: smallest gap allowed
	Most     float64 // Even: widest gap allowed; 0: no limit
	Leftover Leftover
	Outside  Outside
	Count    int     // 0: to be found
	Dried    float64 // `once: dried`: a board's width then over its width now, and Gap, Most and Even's Least are gaps then; 0: they are gaps now
}

// A Division is a row divided. Boards are in order from the start.
type Division struct {
	Boards []Strip
	Gap    float64 // mm between neighbours as laid; 0 for one board
	Dried  float64 // mm between neighbours once dried
	Start  float64 // mm from the start to the first board
	End    float64 // mm from the last board to the end
	Span   float64 // mm; found when the row is Open
}

// A Strip is one board's place along a row, in mm from the row's start.
type Strip struct{ Lo, Hi float64 }

// mostBoards is the most boards a row may have.
const mostBoards = 10_000

// Divide divides a row by rule 23. Counts at a threshold are kept by 1e-6 in.
//
// Fault: NoRow if the span or the width is not positive or no board fits; RowEven
// with the two nearest gaps and their counts; RowExact if something is left over
// and nothing says where it goes; RowNarrow if a rip comes out under Least;
// RowCrowded if Count boards do not fit; RowCount for an open row without Count;
// TooMany over 10,000 boards; GapDries if boards laid tight dry further apart than
// is asked.
//
// Boards dry about their middles, where they are held: each gap opens by what one
// whole board shrinks, w·(1 − Dried), so a gap g once dried is laid as g − w·(1 − Dried).
func Divide(r Row) (Division, error) {
	opens := r.opens()
	if opens == 0 {
		d, err := r.laid()
		d.Dried = d.Gap
		return d, err
	}
	now, most := r, r.Gap
	now.Gap = math.Max(0, r.Gap-opens)
	if r.Leftover == Even && !r.Open {
		most, now.Least = math.Inf(1), math.Max(0, r.Least-opens)
		if r.Most > 0 {
			most, now.Most = r.Most, math.Max(grace, r.Most-opens)
		}
	}
	if most < opens-grace {
		return Division{}, &Fault{Kind: GapDries, Has: most, Want: opens}
	}
	d, err := now.laid()
	if len(d.Boards) > 1 {
		d.Dried = d.Gap + opens
	}
	if f, ok := err.(*Fault); ok && f.Kind == RowEven { // tells of gaps once dried
		f.Low, f.High = r.Least, r.Most
		for i, n := range f.Counts {
			if n > 0 {
				f.Gaps[i] += opens
			}
		}
	}
	return d, err
}

// opens returns how much wider each gap is once the boards have dried, in mm.
func (r Row) opens() float64 {
	if r.Dried > 0 {
		return float64(r.Width * (1 - r.Dried))
	}
	return 0
}

// laid divides the row by the gaps it is laid with.
func (r Row) laid() (Division, error) {
	if r.Open {
		if r.Count < 1 {
			return Division{}, &Fault{Kind: RowCount, Count: r.Count}
		}
		r.Span = float64(float64(r.Count)*r.Width) + float64(r.gaps(r.Count)*r.Gap)
		r.Leftover = Exact
	}
	switch {
	case !(r.Span > grace && r.Width > grace && r.Gap >= 0) || r.Count < 0:
		return Division{}, &Fault{Kind: NoRow, Has: r.Span, Want: r.Width}
	case !((r.Span+r.Gap)/(r.Width+r.Gap) <= mostBoards) || r.Count > mostBoards:
		return Division{}, &Fault{Kind: TooMany, Has: r.Span, Want: r.Width, Count: mostBoards}
	}
	if r.Leftover == Even {
		return r.even()
	}
	return r.fixedGap()
}

// gaps returns how many gaps a row of n boards has, those outside it counted in.
func (r Row) gaps(n int) float64 {
	return float64(n-1) + [...]float64{NoGap: 0, HalfGap: 1, FullGap: 2}[r.Outside]
}

// outside returns the gap before the first board and after the last.
func (r Row) outside(gap float64) float64 {
	return [...]float64{NoGap: 0, HalfGap: gap / 2, FullGap: gap}[r.Outside]
}

// even divides the row into whole boards with all gaps alike: of all counts whose
// gap lies within the limits, the one nearest to Gap, more boards if two are as
// near.
func (r Row) even() (Division, error) {
	low, high := r.Least, r.Most
	if high == 0 {
		high = math.Inf(1)
	}
	first, last := 1, int(math.Floor((r.Span+grace)/r.Width))
	if r.Count > 0 {
		if r.Count > last {
			return Division{}, r.crowded(r.Count, float64(float64(r.Count)*r.Width))
		}
		first, last = r.Count, r.Count
	}
	fault := &Fault{Kind: RowEven, Low: low, High: r.Most, Has: r.Span, Want: r.Width}
	best, off := 0, math.Inf(1)
	for n := first; n <= last; n++ {
		gap, ok := r.evenGap(n)
		switch {
		case !ok:
		case gap < low-grace: // gaps fall as counts rise: the first too small
			if fault.Counts[1] == 0 {
				fault.Gaps[1], fault.Counts[1] = gap, n
			}
		case gap > high+grace: // and the last too wide
			fault.Gaps[0], fault.Counts[0] = gap, n
		case math.Abs(gap-r.Gap) <= off+grace:
			best, off = n, math.Abs(gap-r.Gap)
		}
	}
	if best == 0 {
		fault.Aim = math.Max(r.Gap, low)
		for i, n := range fault.Counts {
			fault.Spans[i] = float64(float64(n)*r.Width) + float64(r.gaps(n)*fault.Aim)
		}
		return Division{}, fault
	}
	gap, _ := r.evenGap(best)
	d := r.lay(best, gap, r.outside(gap), nil)
	if best == 1 && r.Outside == NoGap {
		d = r.lay(1, 0, (r.Span-r.Width)/2, nil)
	}
	return d, nil
}

// evenGap returns the gap between n boards. One board without gaps outside has
// none; it counts only if it fills the row or was asked for.
func (r Row) evenGap(n int) (float64, bool) {
	over := math.Max(0, r.Span-float64(float64(n)*r.Width))
	if k := r.gaps(n); k > 0 {
		return over / k, true
	}
	return 0, r.Count == 1 || over <= grace
}

// fixedGap divides a row whose gap is given.
func (r Row) fixedGap() (Division, error) {
	pitch := r.Width + r.Gap
	room := r.Span - float64(r.gaps(0)*r.Gap) // n boards need n·pitch of it
	rips := r.Leftover == RipLast || r.Leftover == RipBoth || r.Leftover == RipAll
	n := r.Count
	switch {
	case n > 0:
	case rips:
		n = int(math.Ceil((room - grace) / pitch))
	default:
		n = int(math.Floor((room + grace) / pitch))
	}
	over := room - float64(float64(n)*pitch) // negative: boards must give way
	switch {
	case n < 1:
		return Division{}, &Fault{Kind: NoRow, Has: r.Span, Want: r.Width + float64(r.gaps(1)*r.Gap)}
	case rips && over > grace, r.Leftover == Exact && over > geom.Touch:
		return Division{}, &Fault{Kind: RowExact, Has: over, Count: n}
	case !rips && over < -geom.Touch, rips && over+float64(float64(n)*r.Width) <= grace:
		return Division{}, r.crowded(n, r.Span-over)
	}
	side := r.outside(r.Gap)
	if !rips {
		share := [...]float64{Exact: 0, Even: 0, RipLast: 0, RipBoth: 0, RipAll: 0, AtStart: 1, AtEnd: 0, AtBoth: 0.5}
		return r.lay(n, r.Gap, side+float64(share[r.Leftover]*over), nil), nil
	}
	over = math.Min(0, over) // at a threshold nothing is ripped off
	widths := r.ripped(n, over)
	for _, w := range widths {
		if w < r.Least-grace || w <= grace {
			return Division{}, &Fault{Kind: RowNarrow, Has: w, Want: r.Least, Count: n}
		}
	}
	return r.lay(n, r.Gap, side, widths), nil
}

// ripped returns the widths of n boards that must lose −over mm together.
func (r Row) ripped(n int, over float64) []float64 {
	widths := make([]float64, n)
	for i := range widths {
		widths[i] = r.Width
	}
	switch {
	case r.Leftover == RipAll:
		for i := range widths {
			widths[i] = r.Width + over/float64(n)
		}
	case n > 1 && r.Leftover == RipBoth:
		widths[0], widths[n-1] = r.Width+float64(over/2), r.Width+float64(over/2)
	case n > 1 && r.Width+over < r.Least-grace:
		widths[n-2], widths[n-1] = r.Width+float64(over/2), r.Width+float64(over/2)
	default:
		widths[n-1] = r.Width + over
	}
	return widths
}

func (r Row) crowded(n int, need float64) *Fault {
	return &Fault{Kind: RowCrowded, Has: r.Span, Want: need, Count: n}
}

// lay sets n boards side by side from start; nil widths are whole boards.
func (r Row) lay(n int, gap, start float64, widths []float64) Division {
	d := Division{Boards: make([]Strip, n), Gap: gap, Start: start, Span: r.Span}
	if n == 1 {
		d.Gap = 0
	}
	at := start
	for i := range d.Boards {
		w := r.Width
		if widths != nil {
			w = widths[i]
		} else { // not summed up: the tenth board is as exact as the first
			at = start + float64(float64(i)*(r.Width+gap))
		}
		d.Boards[i] = Strip{at, at + w}
		at += w + gap
	}
	d.End = r.Span - d.Boards[n-1].Hi
	return d
}

// RowLimit returns the coordinate on along's axis of a row's limit that may
// lean: the point nearest inside within the boards' thickness (rule 23). thick is
// the boards' slab across their thickness; start says that the row begins at
// this limit. Fault: Unsteady if the limit is askew to the row, NoCrossing if it
// lies along the boards' faces.
func RowLimit(room Room, limit geom.Plane, along Dir, thick Slab, start bool) (float64, error) {
	if at, ok := room.Read(limit, along); ok {
		return at, nil
	}
	a, err := room.ReadAt(limit, thick.Plane(false), along, nil)
	if err != nil {
		return 0, err
	}
	b, err := room.ReadAt(limit, thick.Plane(true), along, nil)
	if start == (along.Sign() > 0) { // inside is where coordinates grow
		return math.Max(a, b), err
	}
	return math.Min(a, b), err
}

// RowSlab returns the hold across the width of a row's board at strip s of a row
// that starts at a coordinate and goes along. Fault: Skew unless the boards' edges
// are square to along.
func RowSlab(room Room, f Frame, along Dir, start float64, s Strip) (Slab, error) {
	if !alongside(f.Edge, room.Way(along)) {
		return Slab{}, &Fault{Kind: Skew}
	}
	a := value(room.Plane(along, start+float64(along.Sign()*s.Lo)), f.Edge)
	b := value(room.Plane(along, start+float64(along.Sign()*s.Hi)), f.Edge)
	return Slab{f.Edge, math.Min(a, b), math.Max(a, b)}, nil
}
