package screw

import (
	"errors"
	"strings"
	"testing"

	"scantling/internal/cite"
	"scantling/internal/measure"
	"scantling/internal/region"
	"scantling/internal/words"
)

func TestParseMetric(t *testing.T) {
	for _, c := range []struct {
		phrase, name string
		shank        measure.Length // hundredths of a millimetre
		length       measure.Length // mm
	}{
		{"screw 4.5 x 60 mm", "deck screw 4.5 x 60 mm", 450, 60},
		{"screw 4.0x40", "deck screw 4.0 x 40 mm", 400, 40},
		{"Screw 5 × 80mm", "deck screw 5.0 x 80 mm", 500, 80},
		{"screw 4.0 x 20 mm", "wood screw 4.0 x 20 mm", 400, 20},
		{"wood screw 4.00 x 40 mm", "wood screw 4.0 x 40 mm", 400, 40},
		{"stainless decking screw 4.5 x 60 mm", "stainless deck screw 4.5 x 60 mm", 450, 60},
		{"screw 6.0", "deck screw 6.0", 600, 0},
		{"screw 10g x 75 mm", "deck screw 10g x 75 mm", 483, 75},
		{"screw 10 x 75 mm", "deck screw 10g x 75 mm", 483, 75},
		{"screw 8g x 50", "deck screw 8g x 50 mm", 417, 50},
		{"coach bolt M8", "carriage bolt M8", 800, 0},
		{"coach bolt m10 x 100 mm", "carriage bolt M10 x 100 mm", 1000, 100},
		{"galvanised cup head bolt M8 x 90", "galvanized carriage bolt M8 x 90 mm", 800, 90},
		{"cup square bolt 8 x 100 mm", "carriage bolt M8 x 100 mm", 800, 100},
		{"coach screw M8 x 80 mm", "lag screw M8 x 80 mm", 800, 80},
		{"coach screws 10 x 100 mm", "lag screw M10 x 100 mm", 1000, 100},
		{"hex bolt M12 x 120 mm", "hex bolt M12 x 120 mm", 1200, 120},
		{"nail 3.35 x 65 mm", "nail 3.35 x 65 mm", 335, 65},
		{"lost head nail 2.65 x 50 mm", "finish nail 2.65 x 50 mm", 265, 50},
		{"dowel 8 x 40 mm", "dowel 8.0 x 40 mm", 800, 40},
		{"screw 5 x 80", "deck screw 5.0 x 80 mm", 500, 80},
		{"bolt M8 x 100", "carriage bolt M8 x 100 mm", 800, 100},
		{"structural screw 6 x 120 mm", "structural screw 6.0 x 120 mm", 600, 120},
		{"corner bracket 50 mm", "corner bracket 50 mm", 0, 50},
		{"threaded insert M8", "threaded insert M8", 1200, 18},
	} {
		f, err := Parse(c.phrase)
		if err != nil {
			t.Errorf("%q: %v", c.phrase, err)
			continue
		}
		if f.Name() != c.name || f.Shank != c.shank*mm/100 || f.Length != c.length*mm || !f.Metric() {
			t.Errorf("%q: %s, %v mm thick, %v mm long; want %s, %d/100, %d", c.phrase, f.Name(), f.Shank.MM(), f.Length.MM(), c.name, int64(c.shank), int64(c.length))
		}
	}
	// Words of other regions for what is sold by the inch.
	for phrase, name := range map[string]string{"coach bolt 5/16 x 4": "carriage bolt 5/16 x 4", "coach screw 3/8 x 3": "lag screw 3/8 x 3"} {
		if f, err := Parse(phrase); err != nil || f.Name() != name || f.Metric() {
			t.Errorf("%q: %s, %v", phrase, f.Name(), err)
		}
	}
}

func TestParseMetricErrors(t *testing.T) {
	for _, c := range []struct{ phrase, what, mend, fix string }{
		{"screw 4.5 x «65 mm»", "screw 4.5 is not sold 65 mm long", "nearest is 60 mm; sold are 30, 35, 40", "60 mm"},
		{"screw «4.2» x 60 mm", "no screw is sold in size 4.2", "sold are 3.5, 4.0, 4.5, 5.0, 6.0, 8g", ""},
		{"coach bolt «M9»", "no coach bolt is sold in size M9", "sold are M6, M8, M10, M12", ""},
		{"coach bolt M8 x «105»", "coach bolt M8 is not sold 105 mm long", "nearest is 100 mm", "100 mm"},
		{"«nail 3.35»", "how long is this nail?", "write the length: nail 3.35 x 65 mm", ""},
		{"screw 4.5 «x»", "a length in whole millimetres should stand after x", "write it in millimetres: x 40 mm", ""},
		{"screw 4.5 x «2 1/2\"»", "a length in whole millimetres should stand after x", "write it in millimetres: x 40 mm", ""},
		{"screw 4.5 x 60 mm «long»", `"long" is more than a fastener's name`, "leave it out", ""},
		{"«box nail» 3.0 x 60 mm", "no box nail is sold by the millimetre here", "write it in inches: box nail 8d", ""},
		{"screw 8 x 2 «mm»", `"mm" is more than a fastener's name`, "leave it out", ""},
	} {
		phrase := strings.NewReplacer("«", "", "»", "").Replace(c.phrase)
		start, end := strings.Index(c.phrase, "«"), strings.Index(c.phrase, "»")-len("«")
		_, err := Parse(phrase)
		var e *PhraseError
		if !errors.As(err, &e) {
			t.Errorf("%q: %v", phrase, err)
			continue
		}
		if e.Start != start || e.End != end || !strings.HasPrefix(e.What, c.what) || !strings.HasPrefix(e.Mend, c.mend) || e.Fix != c.fix {
			t.Errorf("%q: bytes %d to %d, %s; %s; fix %q\nwant %d to %d, %s; %s; %q", phrase, e.Start, e.End, e.What, e.Mend, e.Fix, start, end, c.what, c.mend, c.fix)
		}
		if e.Fix != "" {
			if _, err := Parse(phrase[:e.Start] + e.Fix + phrase[e.End:]); err != nil {
				t.Errorf("%q: its fix %q does not mend it: %v", phrase, e.Fix, err)
			}
		}
	}
}

func TestMetricNamesReadBack(t *testing.T) {
	for _, r := range MetricRows() {
		if !r.From.OK() || !r.Lasts.OK() || r.From.Basis == cite.Invented || !r.Metric() {
			t.Errorf("%s %s: %v, %v", r.Family, r.Size, r.From, r.Lasts)
		}
		if r.Root > r.Shank || r.Head != 0 && r.Head <= r.Shank || r.Shank == 0 && r.Family != FlatBracket && r.Family != Corner {
			t.Errorf("%s %s: root %v, shank %v, head %v mm", r.Family, r.Size, r.Root.MM(), r.Shank.MM(), r.Head.MM())
		}
		for i, l := range r.Lengths {
			f := Fastener{Row: r, Length: l}
			got, err := Parse(f.Name())
			if err != nil || got.Name() != f.Name() || got.Length != l || got.Family != r.Family {
				t.Errorf("%s reads back as %s, %v, %v", f.Name(), got.Name(), got.Length, err)
			}
			if i > 0 && l <= r.Lengths[i-1] || f.Thread() > l {
				t.Errorf("%s: lengths out of order, or thread %v mm", f.Name(), f.Thread().MM())
			}
		}
	}
	for _, r := range Rows() {
		if r.Metric() {
			t.Errorf("%s %s counts as metric", r.Family, r.Size)
		}
	}
}

func TestMetricThreadsAndHoles(t *testing.T) {
	for _, c := range []struct {
		phrase               string
		thread, hole, bit    measure.Length // tenths of a millimetre; bit is the pilot in softwood
		clearance, countersk measure.Length
		source               string
	}{
		{"coach bolt M8 x 100 mm", 220, 90, 0, 90, 0, "ISO 888 (memory): 2d + 6; EN 1995-1-1 (memory): d + 1"},
		{"coach bolt M10 x 150 mm", 320, 110, 0, 110, 0, "ISO 888 (memory): 2d + 12"},
		{"coach bolt M12 x 220 mm", 490, 130, 0, 130, 0, "ISO 888 (memory): 2d + 25"},
		{"coach screw M8 x 80 mm", 480, 0, 55, 80, 0, "DIN 571 (memory): 0.6 l; pilot by hand, 0.7·8 = 5.6 → 5.5"},
		{"screw 4.5 x 60 mm", 360, 0, 25, 45, 90, "DIN 95 (memory): 0.6 l; by hand, 7/8·2.8 = 2.45 → 2.5"},
		{"screw 4.0 x 40 mm", 240, 0, 20, 40, 80, "by hand, 7/8·2.5 = 2.19 → 2.0, common practice"},
		{"screw 5.0 x 80 mm", 480, 0, 30, 50, 100, "by hand, 7/8·3.2 = 2.8 → 3.0, common practice"},
		{"screw 10g x 75 mm", 450, 0, 30, 50, 92, "by hand, 4.83 → 5.0; 7/8·3.35 = 2.93 → 3.0"},
		{"nail 3.35 x 65 mm", 0, 0, 25, 0, 0, "by hand, 0.75·3.35 = 2.51 → 2.5"},
	} {
		f, err := Parse(c.phrase)
		if err != nil {
			t.Fatal(err)
		}
		tenths := func(l measure.Length) measure.Length { return l * 10 / mm }
		if got := [...]measure.Length{tenths(f.Thread()), tenths(f.Hole()), tenths(f.Pilot(0.42)), tenths(f.Clearance()), tenths(f.Countersink())}; got != [...]measure.Length{c.thread, c.hole, c.bit, c.clearance, c.countersk} {
			t.Errorf("%s: thread, hole, pilot, clearance, countersink %v tenths of a mm (%s)", c.phrase, got, c.source)
		}
	}
	f, _ := Parse("screw 4.5 x 60 mm")
	if f.Sunk() != 225*mm/100 {
		t.Errorf("head sinks %v mm, want (9.0 − 4.5) / 2", f.Sunk().MM())
	}
}

func TestMetricForStack(t *testing.T) {
	for _, c := range []struct {
		phrase  string
		stack   measure.Length // mm
		bolt    string
		washers int
		needs   measure.Length // tenths of a millimetre
		source  string
	}{
		{"coach bolt M8", 90, "carriage bolt M8 x 110 mm", 1, 1048, "by hand: 90 + 2 + 6.8 + 6; thread from 88"},
		{"coach bolt M8", 76, "carriage bolt M8 x 100 mm", 1, 908, "by hand: 76 + 2 + 6.8 + 6; thread from 78"},
		{"coach bolt M10", 115, "carriage bolt M10 x 140 mm", 1, 1319, "by hand: 115 + 2.5 + 8.4 + 6; thread from 108"},
		{"hex bolt M10", 90, "hex bolt M10 x 110 mm", 1, 1094, "by hand: 90 + 2·2.5 + 8.4 + 6"},
	} {
		f, err := Parse(c.phrase)
		if err != nil {
			t.Fatal(err)
		}
		fit, err := f.ForStack(c.stack * mm)
		if err != nil || fit.Bolt.Name() != c.bolt || fit.Washers != c.washers || fit.Needs != c.needs*mm/10 {
			t.Errorf("%s through %d mm: %s with %d washers, needs %v mm, %v; want %s, %d (%s)", c.phrase, int64(c.stack), fit.Bolt.Name(), fit.Washers, fit.Needs.MM(), err, c.bolt, c.washers, c.source)
		}
	}
	f, _ := Parse("coach bolt M8")
	if _, err := f.ForStack(195 * mm); err == nil || err.Error() != "through 195 mm of wood a bolt must be 209.8 mm long at least, and the longest carriage bolt M8 sold is 200 mm; use a thicker bolt, which is sold longer, or a counterbore for the nut" {
		t.Error(err)
	}
	fit, _ := f.ForStack(90 * mm)
	var tally Tally
	tally.AddFit(fit, 4)
	want := []Line{{"carriage bolt M8 x 110 mm", 4}, {"nut M8", 4}, {"washer M8", 4}}
	for i, l := range tally.Lines() {
		if l != want[i] {
			t.Errorf("%v, want %v", l, want[i])
		}
	}
}

func TestRowsOfRegions(t *testing.T) {
	for _, r := range region.All() {
		families := map[Family]int{}
		for _, row := range RowsIn(r) {
			families[row.Family]++
			if row.Metric() != r.Metric() && row.Family != Glue {
				t.Errorf("%v sells %s %s", r, row.Family, row.Size)
			}
			if gauge := strings.HasSuffix(row.Size, "g"); gauge && r != region.Australasia || !gauge && r == region.Australasia && row.Family == DeckScrew {
				t.Errorf("%v sells %s %s", r, row.Family, row.Size)
			}
		}
		for _, f := range []Family{DeckScrew, CarriageBolt, LagScrew, CommonNail, Glue} {
			if families[f] == 0 {
				t.Errorf("%v sells no %s", r, f)
			}
		}
	}
}

// Every region's own word for a fastener is read as that fastener: a coach bolt
// takes a nut and a coach screw none.
func TestWordsOfRegions(t *testing.T) {
	for _, r := range region.All() {
		p := words.For(r)
		for _, c := range []struct {
			concept words.Concept
			size    string
			want    Family
			bolted  bool
		}{
			{words.CarriageBolt, "M8 x 100 mm", CarriageBolt, true}, {words.LagScrew, "M8 x 80 mm", LagScrew, false},
			{words.CarriageBolt, "5/16 x 4", CarriageBolt, true}, {words.LagScrew, "5/16 x 3", LagScrew, false},
			{words.CommonNail, "3.35 x 65 mm", CommonNail, false}, {words.FinishNail, "2.65 x 50 mm", FinishNail, false},
		} {
			f, err := Parse(p.Say(c.concept) + " " + c.size)
			if err != nil || f.Family != c.want || f.Bolted() != c.bolted {
				t.Errorf("%v: %s %s is read as %s, %v", r, p.Say(c.concept), c.size, f.Name(), err)
			}
			if again, err := Parse(p.Fastener(f.Name())); err != nil || again.Name() != f.Name() {
				t.Errorf("%v: %s is printed %s and read back as %s, %v", r, f.Name(), p.Fastener(f.Name()), again.Name(), err)
			}
		}
	}
}
