package cutplan

import (
	"cmp"
	"slices"
)

// A ripper lays out boards of one stock that may be ripped: crosscut into
// sections, a section ripped into strips, a strip crosscut into pieces. It looks
// for the layout that weighs most, sawing one section after another from what is
// still wanted. Which section comes first is told by a coarse reckoning over
// lengths: what strips of a width hold, what sections so ripped hold, what the
// board holds. Nothing else rests on it.
type ripper struct {
	s     *search
	whole int     // the mode of a board left whole
	modes []int   // of strips, narrow ones first
	most  []int   // by mode: strips side by side at most
	rips  [][]int // strips by mode
	cell  int     // of the coarse reckoning
	kerf  int     // marks
	room  int     // the width of the board and a kerf, marks

	strips   [][][]int64 // by mode and number of strips side by side: what each holds, by cells
	sections []int64     // what a section holds, by cells
	way      []int       // … and how it is ripped: index into rips, or -1
	board    []int64     // what sections hold together, by cells
	first    []int       // … and the last of them
	turn     int         // how often that was reckoned
}

// cells is how finely the coarse reckoning divides the longest board.
const cells = 768

func newRipper(s *search, stock int) *ripper {
	at := slices.IndexFunc(s.in.modes, func(m mode) bool { return m.stock == stock })
	r := &ripper{s: s, cell: 1, kerf: s.in.kerf, room: s.in.modes[at].width + s.in.kerf}
	for _, b := range s.in.boards {
		if b.stock == stock {
			r.whole = b.whole
			r.cell = max(r.cell, (b.capacity+cells-1)/cells)
		}
	}
	r.most = make([]int, len(s.in.modes))
	r.most[r.whole] = 1
	for _, rip := range s.in.rips {
		if rip.stock == stock {
			r.rips = append(r.rips, rip.strips)
			for m, n := range rip.strips {
				r.most[m] = max(r.most[m], n)
			}
		}
	}
	r.strips = make([][][]int64, len(s.in.modes))
	for m, n := range r.most {
		if n > 0 && m != r.whole {
			r.modes = append(r.modes, m)
		}
		for range n {
			r.strips[m] = append(r.strips[m], make([]int64, cells+2))
		}
	}
	r.sections, r.board = make([]int64, cells+2), make([]int64, cells+2)
	r.way, r.first = make([]int, cells+2), make([]int, cells+2)
	return r
}

// fill returns the sections found for a board of the given length, and takes
// what they hold from want. The tables stand for the weights and what was wanted
// before.
func (r *ripper) fill(room int, weight []int64, want []int) (out []section) {
	for again := 0; again < 4 && room > 0; again++ {
		if again > 0 {
			if !r.fits(room, weight, want) {
				break
			}
			r.reckon(room/r.cell, weight, want)
		}
		plan := r.plan(room / r.cell)
		found := false
		for k, l := range plan {
			length := min(room, (l+1)*r.cell)
			if k+1 == len(plan) {
				length = room
			}
			sec := r.section(r.way[l], length, weight, want)
			if sec.length > 0 {
				out = append(out, sec)
				room -= sec.length
				found = true
			}
		}
		if !found {
			break
		}
	}
	return out
}

// fits reports whether a piece that counts could come from a length.
func (r *ripper) fits(room int, weight []int64, want []int) bool {
	mode := &r.s.in.modes[r.whole]
	return slices.ContainsFunc(mode.items, func(i int) bool { return weight[i] > 0 && want[i] > 0 && mode.sizes[i][1] <= room })
}

// reckon sets the tables up to n cells.
func (r *ripper) reckon(n int, weight []int64, want []int) {
	r.turn++
	for m, counts := range r.strips {
		for k := range counts {
			r.strip(counts[k][:n+1], m, k+1, weight, want)
		}
	}
	for l := range n + 1 {
		r.sections[l], r.way[l] = r.strips[r.whole][0][l], -1
	}
	for i, rip := range r.rips {
		var held [][]int64
		var times []int64
		for m, k := range rip {
			if k > 0 {
				held, times = append(held, r.strips[m][k-1]), append(times, int64(k))
			}
		}
		for l := range n + 1 {
			var sum int64
			for k, h := range held {
				sum += h[l] * times[k]
			}
			if sum > r.sections[l] {
				r.sections[l], r.way[l] = sum, i
			}
		}
	}
	lengths := r.worthwhile(n)
	r.board[0] = 0
	for l := 1; l <= n; l++ {
		best, at := r.board[l-1], 0
		for _, m := range lengths {
			if m > l {
				break
			}
			if v := r.sections[m] + r.board[l-m]; v > best {
				best, at = v, m
			}
		}
		r.board[l], r.first[l] = best, at
	}
}

// plan returns the sections reckoned best for a board of n cells, those that
// hold most first.
func (r *ripper) plan(n int) (lengths []int) {
	for l := n; l > 0; {
		if m := r.first[l]; m > 0 {
			lengths = append(lengths, m)
			l -= m
		} else {
			l--
		}
	}
	slices.SortStableFunc(lengths, func(a, b int) int { return cmp.Compare(r.sections[b], r.sections[a]) })
	return lengths
}

// strip reckons what each of k strips of a mode side by side holds.
func (r *ripper) strip(value []int64, m, k int, weight []int64, want []int) {
	clear(value)
	mode := &r.s.in.modes[m]
	for _, i := range mode.items {
		w := weight[i]
		left := (want[i] + k - 1) / k
		if w <= 0 || left == 0 {
			continue
		}
		size := max(1, mode.sizes[i][1]/r.cell)
		for lot := 1; left > 0; lot *= 2 {
			lot = min(lot, left)
			left -= lot
			by, gain := lot*size, int64(lot)*w
			for l := len(value) - 1; l >= by; l-- {
				if v := value[l-by] + gain; v > value[l] {
					value[l] = v
				}
			}
		}
	}
}

// worthwhile returns lengths of sections, in cells, at which they begin to hold
// more: not too many, but the longest always.
func (r *ripper) worthwhile(n int) []int {
	const most = 96
	best := make([]int, most)
	for l := 1; l <= n; l++ {
		if r.sections[l] > r.sections[l-1] {
			at := &best[(l-1)*most/n]
			if *at == 0 || float64(r.sections[l])*float64(*at) > float64(r.sections[*at])*float64(l) {
				*at = l
			}
		}
	}
	out := slices.DeleteFunc(best, func(l int) bool { return l == 0 })
	if len(out) == 0 || out[len(out)-1] != n {
		out = append(out, n)
	}
	return out
}

// section fills the strips of a section of at most the given length, wide ones
// first, and takes what they hold from want.
func (r *ripper) section(way, length int, weight []int64, want []int) (sec section) {
	add := func(m int) {
		f := r.s.fillers[m]
		f.reach = length
		f.run(weight, want)
		counts := f.pattern(length)
		taken := 0
		for i, n := range counts {
			want[i] -= n
			taken += n
		}
		if taken > 0 {
			sec.strips = append(sec.strips, strip{m, counts})
			sec.length = max(sec.length, r.s.in.taken(&r.s.in.modes[m], counts))
		}
	}
	if way < 0 {
		add(r.whole)
		return sec
	}
	for k := len(r.modes) - 1; k >= 0; k-- {
		for range r.rips[way][r.modes[k]] {
			add(r.modes[k])
		}
	}
	return sec
}

// each visits a layout of every board of the stock that is to be had and looks
// worth more than its price.
func (r *ripper) each(st *state, weight []int64, worth func(b int) int64, visit func(use)) {
	r.s.nodes += 4
	longest := 0
	for b, board := range r.s.in.boards {
		if board.whole == r.whole && st.boards[b] > 0 {
			longest = max(longest, board.capacity)
		}
	}
	if !r.fits(longest, weight, st.want) {
		return
	}
	r.reckon(longest/r.cell, weight, st.want)
	fresh := r.turn
	for b, board := range r.s.in.boards {
		if board.whole != r.whole || st.boards[b] == 0 {
			continue
		}
		if r.turn != fresh { // the last board asked again
			r.reckon(longest/r.cell, weight, st.want)
			fresh = r.turn
		}
		if r.board[board.capacity/r.cell] <= worth(b) {
			continue
		}
		left := slices.Clone(st.want)
		u := use{board: b, sections: r.fill(board.capacity, weight, left)}
		for i, n := range st.want {
			u.counts = append(u.counts, n-left[i])
		}
		visit(u)
	}
}

// trimmed returns a layout without what is not wanted, filled up again.
func (r *ripper) trimmed(u use, want []int) use {
	in := r.s.in
	left := slices.Clone(want)
	out := use{board: u.board}
	room := in.boards[u.board].capacity
	for _, old := range u.sections {
		var sec section
		for _, st := range old.strips {
			counts := slices.Clone(st.counts)
			some := false
			for i, n := range counts {
				counts[i] = min(n, left[i])
				left[i] -= counts[i]
				some = some || counts[i] > 0
			}
			if some {
				sec.strips = append(sec.strips, strip{st.mode, counts})
				sec.length = max(sec.length, in.taken(&in.modes[st.mode], counts))
			}
		}
		if len(sec.strips) > 0 {
			out.sections = append(out.sections, sec)
			room -= sec.length
		}
	}
	for _, sec := range out.sections {
		for _, st := range sec.strips {
			mode := &in.modes[st.mode]
			for _, i := range mode.items { // long before short in every class
				for left[i] > 0 {
					st.counts[i]++
					if in.taken(mode, st.counts) > sec.length {
						st.counts[i]--
						break
					}
					left[i]--
				}
			}
		}
	}
	if weight := r.s.areas(); r.fits(room, weight, left) {
		r.reckon(room/r.cell, weight, left)
		out.sections = append(out.sections, r.fill(room, weight, left)...)
	}
	for i, n := range want {
		out.counts = append(out.counts, n-left[i])
	}
	return out
}

// areas returns for each item the length it takes up times its width.
func (s *search) areas() (weight []int64) {
	for i, l := range s.lengths() {
		weight = append(weight, l*int64(s.in.items[i].width))
	}
	return weight
}
