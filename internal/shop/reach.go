package shop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"scantling/internal/board"
	"scantling/internal/design"
	"scantling/internal/geom"
	"scantling/internal/order"
	"scantling/internal/phrase"
	"scantling/internal/reach"
)

// A Reach is how what a step brings in comes to its place, and what drives its
// fasteners.
type Reach struct {
	Ways  []Way
	Order [][]board.ID // an order in which all go in, where that of Ways does not do
	Apart [][]board.ID // boards that are put together on their own first, and go in as one
	Tools []ToolRoom
	In    Text   // how all goes in
	Mind  []Text // what to mind of order and tools
}

// A Way is how a board, or a sub-assembly, comes to its place.
type Way struct {
	Boards []board.ID
	Called string
	Clear  string     // yes, no, cannot tell
	From   string     // "from above"; "" if it is there first, or no way is found
	Lines  []geom.Vec // the ways it moves, unit, in the piece; one or two
	Far    []float64  // mm along each; the first, from wherever it comes, 0
	Lands  bool       // it comes up against something that is there by then
}

// A ToolRoom is fasteners of one joint that are driven alike.
type ToolRoom struct {
	Joint, What string
	Count       int
	Tool        string  // drill, ratchet, …
	Side        string  // head or nut: the end it is about
	Clear       string  // yes, no
	Needs       float64 // mm along the axis that the tool takes, the most of any
	Free        float64 // mm there are, the least of any; reach.Endless if nothing is in front
	Before      string  // what must not be in yet; "" if all may be
}

// SetReach gives every step how its boards come in and what drives its fasteners, as
// they were looked at. A step done more than once is told as it is done first.
func (r *Readings) SetReach(p *design.Piece, looks []order.Look) {
	for i := range r.Steps {
		s := &r.Steps[i]
		if len(s.Of) > 0 && s.Of[0] < len(looks) {
			s.Reach = reachOf(p, &looks[s.Of[0]])
		}
	}
}

func reachOf(p *design.Piece, l *order.Look) Reach {
	var out Reach
	for k, w := range l.Ways {
		way := Way{Called: comes(p, l, k), Clear: w.Clear.String(), Lands: l.Lands[k]}
		for _, b := range l.Items[k] {
			way.Boards = append(way.Boards, p.Boards[b].ID)
		}
		if w.Clear == reach.Yes {
			way.From, way.Lines, way.Far = order.From(w, l.Up), w.Lines, w.Far
		}
		out.Ways = append(out.Ways, way)
	}
	if !slices.IsSorted(l.Order) {
		for _, k := range l.Order {
			out.Order = append(out.Order, boardsOf(p, l.Items[k]))
		}
	}
	for _, items := range l.Apart {
		var ids []board.ID
		for _, k := range items {
			ids = append(ids, boardsOf(p, l.Items[k])...)
		}
		out.Apart = append(out.Apart, ids)
	}
	for d, m := range l.Rooms {
		v := &l.Drives[d]
		tool := ToolRoom{Joint: v.Joint.Name, What: v.What, Count: 1, Tool: m.Tool, Side: m.Side, Needs: m.Needs, Free: m.Free, Clear: m.Clear.String()}
		if m.Clear == reach.Yes && m.After < len(l.Items) {
			tool.Before = comes(p, l, l.Order[m.After])
		}
		k := slices.IndexFunc(out.Tools, func(t ToolRoom) bool {
			return t.Joint == tool.Joint && t.What == tool.What && t.Tool == tool.Tool && t.Clear == tool.Clear && t.Before == tool.Before
		})
		if k < 0 {
			out.Tools = append(out.Tools, tool)
			continue
		}
		t := &out.Tools[k]
		t.Count++
		t.Needs, t.Free = max(t.Needs, tool.Needs), min(t.Free, tool.Free)
	}
	slices.SortStableFunc(out.Tools, func(a, b ToolRoom) int {
		if a.Joint != b.Joint {
			return 0 // joints stay in the order of the file
		}
		return cmp.Or(strings.Compare(a.What, b.What), strings.Compare(a.Tool, b.Tool), strings.Compare(a.Before, b.Before))
	})
	out.In, out.Mind = out.in(p), out.mind(p)
	return out
}

func boardsOf(p *design.Piece, places []int) []board.ID {
	var out []board.ID
	for _, k := range places {
		out = append(out, p.Boards[k].ID)
	}
	return out
}

// comes names what comes in: a sub-assembly, or a board by its part.
func comes(p *design.Piece, l *order.Look, k int) string {
	name := l.Names[k]
	if name == "" {
		name = p.Boards[l.Items[k][0]].Name
	}
	return phrase.Spaced(name)
}

// in says how things come in, those with one way together; one of several that come
// in different ways is named by where it stands.
func (r *Reach) in(p *design.Piece) Text {
	var froms []string
	names := map[string][]string{}  // by way
	ways := map[string][]string{}   // by name
	one := map[[2]string]board.ID{} // the first of a name that comes so
	count := map[[2]string]int{}
	for _, w := range r.Ways {
		from := w.From
		switch {
		case w.Clear != "yes":
			from = "in a way that is not found"
		case from == "" || !w.Lands:
			continue // it is there first, or touches nothing yet
		}
		if !slices.Contains(froms, from) {
			froms = append(froms, from)
		}
		key := [2]string{from, w.Called}
		if count[key]++; count[key] == 1 {
			names[from] = append(names[from], w.Called)
			ways[w.Called] = append(ways[w.Called], from)
			one[key] = w.Boards[0]
		}
	}
	var parts []string
	for _, from := range froms {
		var who []string
		for _, n := range names[from] {
			key := [2]string{from, n}
			switch b := p.Board(one[key]); {
			case count[key] > 1 && len(ways[n]) > 1:
				who = append(who, number(count[key])+" of the "+many(n))
				continue
			case count[key] > 1:
				n = many(n)
			case len(ways[n]) > 1 && phrase.Spaced(b.Name) == n:
				n = b.Spoken
			}
			who = append(who, "the "+n)
		}
		parts = append(parts, phrase.List(who)+" "+from)
	}
	return Text(nil).Say(strings.Join(parts, "; "))
}

// mind says the order in which things must come in, if not any, and which
// fasteners want another tool than the plain one, or their turn.
func (r *Reach) mind(p *design.Piece) []Text {
	var out []Text
	for _, ids := range r.Apart {
		var who []string
		for _, id := range ids {
			who = append(who, "the "+p.Board(id).Spoken)
		}
		out = append(out, Words("put together first, on their own, while a tool gets at them: "+phrase.List(who)))
	}
	if r.Order != nil {
		var names []string
		for _, ids := range r.Order {
			k := slices.IndexFunc(r.Ways, func(w Way) bool { return w.Boards[0] == ids[0] })
			if n := r.Ways[k].Called; len(names) == 0 || names[len(names)-1] != n {
				names = append(names, n)
			}
		}
		if len(names) > 1 {
			out = append(out, Words("in this order, or the way is shut: "+strings.Join(names, ", ")))
		}
	}
	for _, t := range r.Tools {
		of := "of the " + phrase.Spaced(t.Joint)
		switch {
		case t.Clear != "yes":
			continue // a note tells
		case t.Before != "":
			out = append(out, Words(fmt.Sprintf("%s, drive %d before the next %s goes in, with %s", of, t.Count, t.Before, article(t.Tool))))
		case t.Tool != "drill" && t.Tool != "hammer" && t.Tool != "hand" && t.Tool != "ratchet":
			out = append(out, Words(fmt.Sprintf("%s, %d have room for %s only", of, t.Count, article(t.Tool))))
		}
	}
	return out
}

// many is a name said of several.
func many(name string) string {
	for _, end := range []string{"s", "x", "ch"} {
		if strings.HasSuffix(name, end) {
			return name + "es"
		}
	}
	return name + "s"
}
