package cutplan

import (
	"cmp"
	"container/heap"
	"slices"
)

// cheapest returns the cheapest purchase below the given cost that passes every
// cut and has not been tried. What it learned stays: cuts are only ever added.
func (s *search) cheapest(cost int64) (boards []int, price int64, ok bool) {
	q := &s.queue
	q.push(s, cost, q.last...)
	q.last = nil
	for len(q.nodes) > 0 && s.ctx.Err() == nil {
		n := heap.Pop(q).(*begun)
		if lower := s.lower(n); lower > n.lower {
			n.lower = lower
			q.push(s, cost, n)
			continue
		}
		if n.lower >= cost {
			q.nodes = nil
			break
		}
		if n.met && !s.tried(n.taken) {
			q.last = []*begun{n}
			return n.taken, n.lower, true
		}
		if n.next == len(s.in.boards) {
			continue
		}
		if n.taken[n.next] < s.in.boards[n.next].limit {
			more := &begun{taken: slices.Clone(n.taken), price: n.price + s.in.boards[n.next].price, lower: n.lower, next: n.next, count: n.count + 1}
			more.taken[n.next]++
			q.push(s, cost, more)
		}
		n.next++
		q.push(s, cost, n)
	}
	return nil, 0, false
}

// floor returns a price no purchase undercuts that passes every cut, has not been
// tried and costs less than the best plan.
func (s *search) floor() int64 {
	s.queue.push(s, s.cost)
	price := s.cost
	for _, n := range append(s.queue.last, s.queue.nodes...) {
		price = min(price, s.lower(n))
	}
	return price
}

// A begun purchase takes some boards, and more of kind next or later ones.
type begun struct {
	taken []int
	price int64
	lower int64 // no purchase begun so costs less
	next  int
	count int  // of boards
	met   bool // it passes every cut
}

// A queue holds begun purchases, those first that may become cheapest.
type queue struct {
	nodes []*begun
	last  []*begun // returned last
	began bool
}

func (q *queue) push(s *search, cost int64, nodes ...*begun) {
	if !q.began {
		q.began = true
		nodes = []*begun{{taken: make([]int, len(s.in.boards))}}
	}
	for _, n := range nodes {
		if n.lower = max(n.lower, s.lower(n)); n.lower < cost {
			heap.Push(q, n)
		}
	}
}

func (q *queue) Len() int      { return len(q.nodes) }
func (q *queue) Swap(i, j int) { q.nodes[i], q.nodes[j] = q.nodes[j], q.nodes[i] }
func (q *queue) Push(n any)    { q.nodes = append(q.nodes, n.(*begun)) }

func (q *queue) Pop() any {
	last := len(q.nodes) - 1
	n := q.nodes[last]
	q.nodes = q.nodes[:last]
	return n
}

func (q *queue) Less(i, j int) bool {
	a, b := q.nodes[i], q.nodes[j]
	return cmp.Or(cmp.Compare(a.lower, b.lower), -cmp.Compare(a.next, b.next), cmp.Compare(a.count, b.count), slices.Compare(b.taken, a.taken)) < 0
}

// lower returns a price no purchase begun so undercuts: by the dearest of the
// cuts, each filled at its best price by boards of kind next and later.
func (s *search) lower(n *begun) int64 {
	price := n.price
	n.met = true
	for i := range s.cuts {
		c := &s.cuts[i]
		need := c.need
		for b, taken := range n.taken {
			need -= int64(taken) * c.best[b]
		}
		if need <= 0 {
			continue
		}
		n.met = false
		per, by := int64(-1), int64(1) // best price and what it holds
		for k := n.next; k < len(s.in.boards); k++ {
			board := &s.in.boards[k]
			switch {
			case c.best[k] == 0:
			case board.price == 0:
				need -= min(int64(board.limit)*c.best[k], need)
			case per < 0 || float64(board.price)*float64(by) < float64(per)*float64(c.best[k]):
				per, by = board.price, c.best[k]
			}
		}
		switch {
		case need <= 0:
		case per < 0:
			return never
		default:
			price = max(price, n.price+ceilDiv(need*per, by))
		}
	}
	return price
}
