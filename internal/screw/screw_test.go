package screw

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/measure"
)

const in = measure.Inch

func TestParse(t *testing.T) {
	for _, c := range []struct {
		phrase string
		name   string
		shank  measure.Length // thousandths
		length measure.Length // eighths
	}{
		{"screw 8 x 2 1/2", "deck screw 8 x 2 1/2", 164, 20},
		{"screw no. 8 x 2", "deck screw 8 x 2", 164, 16},
		{"screw No 10 x 3", "deck screw 10 x 3", 190, 24},
		{"Screw #10 × 3\"", "deck screw 10 x 3", 190, 24},
		{"screw 8x2-1/2", "deck screw 8 x 2 1/2", 164, 20},
		{"screw 8 x 1½", "wood screw 8 x 1 1/2", 164, 12},
		{"screw 8 x 1 5/8 in", "deck screw 8 x 1 5/8", 164, 13},
		{"screw 12 x 3", "wood screw 12 x 3", 216, 24},
		{"wood screw 8 x 2", "wood screw 8 x 2", 164, 16},
		{"deck screws 9 x 3 1/2", "deck screw 9 x 3 1/2", 177, 28},
		{"carriage bolt 5/16", "carriage bolt 5/16", 324, 0},
		{"carriage bolt 5/16 x 4", "carriage bolt 5/16 x 4", 324, 32},
		{"carriage bolt 1/2\" x 6\"", "carriage bolt 1/2 x 6", 515, 48},
		{"nail 8d", "nail 8d", 131, 20},
		{"nail 8d x 2 1/2", "nail 8d", 131, 20},
		{"box nail 16d", "box nail 16d", 135, 28},
		{"finish nail 6d", "finish nail 6d", 92, 16},
		{"lag screw 3/8 x 3", "lag screw 3/8 x 3", 375, 24},
		{"dowel 3/8 x 2", "dowel 3/8 x 2", 375, 16},
		{"outdoor glue", "outdoor glue", 0, 0},
		{"screw 8", "deck screw 8", 164, 0},
		{"stainless screw 8 x 2", "stainless deck screw 8 x 2", 164, 16},
		{"hot-dip galvanized carriage bolt 5/16", "galvanized carriage bolt 5/16", 324, 0},
		{"zinc plated hex bolt 3/8 x 4", "plated hex bolt 3/8 x 4", 375, 32},
		{"structural screw 1/4 x 4", "structural screw 1/4 x 4", 250, 32},
		{"threaded insert 1/4", "threaded insert 1/4", 375, 4},
		{"corner bracket 2", "corner bracket 2", 0, 16},
		{"corner bracket 1 1/2\"", "corner bracket 1 1/2", 0, 12},
		{"bolt 5/16 x 4", "carriage bolt 5/16 x 4", 324, 32},
		{"wood screw 14 x 3", "wood screw 14 x 3", 242, 24},
	} {
		f, err := Parse(c.phrase)
		if err != nil {
			t.Errorf("%q: %v", c.phrase, err)
			continue
		}
		if f.Name() != c.name || f.Shank != c.shank*mil || f.Length != c.length*in/8 {
			t.Errorf("%q: %s, %v mil, %v in; want %s, %v mil, %v/8 in", c.phrase, f.Name(), f.Shank/mil, f.Length.Inches(), c.name, int64(c.shank), int64(c.length))
		}
	}
}

// The wrong part of each phrase stands between « and ».
func TestParseErrors(t *testing.T) {
	for _, c := range []struct{ phrase, what, mend, fix string }{
		{"screw 8 x «2 3/8»", "screw 8 is not sold 2 3/8 in long", "nearest is 2 1/2", "2 1/2"},
		{"screw «11» x 2", "no screw is sold in size 11", "sold are 8, 9, 10, 1/4, 6, 7", ""},
		{"«dowel 3/8»", "how long is this dowel?", "write the length: dowel 3/8 x 1 1/2", ""},
		{"«scrw» 8 x 2", `"scrw" names no fastener`, "did you mean screw?", "screw"},
		{"«stud bolt» 5/16 x 4", `"stud bolt" names no fastener`, "did you mean carriage bolt?", "carriage bolt"},
		{"«rope»", `"rope" names no fastener`, "known are screw, deck screw", ""},
		{"carriage bolt«»", "the size of the carriage bolt is missing", "write it: carriage bolt 5/16", ""},
		{"carriage bolt «7/16»", "no carriage bolt is sold in size 7/16", "sold are 1/4, 5/16, 3/8, 1/2", ""},
		{"screw 8 «x»", "the length is missing after x", "write it in inches: x 2 1/2", ""},
		{"screw 8 x «2/7»", `"2/7" is no length`, "write inches and a fraction", ""},
		{"screw 8 x 2 «mm»", `"mm" is more than a fastener's name`, "leave it out", ""},
		{"nail 8«p»", `"p" does not belong in a size`, "write 8d", ""},
		{"nail 8d x «3»", "nail 8d is not sold 3 in long", "nearest is 2 1/2", "2 1/2"},
		{"outdoor glue «3»", `"3" is more than a fastener's name`, "leave it out", ""},
		{"«outdoor glue and luck»", `"outdoor glue and luck" names no fastener`, "did you mean outdoor glue?", "outdoor glue"},
		{"screw 8 «!» 2", `"!" does not belong in a fastener's name`, "write it like: screw 8 x 2 1/2", ""},
		{"screw «no» x 2", "the number is missing after no.", "write it: no. 8", ""},
		{"«»", "this names no fastener", "known are", ""},
	} {
		phrase := strings.NewReplacer("«", "", "»", "").Replace(c.phrase)
		start := strings.Index(c.phrase, "«")
		end := strings.Index(c.phrase, "»") - len("«")
		_, err := Parse(phrase)
		var e *PhraseError
		if !errors.As(err, &e) {
			t.Errorf("%q: %v", phrase, err)
			continue
		}
		if e.Start != start || e.End != end || e.What != c.what || !strings.HasPrefix(e.Mend, c.mend) || e.Fix != c.fix {
			t.Errorf("%q: bytes %d to %d, %s; %s; fix %q\nwant %d to %d, %s; %s; %q", phrase, e.Start, e.End, e.What, e.Mend, e.Fix, start, end, c.what, c.mend, c.fix)
		}
	}
}

// Every fastener sold reads back from its name.
func TestNamesReadBack(t *testing.T) {
	for _, r := range Rows() {
		if !r.From.OK() || !r.Lasts.OK() {
			t.Errorf("%s %s has no source", r.Family, r.Size)
		}
		lengths := r.Lengths
		if r.Family == Glue {
			lengths = []measure.Length{0}
		}
		if (Fastener{Row: r}).sized() {
			lengths = r.Lengths[:1]
		}
		for i, l := range lengths {
			f := Fastener{Row: r, Length: l}
			got, err := Parse(f.Name())
			if err != nil || got.Name() != f.Name() || got.Length != l || got.Family != r.Family {
				t.Errorf("%s reads back as %s, %v", f.Name(), got.Name(), err)
			}
			if i > 0 && l <= lengths[i-1] {
				t.Errorf("%s: lengths out of order", f.Name())
			}
		}
		if r.Root > r.Shank || r.Head != 0 && r.Head <= r.Shank {
			t.Errorf("%s %s: root %d, shank %d, head %d nm", r.Family, r.Size, r.Root, r.Shank, r.Head)
		}
	}
}

func TestThread(t *testing.T) {
	for _, c := range []struct {
		phrase string
		want   measure.Length // 1/16 in
		source string
	}{
		{"lag screw 3/8 x 1 1/2", 20, "NDS 2018, table L2: 1 1/4"},
		{"lag screw 3/8 x 2", 24, "NDS 2018, table L2: 1 1/2"},
		{"lag screw 3/8 x 3", 32, "NDS 2018, table L2: 2"},
		{"lag screw 3/8 x 4", 40, "NDS 2018, table L2: 2 1/2"},
		{"lag screw 3/8 x 6", 56, "NDS 2018, table L2: 3 1/2"},
		{"carriage bolt 5/16 x 4", 14, "ASME B18.5 (from memory): 2D + 1/4"},
		{"carriage bolt 3/8 x 8", 20, "ASME B18.5 (from memory): 2D + 1/2"},
		{"wood screw 8 x 3", 32, "ASME B18.6.1: two thirds"},
		{"nail 8d", 0, "smooth"},
	} {
		f, err := Parse(c.phrase)
		if err != nil {
			t.Fatal(err)
		}
		if got := f.Thread(); got != c.want*in/16 {
			t.Errorf("%s: thread %v in, want %v (%s)", c.phrase, got.Inches(), (c.want * in / 16).Inches(), c.source)
		}
	}
}

func TestForStack(t *testing.T) {
	for _, c := range []struct {
		phrase  string
		stack   measure.Length // 1/16 in
		bolt    string
		washers int
		needs   float64 // in
		source  string
	}{
		// By hand: 3 + 2·0.083 + 17/64 + 1/4 = 3.682; with one washer, 3.599, the
		// thread of the 4 in bolt would begin at 3 1/8, past 3.083.
		{"carriage bolt 5/16", 48, "carriage bolt 5/16 x 4", 2, 3.682, "by hand"},
		{"carriage bolt 5/16", 24, "carriage bolt 5/16 x 2 1/2", 2, 2.182, "by hand: 1 1/2 + 0.166 + 0.516; thread from 1 5/8"},
		{"carriage bolt 5/16", 40, "carriage bolt 5/16 x 3 1/2", 2, 3.182, "by hand: thread from 2 5/8"},
		{"carriage bolt 3/8", 48, "carriage bolt 3/8 x 4", 1, 3.661, "by hand: 3 + 0.083 + 21/64 + 1/4; thread from 3"},
		{"carriage bolt 5/16 x 4", 48, "carriage bolt 5/16 x 4", 2, 3.682, "the length given will do"},
	} {
		f, err := Parse(c.phrase)
		if err != nil {
			t.Fatal(err)
		}
		fit, err := f.ForStack(c.stack * in / 16)
		if err != nil {
			t.Errorf("%s through %d/16: %v", c.phrase, c.stack, err)
			continue
		}
		if fit.Bolt.Name() != c.bolt || fit.Washers != c.washers || math.Abs(fit.Needs.Inches()-c.needs) > 0.0005 {
			t.Errorf("%s through %d/16: %s with %d washers, needs %.3f; want %s, %d, %.3f (%s)", c.phrase, int64(c.stack),
				fit.Bolt.Name(), fit.Washers, fit.Needs.Inches(), c.bolt, c.washers, c.needs, c.source)
		}
	}
	for _, c := range []struct {
		phrase string
		stack  measure.Length
		want   string
	}{
		{"carriage bolt 5/16 x 2", 3 * in, "through 3.000 in of wood a bolt must be 3.599 in long at least, and carriage bolt 5/16 x 2 is 2 in; use a thicker bolt"},
		{"carriage bolt 5/16", 9 * in, "through 9.000 in of wood a bolt must be 9.599 in long at least, and the longest carriage bolt 5/16 sold is 6 in"},
		{"carriage bolt 5/16 x 6", 2 * in, "through 2.000 in of wood the thread of carriage bolt 5/16 x 6 begins too far"},
		{"screw 8 x 2", 2 * in, "deck screw 8 x 2 takes no nut"},
		{"carriage bolt 5/16", 0, "a bolt needs wood to go through"},
	} {
		f, err := Parse(c.phrase)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := f.ForStack(c.stack); err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%s through %v: %v\nwant %s", c.phrase, c.stack.Inches(), err, c.want)
		}
	}
}

// A fitted bolt reaches, and its nut draws tight.
func TestFitHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, err := Parse("carriage bolt " + rapid.SampledFrom([]string{"1/4", "5/16", "3/8", "1/2"}).Draw(t, "size"))
		if err != nil {
			t.Fatal(err)
		}
		stack := measure.Length(rapid.IntRange(8, 128).Draw(t, "stack")) * in / 16
		fit, err := f.ForStack(stack)
		if err != nil {
			return
		}
		nut, _ := trimOf(f.Size)
		reach := stack + measure.Length(fit.Washers)*nut.washer
		if fit.Bolt.Length < reach+nut.nut || fit.Bolt.Length-fit.Bolt.Thread() > reach {
			t.Fatalf("%s through %v in with %d washers", fit.Bolt.Name(), stack.Inches(), fit.Washers)
		}
	})
}

func TestHole(t *testing.T) {
	f, _ := Parse("carriage bolt 5/16")
	if f.Hole() != in*11/32 {
		t.Errorf("hole %v in, want 11/32 (NDS 2018, 12.1.3: 1/32 over)", f.Hole().Inches())
	}
}

func TestTally(t *testing.T) {
	bolt, _ := Parse("carriage bolt 5/16")
	fit, err := bolt.ForStack(3 * in)
	if err != nil {
		t.Fatal(err)
	}
	screw, _ := Parse("screw 8 x 2 1/2")
	var tally Tally
	tally.Add(screw, 40)
	tally.AddFit(fit, 8)
	tally.Add(screw, 12)
	want := []Line{{"carriage bolt 5/16 x 4", 8}, {"deck screw 8 x 2 1/2", 52}, {"nut 5/16", 8}, {"washer 5/16", 16}}
	got := tally.Lines()
	if len(got) != len(want) {
		t.Fatal(got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%v, want %v", got[i], want[i])
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"screw 8 x 2 1/2", "carriage bolt 5/16", "nail 8d", "screw #8", "½", "no", "x x x", "lag screw 3/8 x 3-1/2\"", "screw 4.5 x 60 mm", "coach bolt M8", "screw 10g x 75"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, phrase string) {
		got, err := Parse(phrase)
		if err == nil {
			again, err := Parse(got.Name())
			if err != nil || again.Name() != got.Name() {
				t.Errorf("%q reads as %q, which reads as %q, %v", phrase, got.Name(), again.Name(), err)
			}
			return
		}
		var e *PhraseError
		if !errors.As(err, &e) || e.Start < 0 || e.End < e.Start || e.End > len(phrase) || e.What == "" || e.Mend == "" {
			t.Errorf("%q: %#v", phrase, err)
		}
	})
}

func TestHoles(t *testing.T) {
	for _, c := range []struct {
		phrase           string
		gravity          float64
		clearance, pilot measure.Length // 1/64 in
		source           string
	}{
		{"wood screw 6", 0.55, 9, 6, "common practice: 9/64; NDS 12.1.5: 7/8 · 0.113 = 0.099 → 3/32"},
		{"wood screw 8", 0.55, 11, 7, "common practice: 11/64; NDS 12.1.5: 7/8 · 0.131 = 0.115 → 7/64"},
		{"wood screw 8", 0.67, 11, 8, "NDS 12.1.5, G over 0.60: 0.131 → 1/8"},
		{"wood screw 10", 0.50, 13, 8, "common practice: 13/64; NDS 12.1.5: 7/8 · 0.152 = 0.133 → 1/8"},
		{"wood screw 10", 0.67, 13, 9, "NDS 12.1.5, G over 0.60: 0.152 → 9/64"},
		{"wood screw 12", 0.55, 14, 9, "common practice: 7/32; 7/8 · 0.171 = 0.150 → 9/64"},
		{"deck screw 8", 0.55, 11, 6, "7/8 · 0.115 = 0.101 → 3/32, common practice for no. 8 in softwood"},
		{"deck screw 10", 0.55, 13, 7, "7/8 · 0.132 = 0.116 → 7/64"},
		{"lag screw 3/8", 0.43, 24, 16, "NDS 12.1.4 (memory), 40-70 %: 0.263 → 1/4"},
		{"lag screw 3/8", 0.55, 24, 18, "NDS 12.1.4 (memory), 60-75 %: 0.281 → 9/32"},
		{"lag screw 3/8", 0.67, 24, 20, "NDS 12.1.4 (memory), 65-85 %: 0.319 → 5/16"},
		{"nail 8d", 0.55, 0, 6, "NDS 12.1.6, 75 %: 0.098 → 3/32"},
		{"nail 8d", 0.67, 0, 7, "NDS 12.1.6, 90 %: 0.118 → 7/64"},
		{"carriage bolt 5/16", 0.55, 22, 0, "NDS 12.1.3: 1/32 over → 11/32"},
	} {
		f, err := Parse(c.phrase)
		if err != nil {
			t.Fatal(err)
		}
		if got, pilot := f.Clearance()*64/in, f.Pilot(c.gravity)*64/in; got != c.clearance || pilot != c.pilot {
			t.Errorf("%s in G %.2f: %d/64 and %d/64, want %d and %d (%s)", c.phrase, c.gravity, got, pilot, c.clearance, c.pilot, c.source)
		}
	}
	f, _ := Parse("wood screw 8 x 2")
	if sunk := f.Sunk().Inches(); math.Abs(sunk-0.0851) > 0.0005 {
		t.Errorf("head of no. 8 sinks %.4f in, want (0.312 − 0.164) / (2 tan 41°) = 0.0851", sunk)
	}
}

func TestHexBoltTakesAWasherUnderItsHead(t *testing.T) {
	f, _ := Parse("hex bolt 3/8")
	fit, err := f.ForStack(3 * in)
	// By hand: 3 + 2·0.083 + 21/64 + 1/4 = 3.744: 4, whose thread begins at 3.
	if err != nil || fit.Bolt.Name() != "hex bolt 3/8 x 4" || fit.Washers != 1 || fit.Under != 1 {
		t.Fatal(fit, err)
	}
	var tally Tally
	tally.AddFit(fit, 2)
	if got := tally.Lines(); got[2] != (Line{"washer 3/8", 4}) {
		t.Error(got)
	}
}

func TestFinishes(t *testing.T) {
	for _, c := range []struct {
		phrase         string
		treated, coast bool
	}{
		{"screw 8 x 2", true, true}, {"plain nail 8d", false, false}, {"plated carriage bolt 5/16", false, false},
		{"plated carriage bolt 1/2", true, false}, {"galvanized nail 8d", true, false}, {"stainless nail 8d", true, true},
		{"bronze wood screw 8 x 2", true, true}, {"coated screw 8 x 2", true, false},
	} {
		f, err := Parse(c.phrase)
		if err != nil {
			t.Fatal(err)
		}
		if f.SuitsTreated() != c.treated || f.Finish.SuitsCoast() != c.coast {
			t.Errorf("%s: in treated wood %v, at the coast %v; want %v, %v (IBC 2012, 2304.9.5; SFPA)", c.phrase, f.SuitsTreated(), f.Finish.SuitsCoast(), c.treated, c.coast)
		}
	}
}
