package main

// lookups returns the lookup tables of the named feature of GSUB or GPOS for
// the default language of the Latin script. Lookups of the type extension only
// lead to others: 7 in GSUB, 9 in GPOS.
func lookups(t []byte, feature string, extension int) (types []int, tables [][][]byte) {
	scripts := t[u16(t, 4):]
	features := t[u16(t, 6):]
	list := t[u16(t, 8):]
	var lang []byte
	for i := range u16(scripts, 0) {
		e := scripts[2+6*i:]
		if tag := string(e[:4]); tag == "latn" || tag == "DFLT" && lang == nil {
			s := scripts[u16(e, 4):]
			lang = s[u16(s, 0):]
		}
	}
	seen := map[int]bool{}
	for i := range u16(lang, 4) {
		e := features[2+6*u16(lang, 6+2*i):]
		if string(e[:4]) != feature {
			continue
		}
		ft := features[u16(e, 4):]
		for j := range u16(ft, 2) {
			n := u16(ft, 4+2*j)
			if seen[n] {
				continue
			}
			seen[n] = true
			lt := list[u16(list, 2+2*n):]
			kind := u16(lt, 0)
			var subs [][]byte
			for k := range u16(lt, 4) {
				sub := lt[u16(lt, 6+2*k):]
				if u16(lt, 0) == extension {
					kind, sub = u16(sub, 2), sub[u32(sub, 4):]
				}
				subs = append(subs, sub)
			}
			types = append(types, kind)
			tables = append(tables, subs)
		}
	}
	return types, tables
}

// coverage returns the glyphs of a coverage table in order.
func coverage(t []byte) (gids []int) {
	for i := range u16(t, 2) {
		if u16(t, 0) == 1 {
			gids = append(gids, u16(t, 4+2*i))
			continue
		}
		for g := u16(t, 4+6*i); g <= u16(t, 6+6*i); g++ {
			gids = append(gids, g)
		}
	}
	return gids
}

// classes returns the classes of glyphs; absent ones are in class 0.
func classes(t []byte) map[int]int {
	m := map[int]int{}
	if u16(t, 0) == 1 {
		for i := range u16(t, 4) {
			m[u16(t, 2)+i] = u16(t, 6+2*i)
		}
		return m
	}
	for i := range u16(t, 2) {
		for g := u16(t, 4+6*i); g <= u16(t, 6+6*i); g++ {
			m[g] = u16(t, 8+6*i)
		}
	}
	return m
}

// singles returns the one-for-one substitutions of a feature.
func (f sfnt) singles(feature string) map[int]int {
	m := map[int]int{}
	types, tables := lookups(f["GSUB"], feature, 7)
	for i, subs := range tables {
		for _, t := range subs {
			if types[i] != 1 {
				continue
			}
			for j, g := range coverage(t[u16(t, 2):]) {
				if u16(t, 0) == 1 {
					m[g] = (g + u16(t, 4)) & 0xffff
				} else {
					m[g] = u16(t, 6+2*j)
				}
			}
		}
	}
	return m
}

// kerning returns a function that gives the change of advance, in font units,
// of the first of two glyphs. Only the horizontal advance of the first is
// read: Latin pair kerning uses nothing else.
func (f sfnt) kerning() func(left, right int) int {
	var subs []func(l, r int) (int, bool)
	types, tables := lookups(f["GPOS"], "kern", 9)
	for i, ts := range tables {
		if types[i] != 2 {
			continue
		}
		for _, t := range ts {
			subs = append(subs, pairs(t))
		}
	}
	return func(l, r int) int {
		for _, s := range subs {
			if k, ok := s(l, r); ok {
				return k
			}
		}
		return 0
	}
}

func pairs(t []byte) func(l, r int) (int, bool) {
	index := map[int]int{}
	for i, g := range coverage(t[u16(t, 2):]) {
		index[g] = i
	}
	one, two := u16(t, 4), u16(t, 6)
	size, at := 2*bits(one)+2*bits(two), 2*bits(one&3) // the advance follows the two placements
	value := func(b []byte) int {
		if one&4 == 0 {
			return 0
		}
		return i16(b, at)
	}
	if u16(t, 0) == 1 {
		return func(l, r int) (int, bool) {
			i, ok := index[l]
			if !ok {
				return 0, false
			}
			set := t[u16(t, 10+2*i):]
			for j := range u16(set, 0) {
				if e := set[2+(2+size)*j:]; u16(e, 0) == r {
					return value(e[2:]), true
				}
			}
			return 0, false
		}
	}
	left, right := classes(t[u16(t, 8):]), classes(t[u16(t, 10):])
	n := u16(t, 14)
	return func(l, r int) (int, bool) {
		if _, ok := index[l]; !ok {
			return 0, false
		}
		return value(t[16+size*(left[l]*n+right[r]):]), true
	}
}

func bits(v int) (n int) {
	for ; v != 0; v &= v - 1 {
		n++
	}
	return n
}
