package cutplan

import (
	"cmp"
	"math"
	"slices"
)

// A filler finds the best filling of a lane for given weights of the items: a
// bounded knapsack over all lengths at once, exact in integers.
//
// Classes come one after another. For each, a second array starts from the
// first with the class's loss taken off, so that it is paid once.
type filler struct {
	in      *instance
	mode    *mode
	classes int
	reach   int       // the length to fill up to
	value   []int64   // best weight by length
	class   []int64   // … with the class in hand
	take    [][]uint8 // by place in mode.items and length: how many
	uses    [][]bool  // by class and length: better with it
	stage   [][]int64 // by place and board: value once that place may be taken
}

func newFiller(in *instance, m *mode) *filler {
	longest := 0
	for _, b := range in.boards {
		longest = max(longest, b.capacity)
	}
	f := &filler{in: in, mode: m, reach: longest, value: make([]int64, longest+1)}
	for range m.items {
		f.take = append(f.take, make([]uint8, longest+1))
		f.stage = append(f.stage, make([]int64, len(in.boards)))
	}
	last := -1
	for _, i := range m.items {
		if c := in.items[i].class; c >= 0 && c != last {
			f.classes, last = f.classes+1, c
		}
	}
	for range f.classes {
		f.uses = append(f.uses, make([]bool, longest+1))
		f.class = make([]int64, longest+1)
	}
	return f
}

// raised returns what a piece of item i weighs in a lane of the mode.
func (m *mode) raised(i int, weight int64) int64 {
	if m.raise == nil {
		return weight
	}
	return ceilDiv(weight*whole, m.raise[i])
}

// holds returns how many of item i a board holds that has it n times on every
// lane of the mode.
func (m *mode) holds(i, n int) float64 {
	if m.raise == nil {
		return float64(n)
	}
	return float64(n) * whole / float64(m.raise[i])
}

// run fills value for the given weights, taking at most left[i] of item i.
func (f *filler) run(weight []int64, left []int) {
	value := f.value[:f.reach+1]
	clear(value)
	at := 0
	for ; at < len(f.mode.items) && f.in.items[f.mode.items[at]].class < 0; at++ {
		f.step(value, at, weight, left)
		for b := range f.in.boards {
			f.stage[at][b] = value[min(f.reach, f.in.boards[b].capacity)]
		}
	}
	for c := 0; at < len(f.mode.items); c++ {
		first := at
		setup := f.in.items[f.mode.items[first]].setup
		class := f.class[:f.reach+1]
		for l := range class {
			class[l] = -1
			if l >= setup {
				class[l] = value[l-setup]
			}
		}
		for ; at < len(f.mode.items) && f.in.items[f.mode.items[at]].class == f.in.items[f.mode.items[first]].class; at++ {
			f.step(class, at, weight, left)
		}
		for l, v := range class {
			f.uses[c][l] = v > value[l]
			value[l] = max(value[l], v)
		}
	}
}

// step lets the item at the given place of the mode be taken.
func (f *filler) step(value []int64, at int, weight []int64, left []int) {
	i := f.mode.items[at]
	size, w, most, take := f.mode.sizes[i], f.mode.raised(i, weight[i]), min(left[i], 255), f.take[at]
	clear(take)
	if w <= 0 || most == 0 {
		return
	}
	if most == 1 {
		one := size[1]
		for l := len(value) - 1; l >= one; l-- {
			if v := value[l-one]; v >= 0 && v+w > value[l] {
				value[l], take[l] = v+w, 1
			}
		}
		return
	}
	for l := len(value) - 1; l >= size[1]; l-- {
		best, q := value[l], 0
		for n := 1; n <= most && size[n] <= l; n++ {
			if v := value[l-size[n]]; v >= 0 && v+int64(n)*w > best {
				best, q = v+int64(n)*w, n
			}
		}
		value[l], take[l] = best, uint8(q)
	}
}

// pattern returns how many of each item the best filling of length l holds.
func (f *filler) pattern(l int) []int {
	counts := make([]int, len(f.in.items))
	at := len(f.mode.items)
	free := 0
	for free < at && f.in.items[f.mode.items[free]].class < 0 {
		free++
	}
	for c := f.classes - 1; c >= 0; c-- {
		first := at - 1
		for first > free && f.in.items[f.mode.items[first-1]].class == f.in.items[f.mode.items[at-1]].class {
			first--
		}
		if f.uses[c][l] {
			for p := at - 1; p >= first; p-- {
				l = f.back(counts, p, l)
			}
			l -= f.in.items[f.mode.items[first]].setup
		}
		at = first
	}
	f.prefix(counts, at-1, l)
	return counts
}

// prefix adds the best filling of length l by items up to the given place.
func (f *filler) prefix(counts []int, place, l int) {
	for p := place; p >= 0; p-- {
		l = f.back(counts, p, l)
	}
}

func (f *filler) back(counts []int, place, l int) int {
	i, q := f.mode.items[place], int(f.take[place][l])
	counts[i] = q
	return l - f.mode.sizes[i][q]
}

// others visits fillings of board b worth more than least: the best of all
// items first, then some whose last item comes earlier in the mode's order.
func (f *filler) others(b int, least int64, most int, visit func(counts []int)) {
	l := f.in.boards[b].capacity
	if f.value[l] <= least {
		return
	}
	visit(f.pattern(l))
	if f.classes > 0 {
		return
	}
	var places []int
	for p := len(f.mode.items) - 1; p > 0 && f.stage[p][b] > least; p-- {
		if f.stage[p][b] > f.stage[p-1][b] {
			places = append(places, p)
		}
	}
	for k := 1; k < most && k < len(places); k++ {
		at := k
		if len(places) > most {
			at = k * len(places) / most
		}
		counts := make([]int, len(f.in.items))
		f.prefix(counts, places[at], l)
		visit(counts)
	}
}

// taken returns the length the counts take up in mode m, losses included.
func (in *instance) taken(m *mode, counts []int) int {
	length, last := 0, -1
	for _, i := range m.items {
		if counts[i] == 0 {
			continue
		}
		length += m.sizes[i][counts[i]]
		if c := in.items[i].class; c >= 0 && c != last {
			length += in.items[i].setup
			last = c
		}
	}
	return length
}

// A path filler fills boards left whole with items in falling order, exact in
// where each begins, when single places carry weights of their own: a longest
// path over items and places (Valério de Carvalho's arc flow, 1999).
type paths struct {
	in    *instance
	value []int64   // best weight that ends exactly at a length; far below 0: none
	extra []int64   // by place: scratch
	take  [][]uint8 // by place in the mode's items and length
}

const unreached = math.MinInt64 / 2

func newPaths(in *instance) *paths {
	p := &paths{in: in}
	longest := in.boards[0].capacity
	p.value, p.extra = make([]int64, longest+1), make([]int64, longest+1)
	for range in.modes[0].items {
		p.take = append(p.take, make([]uint8, longest+1))
	}
	return p
}

// run fills value. Extra is what a piece of an item beginning at a place weighs
// beyond its weight.
func (p *paths) run(weight []int64, left []int, extra map[arc]int64) {
	for l := range p.value {
		p.value[l] = unreached
	}
	p.value[0] = 0
	var special []arc
	for a, w := range extra {
		if w != 0 {
			special = append(special, a)
		}
	}
	slices.SortFunc(special, func(a, b arc) int { return cmp.Or(a.item-b.item, a.at-b.at) })
	for at, i := range p.in.modes[0].items {
		size, w, most, take := p.in.modes[0].sizes[i][1], weight[i], min(left[i], 255), p.take[at]
		clear(take)
		first, _ := slices.BinarySearchFunc(special, i, func(a arc, i int) int { return a.item - i })
		last := first
		for last < len(special) && special[last].item == i {
			p.extra[special[last].at] = extra[special[last]]
			last++
		}
		switch {
		case len(special) == 0 && w <= 0: // else it may still push others to a place that counts
		case first == last && most == 1:
			for l := len(p.value) - 1; l >= size; l-- {
				if v := p.value[l-size] + w; v > p.value[l] {
					p.value[l], take[l] = v, 1
				}
			}
		default:
			for l := len(p.value) - 1; l >= size; l-- {
				best, q := p.value[l], 0
				var sum int64
				for n, from := 1, l-size; n <= most && from >= 0; n, from = n+1, from-size {
					sum += w + p.extra[from]
					if v := p.value[from] + sum; v > best {
						best, q = v, n
					}
				}
				p.value[l], take[l] = best, uint8(q)
			}
		}
		for _, a := range special[first:last] {
			p.extra[a.at] = 0
		}
	}
}

// best returns the greatest weight on a board of the given capacity and where
// its filling ends.
func (p *paths) best(capacity int) (weight int64, end int) {
	for l, v := range p.value[:capacity+1] {
		if v > weight {
			weight, end = v, l
		}
	}
	return weight, end
}

// pattern returns the counts of the best filling that ends at a length.
func (p *paths) pattern(end int) []int {
	counts := make([]int, len(p.in.items))
	for at := len(p.take) - 1; at >= 0; at-- {
		i := p.in.modes[0].items[at]
		q := int(p.take[at][end])
		counts[i] = q
		end -= q * p.in.modes[0].sizes[i][1]
	}
	return counts
}
