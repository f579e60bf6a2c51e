package tidy

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/snag"
	"scantling/internal/source"
)

func TestTidy(t *testing.T) {
	for _, c := range []struct{ name, src, want string }{
		{"blanks at ends", "a: b  \nc: d # note \t\n", "a: b\nc: d # note\n"},
		{"no end of line", "a: b", "a: b\n"},
		{"empty lines", "\n\na: b\n\n\n\nc: d\n\n", "a: b\n\nc: d\n"},
		{"blank lines", "a: b\n  \n\t\nc: d\n", "a: b\n\nc: d\n"},
		{"a section", "a: b\nlet:\n  c: d\nlumber:\n  e: {f: g}\nfinish: none\n", "a: b\n\nlet:\n  c: d\n\nlumber:\n  e: {f: g}\nfinish: none\n"},
		{"sections of one line stay together", "a: b\nc: {d: e}\nf: [g]\n", "a: b\nc: {d: e}\nf: [g]\n"},
		{"a list in its key's column", "a: b\nneed:\n- c\n- d\n", "a: b\n\nneed:\n- c\n- d\n"},
		{"a section's comment", "let:\n  c: d\n  # more to come\n# what it is made of\n#\n# all dry\nlumber:\n  e: f\n",
			"let:\n  c: d\n  # more to come\n\n# what it is made of\n#\n# all dry\nlumber:\n  e: f\n"},
		{"a comment that stands apart", "# a bench\n\n\nlet:\n  c: d\n# end\n\nlumber:\n  e: f\n", "# a bench\n\nlet:\n  c: d\n# end\n\nlumber:\n  e: f\n"},
		{"the first section", "# a bench\nlet:\n  c: d\n", "# a bench\nlet:\n  c: d\n"},
		{"tabs in the indentation", "let:\n\ta: b\n\tc:\n\t\td: e\n", "let:\n  a: b\n  c:\n    d: e\n"},
		{"tabs elsewhere", "a:\tb\t# c\td\n\t# e\nf: {g:\th}\n", "a: b # c\td\n  # e\nf: {g: h}\n"},
		{"a tab in a text", "a: b\tc\n", "a: b\tc\n"},
		{"what is lined up", "a:   b     # c\nde:  f     # g\nh: { i: j }\n", "a:   b     # c\nde:  f     # g\nh: { i: j }\n"},
		{"a folded text", "a: >  \n  one \n\n\n  two  \n\n\nb: c\n", "a: >\n  one \n\n\n  two  \n\nb: c\n"},
		{"a literal text", "a: | # note \n  one\n   \n  # two\t\n\n", "a: | # note\n  one\n   \n  # two\t\n"},
		{"a text in quotes", "a: \"one  \n\n\n  two \"  \nb: 'c  '\n", "a: \"one  \n\n\n  two \"\nb: 'c  '\n"},
		{"a plain text over several lines", "a: one  \n\n\n  two  \nb: c\n", "a: one\n\n\n  two\nb: c\n"},
		{"between braces", "a: {b: c,  \n\n\n  d: e}\n", "a: {b: c,\n\n  d: e}\n"},
		{"carriage returns", "a: b \r\nlet:\r\n  c: d\r\n\r\n", "a: b\r\n\r\nlet:\r\n  c: d\r\n"},
		{"a byte order mark", "\uFEFFa: b \n", "\uFEFFa: b\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, snags := Tidy("t.yaml", []byte(c.src))
			if len(snags) > 0 || string(got) != c.want {
				t.Errorf("%q\n got %q\nwant %q\n%v", c.src, got, c.want, snags)
			}
			if len(snags) == 0 {
				unchanged(t, c.src, string(got))
			}
		})
	}
}

// A file that cannot be read is left to a person.
func TestRefuses(t *testing.T) {
	for _, c := range []struct {
		src  string
		code snag.Code
	}{
		{"a: b\na: c\n", "duplicate-key"},
		{"a: {b: c\n", "unclosed"},
		{"let:\n\ta: screw #10\n", "tab"},
		{"---\na: b\n", "yaml-mark"},
		{"", "no-value"},
	} {
		got, snags := Tidy("t.yaml", []byte(c.src))
		if got != nil || len(snags) == 0 || snags[0].Code != c.code || snags[0].At.File != "t.yaml" {
			t.Errorf("%q: %q, %v; want %s", c.src, got, snags, c.code)
		}
	}
}

// outline prints a tree: what it says and in which style.
func outline(n *source.Node) string {
	var parts []string
	if n.Kind == source.Scalar {
		return fmt.Sprintf("%d%q", n.Style, n.Text)
	}
	for i, item := range n.Items {
		if n.Kind == source.Map {
			parts = append(parts, outline(n.Keys[i])+"=")
		}
		parts = append(parts, outline(item))
	}
	return fmt.Sprintf("%v(%s)", n.Kind, strings.Join(parts, " "))
}

// unchanged checks that a tidied file says what it said, has the same bytes but
// for blanks and line ends, and has nothing left to tidy.
func unchanged(t interface {
	Helper()
	Fatalf(string, ...any)
}, src, got string) {
	t.Helper()
	was, snags := source.Parse("t.yaml", []byte(src))
	for _, s := range snags {
		if s.Code != "tab" {
			t.Fatalf("%q was tidied though it cannot be read: %s", src, s.What)
		}
	}
	is, snags := source.Parse("t.yaml", []byte(got))
	if len(snags) > 0 || outline(was.Root) != outline(is.Root) {
		t.Fatalf("%q\ntidied is %q\nand says %s\ninstead of %s\n%v", src, got, outline(is.Root), outline(was.Root), snags)
	}
	if bare(src) != bare(got) {
		t.Fatalf("%q\ntidied is %q: more than blanks changed", src, got)
	}
	again, snags := Tidy("t.yaml", []byte(got))
	if len(snags) > 0 || string(again) != got {
		t.Fatalf("%q\ntidied is %q\ntwice %q\n%v", src, got, again, snags)
	}
	if strings.HasPrefix(got, "\n") || !strings.HasSuffix(got, "\n") {
		t.Fatalf("%q begins with an empty line or does not end its last", got)
	}
}

func bare(s string) string {
	return strings.NewReplacer(" ", "", "\t", "", "\r", "", "\n", "").Replace(s)
}

func examples(t *testing.T) map[string]string {
	t.Helper()
	paths, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	all := map[string]string{}
	for _, p := range paths {
		src, err := os.ReadFile(p)
		if err != nil {
			t.Fatal(err)
		}
		all[p] = string(src)
	}
	return all
}

func TestExamplesAreTidy(t *testing.T) {
	for name, src := range examples(t) {
		got, snags := Tidy(name, []byte(src))
		if len(snags) > 0 || string(got) != src {
			t.Errorf("%s is not tidy: %v", name, snags)
		}
	}
}

// A tidy file with blanks strewn over it comes back as it was.
func TestStrewnBlanks(t *testing.T) {
	for name, src := range examples(t) {
		tree, _ := source.Parse(name, []byte(src))
		l := newLayout(tree)
		lines := strings.SplitAfter(src, "\n")
		rapid.Check(t, func(t *rapid.T) {
			strew := rapid.SliceOfN(rapid.SampledFrom([]string{"", "", " ", "\t", "  \t "}), len(lines), len(lines)).Draw(t, "blanks")
			empty := rapid.SliceOfN(rapid.SampledFrom([]string{"", "\n", " \n\n"}), len(lines), len(lines)).Draw(t, "empty lines")
			var b strings.Builder
			at := 0
			for i, line := range lines {
				at += len(line)
				body, ended := strings.CutSuffix(line, "\n")
				b.WriteString(body)
				if text := l.within(at - 2); !ended || text != nil && text.verbatim {
					b.WriteString(line[len(body):])
					continue
				}
				b.WriteString(strew[i] + "\n")
				if body == "" || i == len(lines)-2 {
					b.WriteString(empty[i])
				}
			}
			got, snags := Tidy(name, []byte(b.String()))
			if len(snags) > 0 || string(got) != src {
				t.Fatalf("%v\n%.2000s", snags, got)
			}
		})
	}
}

// Files put together from pieces, most of them readable: whatever is tidied
// still says the same.
func TestRandomFiles(t *testing.T) {
	pieces := []string{"a:", "b: ", "- ", "  ", " ", "\t", "\n", "\n\n", "\n  ", "# note", " #x ", "c", "d: e", "{", "}", "[", "]", ", ", ">", "|", "|+",
		"\"", "'", "\r\n", "x y", ":", "f:\n  g: h\n", "  i: >\n    j \n\n    k\n", "\\ "}
	read := 0
	rapid.Check(t, func(t *rapid.T) {
		src := "a: b\n" + strings.Join(rapid.SliceOfN(rapid.SampledFrom(pieces), 0, 14).Draw(t, "pieces"), "")
		got, snags := Tidy("t.yaml", []byte(src))
		if len(snags) == 0 {
			read++
			unchanged(t, src, string(got))
		}
	})
	if read < 10 {
		t.Errorf("only %d files could be read", read)
	}
}

func FuzzTidy(f *testing.F) {
	for _, s := range []string{"a: b \n\n\nc:\n  - d\n", "a: >\n  b \n\n   \n c: d", "a: \"b\\ \n  c\" \n", "a: {b: c,\n\n#d\n\t e: f}", "\tlet:\n\t\ta: b", "a: b\r\n\r\nc: |\r\n  d \r\n"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		got, snags := Tidy("t.yaml", src)
		if len(snags) == 0 {
			unchanged(t, string(src), string(got))
		}
	})
}
