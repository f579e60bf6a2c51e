package prices

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/screw"
)

func TestDemoBook(t *testing.T) {
	b, err := Parse(DemoCSV())
	if err != nil {
		t.Fatal(err)
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
		offers := b.Offers(lumber.StockOf(s, c.wood, "", c.treatment))
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
				if _, _, ok := b.Buy(f.Name(), 1); !ok {
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
				if _, _, ok := b.Buy(l.What, l.Count); !ok {
					t.Errorf("%s has no price", l.What)
				}
			}
		}
	}
}

func TestBuy(t *testing.T) {
	b := &Book{Packs: []Pack{{"nail 8d", 50, 300}, {"nail 8d", 250, 1100}, {"nail 16d", 1, 10}}}
	for _, c := range []struct {
		n     int
		cost  measure.Money
		packs string
	}{
		{1, 300, "1×50"}, {50, 300, "1×50"}, {51, 600, "2×50"}, {150, 900, "3×50"}, {151, 1100, "1×250"}, {260, 1400, "1×50 1×250"}, {0, 0, ""},
	} {
		take, cost, ok := b.Buy("nail 8d", c.n)
		var packs []string
		for _, x := range take {
			packs = append(packs, strings.TrimSpace(strings.Join([]string{itoa(x.Packs), itoa(x.Count)}, "×")))
		}
		if !ok || cost != c.cost || strings.Join(packs, " ") != c.packs {
			t.Errorf("%d: %v for %d, want %s for %d", c.n, packs, cost, c.packs, c.cost)
		}
	}
	if _, _, ok := b.Buy("nail 10d", 1); ok {
		t.Error("what is not in the book was sold")
	}
}

func itoa(n int) string {
	if n >= 10 {
		return itoa(n/10) + string(rune('0'+n%10))
	}
	return string(rune('0' + n))
}

// The packs hold what is needed and no single pack could be left in the shop.
func TestBuyIsEnoughAndNoMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := &Book{}
		for range rapid.IntRange(1, 3).Draw(t, "kinds") {
			b.Packs = append(b.Packs, Pack{"x", rapid.IntRange(1, 30).Draw(t, "count"), measure.Money(rapid.IntRange(1, 500).Draw(t, "price"))})
		}
		n := rapid.IntRange(1, 120).Draw(t, "n")
		take, cost, _ := b.Buy("x", n)
		held, sum := 0, measure.Money(0)
		for _, p := range take {
			held += p.Packs * p.Count
			sum += measure.Money(p.Packs) * p.Price
		}
		if held < n || sum != cost {
			t.Fatalf("%d held of %d for %d, said %d", held, n, sum, cost)
		}
		for _, p := range take {
			if held-p.Count >= n {
				t.Fatal("a pack is bought for nothing")
			}
		}
	})
}

func TestParseErrors(t *testing.T) {
	head := "place,here\ndate,2026-03-01\n"
	boards := head + "size,wood,grade,treatment,length_ft,price\n"
	hardware := head + "hardware,count,price\n"
	for _, c := range []struct{ src, want string }{
		{"", "line 1, column 1: the book holds no prices"},
		{"plce,here\n", `line 1, column 1: "plce" is nothing a book says of itself; did you mean place?`},
		{"date,1 March\n", `line 1, column 6: "1 March" is no date; write it year first: 2026-03-01`},
		{boards + "2x5,southern pine,,none,8,4.00\n", `line 4, column 1: "2x5" is no sale size; the nearest: 2x4, 2x6`},
		{boards + "5/4x6,southern pine,,none,8,4.00\n", `line 4, column 1: sale size "5/4x6" may be any of: 5/4x6 radius edge, 5/4x6 square edge`},
		{boards + "2x4,cedar,,none,8,4.00\n", `line 4, column 5: wood "cedar" may be any of: western red cedar, northern white cedar`},
		{boards + "2x4,southern pine,,soaked,8,4.00\n", `line 4, column 20: "soaked" is no treatment`},
		{boards + "2x4,southern pine,,none,8 ft,4.00\n", `line 4, column 25: "8 ft" is no length in feet`},
		{boards + "2x4,southern pine,,none,8,4.5\n", `line 4, column 27: "4.5" is no price; write dollars and two places of cents: 5.48`},
		{boards + "2x4,southern pine,8,4.50\n", `line 4, column 1: the row has 4 fields and should have 6`},
		{boards + "2x4,southern pine,,none,8,4.50\n2X4,Southern Pine,,none,8,4.60\n", `line 5, column 1: 2x4, southern pine, , none, 8 ft has a price already; keep this line or line 4`},
		{hardware + "screw 8 x 2 3/8,100,9.00\n", `line 4, column 1: screw 8 is not sold 2 3/8 in long; nearest is 2 1/2`},
		{hardware + "nut 7/16,100,9.00\n", `line 4, column 1: "nut 7/16" is no nut or washer sold for a bolt`},
		{hardware + "carriage bolt 5/16,1,0.90\n", `line 4, column 1: how long is this bolt?`},
		{hardware + "nail 8d,a box,9.00\n", `line 4, column 9: "a box" is no count`},
		{hardware + "\"nail 8d,1,9.00\n", `line 4, column 17: this is no line of a CSV file`},
	} {
		_, err := Parse([]byte(c.src))
		var es Errors
		if !errors.As(err, &es) {
			t.Errorf("%q: %v, want %s", c.src, err, c.want)
			continue
		}
		if len(es) != 1 || !strings.HasPrefix(es[0].Error(), c.want) {
			t.Errorf("%q:\n got %v\nwant %s", c.src, err, c.want)
		}
	}
}

func FuzzParse(f *testing.F) {
	f.Add(DemoCSV())
	f.Add([]byte("place,x\nsize,wood,grade,treatment,length_ft,price\n2x4,cedar,,none,8,1.00\n"))
	f.Fuzz(func(t *testing.T, src []byte) {
		b, err := Parse(src)
		var es Errors
		if errors.As(err, &es) {
			lines := strings.Count(string(src), "\n") + 1
			for _, e := range es {
				if e.Line < 1 || e.Line > lines || e.Column < 1 || e.What == "" || e.Mend == "" {
					t.Errorf("no place or mend: %+v", e)
				}
			}
		}
		for _, o := range b.Boards {
			if o.Price <= 0 || o.Length <= 0 {
				t.Errorf("a price of %d for %d nm", o.Price, o.Length)
			}
		}
	})
}
