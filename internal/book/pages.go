package book

import (
	"strconv"

	"scantling/internal/drawing"
	"scantling/internal/typeset"
)

func chapterKey(n int) string    { return "chapter " + strconv.Itoa(n) }
func chapterNumber(n int) string { return strconv.Itoa(n) }

// sheets puts the blocks on pages and dresses each page: the rule of the
// margin, the foot, and the mark of a plan that cannot be built yet.
func (b *book) sheets() []*drawing.Sheet {
	top := b.top()
	pages := paginate(b.blocks, top, b.bottom())
	var out []*drawing.Sheet
	for i, p := range pages {
		s := &drawing.Sheet{W: b.page.W, H: b.page.H, Name: "page " + strconv.Itoa(i+1), Title: b.r.Piece + ", page " + strconv.Itoa(i+1)}
		rule := drawing.Stroke{Path: []drawing.Point{{X: ruleAt, Y: top - 1}, {X: ruleAt, Y: b.bottom()}}, Weight: drawing.Hair, Ink: typeset.Quiet}
		s.Add(&drawing.Group{Role: drawing.RoleArtifact, Items: []drawing.Item{rule}})
		if !b.r.Ready {
			s.Add(b.notReady())
		}
		s.Add(p.items...)
		s.Add(b.foot(i+1, len(pages)))
		out = append(out, s)
	}
	return out
}

// top and bottom are where blocks may stand on a page.
func (b *book) top() float64 {
	if !b.r.Ready {
		return topEdge + bandHigh
	}
	return topEdge
}

func (b *book) bottom() float64 { return b.page.H - footHigh - 2 }

// notReady is the mark on every page of a plan with something to mend.
func (b *book) notReady() drawing.Item {
	l := typeset.Set(say("NOT BUILDABLE YET", strongStyle)...)
	const pad = 2.2
	x := b.page.W - edge - l.Width - 2*pad
	y := topEdge - 3.0
	box := drawing.Rect(x, y, l.Width+2*pad, 7)
	return &drawing.Group{Role: drawing.RoleArtifact, Items: []drawing.Item{
		drawing.Stroke{Path: box, Closed: true, Weight: drawing.Bold},
		drawing.Text{At: drawing.Point{X: x + pad, Y: y + 5}, Line: l}}}
}

// foot is two lines under a rule: what this is, and how to read it.
func (b *book) foot(n, of int) drawing.Item {
	g := &drawing.Group{Role: drawing.RoleArtifact}
	left, right := edge, b.page.W-edge
	y := b.page.H - footHigh + 3
	g.Add(line(left, right, y, drawing.Hair))
	page := drawing.Label(drawing.Point{X: right, Y: y + 5}, typeset.Right, say("page "+strconv.Itoa(n)+" of "+strconv.Itoa(of), footStyle)...)
	g.Add(page)
	name := b.r.Piece
	if b.r.Revision != "" {
		name += ", revision " + b.r.Revision
	}
	g.Add(drawing.Text{At: drawing.Point{X: left, Y: y + 5}, Line: cutOff(name, footStyle, right-left-page.Line.Width-6)})
	g.Add(drawing.Label(drawing.Point{X: left, Y: y + 9.5}, typeset.Left, say("All sizes are in "+b.r.Units+".", footStyle)...))
	g.Add(drawing.Label(drawing.Point{X: right, Y: y + 9.5}, typeset.Right, say("← Left is your left, facing the front.", footStyle)...))
	return g
}

// cutOff sets one line no wider than width, with … where words are left out.
func cutOff(s string, st typeset.Style, width float64) typeset.Line {
	l := typeset.Set(say(s, st)...)
	for rs := []rune(s); l.Width > width && len(rs) > 0; rs = rs[:len(rs)-1] {
		l = typeset.Set(say(string(rs)+"…", st)...)
	}
	return l
}
