package frame

import (
	"math"
	"math/bits"
	"slices"
)

// block is a 6×6 matrix by rows: what the six movements of one node do to the
// six of another.
type block [36]float64

// sparse is a symmetric matrix of blocks; only those on and below the diagonal
// are kept.
type sparse struct {
	diagonal []block
	lower    [][]entry // by row; a node has few neighbours
}

// entry is one block left of the diagonal.
type entry struct {
	column int32
	block
}

func newSparse(nodes int) *sparse {
	return &sparse{diagonal: make([]block, nodes), lower: make([][]entry, nodes)}
}

// clone returns a copy that shares nothing with s.
func (s *sparse) clone() *sparse {
	c := &sparse{diagonal: slices.Clone(s.diagonal), lower: make([][]entry, len(s.lower))}
	for i, row := range s.lower {
		c.lower[i] = slices.Clone(row)
	}
	return c
}

// at returns the block of rows i and columns j ≤ i, making it when there is none.
// It is good until the next call.
func (s *sparse) at(i, j int32) *block {
	if i == j {
		return &s.diagonal[i]
	}
	for k := range s.lower[i] {
		if s.lower[i][k].column == j {
			return &s.lower[i][k].block
		}
	}
	s.lower[i] = append(s.lower[i], entry{column: j})
	return &s.lower[i][len(s.lower[i])-1].block
}

// times returns s·x.
func (s *sparse) times(x []float64) []float64 {
	y := make([]float64, len(x))
	for i := range s.diagonal {
		multiply(y[i*6:i*6+6], &s.diagonal[i], x[i*6:i*6+6])
	}
	for i, row := range s.lower {
		for k := range row {
			b, j := &row[k].block, int(row[k].column)
			multiply(y[i*6:i*6+6], b, x[j*6:j*6+6])
			for r := range 6 {
				for c := range 6 {
					y[j*6+c] += float64(b[r*6+c] * x[i*6+r])
				}
			}
		}
	}
	return y
}

// multiply adds b·x to y.
func multiply(y []float64, b *block, x []float64) {
	for r := range 6 {
		for c := range 6 {
			y[r] += float64(b[r*6+c] * x[c])
		}
	}
}

// layout is an order of elimination that keeps L sparse, and where L then has
// blocks. It holds for every matrix with no blocks elsewhere.
type layout struct {
	order, place []int32   // order[k] is the node eliminated k-th; place is its inverse
	rows         [][]int32 // below the diagonal of column k, ascending
}

// factor is the matrix as L·D·Lᵀ: unit blocks stand on the diagonal of L and are
// not kept.
type factor struct {
	*layout
	blocks [][]block // beside rows
	pivot  []block   // column k: the unit lower triangle of its own 6×6, and its six pivots on the diagonal
}

// eliminationOrder returns an order of elimination by least degree: always the
// node with the fewest uneliminated neighbours, the lower number first. Sets of
// neighbours are bitsets, since a piece has hundreds of nodes, not millions.
func (s *sparse) eliminationOrder() (order []int32, rows [][]int32) {
	n := len(s.diagonal)
	words := (n + 63) / 64
	set := make([]uint64, n*words)
	of := func(i int32) []uint64 { return set[int(i)*words : (int(i)+1)*words] }
	for i := range s.lower {
		for k := range s.lower[i] {
			j := s.lower[i][k].column
			of(int32(i))[j/64] |= 1 << (j % 64)
			of(j)[i/64] |= 1 << (i % 64)
		}
	}
	degree := make([]int, n)
	for i := range degree {
		for _, w := range of(int32(i)) {
			degree[i] += bits.OnesCount64(w)
		}
	}
	done := make([]bool, n)
	order, rows = make([]int32, 0, n), make([][]int32, 0, n)
	for range n {
		best := -1
		for i := range n {
			if !done[i] && (best < 0 || degree[i] < degree[best]) {
				best = i
			}
		}
		done[best] = true
		mine := of(int32(best))
		near := make([]int32, 0, degree[best])
		for w, word := range mine {
			for ; word != 0; word &= word - 1 {
				near = append(near, int32(w*64+bits.TrailingZeros64(word)))
			}
		}
		for _, v := range near {
			its := of(v)
			count := 0
			for w := range its {
				its[w] |= mine[w]
			}
			its[best/64] &^= 1 << (best % 64)
			its[v/64] &^= 1 << (v % 64)
			for _, word := range its {
				count += bits.OnesCount64(word)
			}
			degree[v] = count
		}
		order, rows = append(order, int32(best)), append(rows, near)
	}
	return order, rows
}

// loose is a way of moving that the frame does not resist.
type loose struct {
	node, way int // the movement whose pivot vanished
	mode      []float64
}

// slack is how small a pivot may be beside its diagonal before the frame counts
// as a mechanism there. A stiffness matrix of a sound frame of boards loses six to
// eight digits; one of a mechanism all sixteen.
const slack = 1e-11

// layout works out the order and the places of L.
func (s *sparse) layout() *layout {
	n := len(s.diagonal)
	order, near := s.eliminationOrder()
	l := &layout{order: order, place: make([]int32, n), rows: make([][]int32, n)}
	for k, node := range order {
		l.place[node] = int32(k)
	}
	for k, list := range near {
		rows := make([]int32, len(list))
		for i, node := range list {
			rows[i] = l.place[node]
		}
		slices.Sort(rows)
		l.rows[k] = rows
	}
	return l
}

// factorize returns the factor of s, or the first movement nothing resists.
// Columns are worked out left-looking, each from those before that reach into it.
func (s *sparse) factorize(l *layout) (*factor, *loose) {
	n := len(s.diagonal)
	f := &factor{layout: l, pivot: make([]block, n), blocks: make([][]block, n)}
	total := 0
	for _, rows := range l.rows {
		total += len(rows)
	}
	pool := make([]block, total)
	for k := range f.rows {
		f.blocks[k], pool = pool[:len(f.rows[k]):len(f.rows[k])], pool[len(f.rows[k]):]
	}
	s.scatter(f)

	// waits[k] lists the columns whose next row to use is k; from[j] is where in
	// its rows column j has got to.
	waits, next, from := make([]int32, n), make([]int32, n), make([]int, n)
	for k := range waits {
		waits[k] = -1
	}
	where := make([]int32, n)
	var scaled block
	for k := range n {
		for i, r := range f.rows[k] {
			where[r] = int32(i)
		}
		for j := waits[k]; j >= 0; {
			after := next[j]
			at := from[j]
			rows, blocks := f.rows[j], f.blocks[j]
			// The block of row k, times the pivots of j.
			times(&scaled, &blocks[at], &f.pivot[j])
			lessProduct(&f.pivot[k], &blocks[at], &scaled)
			mine := f.blocks[k]
			for i := at + 1; i < len(rows); i++ {
				lessProduct(&mine[where[rows[i]]], &blocks[i], &scaled)
			}
			if from[j]++; from[j] < len(rows) {
				r := rows[from[j]]
				next[j], waits[r] = waits[r], j
			}
			j = after
		}
		if way := split(&f.pivot[k], &s.diagonal[f.order[k]]); way >= 0 {
			return nil, f.mode(k, way)
		}
		for i := range f.blocks[k] {
			rightSolve(&f.blocks[k][i], &f.pivot[k])
		}
		if len(f.rows[k]) > 0 {
			r := f.rows[k][0]
			next[k], waits[r] = waits[r], int32(k)
		}
	}
	return f, nil
}

// scatter copies s into the places of the factor.
func (s *sparse) scatter(f *factor) {
	for i := range s.diagonal {
		k := f.place[i]
		f.pivot[k] = s.diagonal[i]
		for e := range s.lower[i] {
			b := &s.lower[i][e].block
			row, column, source := k, f.place[s.lower[i][e].column], *b
			if row < column {
				row, column = column, row
				for r := range 6 {
					for c := range 6 {
						source[r*6+c] = b[c*6+r]
					}
				}
			}
			at, _ := slices.BinarySearch(f.rows[column], row)
			f.blocks[column][at] = source
		}
	}
}

// times sets out to a·D, D the pivots on the diagonal of d.
func times(out, a, d *block) {
	for c := range 6 {
		p := d[c*7]
		for r := range 6 {
			out[r*6+c] = a[r*6+c] * p
		}
	}
}

// lessProduct takes a·bᵀ from out.
func lessProduct(out, a, b *block) {
	for r := 0; r < 36; r += 6 {
		a0, a1, a2, a3, a4, a5 := a[r], a[r+1], a[r+2], a[r+3], a[r+4], a[r+5]
		for c := 0; c < 6; c++ {
			q := b[c*6 : c*6+6 : c*6+6]
			out[r+c] -= (float64(a0*q[0]) + float64(a1*q[1])) + (float64(a2*q[2]) + float64(a3*q[3])) + (float64(a4*q[4]) + float64(a5*q[5]))
		}
	}
}

// split factors a diagonal block in place into its unit lower triangle and
// pivots. It returns the first row whose pivot vanished beside the original
// diagonal, or -1.
func split(b, original *block) int {
	for c := range 6 {
		d := b[c*7]
		for k := range c {
			l := b[c*6+k]
			d -= float64(l * l * b[k*7])
		}
		if !(d > slack*math.Abs(original[c*7])) {
			return c
		}
		b[c*7] = d
		for r := c + 1; r < 6; r++ {
			v := b[r*6+c]
			for k := range c {
				v -= float64(b[r*6+k] * b[c*6+k] * b[k*7])
			}
			b[r*6+c] = v / d
		}
	}
	return -1
}

// rightSolve turns the block a of a column into its block of L: a·L⁻ᵀ·D⁻¹.
func rightSolve(a, p *block) {
	for r := 0; r < 36; r += 6 {
		for c := range 6 {
			v := a[r+c]
			for k := range c {
				v -= float64(a[r+k] * p[c*6+k])
			}
			a[r+c] = v
		}
		for c := range 6 {
			a[r+c] /= p[c*7]
		}
	}
}

// solve overwrites x, six numbers a node, by the solution for it as right side.
func (f *factor) solve(x []float64) {
	y := make([]float64, len(x))
	for k, node := range f.order {
		copy(y[k*6:k*6+6], x[node*6:node*6+6])
	}
	for k := range f.order {
		p, v := &f.pivot[k], y[k*6:k*6+6:k*6+6]
		for r := 1; r < 6; r++ {
			for c := range r {
				v[r] -= float64(p[r*6+c] * v[c])
			}
		}
		for i, row := range f.rows[k] {
			b, u := &f.blocks[k][i], y[row*6:row*6+6:row*6+6]
			for r := range 6 {
				q := b[r*6 : r*6+6 : r*6+6]
				u[r] -= (float64(q[0]*v[0]) + float64(q[1]*v[1])) + (float64(q[2]*v[2]) + float64(q[3]*v[3])) + (float64(q[4]*v[4]) + float64(q[5]*v[5]))
			}
		}
	}
	for k := range f.order {
		for c := range 6 {
			y[k*6+c] /= f.pivot[k][c*7]
		}
	}
	f.back(y, len(f.order)-1)
	for k, node := range f.order {
		copy(x[node*6:node*6+6], y[k*6:k*6+6])
	}
}

// back solves Lᵀx = y in place, from column last upward to the first.
func (f *factor) back(y []float64, last int) {
	for k := last; k >= 0; k-- {
		p, v := &f.pivot[k], y[k*6:k*6+6:k*6+6]
		for i, row := range f.rows[k] {
			b, u := &f.blocks[k][i], y[row*6:row*6+6:row*6+6]
			for r := range 6 {
				q, w := b[r*6:r*6+6:r*6+6], u[r]
				for c := range 6 {
					v[c] -= float64(q[c] * w)
				}
			}
		}
		for r := 5; r > 0; r-- {
			for c := range r {
				v[c] -= float64(p[r*6+c] * v[r])
			}
		}
	}
}

// mode returns the movement left over when the pivot of row way in column k
// vanished: that row moves by one, what was eliminated before follows.
func (f *factor) mode(k, way int) *loose {
	y := make([]float64, len(f.order)*6)
	y[k*6+way] = 1
	p := &f.pivot[k]
	for r := way; r > 0; r-- {
		for c := range r {
			y[k*6+c] -= float64(p[r*6+c] * y[k*6+r])
		}
	}
	f.back(y, k-1)
	x := make([]float64, len(y))
	for i, node := range f.order {
		copy(x[node*6:node*6+6], y[i*6:i*6+6])
	}
	return &loose{node: int(f.order[k]), way: way, mode: x}
}
