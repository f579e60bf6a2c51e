package cutplan

// A filler finds the best filling of a lane for given weights of the items: a
// bounded knapsack over all lengths at once, exact in integers.
//
// Classes come one after another. For each, a second array starts from the
// first with the class's loss taken off, so that it is paid once.
type filler struct {
	in    *instance
	mode  *mode
	value []int64   // best weight by length
	class []int64   // … with the class in hand
	take  [][]uint8 // by place in mode.items and length: how many
	uses  [][]bool  // by class and length: better with it
}

func newFiller(in *instance, m *mode) *filler {
	longest := 0
	for _, b := range in.boards {
		longest = max(longest, b.capacity)
	}
	f := &filler{in: in, mode: m, value: make([]int64, longest+1)}
	for range m.items {
		f.take = append(f.take, make([]uint8, longest+1))
	}
	for range f.classes() {
		f.uses = append(f.uses, make([]bool, longest+1))
		f.class = make([]int64, longest+1)
	}
	return f
}

// run fills value for the given weights, taking at most left[i] of item i.
func (f *filler) run(weight []int64, left []int) {
	clear(f.value)
	at := 0
	for ; at < len(f.mode.items) && f.in.items[f.mode.items[at]].class < 0; at++ {
		f.step(f.value, at, weight, left)
	}
	for c := 0; at < len(f.mode.items); c++ {
		first := at
		setup := f.in.items[f.mode.items[first]].setup
		for l := range f.class {
			f.class[l] = -1
			if l >= setup {
				f.class[l] = f.value[l-setup]
			}
		}
		for ; at < len(f.mode.items) && f.in.items[f.mode.items[at]].class == f.in.items[f.mode.items[first]].class; at++ {
			f.step(f.class, at, weight, left)
		}
		for l, v := range f.class {
			f.uses[c][l] = v > f.value[l]
			f.value[l] = max(f.value[l], v)
		}
	}
}

// step lets the item at the given place of the mode be taken.
func (f *filler) step(value []int64, at int, weight []int64, left []int) {
	i := f.mode.items[at]
	size, w, most, take := f.mode.sizes[i], weight[i], min(left[i], 255), f.take[at]
	if w <= 0 || most == 0 {
		clear(take)
		return
	}
	for l := len(value) - 1; l >= 0; l-- {
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
	for c := f.classes() - 1; c >= 0; c-- {
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
	for p := at - 1; p >= 0; p-- {
		l = f.back(counts, p, l)
	}
	return counts
}

func (f *filler) back(counts []int, place, l int) int {
	i, q := f.mode.items[place], int(f.take[place][l])
	counts[i] = q
	return l - f.mode.sizes[i][q]
}

// classes returns how many classes the mode's items fall into.
func (f *filler) classes() int {
	n, last := 0, -1
	for _, i := range f.mode.items {
		if c := f.in.items[i].class; c >= 0 && c != last {
			n, last = n+1, c
		}
	}
	return n
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
