package cutplan

import (
	"cmp"
	"slices"

	"scantling/internal/measure"
)

// lay turns uses into boards with every piece in its place.
func lay(job *Job, in *instance, uses []use) []Board {
	m := job.mark()
	l := &layout{job: job, in: in, mark: m, kerf: m.up(job.Kerf)}
	for _, it := range in.items {
		l.left = append(l.left, slices.Clone(it.parts))
	}
	slices.SortStableFunc(uses, func(a, b use) int {
		return cmp.Or(cmp.Compare(a.board, b.board), cmp.Compare(a.mode, b.mode), slices.Compare(b.counts, a.counts))
	})
	var boards []Board
	for at := 0; at < len(uses); {
		to := at
		for to < len(uses) && uses[to].board == uses[at].board {
			to++
		}
		boards = append(boards, l.kind(uses[at:to])...)
		at = to
	}
	return boards
}

// kind lays all lanes of one kind of board: whole ones, then those ripped, each
// with the strips it was ripped for.
func (l *layout) kind(uses []use) []Board {
	var boards []Board
	strips := make([][]use, len(l.in.modes)) // lanes by mode
	var rips []int
	for _, u := range uses {
		if u.rip > 0 {
			rips = append(rips, u.rip-1)
		}
		switch {
		case l.in.modes[u.mode].strip:
			if slices.ContainsFunc(u.counts, func(n int) bool { return n > 0 }) {
				strips[u.mode] = append(strips[u.mode], u)
			}
		default:
			if lanes := l.ripped(u); lanes != nil {
				boards = append(boards, l.board(lanes))
			} else {
				boards = append(boards, l.board([]use{u}))
			}
		}
	}
	slices.Sort(rips)
	for _, r := range rips {
		var lanes []use
		for m := len(strips) - 1; m >= 0; m-- { // wide strips first
			n := min(l.in.rips[r].strips[m], len(strips[m]))
			lanes = append(lanes, strips[m][:n]...)
			strips[m] = strips[m][n:]
		}
		if len(lanes) > 0 {
			boards = append(boards, l.board(lanes))
		}
	}
	return boards
}

// ripped deals the parts of a board left whole to strips, when all of them are
// square and of one width that fits several times: sections of parts abreast are
// easier sawn from strips ripped first. It returns nil otherwise.
func (l *layout) ripped(u use) []use {
	width, _ := l.width(u)
	abreast := int((l.job.Stocks[l.in.boards[u.board].stock].Width + l.job.Kerf) / (width + l.job.Kerf))
	m := slices.IndexFunc(l.in.modes, func(m mode) bool {
		return m.strip && m.stock == l.in.boards[u.board].stock && l.mark.length(m.width) == width
	})
	if m < 0 || abreast < 2 {
		return nil
	}
	var lanes []use
	for k := range abreast {
		lane := use{board: u.board, mode: m, counts: make([]int, len(u.counts))}
		pieces := 0
		for i, n := range u.counts {
			if n > 0 && (l.in.items[i].width != l.in.modes[m].width || l.mark.shapeOf(l.job.Parts[l.in.items[i].parts[0]]).b != 0) {
				return nil
			}
			lane.counts[i] = (n + abreast - 1 - k) / abreast
			pieces += lane.counts[i]
		}
		if pieces > 0 {
			lanes = append(lanes, lane)
		}
	}
	return lanes
}

type layout struct {
	job  *Job
	in   *instance
	mark mark
	kerf int
	left [][]int // by item: parts not yet laid
}

// board lays the lanes of one board.
func (l *layout) board(lanes []use) Board {
	b := l.in.boards[lanes[0].board]
	stock := l.job.Stocks[b.stock]
	offer := stock.Offers[b.offer]
	out := Board{Stock: b.stock, Offer: b.offer, Length: offer.Length, Price: offer.Price}
	usable := l.mark.down(offer.Length - l.job.Trim)
	across := measure.Length(0)
	for _, u := range lanes {
		mode := &l.in.modes[u.mode]
		lane := Lane{Width: stock.Width}
		if w, alike := l.width(u); mode.strip || alike {
			lane.Width, lane.Across = w, across
			across += w + l.job.Kerf
		}
		l.fill(&lane, mode, u.counts, usable)
		out.Lanes = append(out.Lanes, lane)
	}
	if last := out.Lanes[len(out.Lanes)-1]; last.Width < stock.Width {
		out.Strip = max(0, stock.Width-last.Across-last.Width-l.job.Kerf)
	}
	return out
}

// width returns the width of the parts on a lane, and whether all have it and
// lie alone across the board, so that the board is ripped to it first.
func (l *layout) width(u use) (width measure.Length, alike bool) {
	for i, n := range u.counts {
		if n == 0 {
			continue
		}
		w := l.job.Parts[l.in.items[i].parts[0]].Width
		if width != 0 && w != width {
			return w, false
		}
		width = w
	}
	return width, 2*width+l.job.Kerf > l.job.Stocks[l.in.boards[u.board].stock].Width
}

// fill lays the pieces of a lane: square ones first, long before short, then
// those with one sloping end, then those that nest, steepest kerf last.
func (l *layout) fill(lane *Lane, mode *mode, counts []int, usable int) {
	order := slices.Clone(mode.items)
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(l.rank(a), l.rank(b)) })
	r := &run{kerf: l.kerf, width: -1}
	for _, i := range order {
		n := counts[i]
		sh := l.mark.shapeOf(l.job.Parts[l.in.items[i].parts[0]])
		abreast := 1
		if sh.b == 0 {
			abreast = max(1, int((lane.Width+l.job.Kerf)/(l.mark.length(sh.width)+l.job.Kerf)))
		}
		for n > 0 {
			side := min(n, abreast)
			at := r.next(l.mark.asWritten(l.job.Parts[l.left[i][0]]))
			for k := range side {
				p := l.piece(i, at)
				p.Across = lane.Across + measure.Length(k)*(p.Width+l.job.Kerf)
				lane.Pieces = append(lane.Pieces, p)
			}
			n -= side
		}
	}
	lane.Left = max(0, l.mark.length(usable-r.far-l.kerf))
}

// rank orders pieces on a lane; nesting ones by the length of their kerf.
func (l *layout) rank(i int) int {
	it := l.in.items[i]
	sh := l.mark.shapeOf(l.job.Parts[it.parts[0]])
	switch {
	case sh.b == 0:
		return 0
	case it.class < 0:
		return 1
	}
	return 2 + along(l.kerf, sh.width, sh.b)<<16 + it.class
}

// piece takes the next part of item i and puts it where run says.
func (l *layout) piece(i int, at place) Piece {
	part := l.left[i][0]
	l.left[i] = l.left[i][1:]
	p := l.job.Parts[part]
	a, b := l.mark.near(p.Start), l.mark.near(p.End)
	out := Piece{Part: part, Width: p.Width,
		Start: l.mark.length(at.start), End: l.mark.length(at.end),
		SlantStart: l.mark.length(at.a), SlantEnd: l.mark.length(at.b)}
	switch (place{a: at.a, b: at.b}) {
	case place{a: a, b: b}:
	case place{a: b, b: a}:
		out.Turned = true
	case place{a: -a, b: -b}:
		out.Over = true
	default:
		out.Turned, out.Over = true, true
	}
	return out
}

// asWritten returns the shape of a part with its ends as the job has them.
func (m mark) asWritten(p Part) shape {
	return shape{m.up(p.Width), m.up(p.Length), m.near(p.Start), m.near(p.End)}
}

// A run sets pieces one after another along a lane, in marks.
type run struct {
	kerf  int
	end   int // of the last piece, on its near edge
	slant int // how much further its far edge reaches
	width int // of the last piece; -1 before the first
	far   int // the furthest any piece reaches
}

// A place is where a piece lies: start and end on the near edge, and how much
// further the far edge reaches at either.
type place struct{ start, end, a, b int }

// next places a piece of shape sh, turned so that its start differs least in
// slope from the end before it.
func (r *run) next(sh shape) place {
	ways := [4]place{{a: sh.a, b: sh.b}, {a: sh.b, b: sh.a}, {a: -sh.a, b: -sh.b}, {a: -sh.b, b: -sh.a}}
	best := ways[0]
	for _, w := range ways[1:] {
		if r.loss(sh, w.a) < r.loss(sh, best.a) {
			best = w
		}
	}
	best.start = r.after(sh, best.a)
	best.end = best.start + sh.length - span(best.a, best.b)
	r.end, r.slant, r.width = best.end, best.b, sh.width
	r.far = max(r.far, best.end+max(0, best.b))
	return best
}

// loss returns twice what is lost at mid-width before a start that slopes by a.
func (r *run) loss(sh shape, a int) int {
	if r.common(sh) {
		return max(r.slant-a, a-r.slant)
	}
	return max(a, -a)
}

// common reports whether a piece can share a strip with the one before it.
func (r *run) common(sh shape) bool { return r.width == sh.width || r.slant == 0 && r.width >= 0 }

// span returns how much longer a piece is, from its first point to its last,
// than its near edge.
func span(a, b int) int { return max(0, b) - min(0, a) }

// after returns where, on the near edge, a piece whose start slopes by a may
// begin: a kerf past the last piece at every width, or at the squared end.
func (r *run) after(sh shape, a int) int {
	if r.width < 0 {
		return max(0, -a)
	}
	gap := max(along(r.kerf, r.width, r.slant), along(r.kerf, sh.width, a))
	if !r.common(sh) { // a square cut between
		return r.end + max(0, r.slant) + gap + max(0, -a)
	}
	return max(r.end+gap, r.end+r.slant+gap-a)
}
