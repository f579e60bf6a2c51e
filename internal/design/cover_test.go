package design

import (
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"scantling/internal/expr"
	"scantling/internal/region"
	"scantling/internal/source"
)

// A cover counts how often the examples use each form of the language.
type cover map[string]int

// Every key, every word a key takes, every word of a phrase, every kind of measure,
// every function and every reading the evaluator accepts is used by an example: a form
// without a natural use in any piece should not be there. What forms there are is read
// from the tables and the parser themselves.
func TestExamplesUseEveryForm(t *testing.T) {
	c := cover{}
	c.forms(t)
	files, err := filepath.Glob("../../examples/*.yaml")
	further, _ := filepath.Glob("../../examples/further/*.yaml")
	if err != nil || len(files) < 5 || len(further) < 6 {
		t.Fatal(files, further, err)
	}
	for _, f := range append(files, further...) {
		src, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		tree, _ := source.Parse(f, src)
		if e, _ := tree.Edition(region.America); e != nil {
			tree = e
		}
		c.table(pieceTable, tree.Root)
		for _, n := range tree.Scalars {
			c.scalar(n)
		}
	}
	for _, form := range slices.Sorted(maps.Keys(c)) {
		if c[form] == 0 {
			t.Errorf("no example uses %s", form)
		}
	}
	if len(c) < 300 {
		t.Errorf("only %d forms were found", len(c))
	}
}

// forms enters all there are, unused.
func (c cover) forms(t *testing.T) {
	seen := map[*table]bool{}
	var enter func(*table)
	enter = func(tab *table) {
		if seen[tab] {
			return
		}
		seen[tab] = true
		for _, k := range tab.keys {
			c[called(tab, &k)] += 0
			for _, w := range distinct(&k) {
				c[called(tab, &k)+": "+w] += 0
			}
			if k.table != nil {
				enter(k.table)
			}
		}
	}
	enter(pieceTable)
	enter(endTable)
	enter(useTableOfGroups)
	for _, w := range append(append(slices.Clone(readings), rowReadings...), "setting", "depth") {
		c[read(w)] = 0
	}
	files, _ := filepath.Glob("read*.go")
	words := regexp.MustCompile(`\.Words?\("([^"]+)"\)`)
	for _, f := range files {
		src, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range words.FindAllStringSubmatch(string(src), -1) {
			c["phrase: "+m[1]] = 0
		}
	}
	scan, err := os.ReadFile("../expr/scan.go")
	if err != nil {
		t.Fatal(err)
	}
	list := regexp.MustCompile(`(?s)var functions = \[\]string\{(.*?)\}`).FindSubmatch(scan)
	for _, m := range regexp.MustCompile(`"(\w+)"`).FindAllSubmatch(list[1], -1) {
		c[string(m[1])+"()"] = 0
	}
	for _, x := range []string{"quoted", "+", "-", "*", "/", "sign", "in from", "out from", "at level", "at side", "flush with", "against",
		"<", "<=", ">", ">=", "is", "is not", "not", "and", "or", "if", "face check", "edge check", "end check", "first", "last", "other", "2nd", "through a group", "adjectives through a group"} {
		c["measure: "+x] = 0
	}
	for d := expr.Left; d <= expr.Top; d++ {
		c["measure: shift "+d.Toward()] = 0
	}
	c["measure: way"] = 0
}

var useTableOfGroups = &table{"a use", useKeys}

// table counts the keys of a mapping, and goes down where the schema does.
func (c cover) table(t *table, n *source.Node) {
	if n == nil || n.Kind != source.Map {
		return
	}
	for i, key := range n.Keys {
		k, v := t.find(key.Text), n.Items[i]
		if k == nil {
			continue
		}
		c[called(t, k)]++
		for _, w := range distinct(k) {
			if v.Kind == source.Scalar && v.Text == w {
				c[called(t, k)+": "+w]++
			}
		}
		switch {
		case k.name == "points":
			for _, item := range v.Items {
				c.table(pointTable, item)
			}
		case k.form == asTable:
			c.table(k.table, v)
		case k.form == asNamed || k.name == "ends" || k.name == "uses" || k.name == "except":
			inner := k.table
			switch k.name {
			case "ends":
				inner = endTable
			case "uses":
				inner = useTableOfGroups
			case "except":
				inner = partTable
			}
			for _, item := range v.Items {
				for _, one := range listOf(item) {
					c.table(inner, one)
				}
			}
		case k.form == asList:
			for _, item := range listOf(v) {
				c.table(k.table, item)
			}
		}
	}
}

// called names a key: those of every board under one name, and the six sides as one.
func called(t *table, k *key) string {
	what, name := t.what, k.name
	if slices.ContainsFunc(boardKeys, func(b key) bool { return b.name == name }) && (t == partTable || t == rowTable || t == fieldTable) {
		what = "a board"
	}
	name, side := strings.TrimPrefix(name, "keeps "), ""
	if name != k.name {
		side = "keeps "
	}
	if slices.Contains(sides, name) {
		return what + ": " + side + "SIDE"
	}
	return what + ": " + k.name
}

// distinct are the words of a key that each say another thing: not the six sides
// and directions, which the mirror world turns into one another, and not what holds
// when nothing is said.
func distinct(k *key) (out []string) {
	for _, w := range k.words {
		if !slices.Contains(sides, w) && !slices.Contains(directions, w) && !slices.Contains(mirrors, w) &&
			!slices.Contains([]string{"no", "none", "square on", "stop", "adults", "halved"}, w) {
			out = append(out, w)
		}
	}
	return out
}

// read names a reading: a side, an extreme, or a word of its own.
func read(word string) string {
	switch {
	case slices.Contains(sides, word):
		return ".SIDE"
	case slices.Contains(mostWords[:], word):
		return ".MOST"
	}
	return "." + word
}

func listOf(n *source.Node) []*source.Node {
	if n.Kind == source.List {
		return n.Items
	}
	return []*source.Node{n}
}

// scalar counts what a text says: words of phrases, and the measures in it.
func (c cover) scalar(n *source.Node) {
	for form := range c {
		if w, ok := strings.CutPrefix(form, "phrase: "); ok && hasWord(strings.NewReplacer(",", " ", ":", " ").Replace(" "+n.Text+" "), w) || ok && strings.Contains(" "+n.Text+" ", " "+w+" ") {
			c[form]++
		}
	}
	if x, p := expr.Parse(n.Text); p == nil {
		c.measure(x)
	}
	chunks, _ := expr.ParseText(n.Text)
	for _, k := range chunks {
		if k.X != nil {
			c.measure(k.X)
		}
	}
	for _, part := range strings.Split(strings.TrimPrefix(n.Text, "where "), " meets ") { // of a point
		if x, p := expr.Parse(part); p == nil {
			c.measure(x)
		}
	}
}

func (c cover) measure(x expr.Expr) {
	expr.Walk(x, func(x expr.Expr) bool {
		use := func(what string) { c["measure: "+what]++ }
		switch x := x.(type) {
		case *expr.Quoted:
			use("quoted")
		case *expr.Arith:
			use(string(x.Op))
		case *expr.Sign:
			use("sign")
		case *expr.Call:
			c[x.Func.Text+"()"]++
		case *expr.Shift:
			use("shift " + x.Way.Toward())
		case *expr.Inset:
			use(map[bool]string{false: "in from", true: "out from"}[x.Out])
		case *expr.Level:
			use(map[bool]string{false: "at level", true: "at side"}[x.Side])
		case *expr.Meet:
			use(map[bool]string{false: "flush with", true: "against"}[x.Against])
		case *expr.Compare:
			use(x.Op)
		case *expr.Not:
			use("not")
		case *expr.Logic:
			use(map[bool]string{false: "and", true: "or"}[x.Or])
		case *expr.Cond:
			use("if")
		case *expr.Ref:
			for _, w := range x.Path[1:] {
				if _, known := c[read(w.Text)]; known {
					c[read(w.Text)]++
				}
			}
			if x.Check != "" {
				use(x.Check + " check")
			}
			if len(x.Inner) > 0 {
				use("adjectives through a group")
			}
			if len(x.Path) > 2 {
				use("through a group")
			}
			for _, w := range x.Select {
				switch {
				case ordinal(w.Text):
					use("2nd")
				case w.Text == "first" || w.Text == "last" || w.Text == "other":
					use(w.Text)
				}
			}
		}
		return true
	})
}
