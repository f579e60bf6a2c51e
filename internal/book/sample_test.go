package book

import (
	"strconv"

	"scantling/internal/drawing"
	"scantling/internal/measure"
	"scantling/internal/shop"
)

// inches is a number as shop would show it; the text is given, so that no test
// here rounds.
func inches(v float64, text string) shop.Shown {
	return shop.Shown{Exact: measure.Quantity{V: v * 25.4e6, D: measure.DimLength}, Text: text}
}

func degrees(v float64, text string) shop.Shown {
	return shop.Shown{Exact: measure.Quantity{V: v * 1e9, D: measure.DimAngle}, Text: text}
}

func cents(v float64, text string) *shop.Shown {
	return &shop.Shown{Exact: measure.Quantity{V: v, D: measure.DimMoney}, Text: text}
}

func ptr(s shop.Shown) *shop.Shown { return &s }

// sample is a made-up plan that uses everything a page can show.
func sample() (*shop.Readings, Pictures) {
	leg := &shop.SawCut{End: "top", Setting: degrees(8, "8°"), Included: degrees(82, "82°"), Offset: inches(9.0/16, `9/16"`), Swing: "left", FaceUp: "outside",
		Fence: "front edge", Keep: "left", Words: shop.Words("Top: set the saw ").Show(degrees(8, "8°")).Say(" left of zero, outside face up, front edge against the fence; keep what lies left of the blade. Or step ").Show(inches(9.0/16, `9/16"`)).Say(" along the edge and join.")}
	foot := *leg
	foot.End = "foot"
	r := &shop.Readings{
		Piece: "Orchard sorting table", Units: "inches", Revision: "C", Date: "2026-03-01", Ready: true,
		About: shop.Words("Fruit is tipped on the slatted top and crates wait on the shelf. ").Show(inches(72, "6 ft")).Say(" long and ").Show(inches(34, `34"`)).Say(" high, it stands on the grass behind the press."),
		Facts: []shop.Text{shop.Words("Six feet long, 27 inches deep, ").Show(inches(34, `34"`)).Say(" to the top, feet within the top."),
			shop.Words("Two people lift it: about 118 lb."), shop.Words("Six boards to buy, checked board by board at a blade of ").Show(inches(.125, `1/8"`)).Say(".")},
		Sizes: []shop.Size{
			{Name: "length", Says: "length of the top", Value: inches(72, "6 ft"), Least: inches(48, "4 ft"), Most: inches(96, "8 ft"), Step: inches(1, `1"`)},
			{Name: "height", Says: "floor to top", Value: inches(34, `34"`), Least: inches(28, `28"`), Most: inches(38, `38"`), Step: inches(.5, `1/2"`)},
			{Name: "lean", Says: "lean of the legs", Value: degrees(8, "8°"), Least: degrees(0, "0°"), Most: degrees(12, "12°"), Step: degrees(.5, `1/2°`)},
			{Name: "slats", Says: "slats", Value: shop.Shown{Exact: measure.Number(13), Text: "13"}, Least: shop.Shown{Exact: measure.Number(9), Text: "9"}, Most: shop.Shown{Exact: measure.Number(15), Text: "15"}},
		},
		Needs: []shop.Need{
			{Says: shop.Words("Over 7 ft it needs the middle leg."), Else: shop.Words("too long"), Holds: true, Known: true},
			{Else: shop.Words("of this no reader is told"), Holds: true, Known: true}},
		Choices: []shop.Choice{{Name: "rim", Says: "rim", Is: "none", Of: []string{"none", "low", "high"}}},
		Cautions: []shop.Caution{
			{Title: "Treated wood", Text: shop.Words("Wear a mask and eye cover when you saw it, wash before you eat, and never burn what is left over.")},
			{Title: "Keep hands away from the blade", Text: shop.Words("Clamp any piece shorter than ").Show(inches(12, `12"`)).Say("; keep fingers ").Show(inches(6, `6"`)).Say(" from the blade.")},
			{Title: "What this plan does not replace", Text: shop.Words("It is a design aid, not the judgement of an engineer; local rules come first.")},
		},
		Stocks: []shop.StockReading{
			{Name: "frame", SaleName: "2x4", Wood: "southern pine", Treatment: "ground contact", Thick: inches(1.5, `1 1/2"`), Wide: inches(3.5, `3 1/2"`), Parts: []string{"A", "B", "D"}, Source: "PS 20-20, table 3"},
			{Name: "legs", SaleName: "2x6", Wood: "southern pine", Treatment: "ground contact", Thick: inches(1.5, `1 1/2"`), Wide: inches(5.5, `5 1/2"`), Parts: []string{"C"}, Source: "PS 20-20, table 3"},
			{Name: "slats", SaleName: "5/4x6", Wood: "western red cedar", Thick: inches(1, `1"`), Wide: inches(5.5, `5 1/2"`), Parts: []string{"E"}, Source: "common practice"},
		},
		Buy: shop.Buy{
			Boards: []shop.BuyLine{
				{What: "2x4 southern pine, ground contact", Length: ptr(inches(144, "12 ft")), Count: 3, Each: cents(980, "$9.80"), Total: cents(2940, "$29.40"), Use: "A, B, D"},
				{What: "2x6 southern pine, ground contact", Length: ptr(inches(144, "12 ft")), Count: 1, Each: cents(1525, "$15.25"), Total: cents(1525, "$15.25"), Use: "C"},
				{What: "5/4x6 western red cedar", Length: ptr(inches(192, "16 ft")), Count: 2, Each: cents(3140, "$31.40"), Total: cents(6280, "$62.80"), Use: "E"},
			},
			Hardware: []shop.BuyLine{
				{What: "5/16 × 4 carriage bolt, galvanised", Count: 8, Packs: "8 singly", Each: cents(95, "$0.95"), Total: cents(760, "$7.60"), Use: "legs to aprons"},
				{What: "no. 8 × 2 1/2 deck screw, galvanised", Count: 104, Packs: "2 boxes of 100", Each: cents(899, "$8.99"), Total: cents(1798, "$17.98"), Use: "slats"},
			},
			Goods: []shop.BuyLine{{What: "end-cut preservative", Packs: "1 quart", Each: cents(1400, "$14.00"), Total: cents(1400, "$14.00"), Use: "every cut end of treated wood"}},
			Cost:  *cents(14703, "$147.03"), PriceNote: "prices of the demo price book, invented",
			Proof: shop.Words("Cheapest, proved: no layout of these parts costs less at a blade of ").Show(inches(.125, `1/8"`)).Say("."),
		},
		Parts: []*shop.Part{
			{Letter: "A", Name: "long apron", Count: 2, Stock: "2x4 southern pine", Thick: inches(1.5, `1 1/2"`), Wide: inches(3.5, `3 1/2"`), Long: inches(69.5, `69 1/2"`), CutNote: shop.Words("square ends")},
			{Letter: "B", Name: "bearer", Count: 3, Stock: "2x4 southern pine", Thick: inches(1.5, `1 1/2"`), Wide: inches(3.5, `3 1/2"`), Long: shop.Shown{Exact: measure.Quantity{V: 21.5 * 25.4e6, D: measure.DimLength}, Text: `21 1/2"`, Origin: shop.ToFit}, CutNote: shop.Words("square ends")},
			{Letter: "C", Name: "leg", Count: 4, Stock: "2x6 southern pine", Thick: inches(1.5, `1 1/2"`), Wide: inches(4, `4"`), Rip: true, Long: inches(33.8125, `33 13/16"`), Edge: ptr(inches(33.3125, `33 5/16"`)), Ends: [2]*shop.SawCut{leg, &foot},
				CutNote: shop.Words("ends parallel, ").Show(degrees(8, "8°")), Shaped: true, ShowFace: "outside",
				Cuts:  []shop.CutReading{{Kind: "notch", Words: shop.Words("Notch for the rail, ").Show(inches(.75, `3/4"`)).Say(" deep."), Marks: []shop.Mark{{Label: "from", At: inches(9, `9"`)}, {Label: "to", At: inches(12.5, `12 1/2"`)}}}},
				Edges: []shop.EdgeReading{{Words: shop.Words("Round the outer edges ").Show(inches(.125, `1/8"`)).Say(".")}}},
			{Letter: "D", Name: "brace", Hand: "left", Twin: "F", Count: 2, Stock: "2x4 southern pine", Thick: inches(1.5, `1 1/2"`), Wide: inches(3.5, `3 1/2"`), Long: inches(20, `20"`), CutNote: shop.Words("ends opposite")},
			{Letter: "E", Name: "slat", Count: 13, Stock: "5/4x6 western red cedar", Thick: inches(1, `1"`), Wide: inches(5.5, `5 1/2"`), Long: inches(27, `27"`), CutNote: shop.Words("square ends")},
		},
		Steps: []shop.Step{
			{Number: 1, Name: "end frames", Times: 2, Lies: "flat on the floor, outside face down", Add: []shop.StepPart{{Letter: "C", Name: "leg", Count: 2}, {Letter: "B", Name: "bearer", Count: 1}},
				Fasten: []shop.StepFastener{{What: "no. 10 × 3 deck screws", Count: 4, Words: shop.Words("four no. 10 × 3 deck screws, two in each end of the rail")}},
				Say:    shop.Words("Lay two legs on the floor with their feet on one line. Set the rail between them and drive the screws."),
				Marks: []shop.BoardMarks{{Spoken: "upper rail", Words: []shop.Text{shop.Words("flush with the tops of the legs"), shop.Words("against both legs"),
					shop.Words("its lower edge ").Show(inches(29.5, `29 1/2"`)).Say(" from the floor line")}}},
				Square: []shop.Square{{Words: shop.Words("from the left top to the right foot the tape reads ").Show(inches(41.0625, `41 1/16"`))}},
				Checks: []shop.Text{shop.Words("The feet stand on one line.")}},
			{Number: 2, Name: "hang the long aprons", People: 2, Add: []shop.StepPart{{Letter: "A", Name: "long apron", Count: 2}}, Say: shop.Words("Bolt them finger-tight, square the top, then tighten.")},
		},
		Notes: []shop.Note{
			{Kind: "Take care", What: "the last slat's screw is 3/8\" from the end", Why: `a no. 8 screw there wants 1 1/2", or a pilot hole, or it splits the board`, Mends: []string{`move it to 1 1/2"`, "drill a pilot hole"}, Where: "slat 13, step 6"},
			{Kind: "Worth knowing", What: "two boards nearly touch", Why: `the shelf stops 1/64" short of the leg`},
		},
		Changes: []shop.Change{{Revision: "C", Date: "2026-03-01", What: shop.Words("The shelf sits ").Show(inches(.5, `1/2"`)).Say(" lower.")}, {Revision: "B", What: shop.Words("Screws are longer.")}},
		Finish:  shop.Words("Two coats of oil on all faces, 79 square feet."),
	}
	r.Saw = sampleSaw()
	pics := Pictures{Piece: box("piece", "The table", 1800, 860), Views: []*drawing.Figure{box("front", "From the front", 1800, 860), box("right", "From the right", 686, 860)},
		Parts: map[string]*drawing.Figure{"C": box("C", "The leg", 860, 102)}, Steps: []*drawing.Figure{box("step 1", "An end frame", 686, 860), nil}}
	return r, pics
}

func sampleSaw() shop.Saw {
	piece := func(letter string, from, to float64, label, mark string) shop.SawPiece {
		return shop.SawPiece{Letter: letter, Start: from * 25.4, End: to * 25.4, Label: label, Mark: inches(to, mark)}
	}
	apron := shop.SawBoard{Stock: "2x4 southern pine", Length: inches(144, "12 ft"), Width: 89, Title: shop.Words("2x4, 12 ft: two long aprons"),
		Sections: []shop.SawSection{{Strips: []shop.Strip{{Wide: 88.9, Pieces: []shop.SawPiece{piece("A", .5, 70, `69 1/2"`, `70"`), piece("A", 70.125, 139.625, `69 1/2"`, `139 5/8"`)}, Left: ptr(inches(4.25, `4 1/4"`))}}}}}
	legs := shop.SawBoard{Stock: "2x6 southern pine", Length: inches(144, "12 ft"), Width: 140, Title: shop.Words("2x6, 12 ft, ripped to 4 first: four legs"), Sections: []shop.SawSection{{RipsAt: []shop.Shown{inches(4, `4"`)}, Strips: []shop.Strip{{Wide: 101.6}}}}}
	at := .5
	for i, m := range []string{`33 13/16"`, `67 1/4"`, `100 11/16"`, `134 3/16"`} {
		p := piece("C", at, at+33.3125, `33 13/16"`, m)
		p.SlantStart, p.SlantEnd = 14.3, 14.3
		legs.Sections[0].Strips[0].Pieces = append(legs.Sections[0].Strips[0].Pieces, p)
		at += 33.3125 + 0.126
		_ = i
	}
	slats := shop.SawBoard{Stock: "5/4x6 western red cedar", Length: inches(192, "16 ft"), Width: 140, Same: 2, Title: shop.Words("5/4x6, 16 ft: slats"), Sections: []shop.SawSection{{Strips: []shop.Strip{{Wide: 139.7}}}}}
	at = .5
	for i := range 7 {
		to := at + 27
		slats.Sections[0].Strips[0].Pieces = append(slats.Sections[0].Strips[0].Pieces, piece("E", at, to, `27"`, strconv.Itoa(int(to))+` 1/8"`))
		at = to + .125
		_ = i
	}
	short := shop.SawBoard{Stock: "2x4 southern pine", Length: inches(96, "8 ft"), Width: 89, Title: shop.Words("2x4, 8 ft: cleats"), Sections: []shop.SawSection{{Strips: []shop.Strip{{Wide: 88.9, Left: ptr(inches(80, `80"`))}}}}}
	at = .5
	for i := range 6 {
		to := at + 2
		short.Sections[0].Strips[0].Pieces = append(short.Sections[0].Strips[0].Pieces, piece("F", at, to, `2"`, strconv.Itoa(int(to))+` 1`+strconv.Itoa(i)+`/16"`))
		at = to + .125
	}
	return shop.Saw{Boards: []shop.SawBoard{apron, legs, slats, short}, Kerf: inches(.125, `1/8"`), Squared: inches(.5, `1/2"`), Verdict: shop.Words("Cheapest, proved, and checked again board by board.")}
}

// box stands in for a drawing.
func box(name, title string, w, h float64) *drawing.Figure {
	p := func(x, y float64) drawing.Place { return drawing.Place{X: x, Y: y} }
	return &drawing.Figure{Name: name, Title: title, Alt: title + ", as a box.", Areas: []drawing.Area{{Tone: drawing.ToneNew, Loops: [][]drawing.Place{{p(0, 0), p(w, 0), p(w, h), p(0, h)}}}},
		Lines: []drawing.Edge{{A: p(0, 0), B: p(w, 0), Weight: drawing.Wide}, {A: p(w, 0), B: p(w, h), Weight: drawing.Wide}, {A: p(w, h), B: p(0, h), Weight: drawing.Wide}, {A: p(0, h), B: p(0, 0), Weight: drawing.Wide}},
		Dims:  []drawing.Dim{{From: p(0, 0), To: p(w, 0), Side: drawing.Below, Text: `69 1/2"`}}}
}
