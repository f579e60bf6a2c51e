package design

import (
	"maps"
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"

	"scantling/internal/geom"
	"scantling/internal/phrase"
	"scantling/internal/setout"
)

// spoken names a board as people do: "front left leg", "3rd shelf slat from the
// left". Words are found from where the copies stand, so that "left" is the one on
// the left whatever was written.
func (m *member) spoken() string {
	if m.lot.isDoubled() {
		return m.plyWord() + " ply of the " + m.spokenWhole()
	}
	return m.spokenWhole()
}

func (m *member) spokenWhole() string {
	l := m.lot
	name := phrase.Spaced(l.title())
	if side, also := m.apart(), l.namesakes(); name == phrase.Spaced(l.d.name) && len(also) > 0 {
		return strings.TrimSpace(phrase.Spaced(l.g.d.name)+" "+side) + " " + name
	}
	side := m.apart()
	if l.d.numbered() && len(l.singles()) > 1 {
		from := m.copy.toward(l.along()).Opposite()
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
	if len(m.lot.copyings())*len(m.lot.places()) < 2 {
		return ""
	}
	return get(m.lot.w, &m.lot.names, "", m.lot.d.at, m.lot.standing)[m]
}

// standing finds, for the copies of each written board, the words that say where
// each stands among them. Copies whose words are alike are numbered as well.
func (l *lot) standing() map[*member]string {
	words := map[*member]string{}
	byBoard := make([][]*member, len(l.singles()))
	for _, m := range l.boards() {
		byBoard[m.one.index] = append(byBoard[m.one.index], m)
	}
	for _, peers := range byBoard {
		seats := make([]geom.Vec, len(peers))
		for i, p := range peers {
			b := p.rough()
			if b == nil || b.Wood == nil {
				return words
			}
			seats[i] = b.Pose.Out(b.Wood.Centre)
		}
		for _, p := range peers {
			words[p] = phrase.Spaced(strings.Join(p.copy.calls, " "))
		}
		for _, axis := range [...]setout.Dir{setout.Front, setout.Left, setout.Down} {
			unlike(peers, words, along(seats, axis))
		}
		numbers := make([]string, len(peers))
		for i := range numbers {
			numbers[i] = nth(i + 1)
		}
		if !toldApart(peers, words) {
			unlike(peers, words, numbers)
		}
	}
	return words
}

// unlike adds a word to each of several whose words do not tell them apart yet.
// Where call words already do, directions would only be in the way.
func unlike(peers []*member, words map[*member]string, more []string) {
	longer, kinds := map[*member]string{}, differing(peers, words)
	for i, p := range peers {
		longer[p] = strings.TrimSpace(words[p] + " " + more[i])
	}
	if len(peers[0].copy.calls) > 0 && differing(peers, longer) == kinds {
		return
	}
	maps.Copy(words, longer)
}

func toldApart(peers []*member, words map[*member]string) bool {
	return differing(peers, words) == len(peers)
}

// differing counts the words several are called by.
func differing(peers []*member, words map[*member]string) int {
	seen := map[string]bool{}
	for _, p := range peers {
		seen[words[p]] = true
	}
	return len(seen)
}

// along says where each of several stands along an axis: at one side or the
// other when there are two places, counted from the first side when there are
// more, nothing when there is one. Places within 1 mm are one.
func along(seats []geom.Vec, first setout.Dir) []string {
	room := setout.Piece()
	at := make([]float64, len(seats))
	for i, s := range seats {
		at[i] = room.Coordinate(s, first)
	}
	places := slices.Clone(at)
	slices.Sort(places)
	places = slices.CompactFunc(places, func(a, b float64) bool { return math.Abs(a-b) <= 1 })
	out := make([]string, len(seats))
	for i, x := range at {
		before := max(0, sort.SearchFloat64s(places, x+0.5)-1)
		switch n := len(places); {
		case n == 1:
		case before == 0:
			out[i] = first.Side()
		case before == n-1:
			out[i] = first.Opposite().Side()
		case n == 3:
			out[i] = "middle"
		default:
			out[i] = nth(before + 1)
		}
	}
	return out
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
