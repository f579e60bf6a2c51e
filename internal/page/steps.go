package page

import (
	"scantling/internal/phrase"
	"strconv"
	"strings"
)

// steps is the building, one action and one picture at a time.
func (w *writer) steps() {
	for i := range w.r.Steps {
		w.step(i)
	}
}

// A labelled is a line of a step with a word in front that says what it is about.
type labelled struct{ label, says string }

func (w *writer) step(i int) {
	s := &w.r.Steps[i]
	var asides []string
	all := ""
	switch {
	case s.Times == 2:
		asides, all = append(asides, "twice"), "for both: "
	case s.Times > 2:
		n := strconv.Itoa(s.Times)
		asides, all = append(asides, n+" times"), "for all "+n+": "
	}
	if s.Lies != "" {
		asides = append(asides, "it lies "+s.Lies)
	}
	if s.People > 1 {
		asides = append(asides, strconv.Itoa(s.People)+" people")
	}
	w.f(`<article class="step" id="step-%d" data-step="%d" data-tick="step %s"><h3><span class="letter">%d</span> %s <span class="quiet">%s</span></h3>`,
		s.Number, i, esc(s.Name), s.Number, words(phrase.Begin(s.Name)), esc(strings.Join(asides, "; ")))
	w.b.WriteString(`<div class="scene" data-scene="">`)
	if i < len(w.pics.Steps) {
		w.figure("building", w.pics.Steps[i], 120)
	}
	w.b.WriteString(`</div>`)
	if len(s.Hands) > 0 {
		w.p("", strong(w.sentence(s.Hands)))
	}

	var lines []labelled
	around := func(label, kind string) {
		for _, a := range s.Around {
			if a.Kind == kind {
				lines = append(lines, labelled{label, w.sentence(a.Words)})
			}
		}
	}
	// What is taken in hand.
	var take []string
	for _, a := range s.Add {
		name := a.Name
		if a.Hand != "" {
			name += ", " + a.Hand
		}
		take = append(take, strconv.Itoa(a.Count)+" × "+strong(esc(a.Letter))+" "+words(name))
	}
	if take != nil {
		lines = append(lines, labelled{"Take", all + strings.Join(take, ", ")})
	}
	for k, f := range s.Fasten {
		said := w.text(f.Words)
		if said == "" {
			said = strconv.Itoa(f.Count) + " " + words(f.What)
		}
		if k == 0 {
			said = all + said
		}
		if len(f.Driven) > 0 {
			said += "; driven from the " + words(strings.Join(f.Driven, " and the "))
		}
		lines = append(lines, labelled{"Use", said + "."})
	}
	around("Have ready", "jig")
	around("Clamps", "clamp")
	// Who lifts, and what comes before it is covered.
	if len(s.Lift) > 0 {
		lines = append(lines, labelled{"People", strconv.Itoa(s.People) + ": " + w.text(s.Lift) + "."})
	}
	around("Pencil", "letter")
	around("Sand first", "sand")
	w.labels(lines)
	w.p("say", w.text(s.Say))
	w.marks(i)

	// What is right before it is tight, and what waits.
	lines = nil
	around("Glue", "glue")
	for k, q := range s.Square {
		said := w.sentence(q.Words)
		if k == len(s.Square)-1 {
			said += " Measure before it is tight; where it reads more, push those two corners toward one another."
		}
		lines = append(lines, labelled{"Square", said})
	}
	around("Brace", "brace")
	for _, c := range s.Checks {
		lines = append(lines, labelled{"Check", w.sentence(c)})
	}
	around("Check", "level")
	around("Wait", "wait")
	w.labels(lines)
	w.b.WriteString("</article>")
}

// labels writes lines under one another; a word that is said is not said again.
func (w *writer) labels(lines []labelled) {
	if len(lines) == 0 {
		return
	}
	w.b.WriteString(`<dl class="labels">`)
	last := ""
	for _, l := range lines {
		if l.label != last {
			w.f("<dt>%s</dt>", l.label)
		}
		w.f("<dd>%s</dd>", l.says)
		last = l.label
	}
	w.b.WriteString("</dl>")
}

// marks are what fixes each board of a step in its place.
func (w *writer) marks(i int) {
	var items []string
	for _, m := range w.r.Steps[i].Marks {
		var said []string
		last := ""
		for _, x := range m.Words {
			said = append(said, w.text(x))
			last = x.String()
		}
		if said == nil {
			continue
		}
		line := strong(words(phrase.Begin(m.Spoken))+":") + " " + strings.Join(said, "; ")
		if !strings.HasSuffix(last, ".") {
			line += "."
		}
		items = append(items, line)
	}
	w.list(items)
}
