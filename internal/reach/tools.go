package reach

import (
	"fmt"
	"strings"

	"scantling/internal/measure"
)

// Tools is how large the tools of a workshop are. Their bodies are taken as prisms
// that hold them, hand included.
type Tools struct {
	DrillLong measure.Length // of a drill, from the jaws to its back
	DrillWide measure.Length // across its body
	DrillGrip measure.Length // from its axis to the end of the grip, hand included
	Bit       measure.Length // from the jaws to the tip of a driver bit
	LongBit   measure.Length // the same with a long bit or holder

	AngleHigh measure.Length // of an angle driver, from the tip of its bit to its back
	AngleLong measure.Length // from the axis to its end, hand included
	AngleWide measure.Length

	RatchetHigh measure.Length // of a ratchet with its socket on a nut, from the wood
	RatchetLong measure.Length // from the nut to the end of the handle
	WrenchHigh  measure.Length // of an open wrench, hand included, from the wood
	WrenchLong  measure.Length

	HammerLong measure.Length // handle
	HammerHigh measure.Length // head, and the swing over it
	Hand       measure.Length // to put a bolt in and tap it home
}

// Usual is the tools most people have. Source: common practice (memory): a compact
// drill driver is 7 to 8 in long and 2 1/2 in wide, driver bits are sold by 2 and
// 6 in, right-angle attachments stand 3 to 4 in high, a 3/8 in ratchet is 7 to 8 in
// long and with its socket 2 1/2 to 3 in high.
func Usual() Tools {
	const in = measure.Inch
	return Tools{DrillLong: 15 * in / 2, DrillWide: 5 * in / 2, DrillGrip: 7 * in, Bit: 2 * in, LongBit: 6 * in,
		AngleHigh: 4 * in, AngleLong: 12 * in, AngleWide: 5 * in / 2,
		RatchetHigh: 11 * in / 4, RatchetLong: 8 * in, WrenchHigh: 5 * in / 4, WrenchLong: 7 * in,
		HammerLong: 13 * in, HammerHigh: 10 * in, Hand: 4 * in}
}

// A size is one figure of Tools under its name.
type size struct {
	name string
	of   func(*Tools) *measure.Length
}

var sizes = [...]size{
	{"drill long", func(t *Tools) *measure.Length { return &t.DrillLong }},
	{"drill wide", func(t *Tools) *measure.Length { return &t.DrillWide }},
	{"drill grip", func(t *Tools) *measure.Length { return &t.DrillGrip }},
	{"bit", func(t *Tools) *measure.Length { return &t.Bit }},
	{"long bit", func(t *Tools) *measure.Length { return &t.LongBit }},
	{"angle high", func(t *Tools) *measure.Length { return &t.AngleHigh }},
	{"angle long", func(t *Tools) *measure.Length { return &t.AngleLong }},
	{"angle wide", func(t *Tools) *measure.Length { return &t.AngleWide }},
	{"ratchet high", func(t *Tools) *measure.Length { return &t.RatchetHigh }},
	{"ratchet long", func(t *Tools) *measure.Length { return &t.RatchetLong }},
	{"wrench high", func(t *Tools) *measure.Length { return &t.WrenchHigh }},
	{"wrench long", func(t *Tools) *measure.Length { return &t.WrenchLong }},
	{"hammer long", func(t *Tools) *measure.Length { return &t.HammerLong }},
	{"hammer high", func(t *Tools) *measure.Length { return &t.HammerHigh }},
	{"hand", func(t *Tools) *measure.Length { return &t.Hand }},
}

// largest is more than any tool measures.
const largest = 60 * measure.Inch

// Set gives one size of a tool, by its name: "drill long". The error says which
// names there are, or between which lengths a tool is.
func (t *Tools) Set(name string, l measure.Length) error {
	var names []string
	for _, s := range sizes {
		if s.name == name {
			if l <= 0 || l > largest {
				return fmt.Errorf("%s is %s; a tool measures more than nothing and no more than %s", name, l.Exact(measure.Imperial), largest.Exact(measure.Imperial))
			}
			*s.of(t) = l
			return nil
		}
		names = append(names, s.name)
	}
	return fmt.Errorf("no tool has a size %q; there are %s", name, strings.Join(names, ", "))
}
