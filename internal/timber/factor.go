package timber

import (
	"math"

	"scantling/internal/cite"
)

// A Duration is how long, over a life, the full load stands; wood carries more
// for a shorter time.
type Duration uint8

const (
	Permanent  Duration = iota // own weight, soil
	TenYears                   // people, by the codes' live load
	TwoMonths                  // snow
	SevenDays                  // construction
	TenMinutes                 // wind, a test's push
	Impact                     // a fall into a chair; never for connections or treated wood
)

var durations = []struct {
	value float64
	says  string
}{{0.9, "permanent"}, {1.0, "ten years in all"}, {1.15, "two months in all"}, {1.25, "seven days in all"}, {1.6, "ten minutes in all"}, {2.0, "impact"}}

// Conditions are what a member lives in.
type Conditions struct {
	Duration Duration
	Wet      bool // in service above 19 % moisture: outdoors, unroofed
	Incised  bool // little cuts at the treater's to let the preservative in
	Treated  bool // with a waterborne preservative
	Shared   bool // one of three or more alike, 24 in apart at most, joined so that they share the load
}

// duration returns the load duration factor CD.
//
// Source: NDS 2018, table 2.3.2 and its note 2: never above 1.6 for members
// treated with waterborne preservatives and for connections.
func (c Conditions) duration(connection bool) Factor {
	d := durations[c.Duration]
	f := Factor{"CD", d.value, "load stands " + d.says, nds("table 2.3.2", cite.Read)}
	if d.value > 1.6 && (connection || c.Treated) {
		f.Value, f.Why = 1.6, "impact, but never above 1.6 for treated wood and for connections"
	}
	return f
}

// Lasting returns the load duration factor of a connection.
func (c Conditions) Lasting() Factor { return c.duration(true) }

// A Section is a rectangle in bending: Breadth square to the plane it bends in,
// Depth in that plane, in mm.
type Section struct{ Breadth, Depth float64 }

// Area returns the area in mm².
func (s Section) Area() float64 { return s.Breadth * s.Depth }

// Modulus returns the section modulus bd²/6 in mm³.
func (s Section) Modulus() float64 { return s.Breadth * s.Depth * s.Depth / 6 }

// Inertia returns the second moment of area bd³/12 in mm⁴.
func (s Section) Inertia() float64 { return s.Breadth * s.Depth * s.Depth * s.Depth / 12 }

// Flat reports whether the load is on the wide face.
func (s Section) Flat() bool { return s.Depth < s.Breadth }

// wide returns the nominal width, in inches, whose row of a factor table holds:
// the dressed wood is at most 3/4 in under its name.
func (s Section) wide() float64 { return math.Max(s.Breadth, s.Depth) / inch }

// thick returns the lesser side in inches.
func (s Section) thick() float64 { return math.Min(s.Breadth, s.Depth) / inch }

// A step of a factor table: the factor holds up to this real width, in inches.
type widthRow struct{ upTo, fb, ft, fc float64 }

// Source: NDS Supplement 2018, table 4A adjustment factors, size factor CF, for
// Select Structural, No. 1 & Btr, No. 1, No. 2, No. 3, 2 and 3 in thick.
var sizeRows = []widthRow{{3.75, 1.5, 1.5, 1.15}, {4.75, 1.4, 1.4, 1.1}, {5.75, 1.3, 1.3, 1.1},
	{7.5, 1.2, 1.2, 1.05}, {9.5, 1.1, 1.1, 1.0}, {11.5, 1.0, 1.0, 1.0}, {99, 0.9, 0.9, 0.9}}

// Source: the same table, Stud grade; above 6 in wide its values are those of
// No. 3, which its reference exceeds: 0.75 is No. 3 over Stud, the lowest of the
// groups here, times No. 3's own factor.
var studRows = []widthRow{{3.75, 1.1, 1.1, 1.05}, {5.75, 1, 1, 1}, {99, 0.65, 0.65, 0.8}}

// size returns the size factor CF of bending, tension or compression, by
// column; 1 where the table holds it.
func (r Reference) size(s Section, column func(widthRow) float64) Factor {
	if r.Sized {
		return Factor{Symbol: "CF", Value: 1}
	}
	rows := sizeRows
	if r.Grade == "Stud" {
		rows = studRows
	}
	for _, row := range rows {
		if s.wide() <= row.upTo {
			return Factor{"CF", column(row), "size", supplement("table 4A, size factor", cite.Read)}
		}
	}
	return Factor{Symbol: "CF", Value: 1}
}

// Source: NDS Supplement 2018, flat use factor Cfu, 2 and 3 in thick, and 4 in.
var flatRows = []struct{ upTo, thin, thick float64 }{{3, 1, 1}, {3.75, 1.1, 1}, {4.75, 1.1, 1.05}, {5.75, 1.15, 1.05}, {7.5, 1.15, 1.05}, {99, 1.2, 1.1}}

func flat(s Section) Factor {
	f := Factor{"Cfu", 1, "load on the wide face", supplement("tables 4A and 4B, flat use factor", cite.Read)}
	if !s.Flat() {
		return f
	}
	for _, row := range flatRows {
		if s.wide() <= row.upTo {
			f.Value = row.thin
			if s.thick() > 3 {
				f.Value = row.thick
			}
			break
		}
	}
	return f
}

// wet returns the wet service factor CM, which is 1 where the dry value is low
// enough already (unless, psi; 0: no such rule).
func (c Conditions) wet(value, sized, unless float64) Factor {
	f := Factor{"CM", 1, "wet in service", supplement("tables 4A and 4B, wet service factor", cite.Read)}
	if c.Wet && sized > unless*psi {
		f.Value = value
	}
	return f
}

// incised returns the incising factor Ci.
//
// Source: NDS 2018, table 4.3.8.
func (c Conditions) incised(value float64) Factor {
	f := Factor{"Ci", 1, "incised for treatment", nds("table 4.3.8", cite.Read)}
	if c.Incised {
		f.Value = value
	}
	return f
}

// Bending returns the bending value Fb* of a section: all factors but that of
// lateral stability, which Member.Limits adds.
func (r Reference) Bending(s Section, c Conditions) Value {
	size := r.size(s, func(w widthRow) float64 { return w.fb })
	v := Value{Symbol: "Fb", Reference: r.Fb}.with(c.duration(false)).
		with(c.wet(0.85, r.Fb*size.Value, 1150)).with(size).with(flat(s)).with(c.incised(0.8))
	if c.Shared {
		v = v.with(Factor{"Cr", 1.15, "three or more share the load", supplement("tables 4A and 4B, repetitive member factor", cite.Read)})
	}
	return v
}

// Tension returns the tension value Ft' of a section.
func (r Reference) Tension(s Section, c Conditions) Value {
	return Value{Symbol: "Ft", Reference: r.Ft}.with(c.duration(false)).
		with(r.size(s, func(w widthRow) float64 { return w.ft })).with(c.incised(0.8))
}

// Shear returns the shear value Fv'.
func (r Reference) Shear(c Conditions) Value {
	return Value{Symbol: "Fv", Reference: r.Fv}.with(c.duration(false)).with(c.wet(0.97, r.Fv, 0)).with(c.incised(0.8))
}

// Compression returns the compression value Fc* along the grain: all factors
// but that of column stability, which Member.Limits adds.
func (r Reference) Compression(s Section, c Conditions) Value {
	size := r.size(s, func(w widthRow) float64 { return w.fc })
	return Value{Symbol: "Fc", Reference: r.Fc}.with(c.duration(false)).
		with(c.wet(0.8, r.Fc*size.Value, 750)).with(size).with(c.incised(0.8))
}

// Bearing returns the value Fc⊥' of wood pressed across the grain over lengthMM
// along it. The bearing area factor counts where the bearing is shorter than 6 in
// and at least 3 in from the end; load duration never does.
//
//	Cb = (lb + 0.375)/lb, lb in inches
//
// Source: NDS 2018, 3.10.4, equation 3.10-2 (from memory).
func (r Reference) Bearing(c Conditions, lengthMM, fromEndMM float64) Value {
	v := Value{Symbol: "Fc⊥", Reference: r.FcPerp}.with(c.wet(0.67, r.FcPerp, 0))
	if lengthMM > 0 && lengthMM < 6*inch && fromEndMM >= 3*inch {
		v = v.with(Factor{"Cb", (lengthMM + 0.375*inch) / lengthMM, "short bearing away from the end", nds("3.10.4", cite.Memory)})
	}
	return v
}

// Stiffness returns E', for deflection.
func (r Reference) Stiffness(c Conditions) Value {
	return Value{Symbol: "E", Reference: r.E}.with(c.wet(0.9, r.E, 0)).with(c.incised(0.95))
}

// Stability returns Emin', for buckling.
func (r Reference) Stability(c Conditions) Value {
	return Value{Symbol: "Emin", Reference: r.Emin}.with(c.wet(0.9, r.Emin, 0)).with(c.incised(0.95))
}

// Slanting returns the value in MPa for pressure at an angle between the two
// along and across the grain, given as sine and cosine of the angle to the
// grain.
//
//	Fθ' = Fc*·Fc⊥' / (Fc* sin²θ + Fc⊥' cos²θ)
//
// Source: NDS 2018, equation 3.10-1 (Hankinson).
func Slanting(along, across, sin, cos float64) float64 {
	return along * across / (float64(along*sin*sin) + float64(across*cos*cos))
}
