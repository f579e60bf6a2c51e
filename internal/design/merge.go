package design

import (
	"strings"

	"scantling/internal/snag"
)

// merged makes one message of all places where one name is unknown: either it
// is misspelt everywhere, and one mend sets all right, or its declaration is
// missing, which is one mistake.
func merged(list snag.List) snag.List {
	first := map[string]int{}
	var out snag.List
	for _, s := range list.Sorted() {
		word, ok := quotedWord(s.What)
		if s.Code != "unknown-name" || !ok {
			out = append(out, s)
			continue
		}
		i, again := first[word]
		if !again {
			first[word] = len(out)
			s.Mends = append([]snag.Mend(nil), s.Mends...)
			out = append(out, s)
			continue
		}
		const most = 3 // places named; more would hide the message
		if len(out[i].Related) < most {
			out[i].Related = append(out[i].Related, snag.Related{At: s.At, Says: "it is named here too"})
		}
		if a, b := out[i].Mends, s.Mends; len(a) == 1 && len(b) == 1 && a[0].Says == b[0].Says && len(a[0].Edits) > 0 {
			a[0].Edits = append(append(a[0].Edits[:0:0], a[0].Edits...), b[0].Edits...)
		}
	}
	return out
}

// quotedWord returns what a message puts in quotation marks first.
func quotedWord(what string) (string, bool) {
	_, rest, ok := strings.Cut(what, "“")
	word, _, closed := strings.Cut(rest, "”")
	return word, ok && closed
}
