package screw

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"scantling/internal/measure"
)

// The bit for a thread is the next sixty-fourth at or under the published lead hole,
// and the hole for the body is no tighter than the published one.
func TestPublishedLeadHoles(t *testing.T) {
	file, err := os.Open("testdata/lead_holes.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	r := csv.NewReader(file)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 10 {
		t.Fatal(len(rows), err)
	}
	number := func(s string) float64 {
		x, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	for _, row := range rows[1:] {
		f, err := Parse("wood screw " + row[0])
		if err != nil {
			t.Fatal(err)
		}
		gravity, shank, thread := number(row[1]), number(row[2]), number(row[3])
		if pilot := f.Pilot(gravity).Inches(); pilot > thread+0.0005 || pilot < thread-1.0/64-0.0005 {
			t.Errorf("%s in G %.2f: the pilot is %.4f in; published, %.3f", f.Name(), gravity, pilot, thread)
		}
		if clear := f.Clearance().Inches(); clear < shank-0.0005 || clear > f.Shank.Inches()+1.0/64 {
			t.Errorf("%s: the clearance is %.4f in; published, %.3f at least", f.Name(), clear, shank)
		}
	}
}

// Lead holes of lag screws and nails and holes of bolts lie between the published
// limits: AWC NDS 2018, 12.1.3 (read), 12.1.4 and 12.1.6 (from memory).
func TestPublishedLimits(t *testing.T) {
	for _, c := range []struct {
		gravity   float64
		low, high float64 // of the shank
		family    Family
	}{
		{0.43, 0.40, 0.70, LagScrew}, {0.55, 0.60, 0.75, LagScrew}, {0.67, 0.65, 0.85, LagScrew},
		{0.55, 0, 0.75, CommonNail}, {0.67, 0, 0.90, CommonNail}, {0.55, 0, 0.75, BoxNail}, {0.67, 0, 0.90, FinishNail},
	} {
		for _, r := range Rows() {
			if r.Family != c.family {
				continue
			}
			f := Fastener{Row: r, Length: r.Lengths[0]}
			if share := f.Pilot(c.gravity).Inches() / f.Shank.Inches(); share < c.low || share > c.high+1e-9 || share == 0 {
				t.Errorf("%s in G %.2f: a pilot of %.0f %% of the shank; published, %.0f to %.0f", f.Name(), c.gravity, 100*share, 100*c.low, 100*c.high)
			}
		}
	}
	for _, r := range Rows() {
		if f := (Fastener{Row: r}); f.Bolted() {
			if over := f.Hole() - f.nominal(); over < measure.Inch/32 || over > measure.Inch/16 {
				t.Errorf("%s: the hole is %.4f in over; published, 1/32 to 1/16", f.Name(), over.Inches())
			}
		}
	}
}

func TestForInsert(t *testing.T) {
	for _, c := range []struct {
		bolt, insert  string
		through, room measure.Length // 1/16 in
		name          string         // "" when none fits
		deep          measure.Length // 1/64 in
		source        string
	}{
		{"hex bolt 1/4", "threaded insert 1/4", 16, 24, "hex bolt 1/4 x 1 1/2", 40, "by hand: 1 + 0.065 + 1/4 = 1.315; thread from 3/4; the insert 1/2 and 1/8 deep"},
		{"hex bolt 5/16", "threaded insert 5/16", 24, 24, "hex bolt 5/16 x 2", 48, "by hand: 1 1/2 + 0.083 + 5/16 = 1.896; the insert 5/8 and 1/8"},
		{"carriage bolt 1/4", "threaded insert 1/4", 16, 24, "carriage bolt 1/4 x 1 1/2", 40, "by hand: no washer under a round head: 1 + 1/4"},
		{"hex bolt 1/4", "threaded insert 1/4", 16, 8, "", 0, "by hand: 5/8 of hole in 1/2 of wood"},
		{"hex bolt 1/4 x 1", "threaded insert 1/4", 16, 24, "", 0, "by hand: 1 < 1.315"},
		{"hex bolt 1/4", "threaded insert 5/16", 16, 24, "", 0, "of two sizes"},
	} {
		b, err := Parse(c.bolt)
		if err != nil {
			t.Fatal(err)
		}
		i, err := Parse(c.insert)
		if err != nil {
			t.Fatal(err)
		}
		fit, deep, err := b.ForInsert(i, c.through*in/16, c.room*in/16)
		if c.name == "" && err == nil || c.name != "" && (err != nil || fit.Bolt.Name() != c.name || deep != c.deep*in/64) {
			t.Errorf("%s into %s through %d/16: %s, %v/64 deep, %v; want %s, %d (%s)", c.bolt, c.insert, int64(c.through), fit.Bolt.Name(), deep*64/in, err, c.name, int64(c.deep), c.source)
		}
		if err == nil && (fit.Insert == nil || fit.Washers != 0) {
			t.Errorf("%s: %+v", c.bolt, fit)
		}
	}
}

func TestCounterbores(t *testing.T) {
	for _, c := range []struct {
		phrase string
		want   measure.Length // 1/8 in, or mm
		source string
	}{
		{"screw 8 x 2", 3, "head 0.33: a 3/8 plug"}, {"wood screw 12 x 2", 4, "head 0.414: 1/2"},
		{"hex bolt 5/16", 8, "washer 0.875 and a little: 1"}, {"carriage bolt 3/8", 9, "washer 1 and a little: 1 1/8"},
		{"lag screw 1/4 x 3", 7, "washer 0.734: 7/8"}, {"dowel 3/8 x 2", 0, "no head"},
		{"screw 5.0 x 80 mm", 10, "head 10: a 10 mm plug"}, {"bolt M8", 25, "washer 24: 25"},
	} {
		f, err := Parse(c.phrase)
		if err != nil {
			t.Fatal(err)
		}
		unit := in / 8
		if f.Metric() {
			unit = mm
		}
		if f.Counterbore() != c.want*unit {
			t.Errorf("%s: a counterbore of %v units, want %d (%s)", c.phrase, f.Counterbore()/unit, int64(c.want), c.source)
		}
	}
}
