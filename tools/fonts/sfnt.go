package main

import (
	"encoding/binary"
	"fmt"
	"sort"
)

// sfnt is a TrueType font as a table directory. Offsets and formats are those
// of the OpenType specification 1.9.
type sfnt map[string][]byte

func u16(b []byte, at int) int { return int(binary.BigEndian.Uint16(b[at:])) }
func i16(b []byte, at int) int { return int(int16(binary.BigEndian.Uint16(b[at:]))) }
func u32(b []byte, at int) int { return int(binary.BigEndian.Uint32(b[at:])) }

// parse reads the table directory.
func parse(b []byte) (sfnt, error) {
	if len(b) < 12 || u32(b, 0) != 0x00010000 {
		return nil, fmt.Errorf("not a TrueType font: its first bytes are % x", b[:min(4, len(b))])
	}
	f := sfnt{}
	for i := range u16(b, 4) {
		e := b[12+16*i:]
		f[string(e[:4])] = b[u32(e, 8) : u32(e, 8)+u32(e, 12)]
	}
	return f, nil
}

// glyphs returns how many glyphs the font has.
func (f sfnt) glyphs() int { return u16(f["maxp"], 4) }

// advance returns the advance width and left side bearing of a glyph.
func (f sfnt) advance(gid int) (width, bearing int) {
	n := u16(f["hhea"], 34)
	if gid < n {
		return u16(f["hmtx"], 4*gid), i16(f["hmtx"], 4*gid+2)
	}
	return u16(f["hmtx"], 4*(n-1)), i16(f["hmtx"], 4*n+2*(gid-n))
}

// outline returns the bytes of a glyph's description, empty for a space.
func (f sfnt) outline(gid int) []byte {
	at := func(i int) int {
		if u16(f["head"], 50) == 0 {
			return 2 * u16(f["loca"], 2*i)
		}
		return u32(f["loca"], 4*i)
	}
	return f["glyf"][at(gid):at(gid+1)]
}

// runes reads the character map: formats 4 and 12 are enough for this font.
func (f sfnt) runes() (map[rune]int, error) {
	t := f["cmap"]
	best := -1
	for i := range u16(t, 2) {
		e := t[4+8*i:]
		if u16(e, 0) == 3 && u16(e, 2) == 10 || u16(e, 0) == 3 && u16(e, 2) == 1 && best < 0 {
			best = u32(e, 4)
		}
	}
	if best < 0 {
		return nil, fmt.Errorf("no Unicode character map")
	}
	m := map[rune]int{}
	t = t[best:]
	switch format := u16(t, 0); format {
	case 12:
		for i := range u32(t, 12) {
			e := t[16+12*i:]
			for r := u32(e, 0); r <= u32(e, 4); r++ {
				m[rune(r)] = u32(e, 8) + r - u32(e, 0)
			}
		}
	case 4:
		n := u16(t, 6) / 2
		for i := range n {
			end, start := u16(t, 14+2*i), u16(t, 16+2*n+2*i)
			delta, off := u16(t, 16+4*n+2*i), u16(t, 16+6*n+2*i)
			for r := start; r <= end && r != 0xffff; r++ {
				g := r
				if off != 0 {
					if g = u16(t, 16+6*n+2*i+off+2*(r-start)); g == 0 {
						continue
					}
				}
				m[rune(r)] = (g + delta) & 0xffff
			}
		}
	default:
		return nil, fmt.Errorf("character map of format %d; 4 and 12 are read", format)
	}
	return m, nil
}

// build writes the tables as a font file, with its checksums.
func (f sfnt) build() []byte {
	var tags []string
	for tag := range f {
		tags = append(tags, tag)
	}
	sort.Strings(tags)
	n := len(tags)
	log := 0
	for 2<<log <= n {
		log++
	}
	out := binary.BigEndian.AppendUint32(nil, 0x00010000)
	for _, v := range []int{n, 16 << log, log, 16*n - 16<<log} {
		out = binary.BigEndian.AppendUint16(out, uint16(v))
	}
	var body []byte
	head := 0
	for _, tag := range tags {
		t := f[tag]
		if tag == "head" {
			t = append([]byte(nil), t...)
			clear(t[8:12])
			head = 12 + 16*n + len(body)
		}
		out = append(out, tag...)
		out = binary.BigEndian.AppendUint32(out, checksum(t))
		out = binary.BigEndian.AppendUint32(out, uint32(12+16*n+len(body)))
		out = binary.BigEndian.AppendUint32(out, uint32(len(t)))
		body = append(body, t...)
		for len(body)%4 != 0 {
			body = append(body, 0)
		}
	}
	out = append(out, body...)
	binary.BigEndian.PutUint32(out[head+8:], 0xb1b0afba-checksum(out))
	return out
}

func checksum(b []byte) (sum uint32) {
	for i := 0; i < len(b); i += 4 {
		var w [4]byte
		copy(w[:], b[i:])
		sum += binary.BigEndian.Uint32(w[:])
	}
	return sum
}
