package prices

import (
	"slices"
	"strings"
	"testing"

	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/region"
	"scantling/internal/screw"
)

func TestDemoBooksOfRegions(t *testing.T) {
	for _, r := range region.All() {
		b, snags := Parse("demo.csv", DemoCSVIn(r))
		if len(snags) > 0 {
			t.Fatalf("%v: %+v", r, snags)
		}
		if !b.Invented || b.Date == "" || b.Place == "" || b.Region != r || b.Currency != [...]string{"$", "£", "$"}[r] {
			t.Errorf("%v: says of itself %q, %q, invented %v, %v, %s", r, b.Place, b.Date, b.Invented, b.Region, b.Currency)
		}
		// Every board is of a size and a length that region's yards stock, and a
		// longer one is dearer.
		for i, o := range b.Sold {
			s, err := lumber.LookupIn(r, string(o.Size))
			if err != nil {
				t.Errorf("%v: %s: %v", r, o.Size, err)
			}
			if !slices.Contains(s.Lengths, o.Length) {
				t.Errorf("%v: %s is not stocked %v mm long", r, o.Size, o.Length.MM())
			}
			if i > 0 {
				if last := b.Sold[i-1]; last.Size == o.Size && last.Wood == o.Wood && last.Treatment == o.Treatment && last.Grade == o.Grade && (last.Length >= o.Length || last.Price >= o.Price) {
					t.Errorf("%v: %s, %v mm: no dearer than what is shorter", r, o.Size, o.Length.MM())
				}
			}
		}
		// Every screw that region sells has a price, and so has every bolt that
		// 40 to 120 mm of wood can ask for, with nut and washer.
		for _, row := range screw.RowsIn(r) {
			if row.Family != screw.DeckScrew || row.Size == "1/4" {
				continue
			}
			for _, l := range row.Lengths {
				f := screw.Fastener{Row: row, Length: l}
				if _, ok := b.Packs(f.Name(), 1); !ok {
					t.Errorf("%v: %s has no price", r, f.Name())
				}
			}
		}
		if !r.Metric() {
			continue
		}
		for _, size := range []string{"M8", "M10"} {
			f, err := screw.Parse("coach bolt " + size)
			if err != nil {
				t.Fatal(err)
			}
			for stack := 40 * measure.Millimetre; stack <= 120*measure.Millimetre; stack += 5 * measure.Millimetre {
				fit, err := f.ForStack(stack)
				if err != nil {
					t.Errorf("%s through %v mm: %v", size, stack.MM(), err)
					continue
				}
				var need screw.Tally
				need.AddFit(fit, 3)
				for _, l := range need.Lines() {
					if _, ok := b.Packs(l.What, l.Count); !ok {
						t.Errorf("%v: %s has no price", r, l.What)
					}
				}
			}
		}
	}
}

// A book of a region is read by its names: redwood is Scots pine in Europe, and
// pine radiata in Australia.
func TestNamesOfTheRegion(t *testing.T) {
	for _, c := range []struct {
		src, wood string
		size      lumber.Nominal
		treatment lumber.Treatment
		length    measure.Length
		price     measure.Money
		currency  string
	}{
		{"region,UK\ncurrency,£\nsize,wood,grade,treatment,length_mm,price\n47x100 regularised,redwood,C24,use class 4,3600,£12.50\n", "scots pine", "47x100 regularised", lumber.GroundContact, 3600, 1250, "£"},
		{"region,New Zealand\nsize,wood,grade,treatment,length_mm,price\n90x45,pine,,H3,2400,9.80\n", "radiata pine", "90x45", lumber.AboveGround, 2400, 980, "$"},
		{"size,wood,grade,treatment,length_mm,price\n45x95,scots pine,,none,3000,9.80\n", "scots pine", "45x95", lumber.Untreated, 3000, 980, "$"},
	} {
		b, snags := Parse("p.csv", []byte(c.src))
		if len(snags) > 0 || len(b.Sold) != 1 {
			t.Errorf("%q: %+v", c.src, snags)
			continue
		}
		if o := b.Sold[0]; o.Wood != c.wood || o.Size != c.size || o.Treatment != c.treatment || o.Length != c.length*measure.Millimetre || o.Price != c.price || b.Currency != c.currency {
			t.Errorf("%q: %+v, in %s", c.src, o, b.Currency)
		}
	}
}

func TestRegionalErrors(t *testing.T) {
	metric := "size,wood,grade,treatment,length_mm,price\n"
	for _, c := range []struct{ src, want, mend string }{
		{"region,«Mars»\n", `"Mars" is no region known here`, "write North America"},
		{"currency,«guilders»\n", `"guilders" is no sign of money known here`, "write $, £ or €"},
		{metric + "45x95,scots pine,,none,«3.6»,9.80\n", `"3.6" is no length in millimetres`, "write whole millimetres from 300 to 12000"},
		{metric + "45x95,scots pine,,none,3600,«£9.80»\n", `"£9.80" is no price`, "write dollars"},
		{"region,UK\n" + metric + "«2x4»,redwood,,none,3600,9.80\n", `"2x4" is no sale size; the nearest: 38x89 CLS`, "write 38x89 CLS"},
		{"region,UK\n" + metric + "«47x100»,redwood,,none,3600,9.80\n", `sale size "47x100" may be any of: 47x100 sawn, 47x100 regularised`, "write 47x100 sawn"},
		{metric + "45x95,scots pine,,none,3600,9.80\n«45x95»,scots pine,,none,3600,9.90\n", "45x95 scots pine, 3600 mm has a price already", "keep this line or line 2"},
	} {
		plain := strings.NewReplacer("«", "", "»", "").Replace(c.src)
		start, end := strings.Index(c.src, "«"), strings.Index(c.src, "»")-len("«")
		_, snags := Parse("p.csv", []byte(plain))
		told := snags
		if strings.HasPrefix(c.src, "region") || strings.HasPrefix(c.src, "currency") {
			told = snags[:1]
		}
		if len(told) != 1 || !strings.HasPrefix(told[0].What, c.want) || !strings.HasPrefix(told[0].Mends[0].Says, c.mend) || told[0].At.Start != start || told[0].At.End != end {
			t.Errorf("%q:\n got %+v\nwant %s; %s at %d to %d", plain, snags, c.want, c.mend, start, end)
		}
	}
}
