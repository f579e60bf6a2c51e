package shop

import (
	"strings"
	"testing"

	"scantling/internal/board"
	"scantling/internal/design"
)

// Cautions come of what is used and touched, and of nothing else.
func TestCautionsByUse(t *testing.T) {
	for _, c := range []struct {
		name        string
		use         design.Use
		finish      string
		title, says string // "": no such caution
	}{
		{"bare wood for nobody in particular", design.Use{}, "none", "", ""},
		{"an oil", design.Use{}, "linseed oil", "Oily rags", "catch fire"},
		{"a stain", design.Use{}, "Oil-based stain", "Oily rags", "metal can"},
		{"paint", design.Use{}, "outdoor paint", "", ""},
		{"food", design.Use{Touches: []design.Touch{{What: "food", On: []board.ID{"leg"}}}}, "", "Food", "Food lies on the leg: "},
		{"soil", design.Use{Touches: []design.Touch{{What: "soil", All: true}}}, "", "Soil for food", "against the whole piece: "},
		{"skin", design.Use{Touches: []design.Touch{{What: "skin", On: []board.ID{"leg"}}}}, "", "Skin", "splinters"},
		{"children", design.Use{Who: "children"}, "", "Children", "round every corner"},
		{"adults", design.Use{Who: "adults"}, "", "", ""},
	} {
		p := &design.Piece{Boards: []*design.Board{leg(t, 0, false)}, Use: c.use, Finish: design.Finish{With: c.finish, Coats: 1}}
		for _, x := range compute(p).Cautions {
			switch x.Title {
			case "Oily rags", "Food", "Soil for food", "Skin", "Children":
				if x.Title != c.title || !strings.Contains(x.Text.String(), c.says) {
					t.Errorf("%s: %s: %s", c.name, x.Title, x.Text)
				}
				c.title = ""
			}
		}
		if c.title != "" {
			t.Errorf("%s: no caution %q", c.name, c.title)
		}
	}
}
