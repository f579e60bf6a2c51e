package source

import (
	"strings"
	"testing"
)

// A section of a design file, as long as a real one when repeated.
const section = `
  long_apron:                       # written: the front one
    of: frame_stock
    length: frame_length
    place: {runs: right, faces: front, front: frame_depth / 2 in front of middle, top: deck_underside}
    copies: [mirror: front-back]
    about: >
      Screwed to the short aprons, {length} long,
      and planed on the outside.
`

func BenchmarkParse(b *testing.B) {
	var src strings.Builder
	src.WriteString("parts:")
	for i := range 20 {
		src.WriteString(strings.Replace(section, "long_apron", "apron_"+string(rune('a'+i)), 1))
	}
	text := []byte(src.String())
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, snags := Parse("t.yaml", text); len(snags) > 0 {
			b.Fatal(snags[0].What)
		}
	}
}
