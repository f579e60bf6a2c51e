package cutplan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"scantling/internal/measure"
)

// Inside the search lengths are whole numbers of half marks: half of the finest
// length read (see mark), so that half an end's offset is whole too. Boards are
// rounded down, parts and kerfs up.
//
// A part takes up its length at mid-width, M, plus half a kerf for either end.
// Parts whose facing ends have the same slope lie a kerf apart; where the slopes
// differ, half the difference is lost at mid-width, and so it is between a
// sloping end and the squared end of the board. Pieces on a lane fit when
//
//	Σ (2M + k + k′) + losses ≤ 2·(board − trim + kerf)
//
// in these units, k and k′ being the kerfs of the two ends as they measure along
// the grain: the last kerf may run off the end.
type instance struct {
	items  []item
	boards []board // of the stock, longest first
	modes  []mode  // ways to use a board; the first of a stock is whole
	rips   []rip   // ways to rip a board into strips
	scales int     // how many relaxed ones there are
	ways   []way   // of a relaxed one, by stock of the group
	plain  bool    // one stock, square ends only, and no two parts fit side by side
	// distinct says that items are told apart by the one length they take up
	// on a board, plainly added.
	distinct bool
	step     int   // half marks: the unit of lengths
	kerf     int   // marks
	ends     []end // every offer, of use or not
}

// An item is parts of one shape.
type item struct {
	parts  []int // indices into Job.Parts, by name
	width  int   // marks
	demand int
	stocks []int // of the job, that it may come from
	whole  []int // length taken by 0, 1, … demand of them on a board of the first, left whole
	class  int   // index of the equal slope it nests by; -1 for none
	setup  int   // lost once for each lane that holds parts of the class
}

// A board is one offer.
type board struct {
	stock    int // of the job
	offer    int
	whole    int // mode of the board left whole
	price    int64
	limit    int // a number no plan reaches when there are as many as wanted
	capacity int
}

// An end is the length of one offer.
type end struct{ stock, offer, capacity int }

// A rip is a way to rip boards of one stock that leaves no room for a further
// strip: how many strips of each mode.
type rip struct {
	stock  int
	strips []int // by mode
}

// mostRips is how many ways to rip a stock are considered.
const mostRips = 60

// A mode is a lane along a board of one stock, as wide as the board or a strip
// of it: it takes the items listed, grouped by class with the free ones (class
// -1) first.
type mode struct {
	stock int // of the job
	strip bool
	width int // marks
	items []int
	sizes [][]int // by item, then count
	// raise, of a relaxed lane that fills a share of the board's width, is what
	// an item's weight grows by: whole over its share. Nil: nothing.
	raise []int64
}

const plenty = 1 << 20

// asSawn is no scale: parts lie as they are sawn.
const asSawn = -1

// A shape is a part with its ends in a canonical order.
type shape struct{ width, length, a, b int } // marks; 0 ≤ |a| ≤ b

func (m mark) shapeOf(p Part) shape {
	a, b := m.near(p.Start), m.near(p.End)
	if max(a, -a) > max(b, -b) {
		a, b = b, a
	}
	if b < 0 {
		a, b = -a, -b
	}
	return shape{m.up(p.Width), m.up(p.Length), a, b}
}

// A mark is the finest length reckoned with.
type mark measure.Length

// mark returns that of the job: 1/64 in, or half a millimetre. Both are finer
// than any tape, and the search takes as long as there are marks on a board.
func (job *Job) mark() mark {
	if job.Units == measure.Metric {
		return mark(measure.Millimetre / 2)
	}
	return mark(measure.Inch / 64)
}

func (m mark) near(l measure.Length) int   { return int(l.Round(measure.Length(m)) / measure.Length(m)) }
func (m mark) up(l measure.Length) int     { return int(l.Ceil(measure.Length(m)) / measure.Length(m)) }
func (m mark) down(l measure.Length) int   { return int(l.Floor(measure.Length(m)) / measure.Length(m)) }
func (m mark) length(n int) measure.Length { return measure.Length(n) * measure.Length(m) }

// along returns the length along the grain of a kerf sawn at offset a across
// width w: kerf·√(w² + a²)/w, rounded up to a mark.
func along(kerf, w, a int) int {
	if a == 0 {
		return kerf
	}
	square := kerf * kerf * (w*w + a*a)
	k := int(math.Sqrt(float64(square))) / w
	for k*k*w*w < square {
		k++
	}
	return k
}

// newInstance collects the parts of a group of stocks, those that share parts.
// With a scale, counted from 0, it is an instance whose least cost no layout can
// undercut: losses between different slopes are left out but for one class,
// kerfs are counted square, and parts that could lie side by side count for a
// share of their length. Without, at asSawn, it is the real one.
func newInstance(job *Job, stocks []int, scale int) *instance {
	m := job.mark()
	kerf := m.up(job.Kerf)
	in := &instance{kerf: kerf}
	byShape := map[string]int{}
	var shapes []shape
	for i, p := range job.Parts {
		if !slices.Contains(stocks, p.Stock) || p.Count == 0 {
			continue
		}
		sh := m.shapeOf(p)
		key := fmt.Sprint(sh, p.stocks())
		at, ok := byShape[key]
		if !ok {
			at = len(in.items)
			byShape[key] = at
			shapes = append(shapes, sh)
			in.items = append(in.items, item{width: sh.width, class: -1, stocks: p.stocks()})
		}
		for range p.Count {
			in.items[at].parts = append(in.items[at].parts, i)
		}
		in.items[at].demand += p.Count
	}
	for i := range in.items {
		slices.SortStableFunc(in.items[i].parts, func(a, b int) int {
			return cmp.Compare(job.Parts[a].Name, job.Parts[b].Name)
		})
	}
	in.plain = len(stocks) == 1
	for _, s := range stocks {
		width := m.up(job.Stocks[s].Width)
		fitting := in.fitting(shapes, s)
		in.plain = in.plain && alone(fitting, kerf, width)
		ways := ways(fitting, in.demands(s), kerf, width)
		in.scales = max(in.scales, len(ways))
		if scale != asSawn {
			in.relax(shapes, kerf, s, width, len(stocks) == 1, ways[scale%len(ways)])
		} else {
			in.fit(shapes, kerf, s, width)
		}
		in.offers(job, s, kerf)
	}
	for _, sh := range shapes {
		in.plain = in.plain && sh.b == 0
	}
	for r := range in.rips {
		in.rips[r].strips = append(in.rips[r].strips, make([]int, len(in.modes)-len(in.rips[r].strips))...)
	}
	for i := range in.items {
		for k := range in.modes {
			if in.modes[k].stock == in.items[i].stocks[0] {
				in.items[i].whole = in.modes[k].sizes[i]
				break
			}
		}
	}
	for k := range in.modes {
		items := in.modes[k].items
		slices.SortStableFunc(items, func(a, b int) int {
			return cmp.Or(cmp.Compare(in.items[a].class, in.items[b].class), cmp.Compare(in.items[b].whole[1], in.items[a].whole[1]))
		})
	}
	in.scale()
	seen := map[int]bool{}
	in.distinct = in.plain
	for _, it := range in.items {
		in.distinct = in.distinct && !seen[it.whole[1]]
		seen[it.whole[1]] = true
	}
	return in
}

// fitting returns the shapes of the items that may come from stock s.
func (in *instance) fitting(shapes []shape, s int) (out []shape) {
	for i, it := range in.items {
		if slices.Contains(it.stocks, s) {
			out = append(out, shapes[i])
		}
	}
	return out
}

// demands returns how many are wanted of the items that may come from stock s.
func (in *instance) demands(s int) (out []int) {
	for _, it := range in.items {
		if slices.Contains(it.stocks, s) {
			out = append(out, it.demand)
		}
	}
	return out
}

// fit adds the modes of a stock, with what each item takes up in them.
func (in *instance) fit(shapes []shape, kerf, s, stockWidth int) {
	type slope struct{ width, offset int }
	classes := map[slope]int{}
	sizes := make([][]int, len(shapes))
	for i := range in.items {
		it, sh := &in.items[i], shapes[i]
		ka, kb := along(kerf, sh.width, sh.a), along(kerf, sh.width, sh.b)
		one := 2*sh.length - max(sh.a, -sh.a) - sh.b + ka + kb
		odd := 0 // lost by a piece without a mate
		switch {
		case sh.b == 0:
		case nests(sh):
			at, ok := classes[slope{sh.width, sh.b}]
			if !ok {
				at = len(classes)
				classes[slope{sh.width, sh.b}] = at
			}
			it.class, it.setup = at, 2*sh.b
		case sh.a == 0:
			odd = sh.b + kb - kerf
		default:
			one = 2*sh.length + 4*kb - 2*kerf
		}
		for q := range it.demand + 1 {
			sizes[i] = append(sizes[i], q*one+q%2*odd)
		}
	}
	in.mode(s, stockWidth, false, sizes)
	var widths []int
	for _, it := range in.items {
		if !slices.Contains(widths, it.width) && slices.Contains(it.stocks, s) {
			widths = append(widths, it.width)
		}
	}
	slices.Sort(widths)
	if len(widths) == 0 || 2*(widths[0]+kerf) > stockWidth+kerf {
		return
	}
	first := len(in.modes)
	for _, w := range widths {
		if w+kerf+widths[0] <= stockWidth {
			in.mode(s, w, true, sizes)
		}
	}
	in.rip(s, kerf, stockWidth+kerf, len(in.modes)-1, first, make([]int, len(in.modes)))
}

// rip adds all ways to fill a width with strips of the modes from first to k,
// wide ones first, that leave no room for a further one.
func (in *instance) rip(s, kerf, room, k, first int, strips []int) {
	if k < first {
		if room < in.modes[first].width+kerf && len(in.rips) < mostRips {
			in.rips = append(in.rips, rip{s, slices.Clone(strips)})
		}
		return
	}
	step := in.modes[k].width + kerf
	for n := room / step; n >= 0; n-- {
		strips[k] = n
		in.rip(s, kerf, room-n*step, k-1, first, strips)
	}
	strips[k] = 0
}

// relax adds a mode of sizes below what any layout takes up.
func (in *instance) relax(shapes []shape, kerf, s, stockWidth int, only bool, w way) {
	alone := alone(in.fitting(shapes, s), kerf, stockWidth)
	steepest, single := shape{}, 0 // of those that nest; greatest slope of the others
	sizes := make([][]int, len(shapes))
	of := make([]int64, len(shapes)) // shares by item
	raise := make([]int64, len(shapes))
	n := 0
	for i, sh := range shapes {
		if !slices.Contains(in.items[i].stocks, s) {
			continue
		}
		switch {
		case !nests(sh):
			single = max(single, sh.b)
		case alone && only && sh.b > steepest.b:
			steepest = sh
		}
		of[i] = w.shares[n]
		n++
		one := 2*sh.length - max(sh.a, -sh.a) - sh.b + 2*kerf
		if w.by != Middle {
			one -= max(sh.a, -sh.a) + sh.b
		}
		if w.by == Lanes {
			raise[i] = of[i]
		} else {
			one = int(int64(max(0, one)) * of[i] / whole)
		}
		for q := range in.items[i].demand + 1 {
			sizes[i] = append(sizes[i], q*max(0, one))
		}
	}
	// One class may be charged what the steepest slope loses, less what a part
	// with unlike ends can bridge.
	if setup := 2 * (steepest.b - single); setup > 0 {
		for i, sh := range shapes {
			if nests(sh) && sh.width == steepest.width && sh.b == steepest.b {
				in.items[i].class, in.items[i].setup = 0, setup
			}
		}
	}
	in.mode(s, stockWidth, false, sizes)
	if w.by == Lanes {
		in.modes[len(in.modes)-1].raise = raise
	}
	w.shares = of
	in.ways = append(in.ways, w)
}

// nests reports whether both ends slope alike, in parallel or opposed, so that
// pieces of the shape follow each other a kerf apart.
func nests(sh shape) bool { return sh.b > 0 && max(sh.a, -sh.a) == sh.b }

// mode adds a mode of boards of stock s: all its items when that is the whole
// board, else those no wider than w.
func (in *instance) mode(s, w int, strip bool, sizes [][]int) {
	m := mode{stock: s, strip: strip, width: w, sizes: make([][]int, len(in.items))}
	for i, it := range in.items {
		if slices.Contains(it.stocks, s) && (!strip || it.width <= w) {
			m.items = append(m.items, i)
			m.sizes[i] = slices.Clone(sizes[i])
		}
	}
	in.modes = append(in.modes, m)
}

// offers lists the boards of a stock, longest first, and drops those a longer
// one makes needless: unlimited and no dearer.
func (in *instance) offers(job *Job, s, kerf int) {
	whole := slices.IndexFunc(in.modes, func(m mode) bool { return m.stock == s })
	var boards []board
	for i, o := range job.Stocks[s].Offers {
		b := board{stock: s, offer: i, whole: whole, price: int64(o.Price), limit: o.Limit,
			capacity: 2 * (job.mark().down(o.Length-job.Trim-job.Reserve) + kerf)}
		if b.limit == 0 {
			b.limit = plenty
		}
		in.ends = append(in.ends, end{s, i, b.capacity})
		boards = append(boards, b)
	}
	slices.SortStableFunc(boards, func(a, b board) int {
		return cmp.Or(cmp.Compare(b.capacity, a.capacity), cmp.Compare(a.price, b.price))
	})
	kept := boards[:0]
	for _, b := range boards {
		needless := slices.ContainsFunc(kept, func(k board) bool { return k.limit == plenty && k.price <= b.price })
		if !needless && b.capacity > 0 {
			kept = append(kept, b)
		}
	}
	in.boards = append(in.boards, kept...)
}

// fine is how many steps of length the longest board of a relaxed instance may
// have, where parts lie side by side or come from several stocks: its lengths
// are rounded down to that, which leaves it relaxed.
const fine = 8192

// scale divides all lengths by their greatest common divisor; those of a relaxed
// instance by more, if there are too many steps else.
func (in *instance) scale() {
	g := 0
	for i := range in.items {
		g = gcd(g, in.items[i].setup)
	}
	for _, m := range in.modes {
		for _, sizes := range m.sizes {
			for _, l := range sizes {
				g = gcd(g, l)
			}
		}
	}
	in.step = max(1, g)
	coarse := len(in.ways) > 1 || slices.ContainsFunc(in.ways, func(w way) bool { return !w.alone })
	if coarse {
		longest := 0
		for _, e := range in.ends {
			longest = max(longest, e.capacity)
		}
		if longest/in.step > fine {
			in.step = (longest + fine - 1) / fine
		}
	}
	for i := range in.items {
		in.items[i].setup /= in.step
	}
	for _, m := range in.modes {
		for _, sizes := range m.sizes {
			one := 0
			if len(sizes) > 1 {
				one = sizes[1] / in.step
			}
			for q := range sizes {
				if coarse { // rounded down piece by piece
					sizes[q] = q * one
				} else {
					sizes[q] /= in.step
				}
			}
		}
	}
	for i := range in.boards {
		in.boards[i].capacity /= in.step
	}
	for o := range in.ends {
		in.ends[o].capacity /= in.step // a negative one stays negative or becomes 0: it holds nothing
	}
}

// pieces returns how many pieces are to be sawn.
func (in *instance) pieces() (n int) {
	for _, it := range in.items {
		n += it.demand
	}
	return n
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
