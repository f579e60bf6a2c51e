package shop

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/part"
	"scantling/internal/phrase"
	"scantling/internal/span"
	"scantling/internal/steady"
)

// part says everything about one part, in the words of its master.
func (s *shop) part(p *part.Part) *Part {
	b := p.Master
	length := lengthFrom(b)
	wood := length.Union(b.Section, b.CutsFrom)
	stock := s.stockFrom(b)
	width := stock
	if b.Rip {
		width = b.Section
	}
	r := &Part{
		Letter: p.Letter, Name: phrase.Spaced(p.Name), Hand: p.Hand.String(), Count: len(p.Of),
		Lumber: b.Lumber, Master: b.ID,
		Thick:    s.pen.Length(b.T.MM(), stock),
		Wide:     s.pen.Length(b.W.MM(), width),
		Rip:      b.Rip,
		Long:     s.pen.Length(b.L, length).as(s.origin(p)),
		Volume:   s.pen.Volume(b.Solid.Volume, wood),
		Mass:     s.pen.Mass(s.kg[s.at[b.ID]], wood),
		ShowFace: sideName(b.Board, board.Show),
	}
	r.Drawn = Lies{sideName(b.Board, board.Start), r.ShowFace}
	r.Goes = goes(p, r.Drawn)
	if b.Stock != nil {
		r.Stock = Sold(*b.Stock)
	}
	if p.Twin != nil {
		r.Twin = p.Twin.Letter
	}
	for _, m := range p.Of {
		r.Boards = append(r.Boards, m.ID)
	}
	for i, end := range []board.Side{board.Start, board.Finish} {
		cuts := b.End(end)
		if len(cuts) > 0 {
			r.Ends[i] = s.sawCut(b, cuts[0])
		}
		for _, c := range cuts[min(1, len(cuts)):] { // two cuts that make a point
			second := s.sawCut(b, c)
			if second != nil {
				r.Cuts = append(r.Cuts, CutReading{Kind: "second cut", Name: second.End, Words: second.Words, Saw: second})
				second.Words = nil
			}
		}
	}
	pointed := r.Ends[0] != nil && r.Ends[0].Marks != nil || r.Ends[1] != nil && r.Ends[1].Marks != nil
	if (r.Ends[0] != nil || r.Ends[1] != nil) && !pointed {
		short := s.pen.Length(b.Short, length)
		r.Short = &short
		if b.EdgeLength != 0 {
			edge := s.pen.Length(b.EdgeLength, length)
			r.Edge = &edge
		}
	}
	for _, c := range b.Cuts {
		if c.Kind != board.EndCut {
			r.Cuts = append(r.Cuts, s.cut(b.Board, c))
		}
	}
	for _, e := range b.Edges {
		r.Edges = append(r.Edges, s.edge(b.Board, e))
	}
	r.Holes = s.holes(b.Board)
	r.Shaped = r.Ends[0] != nil || r.Ends[1] != nil || len(r.Cuts) > 0 || len(r.Holes) > 0
	r.CutNote = s.cutNote(p, r)
	return r
}

// stockFrom returns the scalars that say what a board is sawn from.
func (s *shop) stockFrom(b *design.Board) span.Set {
	for _, l := range s.piece.Lumber {
		if l.Name == b.Lumber {
			return l.From
		}
	}
	return b.Section
}

// cutNote is the line of the parts list: rip, ends, cuts, and how a length is
// taken from the work.
func (s *shop) cutNote(p *part.Part, r *Part) Text {
	b := p.Master
	var clauses []Text
	if r.Rip {
		clauses = append(clauses, s.rip(p))
	}
	if ends := s.ends(b, r); ends != nil {
		clauses = append(clauses, ends)
	}
	for _, kind := range []string{"taper", "notch", "housing", "half lap", "slot", "snip", "round end", "round corner", "arch"} {
		n := 0
		for _, c := range r.Cuts {
			if c.Kind == kind {
				n++
			}
		}
		switch {
		case n == 1:
			clauses = append(clauses, Words(article(kind)))
		case n > 1:
			clauses = append(clauses, Words(number(n)+" "+kind+map[bool]string{true: "es", false: "s"}[kind == "notch" || kind == "arch"]))
		}
	}
	for _, e := range r.Edges {
		clauses = append(clauses, e.short)
	}
	if r.Long.Origin == ToFit {
		clauses = append(clauses, Words(toFit(b.Board)))
	}
	if n := p.Turned(); n > 0 {
		clauses = append(clauses, Words(number(n)+map[bool]string{true: " shows", false: " show"}[n == 1]+" the other face"))
	}
	var t Text
	for i, c := range clauses {
		if i > 0 {
			t = t.Say("; ")
		} else if c[0].Shown == nil {
			c = append(Text{{Words: phrase.Begin(c[0].Words)}}, c[1:]...)
		}
		t = t.Add(c)
	}
	return t
}

func article(noun string) string {
	switch noun[0] {
	case 'a', 'e', 'i', 'o', 'u':
		return "an " + noun
	}
	return "a " + noun
}

// toFit says where a length is taken from: "measure from the back of one long
// apron to the front of the other first".
func toFit(b *board.Board) string {
	start, finish := "", ""
	for _, c := range b.End(board.Start) {
		start = c.Meets
	}
	for _, c := range b.End(board.Finish) {
		finish = c.Meets
	}
	one, side, _ := strings.Cut(start, ", ")
	other, far, _ := strings.Cut(finish, ", ")
	switch {
	case start == "" && finish == "":
		return "cut to fit: measure the place first"
	case start == "" || finish == "":
		return "cut to fit: measure to " + meets(start+finish) + " first"
	case one == other && side != "" && far != "":
		return "cut to fit: measure from the " + side + " of one " + one + " to the " + far + " of the other first"
	}
	return "cut to fit: measure from " + meets(start) + " to " + meets(finish) + " first"
}

// origin returns how a part's length is come by. It can be taken from the work
// only if what its ends meet is built by then; else it follows from the other
// sizes of the plan.
func (s *shop) origin(p *part.Part) Origin {
	b := p.Master
	if b.LengthIs != ToFit {
		return b.LengthIs
	}
	for _, c := range b.Cuts {
		if c.Kind != board.EndCut || c.Meets == "" {
			continue
		}
		thing, _, _ := strings.Cut(c.Meets, ", ")
		if first, ok := s.built[thing]; ok && first > s.built[phrase.Spaced(p.Name)] {
			return Reference
		}
	}
	return ToFit
}

// rip says which edge is kept and what strip is left: stock less width less one
// saw cut.
func (s *shop) rip(p *part.Part) Text {
	b := p.Master
	t := Words("rip to ").Show(s.pen.Length(b.W.MM(), b.Section)).Say(" (keep the " + sideName(b.Board, b.Board.Rip.Opposite()))
	if strip := s.stripLeft(p); strip > 0 {
		t = t.Say("; a strip of ").Show(s.pen.Length(strip.MM(), b.Section)).Say(" comes off")
	}
	return t.Say(")")
}

// stripLeft returns the width of the strip a rip leaves over, 0 if none.
func (s *shop) stripLeft(p *part.Part) measure.Length {
	b := p.Master
	if !b.Rip || b.Stock == nil {
		return 0
	}
	return max(0, (b.Stock.W - b.W - s.pen.Kerf()).Round(s.pen.Tape.Step()))
}

// edge says how long edges are worked.
func (s *shop) edge(b *board.Board, e board.Edge) EdgeReading {
	size := s.pen.Length(e.Size.MM(), e.From)
	which := arrises(b, e.Along)
	work, bit := "round over", "a round-over bit, or sandpaper"
	switch e.Work {
	case board.Chamfer:
		work, bit = "chamfer", "a chamfer bit, or a plane"
	case board.Bead:
		work, bit = "bead", "a beading bit"
	}
	short := Words(work + " " + which + ", ").Show(size)
	return EdgeReading{Edges: which, Words: short.Say(" (a router and " + bit + ")"), short: short}
}

// arrises names the edges where two sides meet, by the side they share.
func arrises(b *board.Board, along []board.Arris) string {
	if len(along) >= 12 {
		return "every corner"
	}
	for s := board.Show; s >= board.Start; s-- {
		n, ends := 0, 0
		for _, a := range along {
			if a[0] == s || a[1] == s {
				n++
				if a[0].IsEnd() || a[1].IsEnd() {
					ends++
				}
			}
		}
		switch {
		case n != len(along) || n < 2:
		case n == 4:
			return "all round the " + sideName(b, s)
		case n == 2 && ends == 0:
			return "both long corners of the " + sideName(b, s)
		}
	}
	var names []string
	for _, a := range along {
		names = append(names, "the corner between "+sideName(b, a[1])+" and "+sideName(b, a[0]))
	}
	return phrase.List(names)
}

// holes says the holes of a board that are drilled at the bench, from its first
// end on; a countersink is said with the hole it belongs to. The steps say what is
// drilled on the work.
func (s *shop) holes(b *board.Board) []HoleReading {
	var out []HoleReading
	for i, h := range b.Holes {
		switch {
		case h.When != board.Bench:
			continue
		case h.Kind == board.Countersink && i > 0 && len(out) > 0:
			last := &out[len(out)-1]
			last.Sunk = s.pen.Bit(h.Diameter, h.From)
			last.Words = last.Words.Say(", countersunk for a head of ").Show(last.Sunk)
			continue
		}
		out = append(out, s.hole(b, h))
	}
	slices.SortStableFunc(out, func(x, y HoleReading) int {
		return cmp.Or(cmp.Compare(x.Face, y.Face), cmp.Compare(x.FromEnd.Printed(), y.FromEnd.Printed()), cmp.Compare(x.FromRim.Printed(), y.FromRim.Printed()))
	})
	return out
}

// hole says where a hole is drilled: its centre from the end where the tape is
// hooked, the same for all holes of a board, and from the nearer edge.
func (s *shop) hole(b *board.Board, h board.Hole) HoleReading {
	face := sideTo(h.Way.Negated())
	end, fromEnd := board.Start, h.At.X
	rim, fromRim, across := board.Near, h.At.Y, b.W.MM()
	switch {
	case face.IsEdge():
		rim, fromRim, across = board.Under, h.At.Z, b.T.MM()
	case face.IsEnd():
		end, fromEnd = board.Under, h.At.Z
	}
	rimName := sideName(b, rim)
	switch over := across - 2*fromRim; {
	case math.Abs(over) < 0.01:
		rimName, fromRim = "either edge", float64(across/2)
		if face.IsEdge() {
			rimName = "either face"
		}
	case over < 0:
		rimName, fromRim = sideName(b, rim.Opposite()), across-fromRim
	}
	pen := s.pen
	if h.Kind == board.Pilot { // a dowel's two holes must meet
		pen = pen.Fitted()
	}
	r := HoleReading{Kind: map[board.HoleKind]string{board.Pilot: "pilot", board.Clearance: "clearance", board.Countersink: "countersink", board.Counterbore: "counterbore"}[h.Kind],
		Bit: s.pen.Bit(h.Diameter, h.From), Face: sideName(b, face), End: sideName(b, end), Rim: rimName, Joint: h.Joint,
		FromEnd: pen.Length(fromEnd, h.From), FromRim: pen.Length(fromRim, h.From), Together: h.When == board.Together}
	r.Words = Words("drill ").Show(r.Bit).Say(" in the " + r.Face + ", centre ").Show(r.FromEnd).Say(" from the " + r.End + " and ").
		Show(r.FromRim).Say(" from " + r.TheRim())
	if h.Depth > 0 {
		r.Depth = s.pen.Length(h.Depth, h.From)
		r.Words = r.Words.Say(", ").Show(r.Depth).Say(" deep")
	} else {
		r.Depth = Shown{Text: "through", From: h.From}
		r.Words = r.Words.Say(", all the way through")
	}
	if off := degrees(steady.Acos(math.Min(1, math.Abs(h.Way.Dot(face.Out()))))); off > 0.25 {
		r.Words = r.Words.Say(", the bit ").Show(s.pen.Angle(off, h.From)).Say(" off square")
	}
	if k, ok := s.at[h.Mate]; ok && r.Together {
		r.Mate = h.Mate
		r.Words = r.Words.Say(", clamped to the " + phrase.Spaced(s.piece.Boards[k].Name) + " and through both at once")
	}
	return r
}

// TheRim is the edge or face FromRim is measured from, with its article; either
// will do for a hole in the middle.
func (h HoleReading) TheRim() string {
	if strings.HasPrefix(h.Rim, "either ") {
		return h.Rim
	}
	return "the " + h.Rim
}

// bits are the sizes of all holes of the piece, smallest first.
func (s *shop) bits() (bits []Shown, sinks bool) {
	type size struct {
		mm   float64
		from span.Set
	}
	var all []size
	for _, b := range s.piece.Boards {
	holes:
		for _, h := range b.Holes {
			if h.Kind == board.Countersink {
				sinks = true
				continue
			}
			for i := range all {
				if math.Abs(all[i].mm-h.Diameter) < 0.01 {
					continue holes
				}
			}
			all = append(all, size{h.Diameter, h.From})
		}
	}
	slices.SortFunc(all, func(x, y size) int { return cmp.Compare(x.mm, y.mm) })
	for _, x := range all {
		bits = append(bits, s.pen.Bit(x.mm, x.from))
	}
	return bits, sinks
}

// slope returns the angle, in degrees, between a plane and the grain, and how
// far it falls over a length, in mm.
func slope(p geom.Plane, over float64) (degreesOff, fall float64) {
	across := math.Max(math.Abs(p.N.Y), math.Abs(p.N.Z))
	tan := math.Abs(p.N.X) / across
	return degrees(steady.Atan(tan)), float64(over * tan)
}
