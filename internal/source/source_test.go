package source

import (
	"fmt"
	"strings"
	"testing"

	"github.com/goccy/go-yaml/ast"
	yaml "github.com/goccy/go-yaml/parser"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"scantling/internal/snag"
)

// outline prints a tree: what it says, not how it is written.
func outline(n *Node) string {
	switch n.Kind {
	case Map:
		var parts []string
		for i, k := range n.Keys {
			parts = append(parts, fmt.Sprintf("%q=%s", k.Text, outline(n.Items[i])))
		}
		return "{" + strings.Join(parts, " ") + "}"
	case List:
		var parts []string
		for _, item := range n.Items {
			parts = append(parts, outline(item))
		}
		return "[" + strings.Join(parts, " ") + "]"
	case Scalar:
		return fmt.Sprintf("%q", n.Text)
	}
	return "broken"
}

// read parses a text that must be without snags.
func read(t interface {
	Helper()
	Fatalf(string, ...any)
}, src string) *Tree {
	t.Helper()
	tree, snags := Parse("t.yaml", []byte(src))
	if len(snags) > 0 {
		t.Fatalf("%q:\n%s", src, snags.Text(snag.Sources{"t.yaml": []byte(src)}))
	}
	return tree
}

func TestParse(t *testing.T) {
	for _, c := range []struct{ src, want, source string }{
		{"a: b\n", `{"a"="b"}`, ""},
		{"\uFEFFa: b", `{"a"="b"}`, "byte order mark, no line end"},
		{"a: b\r\nc:\r\n  d: e\r\n", `{"a"="b" "c"={"d"="e"}}`, "YAML 1.2.2, 5.4: CR LF is one line break"},
		{"front left: 5 1/2\"  # note\n", `{"front left"="5 1/2\""}`, "keys may hold blanks"},
		{"a: 010\nb: 1_000\nc: 1e3\nd: 0x10\ne: .5\nf: ~\ng: No\nh: =\ni: 12:30\nj: null\n",
			`{"a"="010" "b"="1_000" "c"="1e3" "d"="0x10" "e"=".5" "f"="~" "g"="No" "h"="=" "i"="12:30" "j"="null"}`, "values stay text"},
		{"a: -5\"\nb: ?x\nc: :x\nd: a#b\n", `{"a"="-5\"" "b"="?x" "c"=":x" "d"="a#b"}`, "YAML 1.2.2, 7.3.3: indicators followed by a non-blank"},
		{"a:\n  - b\n  -   c: d\n      e: f\n  - - g\n    - h\n", `{"a"=["b" {"c"="d" "e"="f"} ["g" "h"]]}`, "compact nested, YAML 1.2.2, 8.2.1"},
		{"a:\n- b\n- c\nd: e\n", `{"a"=["b" "c"] "d"="e"}`, "YAML 1.2.2, example 8.22: a list in its key's column"},
		{"a: {is: 6', from: 4', says: length of the top}\n", `{"a"={"is"="6'" "from"="4'" "says"="length of the top"}}`, ""},
		{"a: {b: [c, {d: e}, [f]],\n    g: h}\n", `{"a"={"b"=["c" {"d"="e"} ["f"]] "g"="h"}}`, "over two lines"},
		{"a: {\n  b: c,   # note\n  d: e,\n}\nf: g\n", `{"a"={"b"="c" "d"="e"} "f"="g"}`, "closing brace in the key's column"},
		{"a: [mirror: left-right, mirror: front-back]\n", `{"a"=[{"mirror"="left-right"} {"mirror"="front-back"}]}`, "YAML 1.2.2, example 7.20: single pairs"},
		{"a: []\nb: {}\n", `{"a"=[] "b"={}}`, ""},
		{"a: Fit {leg.length} legs, then rest; see b.\n", `{"a"="Fit {leg.length} legs, then rest; see b."}`, "braces and commas in a plain value"},
		{"a: one\n  two\n\n  three\nb: c\n", `{"a"="one two\nthree" "b"="c"}`, "YAML 1.2.2, 7.3.3: line folding"},
		{"a:\n  one\n  two\n", `{"a"="one two"}`, ""},
		{"a: >\n  one\n  two\n\n  three\n    deep\n  four\n\nb: c\n", `{"a"="one two\nthree\n  deep\nfour" "b"="c"}`, "YAML 1.2.2, 8.1.3: folded; deeper lines are kept"},
		{"a: |\n  one\n   two\n\n  # three\nb: c\n", `{"a"="one\n two\n\n# three" "b"="c"}`, "YAML 1.2.2, 8.1.2: literal; # is text"},
		{"a: >-\n  one\nb: |2+\n    two\n\n", `{"a"="one" "b"="  two"}`, "header signs"},
		{"a: 'it''s'\nb: \"a \\\"b\\\" \\u00bd \\\\ \\n c\"\n", `{"a"="it's" "b"="a \"b\" ½ \\ \n c"}`, "YAML 1.2.2, 7.3.1 and 7.3.2"},
		{"a: 'one\n  two\n\n  three'\n", `{"a"="one two\nthree"}`, "folding in quotes"},
		{"'a b': c\n\"d\" : e\n", `{"a b"="c" "d"="e"}`, "quoted keys"},
		{"# only\n\n# comments\na: b\n# more\n\n", `{"a"="b"}`, ""},
		{"a:\n  b: c\n # odd comment\n  d: e\n", `{"a"={"b"="c" "d"="e"}}`, "comments have no depth"},
		{"a: {b: \"c, d}\", e: 'f: g'}\n", `{"a"={"b"="c, d}" "e"="f: g"}}`, "quotes protect"},
		{"a: {b: one\n  two}\n", `{"a"={"b"="one two"}}`, "plain text over two lines inside braces"},
	} {
		if got := outline(read(t, c.src).Root); got != c.want {
			t.Errorf("%q = %s, want %s (%s)", c.src, got, c.want, c.source)
		}
	}
}

// Nodes know where they stand, and their text where its bytes do.
func TestPlaces(t *testing.T) {
	src := "a: {b: 5\", c: 'x''y'}\nd: >\n  one\n  two ½\ne: [f, g]\n"
	tree := read(t, src)
	a, d := tree.Root.Get("a"), tree.Root.Get("d")
	for _, c := range []struct{ got, want string }{
		{src[a.Start:a.End], `{b: 5", c: 'x''y'}`},
		{src[a.Key("b").Start:a.Key("b").End], `b`},
		{src[a.Get("b").Start:a.Get("b").End], `5"`},
		{a.Get("c").Raw, `'x''y'`},
		{d.Raw, ">\n  one\n  two ½"},
		{src[tree.Root.Get("e").Start:tree.Root.Get("e").End], `[f, g]`},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
	for _, c := range []struct {
		n          *Node
		sub, place string
	}{
		{a.Get("c"), "y", "y"}, {d, "two", "two"}, {d, "½", "½"}, {d, "one two", "one\n  two"}, {a.Get("b"), `"`, `"`},
	} {
		i := strings.Index(c.n.Text, c.sub)
		r := c.n.Sub(i, i+len(c.sub))
		if got := src[r.Start:r.End]; got != c.place {
			t.Errorf("%q of %q stands at %q, want %q", c.sub, c.n.Text, got, c.place)
		}
	}
	var texts []string
	for i, n := range tree.Scalars {
		if n.Ordinal != i {
			t.Errorf("scalar %d has ordinal %d", i, n.Ordinal)
		}
		texts = append(texts, n.Text)
	}
	if d := cmp.Diff([]string{`5"`, "x'y", "one two ½", "f", "g"}, texts); d != "" {
		t.Error(d)
	}
}

// A written model is read back as it was, and a general YAML parser
// (goccy/go-yaml) reads the same from it.
func TestAgainstYAML(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var b strings.Builder
		want := writeMap(t, &b, 0, 3)
		src := b.String()
		if got := outline(read(t, src).Root); got != want {
			t.Fatalf("read %s\nwant %s\nfrom:\n%s", got, want, src)
		}
		file, err := yaml.ParseBytes([]byte(src), 0)
		if err != nil {
			t.Fatalf("not YAML: %v\n%s", err, src)
		}
		if got := general(file.Docs[0].Body); got != want {
			t.Fatalf("a general parser reads %s\nwant %s\nfrom:\n%s", got, want, src)
		}
	})
}

// general prints what a general YAML parser read, as outline does.
func general(n ast.Node) string {
	var parts []string
	switch n := n.(type) {
	case *ast.MappingNode:
		for _, v := range n.Values {
			parts = append(parts, general(v.Key)+"="+general(v.Value))
		}
		return "{" + strings.Join(parts, " ") + "}"
	case *ast.MappingValueNode:
		return "{" + general(n.Key) + "=" + general(n.Value) + "}"
	case *ast.SequenceNode:
		for _, v := range n.Values {
			parts = append(parts, general(v))
		}
		return "[" + strings.Join(parts, " ") + "]"
	case *ast.LiteralNode:
		return fmt.Sprintf("%q", strings.TrimRight(n.Value.Value, "\n"))
	case *ast.StringNode:
		return fmt.Sprintf("%q", n.Value)
	}
	return fmt.Sprintf("%q", n.GetToken().Value)
}

var (
	keys   = []string{"a", "front left", "top", "says", "x1", "open"}
	plains = []string{`5 1/2"`, `6'`, `length - 2 * overhang`, `010x`, `½"`, `max(a; b)`, `3 in 12`, `x#y`, `2x4`, `No. 2`, `a > b`, `left edge`}
	prose  = []string{`a, b`, `it's {x}`, `#10`, `- a`, `{length} long`, `a: b`, `5" [x]`, `* & ! % @`, `~`, `a\b`, ` outer blanks `, ``}
)

// writeMap writes a random mapping in block style and returns its outline.
func writeMap(t *rapid.T, b *strings.Builder, indent, depth int) string {
	var parts []string
	for _, k := range rapid.SliceOfNDistinct(rapid.SampledFrom(keys), 1, 4, rapid.ID).Draw(t, "keys") {
		comment := rapid.SampledFrom([]string{"", "  # note", "\n\n# note {"}).Draw(t, "comment")
		b.WriteString(strings.Repeat(" ", indent) + k + ":")
		parts = append(parts, fmt.Sprintf("%q=", k)+writeValue(t, b, indent, depth, comment))
	}
	return "{" + strings.Join(parts, " ") + "}"
}

func writeValue(t *rapid.T, b *strings.Builder, indent, depth int, comment string) string {
	deeper := indent + rapid.IntRange(1, 3).Draw(t, "deeper")
	form := rapid.IntRange(0, 6).Draw(t, "form")
	if depth == 0 && form < 2 {
		form += 2
	}
	switch form {
	case 0:
		b.WriteString(comment + "\n")
		return writeMap(t, b, deeper, depth-1)
	case 1:
		b.WriteString(comment + "\n")
		var parts []string
		for range rapid.IntRange(1, 3).Draw(t, "items") {
			b.WriteString(strings.Repeat(" ", deeper) + "-")
			parts = append(parts, writeValue(t, b, deeper, depth-1, ""))
		}
		return "[" + strings.Join(parts, " ") + "]"
	case 2: // a block scalar
		sign := rapid.SampledFrom([]string{">", "|"}).Draw(t, "sign")
		between := map[string]string{">": " ", "|": "\n"}[sign]
		lines := rapid.SliceOfN(rapid.SampledFrom(append(plains, `a: {b}, # c`, `- d`)), 1, 3).Draw(t, "lines")
		b.WriteString(" " + sign + "\n")
		for _, l := range lines {
			b.WriteString(strings.Repeat(" ", deeper) + l + "\n")
		}
		return fmt.Sprintf("%q", strings.Join(lines, between))
	case 3: // a plain text over two lines
		text := rapid.SampledFrom(plains).Draw(t, "text")
		b.WriteString(" " + text + "\n" + strings.Repeat(" ", deeper) + "and\n")
		return fmt.Sprintf("%q", text+" and")
	}
	b.WriteString(" ")
	out := writeFlow(t, b, 2*(form/6))
	b.WriteString(comment + "\n")
	return out
}

// writeFlow writes a scalar, a mapping in braces or a list in brackets.
func writeFlow(t *rapid.T, b *strings.Builder, depth int) string {
	form := rapid.IntRange(0, 4).Draw(t, "flow form")
	if depth == 0 && form > 2 {
		form -= 3
	}
	var parts []string
	switch form {
	case 0:
		text := rapid.SampledFrom(plains).Draw(t, "text")
		b.WriteString(text)
		return fmt.Sprintf("%q", text)
	case 1:
		text := rapid.SampledFrom(append(prose, plains...)).Draw(t, "text")
		b.WriteString("'" + strings.ReplaceAll(text, "'", "''") + "'")
		return fmt.Sprintf("%q", text)
	case 2:
		text := rapid.SampledFrom(append(prose, "two\nlines", "½\ttab")).Draw(t, "text")
		b.WriteString(`"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\t", `\t`).Replace(text) + `"`)
		return fmt.Sprintf("%q", text)
	case 3:
		b.WriteString("{")
		for i, k := range rapid.SliceOfNDistinct(rapid.SampledFrom(keys), 0, 3, rapid.ID).Draw(t, "flow keys") {
			b.WriteString(rapid.SampledFrom([]string{"", " "}).Draw(t, "blank") + map[bool]string{true: ", "}[i > 0] + k + ": ")
			parts = append(parts, fmt.Sprintf("%q=", k)+writeFlow(t, b, depth-1))
		}
		b.WriteString("}")
		return "{" + strings.Join(parts, " ") + "}"
	}
	b.WriteString("[")
	for i := range rapid.IntRange(0, 3).Draw(t, "flow items") {
		b.WriteString(map[bool]string{true: ", "}[i > 0])
		parts = append(parts, writeFlow(t, b, depth-1))
	}
	b.WriteString("]")
	return "[" + strings.Join(parts, " ") + "]"
}

func TestLimits(t *testing.T) {
	deep := strings.Repeat("[", MaxDepth+1) + strings.Repeat("]", MaxDepth+1)
	for _, c := range []struct {
		name, src string
		code      snag.Code
	}{
		{"size", "a: " + strings.Repeat("x", MaxBytes), "file-too-large"},
		{"brackets", "a: " + deep, "too-deep"},
		{"dashes", "a:\n  " + strings.Repeat("- ", MaxDepth+1) + "x", "too-deep"},
		{"keys", deepKeys(MaxDepth + 1), "too-deep"},
		{"encoding", "a: b\nc: \xff\n", "not-text"},
		{"controls", "a: b\nc: \x00\n", "not-text"},
		{"lone CR", "a: b\rc: d\n", "not-text"},
		{"nothing", "# nothing\n", "no-value"},
		{"a list", "- a\n", "missing-colon"},
	} {
		tree, snags := Parse("t.yaml", []byte(c.src))
		if len(snags) != 1 || snags[0].Code != c.code || len(snags[0].Mends) == 0 {
			t.Errorf("%s: %v", c.name, snags)
		}
		if tree.Root == nil || tree.Root.Kind != Map {
			t.Errorf("%s: no root", c.name)
		}
	}
	read(t, deepKeys(MaxDepth))
	read(t, "a: "+deep[2:len(deep)-2])
}

func deepKeys(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String() + strings.Repeat(" ", n) + "b"
}
