// Package doc_test runs every snippet of the design file's reference.
package doc_test

import (
	"encoding/json"
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"

	"scantling/internal/design"
	"scantling/internal/joint"
	"scantling/internal/snag"
	"scantling/internal/source"
)

// snippets are the fenced blocks of the reference marked yaml: the base, pieces
// that stand in addition to it (with), and pieces that must be refused (bad, with
// a code, at the line marked by an arrow).
var snippets = regexp.MustCompile("(?s)```yaml (base|with|bad)([^\n]*)\n(.*?)```")

const arrow = "# <- here"

func TestSnippetsOfTheReference(t *testing.T) {
	const file = "language.md"
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	base := ""
	found := map[string]int{}
	for _, at := range snippets.FindAllSubmatchIndex(text, -1) {
		kind, code, body := string(text[at[2]:at[3]]), strings.TrimSpace(string(text[at[4]:at[5]])), string(text[at[6]:at[7]])
		line := 1 + strings.Count(string(text[:at[6]]), "\n")
		found[kind]++
		t.Run(fmt.Sprintf("line %d %s %s", line, kind, code), func(t *testing.T) {
			if kind == "base" {
				base = body
			} else {
				body = add(base, body)
			}
			snags := check(file, body)
			if kind != "bad" {
				if snags.Errors() > 0 {
					t.Error(snags.Text(snag.Sources{file: []byte(body)}))
				}
				return
			}
			want := 1 + strings.Count(body[:strings.Index(body, arrow)], "\n")
			for _, s := range snags {
				if string(s.Code) == code && s.Severity == snag.Error && snag.PlaceOf([]byte(body), s.At.Start).Line == want {
					if len(s.Mends) == 0 {
						t.Errorf("%s has no mend", code)
					}
					return
				}
			}
			t.Errorf("no %s at line %d, but:\n%s", code, want, snags.Text(snag.Sources{file: []byte(body)}))
		})
	}
	if found["base"] != 1 || found["with"] < 15 || found["bad"] < 15 {
		t.Errorf("found %v", found)
	}
}

// check runs a design file as far as its joints.
func check(file, body string) snag.List {
	tree, snags := source.Parse(file, []byte(body))
	if tree == nil {
		return snags
	}
	piece, more := design.Open(tree).Evaluate(nil)
	snags = append(snags, more...)
	if piece == nil {
		return snags
	}
	m := joint.Meet(piece)
	_, more = joint.Find(piece, m)
	return append(append(snags, m.Snags()...), more...)
}

// add puts the sections of a snippet into those of the base: after their last
// line, or at the end.
func add(base, snippet string) string {
	names, bodies := sections(snippet)
	for _, name := range names {
		known, old := sections(base)
		if _, ok := old[name]; !ok {
			known = append(known, name)
			old[name] = name + ":\n"
		}
		_, body, _ := strings.Cut(bodies[name], "\n")
		old[name] = strings.TrimRight(old[name], "\n") + "\n" + body
		base = ""
		for _, k := range known {
			base += old[k]
		}
	}
	return base
}

var section = regexp.MustCompile(`(?m)^([a-z]+):`)

// sections cuts a file at its top-level names.
func sections(text string) (names []string, bodies map[string]string) {
	bodies = map[string]string{}
	at := section.FindAllStringSubmatchIndex(text, -1)
	for i, m := range at {
		end := len(text)
		if i+1 < len(at) {
			end = at[i+1][0]
		}
		name := text[m[2]:m[3]]
		names = append(names, name)
		bodies[name] = text[m[0]:end]
	}
	return names, bodies
}

// The table of all keys and the schema editors complete from say the same.
func TestAllKeysAreListed(t *testing.T) {
	text, err := os.ReadFile("language.md")
	if err != nil {
		t.Fatal(err)
	}
	_, table, found := strings.Cut(string(text), "## All keys\n")
	if !found {
		t.Fatal("no table of all keys")
	}
	listed := map[string]bool{}
	for _, line := range strings.Split(table, "\n") {
		if strings.HasPrefix(line, "|") {
			for _, m := range regexp.MustCompile("`([^`]+)`").FindAllStringSubmatch(line, -1) {
				listed[m[1]] = true
			}
		}
	}
	var schema any
	if err := json.Unmarshal(design.Schema(), &schema); err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{}
	gather(schema, known)
	for k := range known {
		if !listed[k] {
			t.Errorf("the key %q is accepted and not in the table of all keys", k)
		}
	}
	for k := range listed {
		if !known[k] && !beside[k] {
			t.Errorf("%q is in the table of all keys and is none", k)
		}
	}
}

// beside are the words of the table that are no keys of the schema: values, and
// keys of entries that take one of several forms, which a schema leaves open.
var beside = map[string]bool{
	"adults": true, "children": true, "paving": true,
	"none": true, "above ground": true, "ground contact": true, "stop": true, "warn": true, "where A meets B [meets C]": true,
	"to": true, "clearance": true, "cut": true, "highest": true, "lowest": true, "past": true, "mitre": true, "bevel": true, "long point": true,
}

// gather collects the names of all properties of a JSON schema.
func gather(x any, into map[string]bool) {
	switch x := x.(type) {
	case map[string]any:
		if props, ok := x["properties"].(map[string]any); ok {
			for name := range props {
				into[name] = true
			}
		}
		for _, v := range x {
			gather(v, into)
		}
	case []any:
		for _, v := range x {
			gather(v, into)
		}
	}
}
