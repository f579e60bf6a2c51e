package shop

import (
	"cmp"
	"fmt"
	"slices"

	"scantling/internal/measure"
	"scantling/internal/phrase"
	"scantling/internal/span"
)

// A Jig is something that helps to build and is made from what the cutting leaves:
// a spacer, a stop block, a wedge, a strip that keeps a frame square.
type Jig struct {
	Step    int // that needs it; 0: the saw
	What    string
	Count   int
	Long    Shown  // of each
	Thick   *Shown // ripped to
	Angle   *Shown // of a wedge
	Use     Text
	Offcuts []string // it comes from; none: the cutting leaves no piece long enough
}

// An Offcut is a piece the cutting plan leaves over, by the name it has on its
// board's bar.
type Offcut struct {
	Name string // offcut 1
	Of   string // sale name of the board
	Long Shown
	Same int      // boards cut so: there are so many of it
	Keep []string // the jigs that come from it
}

// Lengths of jigs, in inches and, where the tape is metric, in mm. Source: common
// practice.
var (
	spacerLong = round{6, 150}
	blockLong  = round{4, 100}
)

// thinnest is what still can be ripped for a spacer, in mm: 1/8 in.
const thinnest = 25.4 / 8

// A round is a length nobody works out: round in inches, and in millimetres.
type round struct{ inches, mm float64 }

// on returns it as the tape has it, in mm.
func (r round) on(p Pen) float64 {
	if p.Tape.Units() == measure.Metric {
		return r.mm
	}
	return r.inches * 25.4
}

// show writes it.
func (r round) show(p Pen) Shown { return p.Length(r.on(p), span.Set{}) }

// repeated is how many parts of one length a stop block pays for.
const repeated = 3

// want asks for a jig; a second wish for the same in one step is passed over.
func (s *shop) want(j Jig) {
	for _, k := range s.out.Jigs {
		if k.Step == j.Step && k.What == j.What {
			return
		}
	}
	s.out.Jigs = append(s.out.Jigs, j)
}

// spacers asks for two spacers for each row a step lays with gaps.
func (s *shop) spacers(r *Step, ds []*doing) {
	laid := map[string]bool{}
	for _, d := range ds {
		for _, id := range d.added {
			if b := s.piece.Boards[s.at[id]]; b.Row > 0 || b.Field > 0 {
				laid[b.Name] = true
			}
		}
	}
	ask := func(name string, gap measure.Quantity, from span.Set) {
		l, ok := gap.Length()
		if ok && laid[name] && l.MM() >= thinnest {
			thick := s.pen.Quantity(gap, from)
			s.want(Jig{Step: r.Number, What: "spacer", Count: 2, Long: spacerLong.show(s.pen), Thick: &thick, Use: Words("between the " + phrase.Spaced(name) + "s")})
		}
	}
	for i := range s.piece.Rows {
		ask(s.piece.Rows[i].Name, s.piece.Rows[i].Gap.Q, s.piece.Rows[i].Gap.From)
	}
	for i := range s.piece.Fields {
		ask(s.piece.Fields[i].Name, s.piece.Fields[i].Gap.Q, s.piece.Fields[i].Gap.From)
	}
}

// stops asks for a stop block where many parts are cut to one length.
func (s *shop) stops() {
	var long []string
	counts := map[string]int{}
	parts := map[string][]string{}
	var from span.Set // which lengths are said depends on all
	for _, p := range s.out.Parts {
		if counts[p.Long.Text] == 0 {
			long = append(long, p.Long.Text)
		}
		counts[p.Long.Text] += p.Count
		parts[p.Long.Text] = append(parts[p.Long.Text], p.Letter)
		from = from.Union(p.Long.From)
	}
	var use Text
	for _, l := range long {
		if counts[l] < repeated {
			continue
		}
		if len(use) > 0 {
			use = use.Say("; ")
		}
		first := s.out.Parts[slices.IndexFunc(s.out.Parts, func(p *Part) bool { return p.Long.Text == l })].Long
		first.From = from
		use = use.Say("at ").Show(first).Say(" for " + phrase.List(parts[l]))
	}
	if len(use) > 0 {
		s.want(Jig{What: "stop block", Count: 1, Long: blockLong.show(s.pen), Use: use})
	}
}

// KeepOffcuts names what the cutting leaves over and gives each jig its piece of
// it, before anything else is made of it: the longest first, each from the
// smallest that will do.
func (r *Readings) KeepOffcuts() {
	type left struct {
		at   int // in Offcuts
		room measure.Length
	}
	var all []left
	r.Saw.Offcuts = nil
	for i := range r.Saw.Boards {
		b := &r.Saw.Boards[i]
		for _, strip := range b.Strips() {
			if strip.Left == nil || strip.Left.Printed().MM() < blockLong.on(r.Pen) {
				continue
			}
			strip.Offcut = fmt.Sprintf("offcut %d", len(r.Saw.Offcuts)+1)
			r.Saw.Offcuts = append(r.Saw.Offcuts, Offcut{Name: strip.Offcut, Of: b.Stock, Long: *strip.Left, Same: max(1, b.Same)})
			all = append(all, left{len(r.Saw.Offcuts) - 1, strip.Left.Printed()})
		}
	}
	kerf := r.Saw.Kerf.Printed()
	order := make([]*Jig, len(r.Jigs))
	for i := range r.Jigs {
		order[i] = &r.Jigs[i]
	}
	slices.SortStableFunc(order, func(a, b *Jig) int { return cmp.Compare(b.Long.Exact.V, a.Long.Exact.V) })
	// take finds room for so many pieces of a jig in one offcut.
	take := func(j *Jig, pieces int) bool {
		need := measure.Length(pieces) * (j.Long.Printed() + kerf)
		best := -1
		for i, l := range all {
			if l.room >= need && (best < 0 || l.room < all[best].room) {
				best = i
			}
		}
		if best < 0 {
			return false
		}
		all[best].room -= need
		o := &r.Saw.Offcuts[all[best].at]
		if !has(j.Offcuts, o.Name) {
			j.Offcuts = append(j.Offcuts, o.Name)
			o.Keep = append(o.Keep, j.name())
		}
		return true
	}
	for _, j := range order {
		pieces := j.Count
		if j.Thick != nil || j.Angle != nil {
			pieces = 1 // two are sawn out of one piece
		}
		if !take(j, pieces) {
			for pieces > 1 && take(j, 1) {
				pieces--
			}
		}
	}
	for i := range r.Jigs {
		j := &r.Jigs[i]
		for k := range r.Steps {
			if st := &r.Steps[k]; st.Number == j.Step {
				st.Around = append(st.Around, j.around())
			}
		}
	}
}

// name is what a jig is called in a list, with the step it is for.
func (j *Jig) name() string {
	what := j.What
	if j.Count > 1 {
		what = number(j.Count) + " " + what + "s"
	}
	if j.Step > 0 {
		return fmt.Sprintf("%s for step %d", what, j.Step)
	}
	return what + " for the saw"
}

// Says tells how a jig is made.
func (j *Jig) Says() Text {
	t := Words(number(j.Count) + " " + j.What)
	if j.Count > 1 {
		t = t.Say("s")
	}
	t = t.Say(", ").Show(j.Long).Say(" long")
	switch {
	case j.Thick != nil:
		t = t.Say(", ripped ").Show(*j.Thick).Say(" thick")
	case j.Angle != nil:
		t = t.Say(", sawn at ").Show(*j.Angle)
	}
	if len(j.Use) > 0 {
		t = t.Say(", ").Add(j.Use)
	}
	if j.Offcuts == nil {
		return t.Say(", from wood of your own: the cutting leaves no piece long enough")
	}
	return t.Say(", from " + phrase.List(j.Offcuts))
}

func (j *Jig) around() Around {
	figures := []Figure{{"length", j.Long}}
	if j.Thick != nil {
		figures = append(figures, Figure{"thickness", *j.Thick})
	}
	if j.Angle != nil {
		figures = append(figures, Figure{"angle", *j.Angle})
	}
	return reading("jig", j.Says(), practice, figures...)
}
