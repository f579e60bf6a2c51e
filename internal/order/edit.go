package order

import (
	"slices"
	"strings"

	"scantling/internal/design"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
)

// words says a change as a mend, with the edits that make it where the file can be
// edited so.
func (c change) words(steps []design.Step, tree *source.Tree) snag.Mend {
	name := func(entry int) string {
		for i := range steps {
			if e, ok := entryOf(&steps[i], c.group); ok && e == entry {
				return "“" + steps[i].Name + "”"
			}
		}
		return "another"
	}
	var list *source.Node
	if tree != nil {
		list = tree.Root.Get("steps")
		if c.group != "" {
			list = tree.Root.Get("groups").Get(c.group).Get("steps")
		}
	}
	var m snag.Mend
	switch c.kind {
	case moveStep:
		where := " before "
		if c.to > c.entry {
			where = " after "
		}
		m.Says = "do the step " + name(c.entry) + where + name(c.to)
		m.Edits = moved(tree, list, c.entry, c.to)
	case moveName:
		m.Says = "add " + c.name + " in the step " + name(c.to) + ", not in " + name(c.entry)
		m.Edits = passed(tree, list, c)
	case letGo:
		m.Says = "fasten " + c.name + " in the step " + name(c.entry) + " already: take it out of hold:"
		if list != nil && c.entry < len(list.Items) {
			if e, ok := without(tree, list.Items[c.entry], "hold", c.name); ok {
				m.Edits = []span.Edit{e}
			}
		}
	}
	return m
}

// moved returns the edit that puts one item of a list where another stands, and
// those between one along. What stands between items stays where it is.
func moved(tree *source.Tree, list *source.Node, from, to int) []span.Edit {
	if list == nil || list.Kind != source.List || max(from, to) >= len(list.Items) {
		return nil
	}
	low, high := min(from, to), max(from, to)
	src := tree.Src
	texts := make([]string, 0, high-low+1)
	var between []string
	for i := low; i <= high; i++ {
		end := itemEnd(src, list, i)
		texts = append(texts, string(src[list.Items[i].Start:end]))
		if i < high {
			between = append(between, string(src[end:list.Items[i+1].Start]))
		}
	}
	if from < to {
		texts = append(texts[1:], texts[0])
	} else {
		texts = append([]string{texts[len(texts)-1]}, texts[:len(texts)-1]...)
	}
	var b strings.Builder
	for i, t := range texts {
		b.WriteString(t)
		if i < len(between) {
			b.WriteString(between[i])
		}
	}
	at := span.Range{File: tree.File, Start: list.Items[low].Start, End: itemEnd(src, list, high)}
	return []span.Edit{{At: at, Text: b.String()}}
}

// itemEnd is where an item of a list ends, a comment after it on its last line with
// it.
func itemEnd(src []byte, list *source.Node, i int) int {
	end := list.Items[i].End
	if src[list.Start] == '[' {
		return end
	}
	for k := end; k < len(src) && src[k] != '\n'; k++ {
		switch src[k] {
		case ' ', '\r':
		case '#':
			for k < len(src) && src[k] != '\n' {
				k++
			}
			return k
		default:
			return end
		}
	}
	return end
}

// passed returns the edits that take a name out of what one entry adds and put it
// into what another does; nil if they are not written so that it can be done.
func passed(tree *source.Tree, list *source.Node, c change) []span.Edit {
	if list == nil || list.Kind != source.List || max(c.entry, c.to) >= len(list.Items) {
		return nil
	}
	out, ok := without(tree, list.Items[c.entry], "add", c.name)
	if !ok {
		return nil
	}
	in := list.Items[c.to].Get("add")
	switch {
	case in == nil:
		return nil
	case in.Kind == source.Scalar:
		return []span.Edit{out, {At: in.Range, Text: "[" + in.Raw + ", " + c.name + "]"}}
	case in.Kind == source.List && tree.Src[in.Start] == '[' && len(in.Items) > 0:
		end := in.Items[len(in.Items)-1].End
		return []span.Edit{out, {At: span.Range{File: tree.File, Start: end, End: end}, Text: ", " + c.name}}
	}
	return nil
}

// without returns the edit that takes a name out of a list of a step, the comma with
// it, or the whole entry where it stands alone.
func without(tree *source.Tree, step *source.Node, key, name string) (span.Edit, bool) {
	list := step.Get(key)
	if list == nil || list.Kind != source.List || tree.Src[list.Start] != '[' {
		return span.Edit{}, false
	}
	k := slices.IndexFunc(list.Items, func(n *source.Node) bool { return n.Text == name })
	at := span.Range{File: tree.File}
	switch {
	case k < 0:
		return span.Edit{}, false
	case k > 0:
		at.Start, at.End = list.Items[k-1].End, list.Items[k].End
	case len(list.Items) > 1:
		at.Start, at.End = list.Items[0].Start, list.Items[1].Start
	default:
		at.Start, at.End = list.Items[0].Start, list.Items[0].End
	}
	return span.Edit{At: at}, true
}
