package main

import (
	"encoding/binary"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// point is a point of an outline in font units; off-curve points are the
// controls of quadratic curves.
type point struct {
	x, y float64
	on   bool
}

// contours decodes a glyph. A glyph made of others comes back as plain
// outlines, so that a subset has no parts to carry along.
func (f sfnt) contours(gid int) ([][]point, error) {
	b := f.outline(gid)
	if len(b) == 0 {
		return nil, nil
	}
	if n := i16(b, 0); n >= 0 {
		return simple(b, n), nil
	}
	var all [][]point
	for at, flags := 10, 0x20; flags&0x20 != 0; {
		flags = u16(b, at)
		part := u16(b, at+2)
		at += 4
		if flags&0x0002 == 0 {
			return nil, fmt.Errorf("glyph %d joins parts by point numbers", gid)
		}
		var dx, dy float64
		if flags&0x0001 != 0 {
			dx, dy = float64(i16(b, at)), float64(i16(b, at+2))
			at += 4
		} else {
			dx, dy = float64(int8(b[at])), float64(int8(b[at+1]))
			at += 2
		}
		xx, xy, yx, yy := 1.0, 0.0, 0.0, 1.0
		f2 := func() float64 { at += 2; return float64(i16(b, at-2)) / 16384 }
		switch {
		case flags&0x0008 != 0:
			xx = f2()
			yy = xx
		case flags&0x0040 != 0:
			xx, yy = f2(), f2()
		case flags&0x0080 != 0:
			xx, xy, yx, yy = f2(), f2(), f2(), f2()
		}
		cs, err := f.contours(part)
		if err != nil {
			return nil, err
		}
		for _, c := range cs {
			turned := make([]point, len(c))
			for i, p := range c {
				turned[i] = point{math.Round(p.x*xx + p.y*yx + dx), math.Round(p.x*xy + p.y*yy + dy), p.on}
			}
			all = append(all, turned)
		}
	}
	return all, nil
}

func simple(b []byte, n int) [][]point {
	ends := make([]int, n)
	for i := range ends {
		ends[i] = u16(b, 10+2*i)
	}
	at := 10 + 2*n
	at += 2 + u16(b, at)
	count := ends[n-1] + 1
	flags := make([]byte, 0, count)
	for len(flags) < count {
		fl := b[at]
		at++
		flags = append(flags, fl)
		if fl&8 != 0 {
			for range b[at] {
				flags = append(flags, fl)
			}
			at++
		}
	}
	axis := func(short, same byte) []float64 {
		v, out := 0, make([]float64, count)
		for i, fl := range flags {
			switch {
			case fl&short != 0 && fl&same != 0:
				v += int(b[at])
				at++
			case fl&short != 0:
				v -= int(b[at])
				at++
			case fl&same == 0:
				v += i16(b, at)
				at += 2
			}
			out[i] = float64(v)
		}
		return out
	}
	xs := axis(2, 16)
	ys := axis(4, 32)
	var cs [][]point
	for i, start := 0, 0; i < n; i++ {
		var c []point
		for j := start; j <= ends[i]; j++ {
			c = append(c, point{xs[j], ys[j], flags[j]&1 != 0})
		}
		cs, start = append(cs, c), ends[i]+1
	}
	return cs
}

// bounds returns the box of the outlines' points.
func bounds(cs [][]point) (x0, y0, x1, y1 int) {
	first := true
	for _, c := range cs {
		for _, p := range c {
			x, y := int(p.x), int(p.y)
			if first {
				x0, y0, x1, y1, first = x, y, x, y, false
			}
			x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
		}
	}
	return x0, y0, x1, y1
}

// encode writes outlines as a simple glyph without instructions.
func encode(cs [][]point) []byte {
	if len(cs) == 0 {
		return nil
	}
	put := func(b []byte, v int) []byte { return binary.BigEndian.AppendUint16(b, uint16(v)) }
	x0, y0, x1, y1 := bounds(cs)
	b := put(nil, len(cs))
	for _, v := range []int{x0, y0, x1, y1} {
		b = put(b, v)
	}
	var flags, xs, ys []byte
	n, px, py := 0, 0, 0
	for _, c := range cs {
		n += len(c)
		b = put(b, n-1)
		for _, p := range c {
			fl := byte(0)
			if p.on {
				fl = 1
			}
			delta := func(d int, out []byte, short, same byte) []byte {
				switch {
				case d == 0:
					fl |= same
				case d > 0 && d < 256:
					fl |= short | same
					out = append(out, byte(d))
				case d < 0 && d > -256:
					fl |= short
					out = append(out, byte(-d))
				default:
					out = put(out, d)
				}
				return out
			}
			xs = delta(int(p.x)-px, xs, 2, 16)
			ys = delta(int(p.y)-py, ys, 4, 32)
			flags = append(flags, fl)
			px, py = int(p.x), int(p.y)
		}
	}
	b = put(b, 0) // no instructions
	b = append(append(append(b, flags...), xs...), ys...)
	for len(b)%4 != 0 {
		b = append(b, 0)
	}
	return b
}

// path writes outlines as an SVG path in font units, y down.
func path(cs [][]point) string {
	var b strings.Builder
	num := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	for _, c := range cs {
		// Begin on the curve; halfway between two controls is on it.
		start := 0
		for start < len(c) && !c[start].on {
			start++
		}
		if start == len(c) {
			c = append([]point{mid(c[len(c)-1], c[0])}, c...)
			start = 0
		}
		at := func(i int) point { return c[(start+i)%len(c)] }
		fmt.Fprintf(&b, "M%s %s", num(at(0).x), num(-at(0).y))
		for i := 1; i <= len(c); i++ {
			p := at(i)
			if p.on {
				if i < len(c) {
					fmt.Fprintf(&b, "L%s %s", num(p.x), num(-p.y))
				}
				continue
			}
			end := at(i + 1)
			if end.on {
				i++
			} else {
				end = mid(p, end)
			}
			fmt.Fprintf(&b, "Q%s %s %s %s", num(p.x), num(-p.y), num(end.x), num(-end.y))
		}
		b.WriteString("Z")
	}
	return b.String()
}

func mid(a, b point) point { return point{(a.x + b.x) / 2, (a.y + b.y) / 2, true} }
