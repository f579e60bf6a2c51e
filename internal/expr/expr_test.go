package expr

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/measure"
	"scantling/internal/span"
)

// A bench is an Env with a few names: numbers, a choice, and positions on one
// upright axis, which stand for everything a design knows of geometry.
type bench struct {
	names map[string]Value
	told  []*Problem
	level *float64
}

// A height is a place of the bench: a plane at z, tilted by lean for every unit
// it is read higher.
type height struct{ z, lean float64 }

func newBench() *bench {
	inches := func(v float64) Value { return Num(measure.Quantity{V: v * 25.4e6, D: measure.DimLength}, span.Of(1)) }
	return &bench{names: map[string]Value{
		"width":  inches(24),
		"depth":  inches(16),
		"tilt":   Num(measure.Quantity{V: 30e9, D: measure.DimAngle}, span.Of(2)),
		"boards": Num(measure.Number(4), span.Of(3)),
		"panel":  {Kind: WordKind, Word: "straight", Of: []string{"straight", "diagonal"}, From: span.Of(4)},
		"floor":  {Kind: Position, Place: height{0, 0}},
		"shelf":  {Kind: Position, Place: height{9, 0}, From: span.Of(5)},
		"leaner": {Kind: Plane, Place: height{2, 0.5}, From: span.Of(6)},
		"lost":   {},
	}}
}

func (b *bench) Name(r *Ref) Value {
	v, ok := b.names[r.Path[len(r.Path)-1].Text]
	if !ok {
		b.Report(&Problem{Code: "unknown-name", At: r.At, What: "unknown"})
	}
	return v
}

func (b *bench) Shift(n *Shift, d measure.Quantity, p Value) Value {
	h := p.Place.(height)
	h.z += n.Way.Sign() * d.V / 25.4e6
	return Value{Kind: Position, Place: h}
}

func (b *bench) Inset(n *Inset, d measure.Quantity, s Value) Value {
	h := s.Place.(height)
	if h.z -= d.V / 25.4e6; n.Out {
		h.z += 2 * d.V / 25.4e6
	}
	return Value{Kind: Position, Place: h}
}

func (b *bench) AtLevel(n *Level, level Value) Env { return b }

func (b *bench) Held(n *Level, level, v Value) Value {
	h := v.Place.(height)
	v.Place = height{h.z + h.lean*level.Place.(height).z, 0}
	return v
}

func (b *bench) Apart(n *Arith, x, y Value) Value {
	return Num(measure.Quantity{V: (x.Place.(height).z - y.Place.(height).z) * 25.4e6, D: measure.DimLength}, span.Set{})
}

func (b *bench) IsPast(n *Compare, x, y Value) Value {
	return Value{Kind: YesNo, Yes: (x.Place.(height).z-y.Place.(height).z)*n.Way.Sign() > 0}
}

func (b *bench) Same(n *Compare, x, y Value) Value {
	return Value{Kind: YesNo, Yes: x.Place.(height) == y.Place.(height)}
}

func (b *bench) Call(n *Call, args []Value) Value { return Num(measure.Number(4), span.Set{}) }

func (b *bench) Report(p *Problem) { b.told = append(b.told, p) }

// say prints a value for the tables below: 5", 30°, 2.5, straight, yes, at 9.
func say(v Value) string {
	switch v.Kind {
	case Number:
		return v.Q.Exact(measure.Imperial)
	case WordKind:
		return v.Word
	case YesNo:
		return map[bool]string{true: "yes", false: "no"}[v.Yes]
	case Position, Plane:
		meet := [...]string{"", "flush with ", "against "}[v.Meet]
		return meet + fmt.Sprintf("at %g", v.Place.(height).z)
	}
	return "unknown"
}

func TestEval(t *testing.T) {
	for _, c := range []struct{ rule, text, want string }{
		// Rule 1: kinds and functions; worked by hand.
		{"1", `floor(5 / 2)`, "2"},
		{"1", `ceil(5 / 2)`, "3"},
		{"1", `round(5 / 2)`, "3"},
		{"1", `floor(0.1 * 30)`, "3"}, // not 2 by the last bit
		{"1", `round(1 5/32"; 1/16")`, `1 3/16"`},
		{"1", `ceil(3.388"; 1/16")`, `3 7/16"`},
		{"1", `min(3"; 2 1/2"; 4")`, `2 1/2"`},
		{"1", `max(0; 2 1/2")`, `2 1/2"`},
		{"1", `sqrt(9)`, "3"},
		{"1", `sqrt(width * width)`, `24"`},
		{"1", `abs(3" - 5")`, `2"`},
		{"1", `round(1000000 * sin(tilt))`, "500000"},
		{"1", `cos(60°) * 4"`, `2"`},
		{"1", `round(1000000 * tan(45°))`, "1000000"},
		{"1", `atan(1)`, "45°"},
		{"1", `asin(1/2)`, "30°"},
		{"1", `acos(1/2)`, "60°"},
		{"1", `count(boards)`, "4"},
		{"1", `3 in 12`, "14.036243468°"}, // atan(1/4)
		{"1", `40 psf * (2 ft * 3 ft)`, "240 lbf"},
		{"1", `width / depth`, "1.5"},
		{"1", `yes`, "yes"},
		// Rule 2: what binds tighter.
		{"2", `width - 2 * 1 1/4"`, `21 1/2"`},
		{"2", `5-1/2"`, `5 1/2"`},
		{"2", `6'-2 1/2"`, `74 1/2"`},
		{"2", `-3" + 5"`, `2"`},
		{"2", `2 * -3"`, `-6"`},
		{"2", `12" / 3/4"`, "16"},
		{"2", `width - 2" above floor`, "at 22"},
		{"2", `2" above 3" above floor`, "at 5"},
		{"2", `1" below shelf`, "at 8"},
		{"2", `against leaner at level 2" above floor`, "against at 3"}, // at level binds the whole measure, tighter than against
		{"2", `1" above leaner at level shelf`, "at 7.5"},
		{"2", `flush with leaner at leaner`, "flush with at 3"},
		{"2", `1" in from leaner at level shelf`, "at 5.5"},
		{"2", `1" out from leaner`, "at 3"},
		{"2", `3" if panel is diagonal otherwise 4"`, `4"`},
		{"2", `1" if width > 30" otherwise 2" if depth > 10" otherwise 3"`, `2"`},
		{"2", `width > 20" and not depth > 20" or no`, "yes"},
		{"2", `not panel is diagonal and 1 < 2`, "yes"},
		{"2", `shelf - floor`, `9"`},
		// Rule 3: places are compared by words.
		{"3", `shelf is above floor`, "yes"},
		{"3", `shelf is above 7" above floor`, "yes"},
		{"3", `shelf is below 7" above floor`, "no"},
		{"3", `shelf is 9" above floor`, "yes"},
		{"3", `shelf is not floor`, "yes"},
		// Choices.
		{"1", `panel is straight`, "yes"},
		{"1", `panel is "straight"`, "yes"},
		{"1", `panel is not diagonal`, "yes"},
		// Comparisons: exact decimals of an inch are one length.
		{"2", `0.1" + 0.2" <= 0.3"`, "yes"},
		{"2", `3" >= 3"`, "yes"},
		{"2", `3" is 3"`, "yes"},
		{"2", `3" < 3"`, "no"},
		// Unknown values pass in silence: one mistake, one message.
		{"", `lost + 3"`, "unknown"},
		{"", `3" if lost > 2" otherwise 4"`, "unknown"},
		{"", `lost above floor`, "unknown"},
		{"", `lost is straight`, "unknown"},
	} {
		x, p := Parse(c.text)
		if p != nil {
			t.Errorf("%s: %v", c.text, p)
			continue
		}
		env := newBench()
		if got := say(Eval(x, env)); got != c.want || len(env.told) > 0 {
			t.Errorf("rule %s: %s = %s %v, want %s", c.rule, c.text, got, env.told, c.want)
		}
	}
}

// Every mistake is told once, where it is, and its mend makes it go away.
func TestProblems(t *testing.T) {
	for _, c := range []struct{ text, at, code, mended string }{
		{`width + 3`, `3`, "wrong-dimension", `width + 3"`},
		{`3 + width`, `3`, "wrong-dimension", `3" + width`},
		{`tilt + 3`, `3`, "wrong-dimension", `tilt + 3°`},
		{`width + tilt`, `width + tilt`, "wrong-dimension", ""},
		{`5 - 1/2"`, `5 - 1/2"`, "wrong-dimension", `5 1/2"`},
		{`width > tilt`, `width > tilt`, "wrong-dimension", ""},
		{`5 in`, `5 in`, "bad-number", ""},
		{`5 above floor`, `5`, "wrong-dimension", `5" above floor`},
		{`tilt above floor`, `tilt`, "wrong-kind", ""},
		{`shelf + 2"`, `shelf + 2"`, "place-plus-length", ""},
		{`shelf * 2`, `shelf * 2`, "place-plus-length", ""},
		{`shelf > floor`, `shelf > floor`, "wrong-kind", ""},
		{`1" in from shelf`, `shelf`, "wrong-kind", ""},
		{`flush with shelf`, `shelf`, "wrong-kind", ""},
		{`width at level tilt`, `tilt`, "wrong-kind", ""},
		{`width / (2 - 2)`, `2 - 2`, "no-number", ""},
		{`sqrt(1 - 2)`, `1 - 2`, "no-number", ""},
		{`asin(2)`, `2`, "no-number", ""},
		{`tan(90°)`, `90°`, "no-number", ""},
		{`sqrt(width)`, `width`, "wrong-dimension", ""},
		{`sin(width)`, `width`, "wrong-dimension", ""},
		{`floor(width)`, `floor(width)`, "wrong-dimension", ""},
		{`round(width; 2)`, `2`, "wrong-dimension", ""},
		{`min(width)`, `min(width)`, "argument-count", ""},
		{`min(width; tilt)`, `tilt`, "wrong-dimension", ""},
		{`not width`, `width`, "wrong-kind", ""},
		{`width and yes`, `width`, "wrong-kind", ""},
		{`3" if width otherwise 4"`, `width`, "wrong-kind", ""},
		{`panel is strait`, `strait`, "not-offered", `panel is straight`},
		{`panel is 3"`, `3"`, "wrong-kind", ""},
		{`panel + 3"`, `panel`, "wrong-kind", ""},
		{`1" above panel`, `panel`, "wrong-kind", ""},
		{`min(width, depth)`, `,`, "stray-mark", `min(width; depth)`},
		{`width = depth`, `=`, "stray-mark", `width is depth`},
		{`width ? depth`, `?`, "stray-mark", ""},
		{`flor(2.5)`, `flor`, "unknown-function", `floor(2.5)`},
		{`3" 4"`, `4"`, "two-measures", ""},
		{`width )`, `)`, "stray-mark", ""},
		{`(width`, `h`, "cut-short", ""},
		{`width +`, `+`, "cut-short", ""},
		{``, ``, "cut-short", ""},
		{`2nd`, `2nd`, "ordinal-alone", ""},
		{`3" if yes`, `s`, "no-otherwise", ""},
		{`width of`, `of`, "stray-word", ""},
		{`" width`, `"`, "stray-mark", ""},
	} {
		p := problem(c.text)
		if p == nil {
			t.Errorf("%q: nothing is told", c.text)
			continue
		}
		if got := c.text[p.Start:p.End]; got != c.at || p.Code != c.code {
			t.Errorf("%q: %s at %q (%s), want %s at %q", c.text, p.Code, got, p.What, c.code, c.at)
		}
		if c.mended == "" {
			continue
		}
		if m := p.Mends[0]; c.text[:m.Start]+m.Text+c.text[m.End:] != c.mended {
			t.Errorf("%q is mended to %q, want %q", c.text, c.text[:m.Start]+m.Text+c.text[m.End:], c.mended)
		}
		if p := problem(c.mended); p != nil {
			t.Errorf("the mend %q is wrong again: %v", c.mended, p)
		}
	}
}

// problem returns the one thing told about a text.
func problem(text string) *Problem {
	x, p := Parse(text)
	if p != nil {
		return p
	}
	env := newBench()
	Eval(x, env)
	if len(env.told) != 1 {
		return nil
	}
	return env.told[0]
}

func TestReserved(t *testing.T) {
	for word, want := range map[string]bool{"left": true, "up": true, "mm": true, "floor": true, "if": true, "middle": true, "min": true,
		"leg": false, "left_leg": false, "inset": false} {
		if got := Reserved(word) != ""; got != want {
			t.Errorf("Reserved(%q) = %v, want %v", word, got, want)
		}
	}
}

func TestText(t *testing.T) {
	text := `The top is {width} long; {2 * depth} round.`
	chunks, problems := ParseText(text)
	if len(problems) > 0 || len(chunks) != 5 {
		t.Fatalf("%d chunks, %v", len(chunks), problems)
	}
	var b strings.Builder
	for _, c := range chunks {
		if c.X == nil {
			b.WriteString(c.Words)
			continue
		}
		b.WriteString(say(Eval(c.X, newBench())))
		if s, e := c.X.Span(); strings.TrimSpace(text[c.Start:c.End]) != text[s:e] {
			t.Errorf("the measure %q stands at %q", text[c.Start:c.End], text[s:e])
		}
	}
	if got, want := b.String(), `The top is 24" long; 32" round.`; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	for _, bad := range []string{"{width", "width}", "{a {b} c}", "{}", "{3\" +}"} {
		if _, problems := ParseText(bad); len(problems) == 0 {
			t.Errorf("%q: nothing is told", bad)
		}
	}
}

// A value says every scalar it was computed from, and the branch not taken is
// none of them.
func TestFrom(t *testing.T) {
	for _, c := range []struct {
		text string
		want span.Set
	}{
		{`width + 2"`, span.Of(1)},
		{`3"`, span.Set{}},
		{`width * boards`, span.Of(1, 3)},
		{`width if panel is straight otherwise 1" * boards`, span.Of(1, 4)},
		{`width above shelf`, span.Of(1, 5)},
		{`1" above leaner at level shelf`, span.Of(5, 6)},
	} {
		x, p := Parse(c.text)
		if p != nil {
			t.Fatal(p)
		}
		if got := Eval(x, newBench()).From; got != c.want {
			t.Errorf("%s: from %v, want %v", c.text, got.Ordinals(), c.want.Ordinals())
		}
	}
}

// Sums and products of lengths follow the laws of numbers, whatever the units
// they are written in.
func TestLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Int64Range(-1e6, 1e6).Draw(t, "a")
		b := rapid.Int64Range(-1e6, 1e6).Draw(t, "b")
		n := rapid.IntRange(1, 64).Draw(t, "n")
		write := func(nm int64) string { return "(0 + " + measure.Length(nm*396875).Exact(measure.Imperial) + ")" }
		for _, law := range [][2]string{
			{"A + B", "B + A"}, {"A - B", "-(B - A)"}, {"N * (A + B)", "N * A + N * B"}, {"A + B - B", "A"},
			{"min(A; B) + max(A; B)", "A + B"}, {"A if A < B otherwise B", "min(A; B)"},
		} {
			fill := strings.NewReplacer("A", write(a), "B", write(b), "N", fmt.Sprint(n))
			left, right := fill.Replace(law[0]), fill.Replace(law[1])
			x, p := Parse(left)
			y, q := Parse(right)
			if p != nil || q != nil {
				t.Fatal(p, q)
			}
			u, v := Eval(x, newBench()), Eval(y, newBench())
			if u.Kind != Number || math.Abs(u.Q.V-v.Q.V) > 0 || u.Q.D != v.Q.D && u.Q.V != 0 {
				t.Fatalf("%s is %v, %s is %v", left, u.Q, right, v.Q)
			}
		}
	})
}

// Reading never panics, ends soon, and every place it names lies in the text.
func FuzzParse(f *testing.F) {
	for _, s := range []string{`length - 2 * overhang`, `1/4" right of post.right at level rail.bottom`, `against back left leg.back`,
		`x if a is not b and c > 3° otherwise min(1"; 2")`, `((((((`, `- - - -1`, `2nd first other a.b.c edge`, `{`, "\x00½\"", `not not not a`} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		inside := func(at At) bool { return at.Start >= 0 && at.Start <= at.End && at.End <= len(s) }
		x, p := Parse(s)
		if (x == nil) == (p == nil) {
			t.Fatalf("%q: a tree and a problem, or neither: %v", s, p)
		}
		env := newBench()
		if x != nil {
			if a, b := x.Span(); !inside(At{a, b}) {
				t.Fatalf("%q: the tree stands at %d, %d", s, a, b)
			}
			Eval(x, env)
		} else {
			env.told = append(env.told, p)
		}
		_, more := ParseText(s)
		for _, p := range append(env.told, more...) {
			if !inside(p.At) || p.What == "" {
				t.Fatalf("%q: %+v", s, p)
			}
			for _, m := range p.Mends {
				if !inside(m.At) {
					t.Fatalf("%q: mend %+v", s, m)
				}
			}
		}
	})
}
