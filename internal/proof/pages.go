// Package proof builds a piece again from the pages of its plan, and says whether
// the boards fit.
//
// It is a carpenter who has the plan and nothing else. Pages holds what is printed:
// figures as they are read ("33 7/8\""), words ("right edge against the fence"), the
// marks of the steps. There is no exact number in it, no pose and no solid, so
// nothing of the design can leak into the verdict. From the pages every part is
// sawn again with a saw of the package's own (saw.go), in three ways that must all
// do: by the saw's setting, by the angle of the tip, by an offset and a rule. The
// boards are put together by the marks of the steps (assemble.go); then every joint
// is measured: how far its boards stand apart, how deep they run into one another,
// whether its holes meet (fit.go). What the words leave open is told, and the plan
// is then not proved.
//
// Beside that, Like compares what was built with the boards the designer drew,
// which a plan that fits together wrongly does not resemble (like.go), and Careful
// says which of the printed lengths the fit hangs on (tolerance.go).
//
// Start at Build.
package proof

import (
	"encoding/json"
	"fmt"
	"strings"

	"scantling/internal/measure"
)

// Allowed is the trade tolerance, in mm: a sixteenth of an inch. Source: common
// practice; it is the finest mark of a carpenter's tape.
const Allowed = 25.4 / 16

// Pages is what a plan prints, as plan.json holds it. Everything is text.
type Pages struct {
	Boards []Board `json:"boards"`
	Parts  []Part  `json:"parts"`
	Joints []Joint `json:"joints"`
	Steps  []Step  `json:"steps"`
}

// Read takes the printed pages out of a plan.json and leaves all else.
func Read(plan []byte) (*Pages, error) {
	p := &Pages{}
	if err := json.Unmarshal(plan, p); err != nil {
		return nil, fmt.Errorf("read the pages of plan.json: %w", err)
	}
	return p, nil
}

// A Figure is a printed number.
type Figure struct {
	Shown string `json:"shown"`
	How   string `json:"how"` // "cut to fit": measured on the work first
}

// mm returns a printed length in mm.
func (f Figure) mm() (float64, error) {
	q, err := measure.Parse(f.Shown)
	if err != nil {
		return 0, fmt.Errorf("%q is no length", f.Shown)
	}
	l, ok := q.Length()
	if !ok {
		return 0, fmt.Errorf("%q is no length", f.Shown)
	}
	return l.MM(), nil
}

// radians returns a printed angle.
func (f Figure) radians() (float64, error) {
	q, err := measure.Parse(f.Shown)
	if err != nil || q.D != measure.DimAngle {
		return 0, fmt.Errorf("%q is no angle", f.Shown)
	}
	return q.V * 1e-9 * degree, nil
}

// A Span is a stretch of prose: words, or a figure.
type Span struct {
	Words  string  `json:"words"`
	Number *Figure `json:"number"`
}

// Prose is a printed sentence.
type Prose []Span

// String returns a sentence as it is read.
func (p Prose) String() string {
	var b strings.Builder
	for _, s := range p {
		b.WriteString(s.Words)
		if s.Number != nil {
			b.WriteString(s.Number.Shown)
		}
	}
	return b.String()
}

// A Board is one board in place: of which part it is, what it is called, and which
// way round it goes.
type Board struct {
	ID     string `json:"id"`
	Part   string `json:"part"`
	Called string `json:"called"`
	Lies   Lies   `json:"lies"`
}

// Lies says which way round a board lies: what its first end and its show face are
// called.
type Lies struct {
	End  string `json:"end"`
	Face string `json:"face"`
}

// A Part is one part sheet.
type Part struct {
	Letter string   `json:"letter"`
	Name   string   `json:"name"`
	Hand   string   `json:"hand"`
	Twin   string   `json:"twin"`
	Thick  Figure   `json:"thickness"`
	Wide   Figure   `json:"width"`
	Long   Figure   `json:"length"`
	Short  *Figure  `json:"short_length"`
	Edge   *Figure  `json:"edge_length"`
	Drawn  Lies     `json:"drawn"` // as its sheet shows it
	Cuts   []Cut    `json:"cuts"`
	Holes  []Hole   `json:"holes"`
	Boards []string `json:"boards"`
}

// A Cut is one cut of a part: an angled end with its saw card, or something marked
// out with a rule.
type Cut struct {
	Kind     string  `json:"kind"`
	Name     string  `json:"name"`
	Words    Prose   `json:"words"`
	Setting  *Figure `json:"setting"`
	Included *Figure `json:"included"`
	Offset   *Figure `json:"offset"`
	Bevel    *Figure `json:"bevel"`
	Lean     *Figure `json:"lean"`
	Swing    string  `json:"swing"`
	FaceUp   string  `json:"face_up"`
	Fence    string  `json:"fence"`
	Keep     string  `json:"keep"`
	Long     string  `json:"long"`
	LongFace string  `json:"long_face"`
	ByMarks  bool    `json:"by_marks"`
	Marks    []Mark  `json:"marks"`
}

// A Mark is a distance with what it is measured from.
type Mark struct {
	Label string `json:"label"`
	At    Figure `json:"at"`
}

// A Hole is a hole of a part sheet.
type Hole struct {
	Kind    string `json:"kind"`
	Bit     Figure `json:"bit"`
	Depth   Figure `json:"depth"`
	Face    string `json:"face"`
	End     string `json:"end"`
	FromEnd Figure `json:"from_end"`
	Rim     string `json:"edge"`
	FromRim Figure `json:"from_edge"`
	Joint   string `json:"joint"`
	Words   Prose  `json:"words"`
}

// A Joint names the boards that are fastened to one another.
type Joint struct {
	Name  string `json:"name"`
	Pairs []struct {
		Boards [2]string `json:"boards"`
	} `json:"pairs"`
}

// A Step is one step of building.
type Step struct {
	Name   string   `json:"name"`
	Boards []string `json:"boards"`
	Marks  []Marks  `json:"marks"`
	Fasten []struct {
		Drill []Drill `json:"drill"`
	} `json:"fasten"`
	Again []Again `json:"again"`
}

// A Drill is where a step's bolts go through the board under their heads, in the words
// of that board in place.
type Drill struct {
	Board string `json:"board"`
	Holes []Hole `json:"holes"`
}

// An Again is a further doing of a step.
type Again struct {
	Marks []Marks `json:"marks"`
}

// Marks is what fixes a board, a row of boards, or what an earlier step made.
type Marks struct {
	Boards []string `json:"boards"`
	Called string   `json:"called"`
	Words  []Prose  `json:"words"`
}
