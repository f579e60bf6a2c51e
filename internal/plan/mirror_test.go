package plan

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/shop"
)

// handed are the words that turn into their opposites in a mirror; “right through” and the sentence
// that says whose left is meant stays.
var handed = regexp.MustCompile(`left-right|right through|right across|Left and right|Left is your left|\b([lL]eft|[rR]ight)(most)?\b`)

// mirrored swaps left and right in a text.
func mirrored(text string) string {
	return handed.ReplaceAllStringFunc(text, func(w string) string {
		if swapped, ok := opposite[w]; ok {
			return swapped
		}
		return w
	})
}

var opposite = map[string]string{"left": "right", "right": "left", "Left": "Right", "Right": "Left",
	"leftmost": "rightmost", "rightmost": "leftmost", "top": "bottom", "bottom": "top", "front": "back", "back": "front"}

// setup is how a board lies on the saw. In a mirror the part is right of the
// blade; turned half round on the table, with the other edge at the fence, it is
// left of it again, and the saw swings to the same side.
var setup = regexp.MustCompile(`\b(top|bottom|front|back|left|right) edge against the fence, the part (left|right) of the blade`)

// element is what one element of a list goes by, in the path of a leaf.
var element = regexp.MustCompile(`\[[^]]*\]`)

func turnedRound(text string) string {
	return setup.ReplaceAllStringFunc(text, func(w string) string {
		m := setup.FindStringSubmatch(w)
		if m[2] == "left" {
			return w
		}
		return opposite[m[1]] + " edge against the fence, the part left of the blade"
	})
}

// unmirrored takes readings of a mirrored piece back: the words, the board on the
// saw, and the layout of slanted cuts, whose near edge was its far one.
func unmirrored(r *shop.Readings) map[string]leaf {
	for _, p := range r.Parts {
		for _, c := range p.Ends {
			if c != nil && c.Keep == "left" { // right, once the words are swapped
				c.Keep = "right"
				edge := setup.FindStringSubmatch(c.Fence + " against the fence, the part left of the blade")
				c.Fence = opposite[edge[1]] + " edge"
			}
		}
	}
	for _, b := range r.Saw.Boards {
		for _, s := range b.Strips() {
			for i := range s.Pieces {
				p := &s.Pieces[i]
				p.Start, p.End = p.Start+p.SlantStart, p.End+p.SlantEnd
				p.SlantStart, p.SlantEnd = 0-p.SlantStart, 0-p.SlantEnd
				p.Mark = shop.Pen{}.Running(p.End, p.Mark.From)
			}
		}
	}
	for i := range r.Joints {
		for k := range r.Joints[i].Pairs {
			for n := range r.Joints[i].Pairs[k].Axes {
				a := &r.Joints[i].Pairs[k].Axes[n].Axis
				a.At.X, a.Way.X = 0-a.At.X, 0-a.Way.X
			}
		}
	}
	for i := range r.Steps {
		for _, w := range r.Steps[i].Reach.Ways {
			for k := range w.Lines {
				w.Lines[k].X = 0 - w.Lines[k].X
			}
		}
	}
	out := map[string]leaf{}
	for path, l := range leaves(r) {
		l.words = turnedRound(mirrored(l.words))
		out[element.ReplaceAllStringFunc(path, mirrored)] = l
	}
	return out
}

// Reflecting the design file swaps hands and the words for left and right, and
// changes nothing else: not a letter, a count, a figure, a price, the proof or a
// mark. It guards against every rule that looks at one hand only.
func TestMirrorWorld(t *testing.T) {
	for _, file := range allFive {
		src := example(t, file)
		first := run(t, src, Live)
		sets := choices(first)
		for i, at := range []int{0b010101, 0b101010} { // and far from where both were drawn
			sets = append(sets, append(corner(first, at), sets[i%len(sets)]...))
		}
		for _, set := range sets {
			o := Options{Want: Settled, Revision: "one"}
			var theirs []string
			for _, word := range set { // a choice may be of hands
				theirs = append(theirs, mirrored(word))
			}
			a, b := with(t, src, o, set...), with(t, []byte(mirrored(string(src))), o, theirs...)
			if a.Snags.Errors() > 0 || len(a.Snags) != len(b.Snags) {
				t.Fatalf("%s %v:\n%s%s", file, set, a.Messages(), b.Messages())
			}
			mirrorsSolids(t, a, b)
			hands(t, file, a.Readings, b.Readings)
			fixtures(t, a, b)
			compare(t, file, even(file, a, twinless(a.Readings, leaves(a.Readings))), even(file, a, twinless(b.Readings, unmirrored(b.Readings))))
			for i := range a.Snags {
				if ties[file] != "" && a.Snags[i].Code == "fasteners-moved" {
					continue
				}
				if got := mirrored(b.Snags[i].What); got != a.Snags[i].What {
					t.Errorf("%s %v: %q, mirrored %q", file, set, a.Snags[i].What, got)
				}
			}
		}
	}
}

// fixtures checks that every piece of hardware that has a place has it in the mirror.
func fixtures(t *testing.T, a, b *Plan) {
	t.Helper()
	if len(a.Readings.Fixed) != len(b.Readings.Fixed) {
		t.Errorf("%d things are fixed, mirrored %d", len(a.Readings.Fixed), len(b.Readings.Fixed))
		return
	}
	for i, x := range a.Readings.Fixed {
		ours, theirs := corners(x), corners(b.Readings.Fixed[i])
		for k := range theirs {
			theirs[k].X = -theirs[k].X
		}
		if !sameCorners(ours, theirs, geom.Same) {
			t.Errorf("hardware %d: its mirror image has other corners\n%v\n%v", i+1, ours, theirs)
		}
	}
}

// ties are parts alike on both hands of which something is said of one hand, and no
// mirror can say of which. The screws of the planter's long caps give way to others in
// the wood with as much room to either side; the strips of the tables panel come to a point
// at their ends, and one of the two cuts of a point is said first.
var ties = map[string]string{"herb-planter": "long_cap", "sorting-table": "panel_board/"}

// tied are the paths, after such a part's, of what its ties touch.
var tied = regexp.MustCompile(`^[a-z0-9_/-]*\]\.(Holes|Ends|Cuts|CutNote)|^\.Notes\[`)

// Edges a cut is laid out along, near edge first, and hands.
var (
	alongEdge = regexp.MustCompile(`along the (left|right|front|back|top|bottom) edge`)
	anEdge    = regexp.MustCompile(`(left|right|front|back|top|bottom) edge`)
	eitherWay = regexp.MustCompile(`\b(left|right)\b`)
)

// even takes out of readings what is said of one hand of what has none. The marks
// of a lap stand along both edges of a board, near edge first, and the near edge is
// the far one in a mirror: they are compared in no order. A board that is its own
// mirror image is marked from its left or its right alike.
func even(file string, p *Plan, all map[string]leaf) map[string]leaf {
	out, cuts := map[string]leaf{}, map[string][]string{}
	for path, l := range all {
		at := strings.Index(path, ".Cuts[")
		switch {
		case strings.HasPrefix(path, ".Fixed["): // see fixtures
		case ties[file] != "" && tied.MatchString(strings.TrimPrefix(path, ".Parts["+ties[file])):
		case at >= 0:
			cut := path[:at+strings.Index(path[at:], "]")+1]
			cuts[cut] = append(cuts[cut], eitherWay.ReplaceAllString(alongEdge.ReplaceAllString(plain(l), "along an edge"), "side"))
		default:
			if m := marked.FindStringSubmatch(path); m != nil && ownImage(p, m[1]) {
				l.words = eitherWay.ReplaceAllString(l.words, "either")
			}
			if strings.Contains(l.words, "shoulder of the half lap") { // it has two
				l.words = anEdge.ReplaceAllString(l.words, "edge")
			}
			out[path] = l
		}
	}
	for cut, says := range cuts {
		slices.Sort(says)
		out[cut] = leaf{words: strings.Join(says, "\n")}
	}
	return out
}

// plain is a leaf without its exact value.
func plain(l leaf) string {
	if l.number != nil {
		return l.number.Text
	}
	return l.words
}

var marked = regexp.MustCompile(`\.Marks\[([a-z_0-9/-]+)\]`)

// ownImage reports whether a board is its own image in the middle of the piece.
func ownImage(p *Plan, id string) bool {
	b := p.Piece.Board(board.ID(id))
	if b == nil {
		return false
	}
	ours, theirs := corners(b.Placed()), corners(b.Placed())
	for k := range theirs {
		theirs[k].X = -theirs[k].X
	}
	return sameCorners(ours, theirs, geom.Same)
}

// hands checks that every board's part is of the other hand in the mirror.
func hands(t *testing.T, file string, a, b *shop.Readings) {
	t.Helper()
	for _, p := range a.Parts {
		if ties[file] != "" && strings.HasPrefix(string(p.Master), ties[file]) {
			continue
		}
		for _, q := range b.Parts {
			if slices.Contains(q.Boards, p.Master) && (p.Hand != mirrored(q.Hand) || p.Count != q.Count) {
				t.Errorf("%s is of %d parts of hand %q, in the mirror of %d of hand %q", p.Master, p.Count, p.Hand, q.Count, q.Hand)
			}
		}
	}
}

// twinless writes both letters of twin parts for either: the left one has the
// earlier letter, so that letters change places in a mirror.
func twinless(r *shop.Readings, all map[string]leaf) map[string]leaf {
	both := map[string]string{}
	for _, p := range r.Parts {
		if p.Twin != "" {
			both[p.Letter] = min(p.Letter, p.Twin) + "/" + max(p.Letter, p.Twin)
		}
	}
	swap := func(w string) string {
		if b, ok := both[w]; ok {
			return b
		}
		return w
	}
	out := map[string]leaf{}
	for path, l := range all {
		if !strings.HasSuffix(path, ".Hand") { // see hands
			l.words = letter.ReplaceAllStringFunc(l.words, swap)
			out[path] = l
		}
	}
	return out
}

var letter = regexp.MustCompile(`\b[A-Z]{1,2}\b`)

func compare(t *testing.T, what string, want, got map[string]leaf) {
	t.Helper()
	if len(want) < 1000 {
		t.Errorf("%s: only %d readings compared", what, len(want))
	}
	for _, path := range paths(want, got) {
		x, inWant := want[path]
		y, inGot := got[path]
		switch {
		case !inGot:
			t.Errorf("%s: %s: %v is gone", what, path, x)
		case !inWant:
			t.Errorf("%s: %s: %v is new", what, path, y)
		case !x.near(y):
			t.Errorf("%s: %s:\n\t%v\n\t%v", what, path, x, y)
		}
	}
}

// mirrorsSolids checks that every board of b is the mirror image of the same
// board of a, corner by corner.
func mirrorsSolids(t *testing.T, a, b *Plan) {
	t.Helper()
	for i, x := range a.Piece.Boards {
		y := b.Piece.Boards[i]
		if x.ID != y.ID || x.Spoken != mirrored(y.Spoken) {
			t.Errorf("board %d: %s (%s), mirrored %s (%s)", i, x.ID, x.Spoken, y.ID, y.Spoken)
			continue
		}
		ours, theirs := corners(x.Placed()), corners(y.Placed())
		for k := range theirs {
			theirs[k].X = -theirs[k].X
		}
		if !sameCorners(ours, theirs, geom.Same) {
			t.Errorf("%s: its mirror image has other corners\n%v\n%v", x.ID, ours, theirs)
		}
	}
}

func corners(p geom.Placed) []geom.Vec {
	vs, _ := p.Solid.Mesh()
	out := slices.Clone(vs)
	for i := range out {
		out[i] = p.Pose.Out(out[i])
	}
	return out
}

// sameCorners matches two sets of points one to one.
func sameCorners(a, b []geom.Vec, within float64) bool {
	b = slices.Clone(b)
	for _, p := range a {
		i := slices.IndexFunc(b, func(q geom.Vec) bool { return p.Distance(q) <= within })
		if i < 0 {
			return false
		}
		b = slices.Delete(b, i, i+1)
	}
	return len(b) == 0
}
