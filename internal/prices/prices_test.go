package prices

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/region"
	"scantling/internal/screw"
	"scantling/internal/span"
)

func TestDemoBook(t *testing.T) {
	b, snags := Parse("demo.csv", DemoCSVIn(region.America))
	if len(snags) > 0 {
		t.Fatalf("%+v", snags)
	}
	if !b.Invented || b.Date == "" || b.Place == "" {
		t.Errorf("the demo book must say where and when, and that it is invented: %+v", b)
	}
	for _, c := range []struct {
		size, wood string
		treatment  lumber.Treatment
	}{
		{"2x4", "southern pine", lumber.AboveGround},
		{"2x6", "southern pine", lumber.GroundContact},
		{"5/4x6 radius edge", "southern pine", lumber.AboveGround},
		{"5/4x6 square edge", "southern pine", lumber.Untreated},
		{"2x4", "western red cedar", lumber.Untreated},
		{"1x4", "western red cedar", lumber.Untreated},
		{"5/4x4 radius edge", "western red cedar", lumber.Untreated},
	} {
		s, err := lumber.Lookup(c.size)
		if err != nil {
			t.Fatal(err)
		}
		var feet []measure.Length
		offers := b.Boards(lumber.StockOf(s, c.wood, "", c.treatment))
		for i, o := range offers {
			feet = append(feet, o.Length/measure.Foot)
			if i > 0 && o.Price <= offers[i-1].Price {
				t.Errorf("%v: %d ft is no dearer than what is shorter", c, o.Length/measure.Foot)
			}
		}
		if len(feet) != 4 || feet[0] != 8 || feet[1] != 10 || feet[2] != 12 || feet[3] != 16 {
			t.Errorf("%v is sold in %v ft, want 8 10 12 16", c, feet)
		}
	}
	// Every deck screw and every carriage bolt that 1 to 5 in of wood can ask
	// for has a price, with nut and washer.
	for _, r := range screw.Rows() {
		for _, l := range r.Lengths {
			if f := (screw.Fastener{Row: r, Length: l}); f.Family == screw.DeckScrew {
				if _, ok := b.Packs(f.Name(), 1); !ok {
					t.Errorf("%s has no price", f.Name())
				}
			}
		}
	}
	for _, size := range []string{"5/16", "3/8"} {
		f, err := screw.Parse("carriage bolt " + size)
		if err != nil {
			t.Fatal(err)
		}
		for stack := 3 * measure.Inch / 2; stack <= 4*measure.Inch; stack += measure.Inch / 4 {
			fit, err := f.ForStack(stack)
			if err != nil {
				continue
			}
			var need screw.Tally
			need.AddFit(fit, 3)
			for _, l := range need.Lines() {
				if _, ok := b.Packs(l.What, l.Count); !ok {
					t.Errorf("%s has no price", l.What)
				}
			}
		}
	}
}

func TestPacks(t *testing.T) {
	b := &Book{Hardware: []Pack{{"nail 8d", 50, 300}, {"nail 8d", 250, 1100}, {"nut 5/16", 1, 10}}}
	for _, c := range []struct {
		what string
		n    int
		cost measure.Money
		says string
	}{
		{"nail 8d", 1, 300, "1 box of 50"}, {"nail 8d", 50, 300, "1 box of 50"}, {"nail 8d", 51, 600, "2 boxes of 50"},
		{"nail 8d", 150, 900, "3 boxes of 50"}, {"nail 8d", 151, 1100, "1 box of 250"}, {"nail 8d", 0, 0, ""}, {"nut 5/16", 16, 160, ""},
	} {
		got, ok := b.Packs(c.what, c.n)
		if !ok || got.Cost() != c.cost || got.String() != c.says {
			t.Errorf("%d %s: %q for %d, want %q for %d", c.n, c.what, got, got.Cost(), c.says, c.cost)
		}
	}
	if _, ok := b.Packs("nail 10d", 1); ok {
		t.Error("what is not in the book was sold")
	}
}

// The packs hold what is needed, and one fewer would not.
func TestPacksAreEnoughAndNoMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := &Book{}
		for range rapid.IntRange(1, 3).Draw(t, "kinds") {
			b.Hardware = append(b.Hardware, Pack{"x", rapid.IntRange(1, 30).Draw(t, "count"), measure.Money(rapid.IntRange(1, 500).Draw(t, "price"))})
		}
		n := rapid.IntRange(1, 120).Draw(t, "n")
		p, _ := b.Packs("x", n)
		if p.N*p.Per < n || (p.N-1)*p.Per >= n {
			t.Fatalf("%d packs of %d for %d", p.N, p.Per, n)
		}
		for _, k := range b.Hardware {
			if cost := measure.Money((n+k.Count-1)/k.Count) * k.Price; cost < p.Cost() {
				t.Fatalf("%d for %d; by packs of %d it is %d", p.Cost(), n, k.Count, cost)
			}
		}
	})
}

func TestNote(t *testing.T) {
	for _, c := range []struct{ book, want string }{
		{string(demo), "The prices are invented, to show how a plan is priced; ask your own yard."},
		{"place,Upper yard\ndate,2026-03-01\nhardware,count,price\nnut 5/16,1,0.12\n", "Prices asked at Upper yard on 2026-03-01."},
		{"hardware,count,price\nnut 5/16,1,0.12\n", "The price book does not say where and when its prices were asked."},
	} {
		b, snags := Parse("p.csv", []byte(c.book))
		if b.Note() != c.want || len(snags) > 0 {
			t.Errorf("%q: %q %v", c.book, b.Note(), snags)
		}
	}
}

// Things that are no fasteners have prices too.
func TestOtherHardware(t *testing.T) {
	b, snags := Parse("p.csv", []byte("hardware,count,price\nstrap hinge 8 in,2,14.50\n"))
	if p, ok := b.Packs("strap hinge 8 in", 2); len(snags) > 0 || !ok || p.Cost() != 1450 {
		t.Errorf("%+v %v", b, snags)
	}
}

func TestParseErrors(t *testing.T) {
	head := "place,here\ndate,2026-03-01\n"
	boards := head + "size,wood,grade,treatment,length_ft,price\n"
	hardware := head + "hardware,count,price\n"
	// The wrong field stands between « and ».
	for _, c := range []struct{ src, want, mend string }{
		{"«»", "the price book holds no prices", "begin with the line size,wood"},
		{"«plce»,here\n", `"plce" is nothing a book says of itself`, "did you mean place?"},
		{"date,«1 March»\n", `"1 March" is no date`, "write it year first: 2026-03-01"},
		{boards + "«2x5»,southern pine,,none,8,4.00\n", `"2x5" is no sale size; the nearest: 2x4, 2x6`, "write 2x4"},
		{boards + "«5/4x6»,southern pine,,none,8,4.00\n", `sale size "5/4x6" may be any of: 5/4x6 radius edge, 5/4x6 square edge`, "write 5/4x6 radius edge"},
		{boards + "2x4,«cedar»,,none,8,4.00\n", `wood "cedar" may be any of: western red cedar, northern white cedar`, "write western red cedar"},
		{boards + "2x4,southern pine,,«soaked»,8,4.00\n", `"soaked" is no treatment`, "write none"},
		{boards + "2x4,southern pine,,none,«8 ft»,4.00\n", `"8 ft" is no length in feet`, "write whole feet from 1 to 40"},
		{boards + "2x4,southern pine,,none,8,«4.5»\n", `"4.5" is no price`, "write dollars and two places of cents: 5.48"},
		{boards + "«2x4»,southern pine,8,4.50\n", `the row has 4 fields and should have 6`, "write size,wood"},
		{boards + "2x4,southern pine,,none,8,4.50\n«2X4»,Southern Pine,,none,8,4.60\n", `2x4 southern pine, 8 ft has a price already`, "keep this line or line 4"},
		{hardware + "«screw 8 x 2 3/8»,100,9.00\n", `screw 8 is not sold 2 3/8 in long`, "nearest is 2 1/2"},
		{hardware + "«nut 7/16»,100,9.00\n", `"nut 7/16" is no nut or washer sold for a bolt`, "name it by its bolt: nut 5/16"},
		{hardware + "«carriage bolt 5/16»,1,0.90\n", `how long is this bolt?`, "write its length: carriage bolt 5/16 x 4"},
		{hardware + "nail 8d,«a box»,9.00\n", `"a box" is no count`, "write how many are in the pack"},
		{hardware + "«scrw 8 x 2»,100,9.00\n", `"scrw" names no fastener`, "did you mean screw?"},
		{hardware + "«\"nail 8d,1,9.00»\n", `this is no line of a CSV file`, "put a field that holds a comma"},
	} {
		plain := strings.NewReplacer("«", "", "»", "").Replace(c.src)
		start, end := strings.Index(c.src, "«"), strings.Index(c.src, "»")-len("«")
		_, snags := Parse("p.csv", []byte(plain))
		if len(snags) != 1 || !strings.HasPrefix(snags[0].What, c.want) || !strings.HasPrefix(snags[0].Mends[0].Says, c.mend) ||
			snags[0].At.Start != start || snags[0].At.End != end {
			t.Errorf("%q:\n got %+v\nwant %s; %s at %d to %d", plain, snags, c.want, c.mend, start, end)
		}
	}
}

// Every mend that is an edit mends what it stands beside.
func TestMendsMend(t *testing.T) {
	for _, row := range []string{"size,wood,grade,treatment,length_ft,price\n5/4x6,southern pine,,none,8,4.00\n",
		"size,wood,grade,treatment,length_ft,price\n2x4,cedar,,none,8,4.00\n", "hardware,count,price\nscrew 8 x 2 3/8,100,9.00\n"} {
		_, snags := Parse("p.csv", []byte(row))
		for _, m := range snags[0].Mends {
			mended, ok := span.Apply([]byte(row), m.Edits)
			if _, left := Parse("p.csv", mended); !ok || len(left) > 0 {
				t.Errorf("%q after %q: %+v", row, m.Says, left)
			}
		}
	}
}

func FuzzParse(f *testing.F) {
	f.Add(DemoCSVIn(region.America))
	f.Add([]byte("place,x\nsize,wood,grade,treatment,length_ft,price\n2x4,cedar,,none,8,1.00\n"))
	f.Add([]byte("region,UK\ncurrency,£\nsize,wood,grade,treatment,length_mm,price\n47x100,redwood,,H3,3600,£1.00\n"))
	f.Add([]byte("hardware,count,price\n\"nut 5/16\",1,0.10\n"))
	f.Fuzz(func(t *testing.T, src []byte) {
		b, snags := Parse("p.csv", src)
		for _, s := range snags {
			if s.At.Start < 0 || s.At.End < s.At.Start || s.At.End > len(src) || s.What == "" || len(s.Mends) == 0 {
				t.Errorf("no place or mend: %+v", s)
			}
		}
		for _, o := range b.Sold {
			if o.Price <= 0 || o.Length <= 0 {
				t.Errorf("a price of %d for %d nm", o.Price, o.Length)
			}
		}
	})
}
