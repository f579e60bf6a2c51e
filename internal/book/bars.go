package book

import (
	"scantling/internal/drawing"
	"scantling/internal/shop"
	"scantling/internal/typeset"
)

// A Bar is one strip of a bought board as it lies at the saw, drawn as the book
// draws it.
type Bar struct {
	Lead  shop.Text // what is done before it
	Strip int       // its number in its section; 0 for the only one
	Sheet *drawing.Sheet
	Bare  []shop.SawPiece // pieces too short for their letter
	Tight *shop.Shown     // what is left, when its figure has no room on the bar
}

// Bars draws the boards of a plan for a column so many mm wide: for each of
// Saw.Boards, its strips that give parts. All are to one scale.
func Bars(r *shop.Readings, width float64) [][]Bar {
	const pad = 1.5 // half a letter reaches past the end of a board
	longest := 1.0
	for _, sb := range r.Saw.Boards {
		longest = max(longest, mm(sb.Length))
	}
	scale := float64((width - 2*pad) / longest)
	var out [][]Bar
	for _, sb := range r.Saw.Boards {
		var bars []Bar
		cut := 0
		for k, sec := range sb.Sections {
			for i, s := range sec.Used() {
				d := &bar{wide: sb.Width, ripsAt: sec.RipsAt, strip: s, whole: len(sec.Used()) == 1, scale: scale, long: sb.LongOf(sec), kerf: mm(r.Saw.Kerf),
					metric: r.Units != "inches", cut: cut, room: width - 2*pad}
				items, high := d.draw()
				cut = d.cut
				b := Bar{Bare: d.bare, Sheet: &drawing.Sheet{W: width, H: high + 0.5, Title: barSays(sb, s), Items: drawing.Move(items, pad, 0)}}
				if i == 0 {
					b.Lead = sb.Lead(k)
				}
				if len(sec.Used()) > 1 {
					b.Strip = i + 1
				}
				if d.tight {
					b.Tight = s.Left
				}
				bars = append(bars, b)
			}
		}
		out = append(out, bars)
	}
	return out
}

// Prose parts plain words into words and the measures among them.
func Prose(words string) []typeset.Span { return prose(words, bodyStyle) }
