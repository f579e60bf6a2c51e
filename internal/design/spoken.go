package design

import (
	"math"
	"strconv"

	"scantling/internal/geom"
	"scantling/internal/setout"
)

// spoken names a board as people do: "front left leg", "3rd shelf slat from the
// left". Words are found from where the copies stand, so that "left" is the one on
// the left whatever was written.
func (m *member) spoken() string {
	l := m.lot
	name := spaced(l.d.name)
	side := m.apart()
	if l.d.row != nil && len(l.singles()) > 1 {
		from := m.copy.Word(setout.Dir(l.d.row.along)).Opposite()
		out := nth(m.one.index+1) + " "
		if side != "" && side != from.Side() {
			out += side + " "
		}
		return out + name + " from the " + from.Side()
	}
	if side != "" {
		return side + " " + name
	}
	return name
}

// apart returns the words that tell the member from the other copies: call words,
// else the ways it stands in, else its number.
func (m *member) apart() string {
	if n := len(m.copy.calls); n > 0 {
		out := ""
		for _, c := range m.copy.calls {
			out += spaced(c) + " "
		}
		return out[:len(out)-1]
	}
	peers := m.peers()
	if len(peers) < 2 {
		return ""
	}
	var homes []geom.Vec
	me := 0
	for i, p := range peers {
		h, ok := p.seat()
		if !ok {
			return ""
		}
		if p == m {
			me = i
		}
		homes = append(homes, h)
	}
	words, unique := "", true
	for _, axis := range [...]setout.Dir{setout.Front, setout.Left, setout.Down} {
		if w := standing(homes, me, axis); w != "" {
			words += w + " "
		}
	}
	for i := range homes {
		if i != me && alike(homes, i, me) {
			unique = false
		}
	}
	if words == "" || !unique {
		for i, p := range peers {
			if p == m {
				return words + nth(i+1)
			}
		}
	}
	return words[:len(words)-1]
}

// seat is where the member stands for its spoken name: the middle of its wood.
func (m *member) seat() (geom.Vec, bool) {
	b := m.rough()
	if b == nil || b.Wood == nil {
		return geom.Vec{}, false
	}
	return b.Pose.Out(b.Wood.Centre), true
}

// peers are the copies of the member's written board.
func (m *member) peers() []*member {
	var out []*member
	for _, o := range m.lot.all() {
		if o.one == m.one {
			out = append(out, o)
		}
	}
	return out
}

// standing says where one of several stands along an axis: at one side or the
// other when there are two places, counted from the near side when there are
// more, nothing when there is one.
func standing(homes []geom.Vec, me int, low setout.Dir) string {
	room := setout.Piece()
	var places []float64
	mine := room.Coordinate(homes[me], low)
	for _, h := range homes {
		at := room.Coordinate(h, low)
		known := false
		for _, p := range places {
			known = known || math.Abs(p-at) <= 1
		}
		if !known {
			places = append(places, at)
		}
	}
	before := 0
	for _, p := range places {
		if p < mine-1 {
			before++
		}
	}
	switch n := len(places); {
	case n == 1:
		return ""
	case before == 0:
		return low.Side()
	case before == n-1:
		return low.Opposite().Side()
	case n == 3:
		return "middle"
	default:
		return nth(before + 1)
	}
}

// alike reports whether two homes have the same words on every axis.
func alike(homes []geom.Vec, i, j int) bool {
	for _, axis := range [...]setout.Dir{setout.Front, setout.Left, setout.Down} {
		if standing(homes, i, axis) != standing(homes, j, axis) {
			return false
		}
	}
	return true
}

// nth writes a number as an ordinal: 1st, 2nd, 11th.
func nth(n int) string {
	suffix := "th"
	if n%100 < 11 || n%100 > 13 {
		switch n % 10 {
		case 1:
			suffix = "st"
		case 2:
			suffix = "nd"
		case 3:
			suffix = "rd"
		}
	}
	return strconv.Itoa(n) + suffix
}
