package drawing

// Move returns the items shifted by dx, dy mm. It is how a figure gets its
// place on a page.
func Move(items []Item, dx, dy float64) []Item {
	shift := func(ps []Point) []Point {
		out := make([]Point, len(ps))
		for i, p := range ps {
			out[i] = Point{p.X + dx, p.Y + dy}
		}
		return out
	}
	out := make([]Item, len(items))
	for i, it := range items {
		switch it := it.(type) {
		case Stroke:
			it.Path = shift(it.Path)
			out[i] = it
		case Fill:
			loops := make([][]Point, len(it.Loops))
			for j, l := range it.Loops {
				loops[j] = shift(l)
			}
			it.Loops = loops
			out[i] = it
		case Text:
			it.At = Point{it.At.X + dx, it.At.Y + dy}
			out[i] = it
		case Anchor:
			it.At = Point{it.At.X + dx, it.At.Y + dy}
			out[i] = it
		case *Group:
			g := *it
			g.Items = Move(it.Items, dx, dy)
			out[i] = &g
		}
	}
	return out
}

// Rect is the four corners of an upright rectangle.
func Rect(x, y, w, h float64) []Point {
	return []Point{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}
}
