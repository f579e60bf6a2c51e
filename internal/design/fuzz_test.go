package design

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"scantling/internal/source"
)

// Whatever stands in a file, evaluating it ends soon, without a panic, with
// messages that point into the file.
func FuzzEvaluate(f *testing.F) {
	f.Add(stand)
	f.Add(trestle)
	f.Add(fixed)
	for _, c := range spoilings {
		f.Add(strings.Replace(stand, c.old, c.new, 1))
	}
	for _, c := range rules {
		f.Add(prelude + c.file)
	}
	for _, c := range cutsBySize {
		f.Add(prelude + post(c.cut))
	}
	for _, c := range cutsThatDoNotFit {
		f.Add(prelude + post(c.cut))
	}
	files, _ := filepath.Glob("../../examples/*.yaml")
	further, _ := filepath.Glob("../../examples/further/*.yaml")
	files = append(files, further...)
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(src))
	}
	f.Fuzz(func(t *testing.T, text string) {
		tree, list := source.Parse("stand.yaml", []byte(text))
		piece, more := Open(tree).Evaluate(Settings{{"width", "20\""}})
		if piece == nil {
			t.Fatal("no piece")
		}
		for _, s := range append(list, more...) {
			if s.At.Start < 0 || s.At.End < s.At.Start || s.At.End > len(text) || s.What == "" {
				t.Fatalf("%+v", s)
			}
		}
		for _, b := range piece.Boards {
			if b.Solid == nil || b.Spoken == "" || b.ID == "" {
				t.Fatalf("half a board: %+v", b)
			}
		}
	})
}

// Files made to run away are refused or done with: their work is bounded by the
// counts the language allows, not by what they ask for.
func TestRunaways(t *testing.T) {
	var lets, mirrors, chain strings.Builder
	for i := range 200 {
		a := "a" + strings.Repeat("x", i)
		lets.WriteString("  " + a + "x: " + a + " + " + a + "\n")
		mirrors.WriteString("{mirror: left-right, about: 1\" right of middle}, ")
		chain.WriteString("  b" + strings.Repeat("x", i+1) + ": {like: b" + strings.Repeat("x", i) + "}\n")
	}
	for _, c := range []struct{ name, file, code string }{
		{"sums that double", "let:\n  a: 1\"\n" + lets.String(), ""},
		{"mirrors that double", "parts:\n  b: {of: two_by_four, length: 9\", place: {runs: back, faces: up, middle: middle, bottom: floor}, copies: [" + mirrors.String() + "turn: 180°]}\n", "absurd-count"},
		{"likes of likes", "parts:\n  b: {of: two_by_four, length: 9\", place: {runs: back, faces: up, middle: middle, bottom: floor}}\n" + chain.String(), "like-loop"},
		{"brackets", "let:\n  a: " + strings.Repeat("(", 3000) + "1" + strings.Repeat(")", 3000) + "\n", "measure-too-long"},
		{"not not", "let:\n  a: " + strings.Repeat("not ", 900) + "yes\n", "measure-too-long"},
		{"a number too great", "let:\n  a: 1e300\n", "bad-number"},
		{"powers", "let:\n  a: 1000000 * 1000000 * 1000000 * 1000000 * 1000000 * 1000000\n  b: a * a * a * a * a * a * a * a * a * a\n", "no-number"},
		{"marks by marks", "parts:\n  b: {of: two_by_four, length: 9\", place: {runs: up, faces: front, bottom: floor}, ends: {bottom: floor}, copies: [every: {of: left, from: 0\", toward: right, each: 4\", to: 3000\"}, every: {of: front, from: 0\", toward: back, each: 2\", to: 1500\"}]}\n", "absurd-count"},
	} {
		tree, list := source.Parse("rule.yaml", []byte(prelude+c.file))
		_, more := Open(tree).Evaluate(nil)
		found := c.code == ""
		for _, s := range append(list, more...) {
			found = found || string(s.Code) == c.code
		}
		if !found || c.code == "" && len(list)+len(more) > 0 {
			t.Errorf("%s: no %s among %v", c.name, c.code, append(list, more...))
		}
	}
}
