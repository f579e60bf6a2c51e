//go:build !js

package internal_test

import (
	"context"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"scantling/internal/plan"
	"scantling/internal/snag"
)

// stand is the piece that the catalogue's examples are a part of: an example that
// begins with blanks belongs in one of its boards, rows or joints, one that does
// not replaces or adds to its sections, and one that begins with piece: stands
// alone.
const stand = `piece: Crate stand
units: inch
sizes:
  width: {is: 24", from: 18", to: 36", by: 1"}
  height: {is: 12", from: 8", to: 18"}
choices:
  panel: {is: straight, of: [straight, diagonal]}
let:
  depth: 16"
  shelf: height above floor
  left_end: width / 2 left of middle
  right_end: width / 2 right of middle
lumber:
  frame: {size: 2x4, wood: southern pine}
  board: {size: 1x6, wood: southern pine}
points:
  a: where left_end meets 0" behind middle meets floor
  b: where 1" right of left_end meets 2" behind middle meets floor
  c: where 20" right of left_end meets 20" behind middle meets floor
  d: where 20" right of left_end meets 0" behind middle meets floor
parts:
  leg:
    of: frame
    place: {runs: up, faces: front, lean: foot 6° toward left, left: width / 2 left of middle at level shelf, front: depth / 2 in front of middle}
    ends: {bottom: floor, top: shelf}
    copies: [mirror: left-right, mirror: front-back]
  rail:
    of: frame
    place: {runs: right, faces: front, front: against leg.back, top: shelf}
    ends: {left: flush with leg.left, right: flush with front right leg.right}
    copies: [mirror: front-back]
  brace:
    when: panel is diagonal
    of: frame
    length: 8"
    place: {runs: back, faces: up, middle: 6" right of middle, bottom: floor}
  tray:
    of: board
    length: 8"
    place: {runs: back, faces: up, middle: middle, bottom: 2" above floor}
    cuts: {clear: {notch round: post, hole: yes}}
  post:
    of: frame
    width: 1"
    length: 6"
    place: {runs: up, faces: front, front: 0" behind middle, left: middle}
    ends: {bottom: floor}
  beam:
    of: frame
    length: 20"
    place: {runs: right, faces: front, front: 5" behind middle, bottom: 2" above floor}
rows:
  slat:
    of: board
    length: depth + 1"
    place: {runs: back, faces: up, bottom: shelf}
    fill: {along: right, from: left_end, to: right_end}
    gap: {about: 1/2", from: 1/8", to: 2", leftover: even}
joints:
  screws:
    join: [rail, leg]
    with: screw 8 x 2 1/2
    through: rail
    pattern: {count: 2}
steps:
  - {name: Frames, add: [leg, rail, tray, post, beam]}
  - {name: Slats, add: slat}
  - {name: Brace, when: panel is diagonal, add: brace}
`

// Every example of the catalogue brings about the code it stands for; a row
// without one says why it has none.
func TestExamplesOfTheCatalogue(t *testing.T) {
	sound := planned(t, stand, plan.Settled)
	var pinned strings.Builder
	for _, c := range snag.Codes() {
		if c.Example == "" {
			if !strings.Contains(c.Meaning, "no example") && noExample[c.Code] == "" {
				t.Errorf("%s has no example, and nothing says why", c.Code)
			}
			continue
		}
		has := func(s snag.Snag) bool { return s.Code == c.Code }
		if slices.ContainsFunc(sound, has) && !strings.HasPrefix(c.Example, "piece:") {
			t.Errorf("the piece the examples belong to has %s itself", c.Code)
		}
		found, last := "", snag.List(nil)
		for _, want := range []plan.Want{plan.Live, plan.Settled} {
			for _, text := range placed(c.Example) {
				if last = planned(t, text, want); c.Code == "price-book" {
					last = priced(t, c.Example)
				}
				if i := slices.IndexFunc(last, has); i >= 0 {
					found = text
					if want == plan.Live { // of the file itself: its words and its place stay
						pinned.WriteString("== " + string(c.Code) + "\n" + last[i:i+1].Text(snag.Sources{"t.yaml": []byte(text)}) + "\n")
					}
					break
				}
			}
			if found != "" {
				break
			}
		}
		if found == "" {
			t.Errorf("the example of %s does not bring it about:\n%s\n%s", c.Code, c.Example, last.Text(nil))
		}
	}
	golden(t, "refusals.golden", pinned.String())
}

// What is wrong with a file itself is told in these words, at these lines and
// columns: run with -update to write them anew, and read what changed.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (- want, + got):\n%s", name, diff)
	}
}

var update = flag.Bool("update", false, "write the golden file anew")

// noExample says of codes without an example why they have none.
var noExample = map[snag.Code]string{
	"bad-setting":       "comes of --set, not of a file",
	"cannot-set-out":    "a guard: no design is known that comes to it",
	"fasteners-crowd":   "takes four joints in one corner",
	"fasteners-meet":    "takes two joints whose screws cross",
	"fasteners-moved":   "takes two joints whose screws cross",
	"fasteners-near":    "takes two joints whose screws cross",
	"file-too-large":    "would be over 1 MiB",
	"no-short-boards":   "comes of --car, not of a file",
	"holes-apart":       "a mistake of the program: no design is known that comes to it",
	"lap-shut-in":       "takes a bar let into a slot of another",
	"layout-refused":    "a mistake of the program: no design is known that comes to it",
	"marks-missing":     "takes a board askew to all that is there: too long to be read",
	"measured-off":      "comes of --board, not of a file",
	"not-proved":        "takes boards sawn to a point, or askew to all that is there: too long to be read",
	"on-hand-unused":    "comes of --have, not of a file",
	"measure-too-long":  "would be thousands of characters",
	"sampled":           "takes nine sizes",
	"tucks-neither-way": "takes two corners cut for it",
	"tucks-two-ways":    "takes two corners cut for it",
	"two-mates":         "takes two copies as near to one end as each other",
	"too-deep":          "would be 64 brackets deep",
}

func planned(t *testing.T, text string, want plan.Want) snag.List {
	t.Helper()
	p, err := plan.Open("t.yaml", []byte(text)).Run(context.Background(), plan.Options{Want: want})
	if err != nil {
		t.Fatal(err)
	}
	return p.Snags
}

// priced plans the stand by a price book.
func priced(t *testing.T, book string) snag.List {
	t.Helper()
	p, err := plan.Open("t.yaml", []byte(stand)).Run(context.Background(), plan.Options{Want: plan.Settled, Prices: []byte(book), PricesFile: "prices.csv"})
	if err != nil {
		t.Fatal(err)
	}
	return p.Snags
}

var (
	section = regexp.MustCompile(`(?m)^[a-z]+:`)
	entry   = regexp.MustCompile(`(?m)^  [a-z][a-z_ ]*:`)
	outer   = regexp.MustCompile(`(?m)^ {0,2}\S`)
	key     = regexp.MustCompile(`(?m)^    [a-z]+:`)
)

// placed returns the texts an example may stand for: alone, among the sections of
// stand, or in one of its boards, rows and joints.
func placed(example string) []string {
	texts := []string{example}
	if !strings.HasPrefix(example, "    ") {
		return append(texts, merged(stand, example, section, func(old, new string) string {
			if !entry.MatchString(new) {
				return new // a list, or one value
			}
			return merged(old, new, entry, nil)
		}))
	}
	for _, at := range entry.FindAllStringIndex(stand, -1) {
		body := stand[at[0]:]
		line := strings.Index(body, "\n") + 1
		if end := outer.FindStringIndex(body[line:]); end != nil {
			body = body[:line+end[0]]
		}
		texts = append(texts, strings.Replace(stand, body, merged(body, example, key, nil), 1))
	}
	return texts
}

// merged replaces the chunks of a text by those of another with the same head;
// what has no counterpart is added at the end. both joins two chunks of one head.
func merged(text, with string, head *regexp.Regexp, both func(old, new string) string) string {
	lead, names, chunks := split(text, head)
	_, more, theirs := split(with, head)
	for _, n := range more {
		old, ok := chunks[n]
		switch {
		case !ok:
			names = append(names, n)
			chunks[n] = theirs[n]
		case both != nil:
			chunks[n] = both(old, theirs[n])
		default:
			chunks[n] = theirs[n]
		}
	}
	for _, n := range names {
		lead += chunks[n]
	}
	return lead
}

func split(text string, head *regexp.Regexp) (lead string, names []string, chunks map[string]string) {
	chunks = map[string]string{}
	at := head.FindAllStringIndex(text, -1)
	if at == nil {
		return text, nil, chunks
	}
	for i, m := range at {
		end := len(text)
		if i+1 < len(at) {
			end = at[i+1][0]
		}
		name := text[m[0]:m[1]]
		names = append(names, name)
		chunks[name] = text[m[0]:end]
	}
	return text[:at[0][0]], names, chunks
}
