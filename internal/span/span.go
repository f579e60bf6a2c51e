// Package span names places in design files: byte ranges, edits of them, and
// sets of the scalars a number was computed from.
//
// Everything a plan says can be traced to what somebody wrote. A Range says
// where that stands, in bytes, so that an editor, a terminal and a browser all
// find the same place; a Set says which scalars of one file took part.
package span

import (
	"math/bits"
	"sort"
)

// A Range is the bytes [Start, End) of a file. The zero Range names nothing.
type Range struct {
	File       string
	Start, End int
}

// IsZero reports whether r names no place.
func (r Range) IsZero() bool { return r == Range{} }

// An Edit replaces the bytes At by Text. An empty At inserts.
type Edit struct {
	At   Range
	Text string
}

// Apply returns src with the edits made. Edits may come in any order but must
// not overlap; Apply returns false, and src unchanged, if they do or if one
// lies outside src.
func Apply(src []byte, edits []Edit) ([]byte, bool) {
	es := append([]Edit(nil), edits...)
	sort.SliceStable(es, func(i, j int) bool { return es[i].At.Start < es[j].At.Start })
	var out []byte
	at := 0
	for _, e := range es {
		if e.At.Start < at || e.At.End < e.At.Start || e.At.End > len(src) {
			return src, false
		}
		out = append(out, src[at:e.At.Start]...)
		out = append(out, e.Text...)
		at = e.At.End
	}
	return append(out, src[at:]...), true
}

// A Set is a set of scalars of one design file, by their ordinal number in
// file order (see source.Tree). The zero Set is empty. Sets are values: no
// method changes its receiver.
type Set struct{ words string } // little-endian bit bytes, no trailing zero byte: comparable with ==

// Of returns the set holding the given ordinals.
func Of(ordinals ...int) Set {
	var b []byte
	for _, n := range ordinals {
		for len(b) <= n/8 {
			b = append(b, 0)
		}
		b[n/8] |= 1 << (n % 8)
	}
	return Set{string(b)}
}

// Union returns the union of s and all others.
func (s Set) Union(others ...Set) Set {
	words := s.words
	var b []byte // allocated only when the union really grows
	for _, o := range others {
		for i := 0; i < len(o.words); i++ {
			have := byte(0)
			if b != nil {
				if i < len(b) {
					have = b[i]
				}
			} else if i < len(words) {
				have = words[i]
			}
			if have|o.words[i] == have && (b != nil && i < len(b) || b == nil && i < len(words)) {
				continue
			}
			if b == nil {
				b = []byte(words)
			}
			for len(b) <= i {
				b = append(b, 0)
			}
			b[i] |= o.words[i]
		}
	}
	if b == nil {
		return s
	}
	return Set{string(b)}
}

// Has reports whether ordinal n is in the set.
func (s Set) Has(n int) bool {
	return n >= 0 && n/8 < len(s.words) && s.words[n/8]&(1<<(n%8)) != 0
}

// Len returns how many ordinals the set holds.
func (s Set) Len() int {
	n := 0
	for i := 0; i < len(s.words); i++ {
		n += bits.OnesCount8(s.words[i])
	}
	return n
}

// Ordinals returns the members in rising order.
func (s Set) Ordinals() []int {
	var out []int
	for i := 0; i < len(s.words); i++ {
		for w := s.words[i]; w != 0; w &= w - 1 {
			out = append(out, i*8+bits.TrailingZeros8(w))
		}
	}
	return out
}
