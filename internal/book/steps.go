package book

import (
	"slices"
	"strconv"
	"strings"

	"scantling/internal/phrase"
	"scantling/internal/shop"
	"scantling/internal/typeset"
)

// steps is the building, one action and one picture at a time.
func (b *book) steps() {
	if len(b.r.Steps) == 0 {
		return
	}
	b.chapter("Building it", "what a step adds is toned; fasteners are blue, dashed in the wood; chain lines are to be measured")
	start := len(b.blocks) - 1
	b.blocks[start].fresh = true
	// As many steps share a page as fit there with small pictures, and their
	// pictures are then as large as the page allows. A step whose words leave no
	// room even for a tiny one goes on overleaf.
	const tiny, small, both, large, gap = 40.0, 58.0, 82.0, 112.0, 9.0
	room := b.bottom() - b.top()
	words := make([]float64, len(b.r.Steps))
	for i := range words {
		words[i] = b.stepHigh(i)
	}
	// tall is the height of n steps from step i on, with pictures no higher than high.
	tall := func(i, n int, high float64) float64 {
		sum := float64(float64(n-1) * gap)
		for k := i; k < i+n; k++ {
			sum += words[k] + b.stepPicture(k, high)
		}
		return sum
	}
	// fit is how many steps from step i on fit into so much.
	fit := func(i int, height, high float64) int {
		n := 0
		for i+n < len(words) && tall(i, n+1, high) <= height {
			n++
		}
		return n
	}
	for i := 0; i < len(words); {
		pages := paginate(b.blocks[start:], b.top(), b.bottom())
		left := b.bottom() - pages[len(pages)-1].y - gap
		fresh := false
		least, n := small, fit(i, left, small)
		if n == 0 && i > 0 {
			fresh, left = true, room
			n = fit(i, left, small)
		}
		if n == 0 {
			least, n = tiny, min(1, fit(i, left, tiny))
		}
		if n == 1 && i+1 < len(words) && b.stepPicture(i+1, small) == 0 && fit(i, left, tiny) > 1 {
			least, n = tiny, 2 // what has no picture is not left alone
		}
		most := both
		switch n {
		case 0: // it goes on overleaf
			least, most, n = large, large, 1
		case 1:
			most = large
		}
		high := least
		for h := least; h <= most && tall(i, n, h) <= left; h += 2 {
			high = h
		}
		first := len(b.blocks)
		for range n {
			b.step(i, high)
			i++
		}
		b.blocks[first].fresh = fresh
	}
}

// stepHigh is the height of a step's words.
func (b *book) stepHigh(i int) float64 {
	blocks := b.blocks
	b.blocks = nil
	b.step(i, 0)
	high := cursor{}.end(b.blocks)
	b.blocks = blocks
	return high
}

// stepPicture is the height of a step's picture if it may be so high.
func (b *book) stepPicture(i int, high float64) float64 {
	if i >= len(b.pics.Steps) || b.pics.Steps[i] == nil {
		return 0
	}
	return b.pics.Steps[i].Sheet(b.page.column(), high).H + 1.5
}

// step prints one step with a picture no higher than high; 0 leaves it out.
func (b *book) step(i int, high float64) {
	s := b.r.Steps[i]
	first := len(b.blocks)
	head := cat(say(strconv.Itoa(s.Number)+"  ", sectionStyle), say(phrase.Begin(s.Name), sectionStyle))
	var asides []string
	if s.Times > 1 {
		asides = append(asides, timesOf(s.Times))
	}
	switch s.Lies {
	case "":
	case "upright":
		asides = append(asides, "standing")
	default:
		asides = append(asides, "lying "+s.Lies)
	}
	if s.People > 1 {
		asides = append(asides, strconv.Itoa(s.People)+" people")
	}
	if len(asides) > 0 {
		head = append(head, say("   "+strings.Join(asides, "; "), asideStyle)...)
	}
	b.section(9, "step "+strconv.Itoa(s.Number), head...)
	if i < len(b.pics.Steps) && high > 0 {
		b.picture(b.pics.Steps[i], high, 1.5)
	}
	key := "step " + strconv.Itoa(s.Number)
	all := ""
	switch {
	case s.Times == 2:
		all = "for both: "
	case s.Times > 2:
		all = "for all " + strconv.Itoa(s.Times) + ": "
	}
	around := func(label, kind string) {
		for _, a := range s.Around {
			if a.Kind == kind {
				b.label(key, label, sentence(a.Words, bodyStyle))
				label = ""
			}
		}
	}
	if len(s.Hands) > 0 {
		b.para(2, sentence(s.Hands, strongStyle)...)
	}
	// What is taken in hand.
	var take []typeset.Span
	for j, a := range s.Add {
		sep := ", "
		if j == 0 {
			sep = all
		}
		name := a.Name
		if a.Hand != "" {
			name += " (" + a.Hand + " hand)"
		}
		take = cat(take, say(sep+strconv.Itoa(a.Count)+unbroken+"×"+unbroken, bodyStyle), say(a.Letter, strongStyle), say(" "+name, bodyStyle))
	}
	b.label(key, "Take", take)
	for j, f := range s.Fasten {
		label := ""
		if j == 0 {
			label = "Use"
		}
		sp := spans(f.Words, bodyStyle)
		if len(sp) == 0 {
			sp = say(strconv.Itoa(f.Count)+" "+f.What, bodyStyle)
		}
		if j == 0 && all != "" {
			sp = cat(say(all, bodyStyle), sp)
		}
		if len(f.Driven) > 0 {
			sp = cat(sp, say("; driven from the "+strings.Join(f.Driven, " and the "), bodyStyle))
		}
		b.label(key, label, cat(sp, say(".", bodyStyle)))
		for _, d := range f.Drill {
			if !d.Again {
				b.label(key, "", cat(spans(d.Words, bodyStyle), say(".", bodyStyle)))
			}
		}
	}
	around("Have ready", "jig")
	around("Clamps", "clamp")
	// Who lifts, and what comes before it is covered.
	if len(s.Lift) > 0 {
		b.label(key, "People", cat(say(strconv.Itoa(s.People)+": ", bodyStyle), spans(s.Lift, bodyStyle), say(".", bodyStyle)))
	}
	if len(s.Reach.In) > 0 {
		b.label(key, "Goes in", cat(spans(s.Reach.In, bodyStyle), say(".", bodyStyle)))
	}
	for i, m := range s.Reach.Mind {
		label := ""
		if i == 0 {
			label = "Mind"
		}
		b.label(key, label, cat(spans(m, bodyStyle), say(".", bodyStyle)))
	}
	around("Pencil", "letter")
	around("Sand first", "sand")
	b.para(1.8, spans(s.Say, bodyStyle)...)
	for _, m := range s.Marks {
		if len(m.Words) == 0 {
			continue
		}
		sp := say(phrase.Begin(m.Spoken)+": ", strongStyle)
		for j, w := range m.Words {
			if j > 0 {
				sp = append(sp, say("; ", bodyStyle)...)
			}
			sp = cat(sp, spans(w, bodyStyle))
		}
		if !strings.HasSuffix(m.Words[len(m.Words)-1].String(), ".") {
			sp = append(sp, say(".", bodyStyle)...)
		}
		b.list(key, 1.2, "•", sp...)
	}
	// What is right before it is tight, and what waits.
	around("Glue", "glue")
	for i, q := range s.Square {
		label := ""
		if i == 0 {
			label = "Square"
		}
		sp := sentence(q.Words, bodyStyle)
		if i == len(s.Square)-1 {
			more := " Measure before it is tight."
			if first := slices.IndexFunc(b.r.Steps, func(o shop.Step) bool { return len(o.Square) > 0 }); b.r.Steps[first].Number == s.Number {
				more += " Where it reads more, push those two corners toward one another."
			}
			sp = append(sp, say(more, bodyStyle)...)
		}
		b.label(key, label, sp)
	}
	around("Brace", "brace")
	for i, c := range s.Checks {
		label := ""
		if i == 0 {
			label = "Check"
		}
		b.label(key, label, sentence(c, bodyStyle))
	}
	around("Check", "level")
	around("Wait", "wait")
	// A step is not parted, but for its list of marks when that is long.
	for j := first; j < len(b.blocks)-1; j++ {
		if j-first < 6 {
			b.blocks[j].keep = true
		}
	}
}

// label adds a paragraph of a step with a word in front that says what it is about.
func (b *book) label(key, word string, sp []typeset.Span) {
	if len(sp) == 0 {
		return
	}
	gap := 1.2
	if word == "" {
		gap = 0.5
	}
	b.hang(key, gap, 22, say(word, strongStyle), sp)
}

// timesOf says how often a step is done.
func timesOf(n int) string {
	if n == 2 {
		return "twice"
	}
	return strconv.Itoa(n) + " times"
}
