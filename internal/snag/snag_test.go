package snag

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"scantling/internal/span"
)

func at(src, marked string) span.Range {
	i := strings.Index(src, marked)
	return span.Range{File: "bench.yaml", Start: i, End: i + len(marked)}
}

func TestText(t *testing.T) {
	const src = "\uFEFFlegs: {½: 38 mm}\nmortise:\tdepth 40\nlong: " + "0123456789012345678901234567890123456789012345678901234567890123456789 here " + "and much more behind it so that the line must be cut\nbell: \x1b[31m\n"
	sources := Sources{"bench.yaml": []byte(src)}
	for _, c := range []struct {
		name string
		snag Snag
		want string
	}{
		{"the whole of it", Snag{Code: "too-deep", At: at(src, "depth 40"), What: "the mortise is 40 mm deep but the leg is 38 mm thick",
			Related: []Related{{at(src, "½"), "the leg gets its thickness here"}},
			Why:     "the wood behind it would break out",
			Mends:   []Mend{Say("use depth 25 mm or less"), Replace("write 25", at(src, "40"), "25")}},
			"bench.yaml:2:10: error: the mortise is 40 mm deep but the leg is 38 mm thick [too-deep]\n" +
				" 2 | mortise:\tdepth 40\n" +
				"   |         \t^^^^^^^^\n" +
				"bench.yaml:1:8: note: the leg gets its thickness here\n" +
				"why: the wood behind it would break out\n" +
				"mend: use depth 25 mm or less\n" +
				"mend: write 25\n"},
		{"columns count characters", Snag{Code: "x", Severity: Caution, At: at(src, ": 38"), What: "w"},
			"bench.yaml:1:9: caution: w [x]\n" +
				" 1 | legs: {½: 38 mm}\n" +
				"   |         ^^^^\n"},
		{"cannot tell, nowhere", Snag{Code: "x", Severity: Advice, CannotTell: true, What: "w"},
			"advice: cannot tell: w [x]\n"},
		{"an unknown file", Snag{Code: "x", At: span.Range{File: "prices.csv", Start: 3, End: 4}, What: "w"},
			"prices.csv: error: w [x]\n"},
		{"a long line is cut", Snag{Code: "x", At: at(src, "here"), What: "w"},
			"bench.yaml:3:78: error: w [x]\n" +
				" 3 | …2345678901234567890123456789012345678901234567890123456789 here and much more behind it so that the…\n" +
				"   |                                                             ^^^^\n"},
		{"a range over lines is marked on its first", Snag{Code: "x", At: at(src, "40\nlong"), What: "w"},
			"bench.yaml:2:16: error: w [x]\n" +
				" 2 | mortise:\tdepth 40\n" +
				"   |         \t      ^^\n"},
		{"an empty range shows one caret", Snag{Code: "x", At: span.Range{File: "bench.yaml", Start: len(src), End: len(src)}, What: "w"},
			"bench.yaml:5:1: error: w [x]\n" +
				" 5 |\n" +
				"   | ^\n"},
		{"a terminal gets no control characters", Snag{Code: "x", At: at(src, "bell"), What: "a\x1bb"},
			"bench.yaml:4:1: error: a·b [x]\n" +
				" 4 | bell: ·[31m\n" +
				"   | ^^^^\n"},
		{"long mends are wrapped", Snag{Code: "x", What: "w", Mends: []Mend{Say(strings.Repeat("0123456789 ", 12))}},
			"error: w [x]\n" +
				"mend: 0123456789 0123456789 0123456789 0123456789 0123456789 0123456789 0123456789 0123456789\n" +
				"      0123456789 0123456789 0123456789 0123456789\n"},
	} {
		if d := cmp.Diff(c.want, c.snag.Text(sources)); d != "" {
			t.Errorf("%s:\n%s", c.name, d)
		}
	}
}

// Any range of any text can be shown.
func TestTextNeverFails(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		src := []byte(strings.Join(rapid.SliceOf(rapid.SampledFrom([]string{"a", "½", "\n", "\r\n", "\t", "\xff", "\uFEFF", strings.Repeat("x", 90)})).Draw(t, "text"), ""))
		start := rapid.IntRange(-1, len(src)+1).Draw(t, "start")
		r := span.Range{File: "f", Start: start, End: start + rapid.IntRange(-1, len(src)).Draw(t, "length")}
		out := Snag{Code: "x", At: r, What: "w"}.Text(Sources{"f": src})
		for i, line := range strings.Split(out, "\n") {
			if i > 0 && len([]rune(line)) > 120 {
				t.Fatalf("a line of %d characters: %s", len([]rune(line)), line)
			}
		}
		if p := PlaceOf(src, start); p.Line < 1 || p.Column < 1 {
			t.Fatalf("place %v", p)
		}
	})
}

func TestSorted(t *testing.T) {
	place := func(start int) span.Range { return span.Range{File: "f", Start: start, End: start + 1} }
	a := Snag{Code: "a", Severity: Advice, At: place(1), What: "advice"}
	b := Snag{Code: "b", Severity: Error, At: place(5), What: "later"}
	c := Snag{Code: "c", Severity: Error, At: place(2), What: "first", Why: "kept"}
	again := c
	again.Why = "dropped"
	l := List{a, b, c, again, b}
	if d := cmp.Diff(List{c, b, a}, l.Sorted()); d != "" {
		t.Error(d)
	}
	if l.Errors() != 4 || l.Count(Advice) != 1 {
		t.Errorf("%d errors, %d advice", l.Errors(), l.Count(Advice))
	}
	if l[0].Code != "a" {
		t.Error("Sorted changed its receiver")
	}
}

func TestData(t *testing.T) {
	const src = "a: b\nc: d\n"
	s := Snag{Code: "no-value", Severity: Caution, At: at(src, "c"), What: "w",
		Mends: []Mend{Replace("do", at(src, "d"), "e"), Say("or not")}}
	got, err := json.Marshal(List{s}.Data(Sources{"bench.yaml": []byte(src)}))
	if err != nil {
		t.Fatal(err)
	}
	want := `[{"code":"no-value","severity":"caution","at":{"file":"bench.yaml","start":5,"end":6,"line":2,"column":1},"what":"w",` +
		`"mends":[{"says":"do","edits":[{"at":{"file":"bench.yaml","start":8,"end":9,"line":2,"column":4},"text":"e"}]},{"says":"or not"}]}]`
	if d := cmp.Diff(want, string(got)); d != "" {
		t.Error(d)
	}
}

// The catalogue is in order, complete in its words, and Explain finds each row.
func TestCodes(t *testing.T) {
	codes := Codes()
	if !slices.IsSortedFunc(codes, func(a, b Info) int { return strings.Compare(string(a.Code), string(b.Code)) }) {
		t.Error("codes are not in alphabetical order")
	}
	for i, c := range codes {
		if i > 0 && codes[i-1].Code == c.Code {
			t.Errorf("%s stands twice", c.Code)
		}
		if strings.Trim(string(c.Code), "abcdefghijklmnopqrstuvwxyz-") != "" || c.Title == "" || !strings.HasSuffix(c.Meaning, ".") {
			t.Errorf("%s: a code is lower-case words with dashes, with a title and whole sentences", c.Code)
		}
		if got, ok := Explain(c.Code); !ok || got != c {
			t.Errorf("Explain(%s) = %v, %v", c.Code, got, ok)
		}
	}
	if _, ok := Explain("no-such-code"); ok {
		t.Error("Explain knows no-such-code")
	}
}
