package typeset

// Break sets the spans as a paragraph no wider than the format, or as narrow
// as its longest word. "\n" ends a line.
//
// Lines are chosen for the whole paragraph at once, so that the sum of the
// squares of what is left at their ends is least (the cost of Knuth and Plass,
// Software: Practice and Experience 11, 1981, without stretching: text is
// ragged on the right); a last line may be as short as it likes, but a last
// line of one short word costs as much as a half empty one.
func Break(f Format, spans ...Span) Paragraph {
	if f.Leading == 0 {
		f.Leading = 1.35
	}
	p := Paragraph{Width: f.Width}
	size := 0.0
	for _, s := range spans {
		size = max(size, s.Style.Size*Point)
	}
	lead := float64(f.Leading * size)
	cs := shape(spans)
	for start := 0; start < len(cs); {
		end := start
		for end < len(cs) && !cs[end].ends {
			end++
		}
		if end < len(cs) {
			end++
		}
		for _, b := range breaks(cs[start:end], f.Width) {
			l := line(spans, cs, start+b.from, start+b.to)
			x := 0.0
			switch f.Align {
			case Right:
				x = f.Width - l.Width
			case Centre:
				x = (f.Width - l.Width) / 2
			}
			p.X = append(p.X, x)
			p.Y = append(p.Y, p.Height+float64(firstBaseline*size)+float64((lead-size)/2))
			p.Lines = append(p.Lines, l)
			p.Height += lead
		}
		start = end
	}
	return p
}

// firstBaseline is how far below the top of its em square a line stands.
const firstBaseline = 0.79

type stretch struct{ from, to int }

// breaks returns the lines of one forced paragraph.
func breaks(cs []cluster, width float64) []stretch {
	// at[i] is where cluster i starts if nothing is broken.
	at := make([]float64, len(cs)+1)
	var places []int // clusters before which a line may start
	places = append(places, 0)
	for i, c := range cs {
		at[i+1] = at[i] + c.width + c.kern
		if c.breaks && i+1 < len(cs) {
			places = append(places, i+1)
		}
	}
	places = append(places, len(cs))

	measure := func(from, to int) float64 {
		for to > from && cs[to-1].space {
			to--
		}
		if to == from {
			return 0
		}
		return at[to] - cs[to-1].kern - at[from]
	}
	n := len(places)
	cost := make([]float64, n)
	prev := make([]int, n)
	for j := 1; j < n; j++ {
		cost[j] = -1
		for i := j - 1; i >= 0; i-- {
			w := measure(places[i], places[j])
			fits := w <= width+fit
			if !fits && i < j-1 {
				break
			}
			left := max(0, (width-w)/width)
			c := cost[i] + float64(left*left)
			if !fits {
				c = cost[i] + overfull
			}
			if j == n-1 && fits {
				c = cost[i]
				if i > 0 && w < width/8 {
					c += 0.25
				}
			}
			if cost[j] < 0 || c < cost[j] {
				cost[j], prev[j] = c, i
			}
		}
	}
	var out []stretch
	for j := n - 1; j > 0; j = prev[j] {
		out = append(out, stretch{places[prev[j]], places[j]})
	}
	for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
		out[i], out[j] = out[j], out[i]
	}
	return out
}

const (
	fit      = 1e-6 // mm: what the sum of many widths may be off
	overfull = 1e6  // one word wider than the line: taken only when it must be
)

// Start returns where a line starts that stands with its left end, its right end
// or its middle at x.
func (a Align) Start(x float64, l Line) float64 {
	switch a {
	case Right:
		return x - l.Width
	case Centre:
		return x - float64(l.Width/2)
	}
	return x
}
