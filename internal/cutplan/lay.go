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
		return cmp.Or(cmp.Compare(a.board, b.board), slices.Compare(b.counts, a.counts))
	})
	var boards []Board
	for _, u := range uses {
		boards = append(boards, l.board(u))
	}
	return boards
}

type layout struct {
	job  *Job
	in   *instance
	mark mark
	kerf int
	left [][]int // by item: parts not yet laid
}

// board lays one board, section after section.
func (l *layout) board(u use) Board {
	b := l.in.boards[u.board]
	stock := l.job.Stocks[b.stock]
	offer := stock.Offers[b.offer]
	out := Board{Stock: b.stock, Offer: b.offer, Length: offer.Length, Price: offer.Price}
	sections := u.sections
	if sections == nil {
		sections = []section{{strips: []strip{{b.whole, u.counts}}}}
	}
	end := l.mark.down(offer.Length - l.job.Trim)
	from := 0
	for k, sec := range sections {
		out.Sections = append(out.Sections, l.section(sec, stock.Width, from, end, k+1 == len(sections)))
		from = l.mark.up(out.Sections[k].From+out.Sections[k].Length) + l.kerf
	}
	return out
}

// section lays the strips of a section side by side. The last one of a board
// reaches to its end.
func (l *layout) section(sec section, width measure.Length, from, end int, last bool) Section {
	out := Section{From: l.mark.length(from)}
	across := measure.Length(0)
	var fars []int
	for _, st := range sec.strips {
		mode := &l.in.modes[st.mode]
		lane := Lane{Width: width}
		if w, alike := l.width(st); mode.strip || alike {
			lane.Width, lane.Across = w, across
			across += w + l.job.Kerf
		}
		fars = append(fars, l.fill(&lane, mode, st.counts, from))
		out.Lanes = append(out.Lanes, lane)
	}
	if !last {
		end = slices.Max(fars)
	}
	out.Length = l.mark.length(end - from)
	for k := range out.Lanes {
		out.Lanes[k].Left = max(0, l.mark.length(end-fars[k]-l.kerf))
	}
	if last := out.Lanes[len(out.Lanes)-1]; last.Width < width {
		out.Strip = max(0, width-last.Across-last.Width-l.job.Kerf)
	}
	return out
}

// width returns the width of the widest part of a strip, and whether all have
// it, so that the section is ripped to it first.
func (l *layout) width(st strip) (width measure.Length, alike bool) {
	alike = true
	for i, n := range st.counts {
		if n > 0 {
			w := l.job.Parts[l.in.items[i].parts[0]].Width
			alike = alike && (width == 0 || w == width)
			width = max(width, w)
		}
	}
	return width, alike
}

// fill lays the pieces of a lane from a place on: square ones first, long before
// short, then those with one sloping end, then those that nest, steepest kerf
// last. It returns how far they reach.
func (l *layout) fill(lane *Lane, mode *mode, counts []int, from int) (far int) {
	order := slices.Clone(mode.items)
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(l.rank(a), l.rank(b)) })
	r := &run{kerf: l.kerf, width: -1}
	for _, i := range order {
		for range counts[i] {
			at := r.next(l.mark.asWritten(l.job.Parts[l.left[i][0]]))
			p := l.piece(i, at, from)
			p.Across = lane.Across
			lane.Pieces = append(lane.Pieces, p)
		}
	}
	return from + r.far
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

// piece takes the next part of item i and puts it where run says, from a place
// on.
func (l *layout) piece(i int, at place, from int) Piece {
	part := l.left[i][0]
	l.left[i] = l.left[i][1:]
	p := l.job.Parts[part]
	a, b := l.mark.near(p.Start), l.mark.near(p.End)
	out := Piece{Part: part, Width: p.Width,
		Start: l.mark.length(from + at.start), End: l.mark.length(from + at.end),
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
