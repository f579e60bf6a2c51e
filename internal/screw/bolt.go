package screw

import (
	"fmt"

	"scantling/internal/cite"
	"scantling/internal/measure"
)

// A trim is what goes on the end of a bolt of one diameter.
type trim struct {
	size                     string
	nut                      measure.Length // height of the hex nut
	washerHole, washerAcross measure.Length
	washer                   measure.Length // thickness of a wide flat washer
	nutSource, washerFrom    cite.Source
	threadsPerInch           int
}

const mil = measure.Inch / 1000

var (
	b1822  = cite.Source{Work: "ASME B18.2.2, hex nuts", Basis: cite.Memory}
	b18211 = cite.Source{Work: "ASME B18.21.1, flat washers type A wide", Basis: cite.Memory}
)

var trims = []trim{
	{"1/4", measure.Inch * 7 / 32, 312 * mil, 734 * mil, 65 * mil, b1822, b18211, 20},
	{"5/16", measure.Inch * 17 / 64, 375 * mil, 875 * mil, 83 * mil, b1822, b18211, 18},
	{"3/8", measure.Inch * 21 / 64, 438 * mil, 1000 * mil, 83 * mil, b1822, b18211, 16},
	{"1/2", measure.Inch * 7 / 16, 562 * mil, 1375 * mil, 109 * mil, b1822, b18211, 13},
}

// beyond returns how far a bolt should stand out of its nut: common practice.
func (r Row) beyond() measure.Length {
	if r.Metric() {
		return 6 * mm
	}
	return measure.Inch / 4
}

// A Fit is a bolt chosen for the wood it goes through.
type Fit struct {
	Bolt    Fastener       // with its length
	Washers int            // under the nut
	Under   int            // washers under the head: 1 for a hex bolt, none for a carriage bolt
	Needs   measure.Length // stack, washers, nut and 1/4 in: the least length
	Thread  measure.Length // where its thread begins, from under the head
	Insert  *Fastener      // what it is screwed into instead of a nut; then no washers but Under
}

// A FitError says why no bolt sold will do.
type FitError struct{ What, Mend string }

func (e *FitError) Error() string { return e.What + "; " + e.Mend }

// ForStack returns the shortest bolt sold that reaches through wood of the
// given thickness, a washer and a nut, and stands out 1/4 in (6 mm). Where the thread
// of that bolt would begin inside the wood's far washer, so that the nut could
// not be drawn tight, further washers go under the nut: at most three.
//
// If f has a length already, that length is judged. The error is a *FitError.
//
// Source: common practice (stack + washers + nut + 1/4 in); thread lengths as
// in Thread.
func (f Fastener) ForStack(stack measure.Length) (Fit, error) {
	t, ok := trimOf(f.Size)
	if !f.Bolted() || !ok {
		return Fit{}, &FitError{f.Name() + " takes no nut", "name a carriage bolt"}
	}
	if stack <= 0 {
		return Fit{}, &FitError{"a bolt needs wood to go through", "give a thickness above 0"}
	}
	lengths := f.Lengths
	if f.Length != 0 {
		lengths = []measure.Length{f.Length}
	}
	head := 0
	if f.Family == HexBolt {
		head = 1
	}
	for washers := 1; washers <= 3; washers++ {
		under := measure.Length(washers+head) * t.washer
		needs := stack + under + t.nut + f.beyond()
		for _, l := range lengths {
			if l < needs {
				continue
			}
			b := Fastener{Row: f.Row, Length: l, Finish: f.Finish}
			if begins := l - b.Thread(); begins <= stack+under {
				return Fit{Bolt: b, Washers: washers, Under: head, Needs: needs, Thread: begins}, nil
			}
			break // a longer bolt begins its thread later still
		}
	}
	needs := stack + measure.Length(1+head)*t.washer + t.nut + f.beyond()
	longest := lengths[len(lengths)-1]
	if longest < needs {
		return Fit{}, &FitError{
			fmt.Sprintf("through %s of wood a bolt must be %s long at least, and %s is %s", f.says(stack), f.says(needs), f.longestName(), f.sale(longest)),
			"use a thicker bolt, which is sold longer, or a counterbore for the nut"}
	}
	return Fit{}, &FitError{
		fmt.Sprintf("through %s of wood the thread of %s begins too far from its tip for the nut to draw tight", f.says(stack), f.longestName()),
		"leave the length out and let it be chosen"}
}

// ForInsert returns the shortest bolt sold that, through a board of the given
// thickness, stands in a threaded insert behind it by its own diameter or more, and
// how deep the insert's hole is: an eighth of an inch (4 mm) beyond the insert and
// the bolt's tip. room is the wood there is for that hole. The error is a *FitError.
//
// Source: common practice.
func (f Fastener) ForInsert(insert Fastener, through, room measure.Length) (Fit, measure.Length, error) {
	t, ok := trimOf(f.Size)
	if !f.Bolted() || !ok || insert.Family != Insert || insert.Size != f.Size {
		return Fit{}, 0, &FitError{f.Name() + " does not go into " + insert.Name(), "name a bolt and an insert of one size: hex bolt " + insert.Size}
	}
	head := 0
	if f.Family == HexBolt {
		head = 1
	}
	seat := through + measure.Length(head)*t.washer
	needs := seat + f.nominal()
	lengths := f.Lengths
	if f.Length != 0 {
		lengths = []measure.Length{f.Length}
	}
	for _, l := range lengths {
		b := Fastener{Row: f.Row, Length: l, Finish: f.Finish}
		deep := max(l-seat, insert.Length) + f.bit()*8
		switch {
		case l < needs:
		case l-b.Thread() > seat:
			return Fit{}, 0, &FitError{fmt.Sprintf("the thread of %s begins %s below its head, past the mouth of the insert at %s", b.Name(), f.says(l-b.Thread()), f.says(seat)), "leave the length out, or use thinner wood"}
		case deep > room:
			return Fit{}, 0, &FitError{fmt.Sprintf("%s and the space beyond its tip take a hole %s deep, and %s of wood is there for it", b.Name(), f.says(deep), f.says(max(0, room))), "use thicker wood, or a bolt with a nut"}
		default:
			return Fit{Bolt: b, Under: head, Needs: needs, Thread: l - b.Thread(), Insert: &insert}, deep, nil
		}
	}
	return Fit{}, 0, &FitError{fmt.Sprintf("to stand in the insert by its own diameter a bolt must be %s long at least, and %s is %s", f.says(needs), f.longestName(), f.sale(lengths[len(lengths)-1])), "leave the length out, or use a thicker bolt"}
}

func (f Fastener) longestName() string {
	if f.Length != 0 {
		return f.Name()
	}
	return "the longest " + f.Name() + " sold"
}

func trimOf(size string) (trim, bool) {
	for _, list := range [][]trim{trims, metricTrims} {
		for _, t := range list {
			if t.size == size {
				return t, true
			}
		}
	}
	return trim{}, false
}

// Counterbore returns the bit that makes room below the face for the head of a
// screw or for the washer of a bolt or lag screw: the first spade or Forstner bit
// over it, and for a screw the plug cutter of the same size. It is 0 for what has
// no head.
//
// Source: common practice; sizes of bits and plugs usually sold, from memory.
func (f Fastener) Counterbore() measure.Length {
	across := f.Head
	if t, ok := trimOf(f.Size); ok && (f.Bolted() || f.Family == LagScrew) {
		across = t.washerAcross + t.washerAcross/32
	}
	if across == 0 {
		return 0
	}
	if f.Metric() {
		for _, l := range []measure.Length{10, 12, 15, 18, 20, 25, 30, 35} {
			if l*mm >= across {
				return l * mm
			}
		}
		return across.Ceil(5 * mm)
	}
	return max(measure.Inch*3/8, across.Ceil(measure.Inch/8))
}

// Nut returns the height of the nut and the diameter of the washer that go on a
// bolt; 0 of what takes none.
func (f Fastener) Nut() (high, washerAcross measure.Length) {
	t, _ := trimOf(f.Size)
	if !f.Bolted() {
		return 0, 0
	}
	return t.nut, t.washerAcross
}
