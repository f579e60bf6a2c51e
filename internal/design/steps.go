package design

import (
	"slices"
	"strconv"
	"strings"

	"scantling/internal/board"
	"scantling/internal/expr"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// builder follows the steps: what is in place, and what sub-assemblies wait.
type builder struct {
	w     *world
	p     *Piece
	added map[board.ID]span.Range
	made  []made
	lost  bool // a step adds what is not known, so that nobody can tell what is missing
}

// A made is a sub-assembly: its name, the side it is of when there is one of
// each, and whether a later step took it.
type made struct {
	name, each string
	at         span.Range
	used       bool
}

// steps resolves the steps, and checks that every copy is added once.
func (w *world) steps(p *Piece) {
	b := &builder{w: w, p: p, added: map[board.ID]span.Range{}}
	for i := range w.d.steps {
		s := &w.d.steps[i]
		if yes, _, known := w.holds(s.when); !known || !yes {
			continue
		}
		if len(s.each) == 0 {
			b.step(s, nil)
			continue
		}
		for k := range s.each {
			b.step(s, &s.each[k])
		}
	}
	b.finish()
}

func (b *builder) step(s *stepDecl, each *nameRef) {
	out := Step{Name: s.name, Lies: s.lies, At: s.nameAt, From: ordinalsIn(s.node)}
	if each != nil {
		out.Each = each.text
	}
	for i := range s.add {
		b.add(&out, &s.add[i], each)
	}
	out.Say = b.w.text(s.say)
	out.Fasten, out.Hold = b.jointNames(s.fasten), b.jointNames(s.hold)
	if s.makes != nil {
		out.Makes = s.makes.text
		if why := expr.Reserved(out.Makes); !expr.ProperName(out.Makes) || why != "" {
			b.w.error("bad-name", s.makes.node.Range, "“"+out.Makes+"” cannot be the name of a sub-assembly", "", snag.Say("write small letters, digits and _"))
		} else if k, taken := b.w.d.names[out.Makes]; taken {
			b.w.tell(snag.Snag{Code: "name-taken", At: s.makes.node.Range, What: "“" + out.Makes + "” is " + kindWords[k.kind] + " already",
				Related: []snag.Related{{At: k.at, Says: "it has this name first"}}, Mends: []snag.Mend{snag.Say("call the sub-assembly something else")}})
		}
		b.made = append(b.made, made{out.Makes, out.Each, s.makes.node.Range, false})
	}
	if len(out.Add)+len(out.AddMade)+len(out.Goods)+len(out.Say)+len(out.Fasten)+len(out.Hold) == 0 && s.makes == nil {
		return // a when left it nothing to add or say
	}
	b.p.Steps = append(b.p.Steps, out)
}

// add puts what one name means into the step; what a when took away is left out.
func (b *builder) add(out *Step, r *ref, each *nameRef) {
	first := r.Path[0]
	if b.addMade(out, r, each) {
		return
	}
	k, ok := b.w.d.names[first.Text]
	if ok && (k.kind == aHardware || k.kind == aGoods) {
		bought := slices.ContainsFunc(b.p.Hardware, func(h Hardware) bool { return h.Name == first.Text }) ||
			slices.ContainsFunc(b.p.Goods, func(g Goods) bool { return g.Name == first.Text })
		if bought {
			out.Goods = append(out.Goods, first.Text)
		}
		return
	}
	if !ok || !k.kind.isBoards() {
		at := r.node.Sub(first.Start, first.End)
		b.lost = true
		b.w.error("unknown-name", at, "there is no part, row or sub-assembly “"+first.Text+"” to add", "", b.nearToAdd(first.Text, at)...)
		return
	}
	l := b.w.lots[k.n]
	if here := l.present(); !here.yes {
		b.w.leftOut(l, here, r)
		return
	}
	words := r.Select
	if each != nil {
		words = append([]expr.Word{{Text: each.text, At: first.At}}, words...)
	}
	some := b.w.pick(l, r.node, words)
	b.lost = b.lost || len(some) == 0
	for _, m := range some {
		if was, twice := b.added[m.id]; twice {
			b.w.tell(snag.Snag{Code: "added-twice", At: r.node.Range, Boards: []string{string(m.id)},
				What:    "this step adds the " + m.spoken() + " again",
				Related: []snag.Related{{At: was, Says: "it was added here"}},
				Mends:   []snag.Mend{snag.Say("take it out of one of the two steps")}})
			continue
		}
		b.added[m.id] = r.node.Range
		out.Add = append(out.Add, m.id)
	}
}

// addMade adds a sub-assembly by its name: all that were made of it and wait.
func (b *builder) addMade(out *Step, r *ref, each *nameRef) bool {
	name := r.Path[0].Text
	found, fresh := false, false
	for i := range b.made {
		m := &b.made[i]
		if m.name != name {
			continue
		}
		found = true
		if m.used || len(r.Select) > 0 && m.each != r.Select[0].Text || each != nil && m.each != "" && m.each != each.text {
			continue
		}
		m.used, fresh = true, true
		out.AddMade = append(out.AddMade, strings.TrimSpace(m.each+" "+name))
	}
	if found && !fresh {
		b.w.error("added-twice", r.node.Range, "the sub-assembly “"+name+"” was added before", "", snag.Say("add it once"))
	}
	return found
}

func (b *builder) nearToAdd(text string, at span.Range) []snag.Mend {
	return b.w.d.nearName(text, at, aPart, aRow, aField, aHardware, aGoods)
}

// jointNames checks names of joints; those a when took away are left out.
func (b *builder) jointNames(names []nameRef) []string {
	var out []string
	for _, n := range names {
		known := false
		for i := range b.w.d.joints {
			known = known || b.w.d.joints[i].name == n.text
		}
		if !known {
			var all []string
			for i := range b.w.d.joints {
				all = append(all, b.w.d.joints[i].name)
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
	missing := map[string][]string{}
	var order []string
	for _, x := range b.p.Boards {
		if _, ok := b.added[x.ID]; !ok {
			if missing[x.Name] == nil {
				order = append(order, x.Name)
			}
			missing[x.Name] = append(missing[x.Name], string(x.ID))
		}
	}
	for _, n := range order {
		l := b.w.lots[b.w.d.names[n].n]
		of := strconv.Itoa(len(missing[n])) + " of " + strconv.Itoa(len(l.all())) + " " + spaced(n)
		b.w.tell(snag.Snag{Code: "never-added", At: l.d.at, Boards: missing[n],
			What: "no step adds " + of, Mends: []snag.Mend{snag.Say("name it under add: of a step")}})
	}
	for _, m := range b.made {
		if !m.used {
			b.w.error("never-added", m.at, "the sub-assembly “"+strings.TrimSpace(m.each+" "+m.name)+"” is made and never added", "", snag.Say("name it under add: of a later step"))
		}
	}
}
