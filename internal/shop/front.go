package shop

import (
	"math"
	"strings"

	"scantling/internal/geom"
	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/region"
	"scantling/internal/screw"
	"scantling/internal/span"
)

// A tin is what finish is sold in: what it holds, and how much a first coat covers on
// planed wood, from and to. Source: common practice; the tin's label rules.
type tin struct {
	of, says    string
	area        float64 // mm², the unit of least and most
	least, most float64
}

func (p Pen) tin() tin {
	if p.Metric() {
		return tin{"litres", "4 to 5 square metres a litre", 1e6, 4, 5}
	}
	return tin{"gallons", "150 to 200 square feet a gallon", 12 * 25.4 * 12 * 25.4, 150, 200}
}

// surface returns the area of all boards before they are put together, in mm².
func (s *shop) surface() (mm2 float64, from span.Set) {
	for _, b := range s.piece.Boards {
		if b.Solid == nil {
			continue
		}
		for _, f := range b.Solid.Faces {
			mm2 += f.Area()
		}
		from = from.Union(b.All())
	}
	return mm2, from
}

// finish says the coats, the area and how much of the tin that takes.
func (s *shop) finish() {
	f := s.piece.Finish
	if f.With == "" || f.With == "none" || f.Coats < 1 {
		return
	}
	area, from := s.surface()
	from = from.Union(f.From)
	tin := s.pen.tin()
	tins := func(cover float64) Shown {
		q := math.Ceil(area/tin.area*float64(f.Coats)/cover*10) / 10
		return s.pen.Quantity(measure.Number(q), from)
	}
	coats := number(f.Coats) + " coats"
	if f.Coats == 1 {
		coats = "one coat"
	}
	least, most := tins(tin.most), tins(tin.least)
	s.out.Finish = Words(phrase.Begin(coats) + " of " + f.With + " over ").Show(s.pen.Area(area, from)).
		Say(" of wood, measured before the boards are put together: ").Show(least)
	if most.Text != least.Text {
		s.out.Finish = s.out.Finish.Say(" to ").Show(most)
	}
	s.out.Finish = s.out.Finish.Say(" " + tin.of + " in all, by the usual " + tin.says + "; the tin's label rules. Finish only wood that drinks a drop of water in; one that stands as a bead says wait.")
}

// facts are the sentences of the front page.
func (s *shop) facts() {
	r := s.out
	if len(r.Boards) == 0 {
		return
	}
	add := func(t Text) { r.Facts = append(r.Facts, t) }
	s.overall()
	weight := Words("It weighs about ").Show(r.Mass).Say(" once the wood has dried outdoors")
	if r.Mass.Exact.V > heavy {
		weight = weight.Say(", so two people carry it")
	}
	add(weight.Say("."))
	if u := s.piece.Use; u.People != nil {
		n := s.pen.Quantity(u.People.Q, u.People.From.Union(u.From))
		add(Words("It is meant for ").Show(n).Say(map[bool]string{true: " person.", false: " people."}[n.Text == "1"]))
	}
	boards := s.pen.Count(len(r.Boards), r.Mass.From)
	parts := s.pen.Count(len(r.Parts), r.Mass.From)
	add(Words("It is made of ").Show(boards).Say(" parts of ").Show(parts).Say(" kinds, put together in ").Show(s.pen.Count(len(r.Steps), span.Set{})).Say(" steps."))
	add(s.tools())
	if len(r.Bits) > 0 {
		t := Words("Bits: ")
		for i, b := range r.Bits {
			if i > 0 {
				t = t.Say(", ")
			}
			t = t.Show(b)
		}
		if last := r.Bits[len(r.Bits)-1]; s.pen.Bit(twist, span.Set{}).Exact.V < last.Exact.V {
			t = t.Say(" (those over ").Show(s.pen.Bit(twist, span.Set{})).Say(" are spade or Forstner bits)")
		}
		if s.sinks {
			t = t.Say(", and a countersink")
		}
		add(t.Say("."))
	}
	add(s.hours())
	add(Words("Checked by computer; not yet built by people."))
}

// overall says how large the piece is.
func (s *shop) overall() {
	r := s.out
	r.Facts = append(r.Facts, Words("It is ").Show(r.Overall[0]).Say(" wide, ").Show(r.Overall[1]).Say(" deep and ").Show(r.Overall[2]).Say(" high over everything."))
}

// twist is the widest twist bit people own, in mm: half an inch. Source: common
// practice.
const twist = 12.7

// jobs is what is to be done in the workshop, counted for tools and time.
type jobs struct {
	square, angled, shaped, rips, edges, screws, bolts, lags, nails int
	thin                                                            []string // letters of parts whose rip leaves a narrow strip
}

// narrow is the strip under which a rip wants a table saw. Source: common
// practice.
func (p Pen) narrow() measure.Length {
	if p.Metric() {
		return 40 * measure.Millimetre
	}
	return 3 * measure.Inch / 2
}

func (s *shop) jobs() jobs {
	var j jobs
	for _, p := range s.out.Parts {
		for _, end := range p.Ends {
			if end == nil {
				j.square += p.Count
				continue
			}
			j.angled += p.Count
		}
		j.shaped += p.Count * len(p.Cuts)
		j.edges += p.Count * len(p.Edges)
		if p.Rip {
			j.rips += p.Count
			if strip := s.stripLeft(s.partOf[p.Master]); strip > 0 && strip < s.pen.narrow() {
				j.thin = append(j.thin, p.Letter)
			}
		}
	}
	for i := range s.declared {
		for _, p := range s.declared[i].Pairs {
			for _, u := range p.Uses {
				switch {
				case u.Fastener.Bolted():
					j.bolts += u.Count
				case u.Fastener.Nailed():
					j.nails += u.Count
				case u.Fastener.Family == screw.LagScrew:
					j.lags += u.Count
				case u.Fastener.Family != screw.Glue:
					j.screws += u.Count
				}
			}
		}
	}
	return j
}

// tools names what the cuts and fasteners of this piece need.
func (s *shop) tools() Text {
	j := s.jobs()
	tools := "Tools: a tape, a square, a pencil and clamps"
	add := func(needed bool, words string) {
		if needed {
			tools += "; " + words
		}
	}
	add(j.angled == 0, "for the cuts a mitre saw, a circular saw or a handsaw")
	add(j.angled > 0, "for the angled ends a mitre saw, or a circular saw and a guide")
	add(j.rips > 0, "for the rips a table saw, or a circular saw and a guide")
	add(j.shaped > 0, "for the shaped parts a jigsaw or a handsaw, and a chisel")
	add(j.edges > 0, "for the rounded edges a router, or sandpaper and patience")
	add(j.screws+j.bolts+j.lags > 0, "a drill")
	add(j.bolts+j.lags > 0, "a wrench")
	add(j.nails > 0, "a hammer")
	return Words(tools + ".")
}

// Minutes a beginner takes. Source: assumed; to be set right by people who time
// themselves building.
const (
	minutesSquare = 3.0
	minutesAngled = 5.0
	minutesShaped = 10.0
	minutesRip    = 6.0
	minutesEdge   = 3.0
	minutesScrew  = 1.75
	minutesBolt   = 6.0
	minutesBoard  = 4.0 // marking, carrying and holding in place
)

func (s *shop) hours() Text {
	j := s.jobs()
	minutes := float64(float64(j.square)*minutesSquare) + float64(float64(j.angled)*minutesAngled) +
		float64(float64(j.shaped)*minutesShaped) + float64(float64(j.rips)*minutesRip) +
		float64(float64(j.edges)*minutesEdge) + float64(float64(j.screws+j.nails)*minutesScrew) +
		float64(float64(j.bolts+j.lags)*minutesBolt) + float64(float64(len(s.out.Boards))*minutesBoard)
	n := int(math.Max(1, math.Round(minutes/60)))
	hours := s.pen.Count(n, s.out.Mass.From)
	return Words("Allow about ").Show(hours).Say(map[bool]string{true: " hour", false: " hours"}[n == 1] + " at the bench for a first build, drying times apart: an estimate from the number of cuts and fasteners.")
}

// cautions are the things to read first, as far as they fit what is used here.
func (s *shop) cautions() {
	r := s.out
	j := s.jobs()
	add := func(title, words string) { r.Cautions = append(r.Cautions, Caution{title, Words(words)}) }
	add("What this plan is", "A design aid, computed from one file. No engineer has signed it, nobody has built it yet, and local codes rule where they say more, in public places above all. Read it through once before you buy or cut.")
	add("Left and right", "Left is your left, facing the front of the piece.")
	var treated []string
	for _, st := range r.Stocks {
		if st.Treatment != "" && !has(treated, st.SaleName+" "+st.Wood) {
			treated = append(treated, st.SaleName+" "+st.Wood)
		}
	}
	if treated != nil {
		add("Treated wood", "Pressure-treated with preservative: the "+phrase.List(treated)+". Saw it outdoors with goggles and a dust mask, wash your hands before you eat, and wash work clothes apart. Never burn it, not even the sawdust; sweep that up. Do not use it where bare food lies on it. (After the consumer sheet for treated wood of the United States Environmental Protection Agency, from memory.)")
		add("Cut ends", "Every cut, notch and hole opens treated wood to the wet. "+map[region.Region]string{
			region.America:     "Brush two coats of copper naphthenate (2 percent copper) on each before you put the parts together. (AWPA standard M4, from memory.)",
			region.Europe:      "Brush two coats of a preservative sold for cut ends on each before you put the parts together. (BS 8417, from memory.)",
			region.Australasia: "Brush two coats of a preservative sold for cut ends on each before you put the parts together. (AS 1604.1, from memory.)"}[s.piece.Region])
	}
	add("Eyes, ears, lungs", "Goggles whenever you cut, drill or drive; ear protection at the saw; a dust mask when you saw or sand.")
	saw := "Hands stay " + s.pen.pick("6 inches", "150 mm") + " from the blade: clamp what is too small to hold so, and let the blade stop before you lift it. Cut outside the line, so that the saw takes its wood from the waste."
	var small []string
	for _, p := range r.Parts {
		if p.Long.Exact.V < float64(8*measure.Inch) {
			small = append(small, p.Letter)
		}
	}
	if small != nil {
		saw += " Part " + phrase.List(small) + " is short: cut it last, while it is still on the end of a longer board."
	}
	add("At the saw", saw+" (Common practice.)")
	if j.rips > 0 {
		words := "Keep a push stick at hand, stand aside of the board, and rip while the board is as long as the cutting plan lets it be."
		if j.thin != nil {
			words += " The strip ripped off for part " + phrase.List(j.thin) + " is under " + s.pen.pick("an inch and a half", "40 mm") + ": too thin for a circular saw's guide, so use a table saw."
		}
		add("Ripping", words+" (Common practice.)")
	}
	if r.Mass.Exact.V > heavy {
		add("Lifting", "The finished piece is more than one person should lift. Two people turn it over and carry it. (Over about "+s.pen.pick("50 pounds", "23 kg")+", common practice.)")
	}
	add("In use", "Stand it on firm level ground. Nobody climbs or stands on it. Tighten every bolt and screw again after three months, when the wood has dried.")
	s.byUse(add)
	for _, b := range s.piece.Boards {
		if b.Stock != nil && b.Stock.Treatment != lumber.GroundContact && b.Solid != nil && onGround(b.Placed().Around().Low.Z) && len(treated) > 0 {
			add("On the ground", "Some of the wood that stands on the ground is not treated for ground contact: keep it on paving, or on feet that lift it clear.")
			break
		}
	}
}

// byUse adds what follows from the finish and from who and what touches the piece.
func (s *shop) byUse(add func(title, words string)) {
	finish := strings.ToLower(s.piece.Finish.With)
	if strings.Contains(finish, "oil") || strings.Contains(finish, "stain") {
		add("Oily rags", "Rags wet with oil or oil stain heat up by themselves and can catch fire, in a heap above all. Spread them out flat outdoors until they are stiff, or keep them under water in a metal can with a lid. (As the labels of such finishes say.)")
	}
	touched := map[string][]string{}
	for _, t := range s.piece.Use.Touches {
		for _, id := range t.On {
			if i, ok := s.at[id]; ok {
				if name := phrase.Spaced(s.piece.Boards[i].Name); !has(touched[t.What], name) {
					touched[t.What] = append(touched[t.What], name)
				}
			}
		}
		if t.All {
			touched[t.What] = []string{"whole piece"}
		}
	}
	if on := touched["food"]; on != nil {
		add("Food", "Food lies on the "+phrase.List(on)+": leave the wood bare there or oil it with an oil that is fit for food, put no end-cut preservative on it, and scrub it with soap and water after use.")
	}
	if on := touched["soil"]; on != nil {
		add("Soil for food", "Soil that food grows in lies against the "+phrase.List(on)+": no end-cut preservative on the inside, and a liner with drain holes where the wood is treated.")
	}
	if on := touched["skin"]; on != nil {
		add("Skin", "People sit or lean on the "+phrase.List(on)+": sand it with the grain, feel for splinters with a cloth, and round every corner a hand or a knee finds.")
	}
	if s.piece.Use.Who == "children" {
		words := "Children use it: round every corner and edge they can reach and sink every screw head."
		if s.jobs().bolts > 0 {
			words += " Put a cap nut on every bolt that stands out by more than two threads."
		}
		add("Children", words+s.pen.pick(" No openings from 3/8 to 1 inch, which catch fingers, or from 3 1/2 to 9, which catch heads.", " No openings from 8 to 25 mm, which catch fingers, or from 89 to 230 mm, which catch heads.")+" Stay with small children at it: they climb. "+
			s.pen.pick("(After the Public Playground Safety Handbook of the United States Consumer Product Safety Commission, as given in Caring for Our Children.)", "(After EN 1176-1, from memory.)"))
	}
}

// onGround reports whether a height, in mm, is the floor's.
func onGround(z float64) bool { return math.Abs(z) <= geom.Touch }
