package design

import (
	"slices"
	"strconv"
	"strings"

	"scantling/internal/board"
	"scantling/internal/expr"
	"scantling/internal/geom"
	"scantling/internal/phrase"
	"scantling/internal/setout"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
)

// builder follows the steps: what is in place, and what sub-assemblies wait.
type builder struct {
	w        *world
	p        *Piece
	added    map[board.ID]span.Range
	made     []made
	followed map[*source.Node]bool // bodies of groups whose steps are followed
	lost     bool                  // a step adds what is not known, so that nobody can tell what is missing
}

// A made is a sub-assembly: its name, the side it is of when there is one of
// each, the group it is a copy of, and whether a later step took it.
type made struct {
	name, each string
	group      *group
	at         span.Range
	used       bool
}

// A turn is one doing of a step: in which copy of a group, for which side, and what
// that makes.
type turn struct {
	seat
	side   *nameRef
	each   string // in words
	makes  *made
	goesOn bool // with what the step before it makes
}

// steps resolves the steps, and checks that every copy is added once.
func (w *world) steps(p *Piece) {
	b := &builder{w: w, p: p, added: map[board.ID]span.Range{}, followed: map[*source.Node]bool{}}
	for i := range w.d.steps {
		first := len(p.Steps)
		b.each(&w.d.steps[i], turn{})
		for k := first; k < len(p.Steps); k++ {
			p.Steps[k].Entry = i
		}
	}
	b.finish()
}

// each does a step, once or for each of what it says.
func (b *builder) each(s *stepDecl, t turn) {
	if yes, _, known := b.w.holds(s.when); !known || !yes {
		return
	}
	if s.follow != nil {
		b.follow(s)
		return
	}
	if len(s.each) == 0 {
		b.step(s, t)
		return
	}
	for k := range s.each {
		t.side = &s.each[k]
		t.each = strings.TrimSpace(t.each + " " + s.each[k].text)
		b.step(s, t)
		t.each = strings.TrimSuffix(t.each, s.each[k].text)
	}
}

// follow does a group's own steps for each of its copies, which makes a
// sub-assembly each.
func (b *builder) follow(s *stepDecl) {
	name := s.follow.text
	if len(s.each) != 1 || name != s.each[0].text+".steps" {
		b.w.error("bad-step", s.follow.node.Range, "“follow” follows the steps of the group the step is done for each of", "", snag.Say("write each: end_frame, follow: end_frame.steps, with the group's name"))
		b.lost = true
		return
	}
	at := s.each[0].node.Range
	k, ok := b.w.d.top.find(s.each[0].text)
	if !ok || k.kind != aGroup {
		b.lost = true
		b.w.error("unknown-name", at, "there is no group “"+s.each[0].text+"”", "", b.w.d.top.nearName(s.each[0].text, at, aGroup)...)
		return
	}
	family := b.w.d.families[k.n]
	for _, n := range family.of {
		b.followed[b.w.d.groups[n].body] = true
	}
	copies, _ := b.w.copiesOf(family, &ref{&expr.Ref{}, s.each[0].node, b.w.d.top})
	words := eachOf(copies, len(family.of) > 1)
	for i, c := range copies {
		t := turn{seat: c, each: words[i], makes: &made{name: s.each[0].text, each: words[i], group: c.g, at: at}}
		if s.makes == nil && b.whole(c) {
			t.makes = nil // nothing to put it into
		} else if s.makes != nil {
			b.madeName(s.makes)
			t.makes.name, t.makes.at = s.makes.text, s.makes.node.Range
		}
		first := len(b.p.Steps)
		for k := range c.g.d.steps {
			from := len(b.p.Steps)
			t.goesOn = from > first && t.makes != nil
			b.each(&c.g.d.steps[k], t)
			for i := from; i < len(b.p.Steps); i++ {
				b.p.Steps[i].Group, b.p.Steps[i].Item = c.g.d.name, k
			}
		}
		if len(b.p.Steps) > first && t.makes != nil {
			b.made = append(b.made, *t.makes)
		}
	}
	if say := b.w.text(s.say); len(say) > 0 && len(copies) > 0 {
		b.p.Steps = append(b.p.Steps, Step{Name: s.name, Say: say, At: s.nameAt, From: ordinalsIn(s.node)})
	}
}

// whole reports whether a copy of a group is all there is.
func (b *builder) whole(c seat) bool {
	for _, l := range b.w.lots {
		if l.g != c.g && len(b.w.built[l]) > 0 {
			return false
		}
	}
	return len(c.g.copyings()) == 1
}

// eachOf tells copies of a group apart in words: by their names, where they stand, or
// their numbers. One copy needs none.
func eachOf(copies []seat, named bool) []string {
	out := make([]string, len(copies))
	homes := make([]geom.Vec, len(copies))
	for i, c := range copies {
		out[i] = phrase.Spaced(strings.Join(c.at.calls, " "))
		if named {
			out[i] = strings.TrimSpace(phrase.Spaced(c.g.d.name) + " " + out[i])
		}
		homes[i], _ = c.g.mean(c.at, func(setout.Dir) bool { return true })
	}
	for _, axis := range [...]setout.Dir{setout.Front, setout.Left, setout.Down} {
		if !allDiffer(out) {
			for i, word := range along(homes, axis) {
				out[i] = strings.TrimSpace(out[i] + " " + word)
			}
		}
	}
	if !allDiffer(out) {
		for i := range out {
			out[i] = strings.TrimSpace(out[i] + " " + nth(i+1))
		}
	}
	return out
}

func allDiffer(words []string) bool {
	seen := map[string]bool{}
	for _, w := range words {
		if seen[w] {
			return false
		}
		seen[w] = true
	}
	return true
}

func (b *builder) step(s *stepDecl, t turn) {
	out := Step{Name: s.name, Lies: s.lies, At: s.nameAt, From: ordinalsIn(s.node), Each: t.each}
	for i := range s.add {
		b.add(&out, &s.add[i], t)
	}
	out.Say = b.w.text(s.say)
	out.Fasten, out.Hold = b.jointNames(s.fasten), b.jointNames(s.hold)
	if t.makes != nil {
		out.Makes, out.GoesOn = t.makes.name, t.goesOn
	}
	if s.makes != nil {
		out.Makes, out.GoesOn = s.makes.text, false
		b.madeName(s.makes)
		b.made = append(b.made, made{name: out.Makes, each: out.Each, at: s.makes.node.Range})
	}
	if len(out.Add)+len(out.AddMade)+len(out.Goods)+len(out.Say)+len(out.Fasten)+len(out.Hold) == 0 && s.makes == nil {
		return // a when left it nothing to add or say
	}
	b.p.Steps = append(b.p.Steps, out)
}

// madeName checks the name of a sub-assembly.
func (b *builder) madeName(n *nameRef) {
	if why := expr.Reserved(n.text); !expr.ProperName(n.text) || why != "" {
		b.w.error("bad-name", n.node.Range, "“"+n.text+"” cannot be the name of a sub-assembly", "", snag.Say("write small letters, digits and _"))
	} else if k, taken := n.sc.find(n.text); taken {
		b.w.tell(snag.Snag{Code: "name-taken", At: n.node.Range, What: "“" + n.text + "” is " + kindWords[k.kind] + " already",
			Related: []snag.Related{{At: k.at, Says: "it has this name first"}}, Mends: []snag.Mend{snag.Say("call the sub-assembly something else")}})
	}
}

// add puts what one name means into the step; what a when took away is left out.
func (b *builder) add(out *Step, r *ref, t turn) {
	first := r.Path[0]
	if b.addMade(out, r, t) {
		return
	}
	k, ok := r.sc.find(first.Text)
	name := first.Text
	if f, inner, known := b.w.d.groupRef(r.sc, r.Ref); f != nil && known && (inner.kind == aHardware || inner.kind == aGoods) {
		k, name = inner, inner.text
	}
	if ok && (k.kind == aHardware || k.kind == aGoods) {
		bought := slices.ContainsFunc(b.p.Hardware, func(h Hardware) bool { return h.Name == name }) ||
			slices.ContainsFunc(b.p.Goods, func(g Goods) bool { return g.Name == name })
		if bought {
			out.Goods = append(out.Goods, name)
		}
		return
	}
	if !ok || !k.kind.isBoards() && k.kind != aGroup {
		at := r.node.Sub(first.Start, first.End)
		b.lost = true
		b.w.error("unknown-name", at, "there is no part, row or sub-assembly “"+first.Text+"” to add", "", b.nearToAdd(r.sc, first.Text, at)...)
		return
	}
	if t.side != nil {
		side := *r.Ref
		side.Select = append([]expr.Word{{Text: t.side.text, At: first.At}}, side.Select...)
		r = &ref{&side, r.node, r.sc}
	}
	some, found := b.w.named(r, t.seat)
	b.lost = b.lost || !found
	var again []*member
	for _, m := range some {
		if _, twice := b.added[m.id]; twice {
			again = append(again, m)
			continue
		}
		b.added[m.id] = r.node.Range
		out.Add = append(out.Add, m.id)
	}
	if len(again) > 0 {
		b.addedTwice(r, again)
	}
	if k.kind == aGroup && len(r.Path) == 1 { // with what is fixed to it, and goes on it
		for i := range b.w.d.goods {
			g := &b.w.d.goods[i]
			if in := g.sc.group; in != nil && slices.Contains(b.w.d.families[k.n].of, in.n) && !slices.Contains(out.Goods, g.name) &&
				slices.ContainsFunc(b.p.Goods, func(o Goods) bool { return o.Name == g.name }) {
				out.Goods = append(out.Goods, g.name)
			}
		}
		for i := range b.w.d.hardware {
			h := &b.w.d.hardware[i]
			if g := h.sc.group; g != nil && slices.Contains(b.w.d.families[k.n].of, g.n) && !slices.Contains(out.Goods, h.name) {
				out.Goods = append(out.Goods, h.name)
			}
		}
	}
}

// addedTwice tells, once for a name, of boards that are there already.
func (b *builder) addedTwice(r *ref, again []*member) {
	what := "this step adds the " + again[0].spoken() + " again"
	if n := len(again) - 1; n > 0 {
		what += ", and " + strconv.Itoa(n) + " more"
	}
	s := snag.Snag{Code: "added-twice", At: r.node.Range, What: what,
		Related: []snag.Related{{At: b.added[again[0].id], Says: "it was added here"}}}
	for _, m := range again {
		s.Boards = append(s.Boards, string(m.id))
	}
	if at, ok := b.w.d.itemRange(r.node); ok {
		s.Mends = append(s.Mends, snag.Replace("take it out here", at, ""))
	}
	s.Mends = append(s.Mends, snag.Say("take it out of one of the two steps"))
	b.w.tell(s)
}

// itemRange returns the bytes to take out so that a step no longer adds a node of
// its list, the comma with it; false when nothing else would be left.
func (d *Design) itemRange(n *source.Node) (span.Range, bool) {
	for i := range d.steps {
		list := d.steps[i].node.Get("add")
		if list == nil || list.Kind != source.List || len(list.Items) < 2 || !d.flow(list) {
			continue
		}
		for k, item := range list.Items {
			switch {
			case item != n:
			case k > 0:
				return span.Range{File: n.File, Start: list.Items[k-1].End, End: n.End}, true
			default:
				return span.Range{File: n.File, Start: n.Start, End: list.Items[1].Start}, true
			}
		}
	}
	return span.Range{}, false
}

// flow reports whether a list stands between [ and ].
func (d *Design) flow(list *source.Node) bool { return d.tree.Src[list.Start] == '[' }

// addLast returns the mend that names a part in the last step that adds something,
// false when there is none.
func (d *Design) addLast(name string) (snag.Mend, bool) {
	for i := len(d.steps) - 1; i >= 0; i-- {
		s := &d.steps[i]
		list := s.node.Get("add")
		says := "add it in the step “" + s.name + "”"
		switch {
		case list == nil || s.when != nil || len(s.each) > 0:
		case list.Kind == source.Scalar:
			return snag.Replace(says, list.Range, "["+list.Raw+", "+name+"]"), true
		case list.Kind == source.List && d.flow(list) && len(list.Items) > 0:
			end := list.Items[len(list.Items)-1].End
			return snag.Replace(says, span.Range{File: list.File, Start: end, End: end}, ", "+name), true
		}
	}
	return snag.Mend{}, false
}

// addMade adds a sub-assembly by its name: all that were made of it and wait.
func (b *builder) addMade(out *Step, r *ref, t turn) bool {
	name := r.Path[0].Text
	if len(r.Path) > 1 {
		return false
	}
	var family *familyDecl
	if k, ok := r.sc.find(name); ok && k.kind == aGroup {
		family = b.w.d.families[k.n]
	}
	found, fresh := false, false
	for i := range b.made {
		m := &b.made[i]
		if m.name != name && (family == nil || m.group == nil || !slices.Contains(family.of, m.group.d.n)) {
			continue
		}
		found = true
		switch {
		case m.used:
		case len(r.Select) > 0 && !hasWord(m.each, r.Select[0].Text):
		case t.each != "" && m.each != "" && m.each != t.each && (t.side == nil || !hasWord(m.each, t.side.text)):
		default:
			m.used, fresh = true, true
			out.AddMade = append(out.AddMade, strings.TrimSpace(m.each+" "+m.name))
		}
	}
	if found && !fresh {
		b.w.error("added-twice", r.node.Range, "the sub-assembly “"+name+"” was added before", "", snag.Say("add it once"))
	}
	return found
}

func hasWord(words, word string) bool { return slices.Contains(strings.Fields(words), word) }

func (b *builder) nearToAdd(sc *scope, text string, at span.Range) []snag.Mend {
	return sc.nearName(text, at, aPart, aRow, aField, aHardware, aGoods)
}

// jointNames checks names of joints; those a when took away are left out.
func (b *builder) jointNames(names []nameRef) []string {
	var out []string
	for _, n := range names {
		i := b.w.d.jointNamed(n.sc, n.text)
		if g, inner, dotted := strings.Cut(n.text, "."); dotted {
			n.text = inner
			if k, ok := n.sc.find(g); ok && k.kind == aGroup && len(b.w.d.families[k.n].of) > 0 {
				i = b.w.d.jointNamed(b.w.d.groups[b.w.d.families[k.n].of[0]].sc, inner)
			}
		}
		if i < 0 {
			var all []string
			for i := range b.w.d.joints {
				if sc := b.w.d.joints[i].sc; sc == n.sc || sc == n.sc.outer {
					all = append(all, b.w.d.joints[i].name)
				}
			}
			b.w.error("unknown-name", n.node.Range, "there is no joint “"+n.text+"”", "", snag.Say("there are: "+strings.Join(all, ", ")))
			continue
		}
		if slices.ContainsFunc(b.p.Joints, func(j Joint) bool { return j.Name == n.text }) {
			out = append(out, n.text)
		}
	}
	return out
}

// finish tells what no step adds.
func (b *builder) finish() {
	if len(b.w.d.steps) == 0 || b.lost || b.w.d.holes {
		return
	}
	for _, l := range b.w.lots {
		var missing []string
		for _, x := range b.w.built[l] {
			if _, ok := b.added[x.ID]; !ok {
				missing = append(missing, string(x.ID))
			}
		}
		if len(missing) > 0 {
			of := strconv.Itoa(len(missing)) + " of " + strconv.Itoa(len(b.w.built[l])) + " " + phrase.Spaced(l.title())
			s := snag.Snag{Code: "never-added", At: l.d.at, Boards: missing, What: "no step adds " + of}
			if m, ok := b.w.d.addLast(l.d.name); ok && len(missing) == len(b.w.built[l]) && l.d.sc.outer == nil {
				s.Mends = append(s.Mends, m)
			}
			s.Mends = append(s.Mends, snag.Say("name it under add: of a step"))
			b.w.tell(s)
		}
	}
	for _, g := range b.w.groups {
		if len(g.d.steps) > 0 && !b.followed[g.d.body] && g.present().yes {
			b.followed[g.d.body] = true
			b.w.tell(snag.Snag{Code: "never-followed", Severity: snag.Caution, At: g.d.at,
				What:  "the steps of " + phrase.Spaced(g.d.name) + " are written, and no step follows them",
				Why:   "the plan then puts it together by what the file's own steps say",
				Mends: []snag.Mend{snag.Say("write a step: {name: …, each: " + g.d.name + ", follow: " + g.d.name + ".steps}"), snag.Say("or take its steps out")}})
		}
	}
	for _, m := range b.made {
		if !m.used {
			b.w.error("never-added", m.at, "the sub-assembly “"+strings.TrimSpace(m.each+" "+m.name)+"” is made and never added", "", snag.Say("name it under add: of a later step"))
		}
	}
}
