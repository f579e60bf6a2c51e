package source

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"scantling/internal/snag"
	"scantling/internal/span"
)

// Each trap has its own message, at its place; the mend, where an edit can do
// it, gives a file that reads as it was meant.
func TestTraps(t *testing.T) {
	for _, c := range []struct {
		name, src  string
		place      string // line:column
		marked     string
		code       snag.Code
		what       string
		afterwards string // outline after the first mend with an edit; "" if only a person can mend it
	}{
		{"comment cuts a number", "with: screw #10 x 3\n",
			"1:13", "#10", "cut-by-comment", "“#10” is cut off: a blank and # begin a comment", `{"with"="screw 10 x 3"}`},
		{"comment cuts a value short", "size: #8 x 2\nb: c\n",
			"1:7", "#8", "cut-by-comment", "“#8” is cut off", `{"size"="8 x 2" "b"="c"}`},
		{"comment cuts inside braces", "j: {with: screw #10 x 3, to: leg}\n",
			"1:17", "#10", "cut-by-comment", "“#10” is cut off", `{"j"={"with"="screw 10 x 3" "to"="leg"}}`},
		{"comma in prose", "n: {that: a < b, else: Too low, lift it, please.}\n",
			"1:33", "lift it", "comma-split", "a comma split your sentence: “lift it” is a name without a value here", `{"n"={"that"="a < b" "else"="Too low, lift it, please."}}`},
		{"comma in prose before a key", "n: {else: Low, very low., how: warn}\n",
			"1:16", "very low.", "comma-split", "a comma split your sentence", `{"n"={"else"="Low, very low." "how"="warn"}}`},
		{"comma between arguments", "s: {is: max(a, b), from: 3\"}\n",
			"1:14", ",", "comma-split", "a comma split “max(a, b)”: arguments are parted by a semicolon", `{"s"={"is"="max(a; b)" "from"="3\""}}`},
		{"comma between arguments in a list", "at: [max(a, b), c]\n",
			"1:11", ",", "comma-split", "arguments are parted by a semicolon", `{"at"=["max(a; b)" "c"]}`},
		{"braces in prose between braces", "s: {say: Fit {leg.length} legs., when: x}\n",
			"1:14", "{", "bracket-in-text", "“{” stands inside a text between braces", `{"s"={"say"="Fit {leg.length} legs." "when"="x"}}`},
		{"bracket in prose between braces", "s: {say: see [1]}\n",
			"1:14", "[", "bracket-in-text", "“[” stands inside a text", `{"s"={"say"="see [1]"}}`},
		{"closing bracket in prose", "s: {say: a] b}\n",
			"1:11", "]", "bracket-in-text", "“]” stands inside a text", `{"s"={"say"="a] b"}}`},
		{"prose begins with a brace", "about: {length} long, {height} high\n",
			"1:8", "{", "stray-text", "a text must not begin with {", `{"about"="{length} long, {height} high"}`},
		{"a name in braces", "gap: {panel_gap}\n",
			"1:7", "panel_gap", "no-value", "“panel_gap” stands between braces without a value", `{"gap"="panel_gap"}`},
		{"a name in braces between braces", "s: {gap: {panel_gap}, b: c}\n",
			"1:11", "panel_gap", "no-value", "“panel_gap” stands between braces", `{"s"={"gap"="panel_gap" "b"="c"}}`},
		{"prose begins with a bracket", "about: [a] long\n",
			"1:12", "long", "stray-text", "a text must not begin with [", `{"about"="[a] long"}`},
		{"text after a quote", "about: \"Big\" table\n",
			"1:14", "table", "stray-text", "“table” stands after the end of the value", `{"about"="\"Big\" table"}`},
		{"alias", "a: *gap\n", "1:4", "*gap", "anchor", "“*” is an alias to YAML", `{"a"="*gap"}`},
		{"anchor", "a: &gap 1/4\"\n", "1:4", "&gap 1/4\"", "anchor", "“&” is an anchor to YAML", `{"a"="&gap 1/4\""}`},
		{"tag", "a: !!str 5\n", "1:4", "!!str 5", "anchor", "“!” is a tag to YAML", `{"a"="!!str 5"}`},
		{"merge", "a:\n  <<: {b: c}\n", "2:3", "<<", "anchor", "<< merges another mapping", ""},
		{"merge between braces", "a: {<<: {b: c}}\n", "1:5", "<<", "anchor", "<< merges another mapping", ""},
		{"alias between braces", "a: {b: *c, d: e}\n", "1:8", "*c", "anchor", "“*” is an alias", `{"a"={"b"="*c" "d"="e"}}`},
		{"reserved at", "a: @home\n", "1:4", "@home", "yaml-mark", "YAML keeps “@”", `{"a"="@home"}`},
		{"reserved per cent", "a: %5\n", "1:4", "%5", "yaml-mark", "YAML keeps “%”", `{"a"="%5"}`},
		{"dash and blank", "a: - b\n", "1:4", "- b", "yaml-mark", "a dash and a blank begin a list item", `{"a"="- b"}`},
		{"above as a sign", "n: {that: > 5}\n", "1:11", "> 5", "yaml-mark", "“>” at the beginning of a value announces a text", `{"n"={"that"="> 5"}}`},
		{"text beside >", "a: > 5\n", "1:4", "> 5", "yaml-mark", "nothing else may stand on its line", `{"a"="> 5"}`},
		{"complex key", "? a : b\n", "1:1", "? a", "yaml-mark", "“?” cannot begin a name", ""},
		{"directive", "%YAML 1.2\na: b\n", "1:1", "%YAML 1.2", "yaml-mark", "a directive of YAML", `{"a"="b"}`},
		{"document mark", "---\na: b\n", "1:1", "---", "yaml-mark", "--- parts the documents", `{"a"="b"}`},
		{"tab", "a:\n\tb: c\n", "2:1", "\t", "tab", "a tab stands in the indentation", `{"a"={"b"="c"}}`},
		{"colon in prose", "about: Beware: wet paint\n",
			"1:14", ":", "colon-in-text", "a value without quotes cannot hold a colon and a blank", `{"about"="Beware: wet paint"}`},
		{"colon in prose between braces", "s: {say: Note: dry, when: x}\n",
			"1:14", ":", "colon-in-text", "cannot hold a colon and a blank", `{"s"={"say"="Note: dry" "when"="x"}}`},
		{"entry below a value", "a: 5\"\n  b: 6\"\n", "2:4", ":", "colon-in-text", "this line is an entry that stands too deep", ""},
		{"no blank after the colon", "let:\n  gap:1/4\"\n",
			"2:6", ":", "missing-colon", "no blank follows the colon", `{"let"={"gap"="1/4\""}}`},
		{"no blank after the colon between braces", "s: {is:6', from: 4'}\n",
			"1:7", ":", "missing-colon", "no blank follows the colon", `{"s"={"is"="6'" "from"="4'"}}`},
		{"no-break blank", "let:\n  gap:\u00a01/4\"\n",
			"2:7", "\u00a0", "missing-colon", "a no-break blank follows the colon", `{"let"={"gap"="1/4\""}}`},
		{"no colon", "let:\n  gap 1/4\"\n  b: c\n", "2:3", "gap 1/4\"", "missing-colon", "“gap 1/4\"” has no colon", ""},
		{"no value", "let:\n  gap:\n  b: c\n", "2:3", "gap", "no-value", "nothing stands after “gap:”", ""},
		{"no value at the end", "let:\n", "1:1", "let", "no-value", "nothing stands after “let:”", ""},
		{"no value between braces", "s: {is: , from: 3}\n", "1:5", "is", "no-value", "nothing stands after “is:”", ""},
		{"no text below >", "a: >\nb: c\n", "1:4", ">", "no-value", "no text stands below this sign", ""},
		{"empty item", "a:\n  -\n  - b\n", "2:3", "-", "no-value", "nothing stands after the dash", ""},
		{"same key twice", "a: b\nc: d\na: e\n", "3:1", "a", "duplicate-key", "“a” stands twice here", ""},
		{"same key twice between braces", "x: {a: b, a: e}\n", "1:11", "a", "duplicate-key", "“a” stands twice here", ""},
		{"depth between two", "a:\n    b: c\n  d: e\n", "3:3", "d: e", "indentation", "indented by 2 blanks", ""},
		{"too deep", "a: {x: y}\n  b: c\n", "2:3", "b: c", "indentation", "stands deeper than the entry above it", ""},
		{"comment inside a text", "a: one # note\n  two\n", "2:3", "two", "indentation", "continues a text that a comment ended", ""},
		{"list among names", "a: b\n- c\n", "2:1", "-", "indentation", "a list item stands among names", ""},
		{"open brace", "a: {b: c\nd: e\n", "1:4", "{", "unclosed", "“{” is never closed", ""},
		{"open bracket", "a: [b, c\n", "1:4", "[", "unclosed", "“[” is never closed", ""},
		{"brace closed by a bracket", "a: [{b: c]\n", "1:5", "{", "unclosed", "“{” is never closed", ""},
		{"comment hides the brace", "a: {b: c # note}\nd: e\n", "1:4", "{", "unclosed", "“{” is never closed", ""},
		{"open quote", "a: \"b\nc: d\n", "1:4", "\"", "unclosed", "the quote that begins here is never closed", ""},
		{"apostrophe", "a: 'tis the season\nb: c\n", "1:4", "'", "unclosed", "the quote that begins here", ""},
		{"backslash", "a: \"c:\\oak\"\n", "1:7", "\\o", "bad-escape", "a backslash inside double quotes", `{"a"="c:\\oak"}`},
		{"control character", "a: b\x07c\n", "1:5", "\x07", "not-text", "a control character (code 7)", `{"a"="bc"}`},
	} {
		t.Run(c.name, func(t *testing.T) {
			src := []byte(c.src)
			_, snags := Parse("t.yaml", src)
			if len(snags) != 1 {
				t.Fatalf("%d snags:\n%s", len(snags), snags.Text(snag.Sources{"t.yaml": src}))
			}
			s := snags[0]
			p := snag.PlaceOf(src, s.At.Start)
			if at := fmt.Sprintf("%d:%d", p.Line, p.Column); at != c.place || c.src[s.At.Start:s.At.End] != c.marked {
				t.Errorf("marks %q at %s, want %q at %s", c.src[s.At.Start:s.At.End], at, c.marked, c.place)
			}
			if s.Code != c.code || !strings.Contains(s.What, c.what) {
				t.Errorf("says %s: %s\nwant %s: %s", s.Code, s.What, c.code, c.what)
			}
			if _, ok := snag.Explain(s.Code); !ok || len(s.Mends) == 0 {
				t.Errorf("%s has no entry in the catalogue or no mend", s.Code)
			}
			var edits []span.Edit
			for _, m := range s.Mends {
				if edits == nil {
					edits = m.Edits
				}
			}
			if edits == nil {
				if c.afterwards != "" {
					t.Error("no mend has an edit")
				}
				return
			}
			mended, ok := span.Apply(src, edits)
			if !ok {
				t.Fatalf("edits %v do not apply", edits)
			}
			tree, rest := Parse("t.yaml", mended)
			if got := outline(tree.Root); c.afterwards != "" && (got != c.afterwards || len(rest) > 0) {
				t.Errorf("mended %q reads %s, want %s\n%s", mended, got, c.afterwards, rest.Text(snag.Sources{"t.yaml": mended}))
			}
		})
	}
}

// One mistake gives one message, and what stands around it is still read.
func TestGoesOn(t *testing.T) {
	src := "a: *x\nb:\n  c {\n  d: e\nf: [1, 2\ng: h\ni: {j: k, l: Too low, lift., m: n}\no: \"p\nq: r\n"
	tree, snags := Parse("t.yaml", []byte(src))
	var codes []string
	for _, s := range snags {
		codes = append(codes, string(s.Code))
	}
	if got := strings.Join(codes, " "); got != "anchor missing-colon unclosed comma-split unclosed" {
		t.Errorf("codes: %s", got)
	}
	if got, want := outline(tree.Root), `{"a"=broken "b"={"d"="e"} "f"=broken "g"="h" "i"={"j"="k" "l"=broken "m"="n"} "o"=broken "q"="r"}`; got != want {
		t.Errorf("read %s\nwant %s", got, want)
	}
}

// A file full of mistakes is told in a bounded list.
func TestManyMistakes(t *testing.T) {
	_, snags := Parse("t.yaml", bytes.Repeat([]byte("a: {b: c, d, e: f g: [}\n"), 20_000))
	if len(snags) != mostSnags {
		t.Errorf("%d snags, want %d", len(snags), mostSnags)
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{
		"a: b\n", "a: {b: [c, 'd', \"e\"], f: g}\n", "a: >\n  b\n   c\n\nd: |2-\n    e\n", "- a\n- - b\n", "a: {b: c, d e}\n", "a: [max(a, b)]",
		"a: {b\n", "\uFEFFa: 'b\n  c'\n", "a:\n\tb: c\r\n", "a: {#1: b}", "{a: b}", "? a\n", "a: \"\\u00bd\\q\"", ": ", "a: {b: c #1\n}", "a: {\"\": c}", "a: [a: b: c]", "a: 'x' y\n b: c", "'\n  :  #1a:b,\n    :'",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		tree, snags := Parse("t", src)
		inside := func(r span.Range) {
			if r.File != "t" || r.Start < 0 || r.End < r.Start || r.End > len(src) {
				t.Fatalf("range %v outside the file of %d bytes", r, len(src))
			}
		}
		for _, s := range snags {
			inside(s.At)
			for _, r := range s.Related {
				inside(r.At)
			}
			for _, m := range s.Mends {
				if _, ok := span.Apply(src, m.Edits); !ok {
					t.Fatalf("%s: the edits %v do not apply", s.What, m.Edits)
				}
			}
		}
		var walk func(n *Node, key bool)
		last := -1
		walk = func(n *Node, key bool) {
			inside(n.Range)
			if n.Kind == Broken && len(snags) == 0 {
				t.Fatal("a broken value without a snag")
			}
			if n.Kind == Scalar {
				if n.Raw != string(src[n.Start:n.End]) {
					t.Fatalf("%v does not hold %q", n.Range, n.Raw)
				}
				before := n.Start
				for i := 0; i <= len(n.Text); i++ {
					o := n.Offset(i)
					if o < before || o > n.End {
						t.Fatalf("byte %d of %q stands at %d, after %d, in %v", i, n.Text, o, before, n.Range)
					}
					before = o
				}
				if !key {
					if n.Ordinal <= last || tree.Scalars[n.Ordinal] != n {
						t.Fatalf("ordinal %d after %d", n.Ordinal, last)
					}
					last = n.Ordinal
				}
			}
			if n.Kind == Map && len(n.Keys) != len(n.Items) {
				t.Fatal("keys without values")
			}
			for i, item := range n.Items {
				if n.Kind == Map {
					walk(n.Keys[i], true)
				}
				walk(item, false)
			}
		}
		walk(tree.Root, false)
		if len(src) < 1000 && len(snags) == 0 {
			for _, n := range tree.Scalars[:min(len(tree.Scalars), 3)] {
				if _, err := Set(tree, n, n.Text); err != nil {
					t.Fatalf("%q cannot be set to itself in %q", n.Text, src)
				}
			}
		}
	})
}
