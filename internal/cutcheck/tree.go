package cutcheck

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
)

// refutes goes through a tree and says what is wrong with it, or nothing.
func (z *sizing) refutes(c *Claim, s int, t Tree) (wrong string) {
	if len(t.Boards) != len(c.Stocks[s].Offers) {
		return fmt.Sprintf("%d counts for %d offers", len(t.Boards), len(c.Stocks[s].Offers))
	}
	if seal(t) != t.Seal {
		return "its numbers do not add up to its seal"
	}
	w := &walk{members: slices.Clone(z.members), nodes: t.Nodes}
	slices.SortStableFunc(w.members, func(a, b member) int { return cmp.Compare(b.size, a.size) })
	step := int64(0)
	for i, m := range w.members {
		if i > 0 && m.size == w.members[i-1].size || m.sloped {
			return "it speaks of parts that are not told apart by size"
		}
		step = divisor(step, m.size)
		w.counts = append(w.counts, c.Parts[m.part].Count)
	}
	w.step = max(1, step)
	for o, n := range t.Boards {
		if n < 0 || n > 1<<20 {
			return fmt.Sprintf("it takes %d boards of offer %d", n, o)
		}
		if n > 0 {
			w.boards = append(w.boards, [2]int64{int64(n), 2 * (c.down(c.Stocks[s].Offers[o].Length-c.Trim-c.Reserve) + z.kerf) / w.step})
		}
	}
	if !z.plain {
		return "it speaks of parts that do not simply lie end to end"
	}
	if wrong = w.node(nil); wrong == "" && w.at != len(w.nodes) {
		wrong = "it has nodes that hang on nothing"
	}
	return wrong
}

// A walk goes through the nodes of a tree.
type walk struct {
	members []member // long to short
	counts  []int
	boards  [][2]int64 // number, and length in steps
	step    int64      // half marks
	nodes   []Node
	at      int
}

// A side is the answer to a branch: at most, or (more) at least limit.
type side struct {
	member int
	at     int64 // in steps
	limit  int64
	more   bool
}

// node goes through the node at hand and those below it.
func (w *walk) node(above []side) (wrong string) {
	if w.at >= len(w.nodes) {
		return "it breaks off"
	}
	n := w.nodes[w.at]
	w.at++
	if n.Leaf {
		return w.leaf(n, above)
	}
	i := slices.IndexFunc(w.members, func(m member) bool { return m.size == int64(n.Size) })
	if i < 0 || n.At < 0 || int64(n.At)%w.step != 0 || n.Most < 0 || n.Most > 1<<20 || len(above) > 1<<12 {
		return fmt.Sprintf("node %d branches on no piece: size %d at %d, %d", w.at, n.Size, n.At, n.Most)
	}
	at := int64(n.At) / w.step
	if wrong = w.node(append(slices.Clone(above), side{i, at, int64(n.Most), false})); wrong != "" {
		return wrong
	}
	return w.node(append(slices.Clone(above), side{i, at, int64(n.Most) + 1, true}))
}

// leaf adds up in whole numbers of any size.
func (w *walk) leaf(n Node, above []side) string {
	if len(n.Weights) != len(w.members) || len(n.Arcs) != len(above) {
		return fmt.Sprintf("leaf %d has %d weights for %d sizes and %d for %d branches", w.at, len(n.Weights), len(w.members), len(n.Arcs), len(above))
	}
	const most = 1 << 40
	need := new(big.Int)
	add := func(sum *big.Int, a, b int64) { sum.Add(sum, new(big.Int).Mul(big.NewInt(a), big.NewInt(b))) }
	for i, v := range n.Weights {
		if v < 0 || v > most {
			return fmt.Sprintf("leaf %d weighs a size by %d", w.at, v)
		}
		add(need, v, int64(w.counts[i]))
	}
	extra := map[[2]int64]int64{}
	for k, v := range n.Arcs {
		if v > most || v < -most || above[k].more && v < 0 || !above[k].more && v > 0 {
			return fmt.Sprintf("leaf %d weighs a branch by %d", w.at, v)
		}
		add(need, v, above[k].limit)
		extra[[2]int64{int64(above[k].member), above[k].at}] += v
	}
	longest := int64(0)
	for _, b := range w.boards {
		longest = max(longest, b[1])
	}
	best := w.paths(n.Weights, extra, longest)
	room := new(big.Int)
	for _, b := range w.boards {
		var most int64
		for l := int64(0); l <= b[1]; l++ {
			most = max(most, best[l])
		}
		add(room, b[0], most)
	}
	switch {
	case !need.IsInt64() || need.Int64() != n.Need || !room.IsInt64() || room.Int64() != n.Room:
		return fmt.Sprintf("leaf %d: pieces weigh %v and boards hold %v, not %d and %d", w.at, need, room, n.Need, n.Room)
	case n.Need <= n.Room:
		return fmt.Sprintf("leaf %d: boards hold %d, enough for the %d all pieces weigh", w.at, n.Room, n.Need)
	}
	return ""
}

// paths returns by length the greatest weight of pieces, long to short, that end
// exactly there; a number below zero where none do or they weigh less than
// nothing.
func (w *walk) paths(weights []int64, extra map[[2]int64]int64, longest int64) []int64 {
	const never = -1 << 60
	best := make([]int64, longest+1)
	for l := range best[1:] {
		best[l+1] = never
	}
	for i, m := range w.members {
		size := m.size / w.step
		next := slices.Clone(best)
		for from, v := range best {
			if v == never {
				continue
			}
			at := int64(from)
			for range w.counts[i] {
				v += weights[i] + extra[[2]int64{int64(i), at}]
				if at += size; at > longest {
					break
				}
				next[at] = max(next[at], v)
			}
		}
		best = next
	}
	return best
}

// seal adds up the numbers of a tree (FNV-1a by whole numbers).
func seal(t Tree) uint64 {
	sum := uint64(0xcbf29ce484222325)
	const prime = 0x100000001b3
	for _, n := range t.Boards {
		sum = (sum ^ uint64(n)) * prime
	}
	list := func(ns []int64) {
		sum = (sum ^ uint64(len(ns))) * prime
		for _, n := range ns {
			sum = (sum ^ uint64(n)) * prime
		}
	}
	for _, n := range t.Nodes {
		sum = (sum ^ uint64(n.Size)) * prime
		sum = (sum ^ uint64(n.At)) * prime
		sum = (sum ^ uint64(n.Most)) * prime
		list(n.Weights)
		list(n.Arcs)
		sum = (sum ^ uint64(n.Need)) * prime
		sum = (sum ^ uint64(n.Room)) * prime
	}
	return sum
}
