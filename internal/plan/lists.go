package plan

import (
	"bytes"
	"encoding/csv"
	"strconv"

	"scantling/internal/shop"
)

// Lists returns the lists of the plan as CSV files by name: what to buy, the
// parts, every cut of every bought board, and the hardware. Figures stand as
// the plan prints them, so that a list and a page never differ.
func (p *Plan) Lists() []File {
	r := p.Readings
	buy := [][]string{{"what", "length", "count", "each", "total", "for"}}
	for _, l := range r.Buy.Boards {
		buy = append(buy, buyRow(l))
	}
	parts := [][]string{{"letter", "name", "hand", "count", "thickness", "width", "length", "short length", "from", "cut"}}
	for _, pt := range r.Parts {
		parts = append(parts, []string{pt.Letter, pt.Name, pt.Hand, strconv.Itoa(pt.Count), pt.Thick.Text, pt.Wide.Text,
			pt.Long.Text, textOf(pt.Short), pt.Stock, pt.CutNote.String()})
	}
	cuts := [][]string{{"board", "stock", "length", "strip", "part", "cut at"}}
	for i, b := range r.Saw.Boards {
		for j, s := range b.Strips() {
			for _, pc := range s.Pieces {
				cuts = append(cuts, []string{boardNumbers(r.Saw.Boards, i), b.Stock, b.Length.Text, strconv.Itoa(j + 1), pc.Letter, pc.Mark.Text})
			}
		}
	}
	hardware := [][]string{{"what", "length", "count", "each", "total", "for", "packs"}}
	for _, l := range append(append([]shop.BuyLine(nil), r.Buy.Hardware...), r.Buy.Goods...) {
		hardware = append(hardware, append(buyRow(l), l.Packs))
	}
	return []File{
		{"lists/boards.csv", sheet(buy)},
		{"lists/parts.csv", sheet(parts)},
		{"lists/cuts.csv", sheet(cuts)},
		{"lists/hardware.csv", sheet(hardware)},
	}
}

func buyRow(l shop.BuyLine) []string {
	return []string{l.What, textOf(l.Length), strconv.Itoa(l.Count), textOf(l.Each), textOf(l.Total), l.Use}
}

// boardNumbers names the bought boards that saw board i stands for: "3" or
// "3 to 5", counting boards cut alike.
func boardNumbers(boards []shop.SawBoard, i int) string {
	first := 1
	for _, b := range boards[:i] {
		first += max(1, b.Same)
	}
	if last := first + max(1, boards[i].Same) - 1; last > first {
		return strconv.Itoa(first) + " to " + strconv.Itoa(last)
	}
	return strconv.Itoa(first)
}

// sheet writes rows as RFC 4180 text.
func sheet(rows [][]string) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	w.WriteAll(rows) // a bytes.Buffer takes everything
	return b.Bytes()
}

func textOf(s *shop.Shown) string {
	if s == nil {
		return ""
	}
	return s.Text
}
