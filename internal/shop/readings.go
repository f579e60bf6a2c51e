// Package shop is where exact geometry becomes what a person reads at the saw:
// lengths to a sixteenth, angles to half a degree, the words for every cut, the
// marks that fix each board in its step, and the sentences of the plan.
//
// It is the only package that rounds, and it rounds once: whatever comes after
// it, cutting and buying too, works with the printed figure. Every number it
// prints keeps the exact quantity and the scalars of the design file it follows
// from. Start at Compute; Pen prints a single number.
package shop

import (
	"strconv"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/joint"
	"scantling/internal/measure"
	"scantling/internal/snag"
	"scantling/internal/span"
)

// Origin says how a printed number is come by.
type Origin = board.Origin

const (
	Reference = board.Reference // follows from other numbers; for checking
	Fixed     = board.Fixed     // written by the designer: make it so
	ToFit     = board.ToFit     // taken from the work: measure there first, then cut
)

// A Shown is one number as a person reads it: the exact quantity, the text it
// is printed as, and the scalars of the design file it was computed from.
type Shown struct {
	Exact  measure.Quantity
	Text   string // plain text form, as pdftotext should give it back
	Origin Origin
	From   span.Set
}

// A Span is a stretch of prose: literal words, or one number.
type Span struct {
	Words string
	Shown *Shown // nil for words
}

// Text is prose whose numbers can still be traced; it is never flattened
// before it reaches paper or a screen.
type Text []Span

// Readings is everything the plan of one piece says, rounded as it is printed.
// Book, drawings and plan.json print it; none of them computes.
type Readings struct {
	Piece    string
	About    Text
	Units    string // "inches"
	Lang     string // BCP 47: "en-GB"
	Pen      Pen    // what every number here is written with
	Revision string
	Date     string
	Care     []Text // where a sixteenth matters; empty until the whole book is made
	Ready    bool   // false: some error stands, every page says "not buildable yet"

	Overall  [3]Shown // width, depth, height of the hull of everything
	Mass     Shown
	Facts    []Text // sentences for the front
	Sizes    []Size
	Choices  []Choice
	Needs    []Need    // what the design asks of its sizes
	Cautions []Caution // read this first
	Stocks   []StockReading
	Buy      Buy
	Parts    []*Part
	Boards   []*BoardReading // every board in place, in file order
	Bits     []Shown         // drill bits the holes take, smallest first
	Fixed    []geom.Placed   // hardware whose size the file gives, in place
	Saw      Saw
	Steps    []Step
	Jigs     []Jig
	Joints   []Joint
	Notes    []Note
	Changes  []Change
	Finish   Text // coats, area, waiting; empty for bare wood
}

// A Size is a number the reader may change.
type Size struct {
	Name, Says string
	Value      Shown
	Least      Shown
	Most       Shown
	Step       Shown
}

// A Choice is an alternative the reader may take.
type Choice struct {
	Name, Says, Is string
	Of             []string
}

// A Need is a demand the design makes, as the reader is told it.
type Need struct {
	Says, Else Text // the rule and its reason, nil when unsaid; what is wrong when it is not met
	Stop       bool // not met, the plan cannot be built
	Holds      bool
	Known      bool     // false: it cannot be told whether it holds
	Sizes      []string // names of the sizes and choices it depends on
}

// A Caution is one thing to read before starting.
type Caution struct {
	Title string
	Text  Text
}

// A StockReading is one sale size the piece uses: what it measures by
// standard, and what follows from it when the reader's boards differ.
type StockReading struct {
	Name          string // lumber name in the file: leg_stock
	SaleName      string // 2x6
	Wood          string
	Treatment     string
	Thick, Wide   Shown
	Parts         []string // letters cut from it
	Source, Basis string   // where the section comes from: standard, and read or memory
}

// Buy is the shopping list.
type Buy struct {
	Boards    []BuyLine
	OnHand    []BuyLine // boards the reader has and needs
	Hardware  []BuyLine
	Goods     []BuyLine
	Cost      Shown // everything
	PriceNote string
	Metal     string // in which finish to buy the fasteners
	Proof     Text   // how the yield of the boards was proved
	// Alternatives are other ways of buying the boards, computed.
	Alternatives []Alternative
}

// An Alternative is another way of buying the boards and what it costs more;
// nil where it is not possible.
type Alternative struct {
	Says  Text
	Extra *Shown
}

// A BuyLine is one line of the shopping list.
type BuyLine struct {
	What   string // 2x6 southern pine, ground contact
	Length *Shown // boards: sale length
	Count  int    // boards, screws or bolts needed
	Spare  int    // screws and nails over that, counted in the packs
	Packs  string // "1 box of 100"; empty for things sold singly
	Each   *Shown // price of one board or pack; nil when the price book has none
	Total  *Shown
	Use    string // where it goes
	From   span.Set
}

// A Part is boards that are alike: cut once, made Count times.
type Part struct {
	Letter   string
	Name     string // leg
	Hand     string // "", "left" or "right"
	Twin     string // letter of the mirror part, or ""
	Count    int
	Stock    string // 2x6 southern pine, ground contact
	Lumber   string // lumber name in the file
	Thick    Shown
	Wide     Shown // after ripping
	Rip      bool  // narrower than the stock
	Long     Shown // long point to long point along the grain
	Short    *Shown
	Edge     *Shown // along one edge, when the ends are parallel
	Volume   Shown
	Mass     Shown
	Ends     [2]*SawCut // nil: square
	Cuts     []CutReading
	Edges    []EdgeReading
	Holes    []HoleReading
	Boards   []board.ID
	Master   board.ID
	Drawn    Lies   // what its sheet calls the first end and the show face
	Goes     []Text // as which boards it lies otherwise than drawn, and how
	Need     string // what its length needs: "must match its twin"; empty until the whole book is made
	CutNote  Text   // one line for the parts list
	Changed  Text   // what of it is otherwise since boards were measured, and why; empty when nothing is
	ShowFace string
	Shaped   bool // needs a sheet of its own
}

// A SawCut is an angled end, said three ways that agree.
type SawCut struct {
	End         string  // which end of the master: "top", "left", …
	Setting     Shown   // off square, to the half degree
	Included    Shown   // 90° less the setting
	Offset      Shown   // step along the edge, to mark with a rule
	Bevel       *Shown  // blade tilt, for a compound cut
	BevelOffset *Shown  // step across the thickness
	Swing       string  // "left" or "right" of zero
	FaceUp      string  // which face is up
	Fence       string  // which edge is against the fence
	Keep        string  // which side of the blade is kept
	Long        string  // which edge the long point is on; it means nothing without a mitre
	LongFace    string  // which face is longer; it means nothing without a bevel
	Marks       []Mark  // where the point lies, of an end sawn to a point by two cuts
	ByMarks     bool    // cut line too long for a saw setting: mark both ends and join
	Note        string  // a way round when past the saw's reach
	Words       Text    // the whole thing as a sentence
	ExactDeg    float64 // the cut's mitre angle before rounding
}

// A CutReading is a notch, taper, housing… with the figures to mark it by.
type CutReading struct {
	Kind  string // notch, taper, housing, snip, second cut, …
	Name  string // cut's name in the file
	Words Text
	Marks []Mark
	Saw   *SawCut // of the second cut of an end sawn to a point; its words are the reading's
}

// A Mark is a distance from one end (or edge) of the part.
type Mark struct {
	Label string
	At    Shown
}

// An EdgeReading is an edge to be rounded, chamfered or beaded.
type EdgeReading struct {
	Edges string
	Words Text
	short Text // without the tool, for the parts list
}

// A HoleReading is a hole in a part, drilled before the part is built in.
type HoleReading struct {
	Kind             string // pilot, clearance, countersink, counterbore
	Bit, Depth       Shown
	Sunk             Shown // width of the countersink; no text when there is none
	Face             string
	End, Rim         string // what FromEnd and FromRim are measured from
	FromEnd, FromRim Shown
	Together         bool     // clamped to Mate and drilled through both
	Mate             board.ID // "" unless Together
	Joint            string   // name of the joint in the file
	Words            Text
}

// A BoardReading is one board in place.
type BoardReading struct {
	ID     board.ID
	Part   string // letter
	Spoken string // front left leg
	Lies   Lies   // of its part, as this board
	Drawn  Lies   // of the board itself
	Board  *board.Board
	From   span.Set // everything about it was computed from these
}

// Lies says which way round a board lies, by what two of its sides are called. As
// one of its boards a part may lie otherwise than it is drawn.
type Lies struct {
	End  string // the first end: "right end"
	Face string // the show face
}

// Saw is the cutting of the bought boards.
type Saw struct {
	Offcuts   []Offcut // what the cutting leaves over, named
	Boards    []SawBoard
	Kerf      Shown
	Squared   Shown // taken off one end of every bought board
	CostCents int64
	Bound     int64 // cents
	Optimal   bool
	Checked   bool
	Verdict   Text // "the cheapest that will do, checked …"
}

// A SawBoard is one bought board as it lies on the bench, a tape along its
// near edge.
type SawBoard struct {
	Stock    string
	Length   Shown
	Width    float64      // mm, of the bought board
	Sections []SawSection // one when it is not crosscut before it is ripped
	Same     int          // how many boards are cut exactly so
	Title    Text
}

// A SawSection is a length of a board, measured from its own end.
type SawSection struct {
	From   float64 // mm from the squared end of the board
	Long   float64 // mm
	CutAt  *Shown  // where the crosscut after it is marked, from the board's squared end; nil after the last
	RipsAt []Shown // distances from the near edge, when ripped first
	Strips []Strip // one when nothing is ripped
}

// Strips returns the strips of all sections.
func (b *SawBoard) Strips() (out []*Strip) {
	for _, s := range b.Sections {
		for k := range s.Strips {
			out = append(out, &s.Strips[k])
		}
	}
	return out
}

// Lead says what is done before the pieces of section k are sawn; nothing when
// the board is neither crosscut nor ripped first.
func (b *SawBoard) Lead(k int) (t Text) {
	sec := b.Sections[k]
	if len(b.Sections) > 1 {
		t = t.Say("Section " + strconv.Itoa(k+1))
		if sec.CutAt != nil {
			t = t.Say(": crosscut the board at ").Show(*sec.CutAt).Say(" from its squared end. ")
		} else {
			t = t.Say(": the rest. ")
		}
		if k > 0 {
			t = t.Say("Its own tape starts at that cut. ")
		}
	}
	for i, r := range sec.RipsAt {
		if i == 0 {
			t = t.Say("Rip it first, from the near edge at ")
		} else {
			t = t.Say(", ")
		}
		t = t.Show(r)
	}
	if len(sec.RipsAt) > 0 {
		t = t.Say(".")
	}
	return t
}

// LongOf returns how long a section of the board is drawn, in mm: all of the board
// when there is no other, with what squaring takes.
func (b *SawBoard) LongOf(s SawSection) float64 {
	if len(b.Sections) == 1 {
		return b.Length.Exact.V / 1e6
	}
	return s.Long
}

// Used returns the strips that give parts.
func (s *SawSection) Used() (out []Strip) {
	for _, st := range s.Strips {
		if len(st.Pieces) > 0 {
			out = append(out, st)
		}
	}
	return out
}

// A Strip is a lane along a section.
type Strip struct {
	Near, Wide float64 // mm across the board
	Pieces     []SawPiece
	Left       *Shown // usable leftover at the far end
	Offcut     string // its name, when something is made of it or can be
}

// A SawPiece is one part on a strip. Start and End are mm from the section's end
// along the marking edge; SlantStart and SlantEnd are how much further the far
// edge reaches (mm, signed), zero for square ends.
type SawPiece struct {
	Letter               string
	Start, End           float64
	SlantStart, SlantEnd float64
	Near, Wide           float64 // mm across the board: its near edge and its width
	Label                string  // printed length
	Mark                 Shown   // running mark of the cut at its end
}

// A Step is one action of building.
type Step struct {
	Number  int
	Name    string
	Of      []int  // places in Piece.Steps: more than one if it is done more than once
	Each    string // of a step done more than once: which one Marks, New and Present are of
	Again   []Again
	Hands   Text   // how the doings of such a step differ
	Lies    string // how the work lies on the bench
	Add     []StepPart
	Fasten  []StepFastener
	Marks   []BoardMarks
	Say     Text
	Square  []Square
	Checks  []Text
	People  int
	Axes    []Axis // of the fasteners driven, in the piece
	Lift    Text   // why it takes more than one
	Around  []Around
	Present []board.ID // in place after this step
	New     []board.ID
	Times   int // done so many times: Add and Fasten count all, the rest is of the first
	Reach   Reach
}

// An Around is one thing beside the joints that a step needs: clamps, glue, what
// is sanded first, a letter in pencil, a brace, a jig.
type Around struct {
	Kind    string // clamp, glue, wait, brace, sand, letter, level, jig
	Words   Text
	Source  string
	Figures []Figure
}

// A Figure is one number of an Around, by its name.
type Figure struct {
	Name  string
	Value Shown
}

// An Again is a further doing of a step: of what the first makes, turned, or a
// mirror image of it.
type Again struct {
	Each     string // right
	Mirrored bool
	New      []board.ID
	Marks    []BoardMarks
}

// A StepPart is boards of one part that a step adds.
type StepPart struct {
	Letter, Name string
	Count        int
	Spoken       []string
	Hand         string
}

// A StepFastener is fasteners a step uses.
type StepFastener struct {
	What   string
	Count  int
	Joint  string
	Words  Text
	Bits   []Shown  // clearance, then pilot; of a bolt, its hole
	Drill  []Drill  // of bolts: where their holes are marked
	Driven []string // the sides of the piece they go in from: front; none where one goes in at a slant
}

// BoardMarks are the marks that fix one board against what is there: three, and
// one more where a long board stands at a slant. The boards of a row are said
// together; the last mark then runs on, a figure for each.
type BoardMarks struct {
	Board  board.ID   // the first of Boards, or the board a sub-assembly is placed by
	Boards []board.ID // in the order of their running marks
	Spoken string
	Words  []Text // each: flush with …, against …, or so far from …
}

// A Square is how a frame, or the feet, are measured for squareness before they
// are held so.
type Square struct {
	Frame     string // what is measured, in words: long aprons
	Boards    []board.ID
	Diagonals [2]Diagonal
	Allowed   Shown // how much the readings may be off
	Racked    Shown // how far out of square that is
	Across    Shown // and over what
	Words     Text
	Corners   [4]geom.Vec // in the piece, in order round; the diagonals run from the first and the second
}

// A Diagonal is what a tape reads from one corner to another.
type Diagonal struct {
	A, B  string // corner names
	Value Shown
}

// A Joint is one kind of connection with its pairs.
type Joint struct {
	Name     string
	With     []string
	Pairs    []JointPair
	Fastener int // fasteners a pair
	Total    int
	From     span.Set
}

// A JointPair is two boards that meet, and where fasteners stand in them.
type JointPair struct {
	A, B board.ID
	Area Shown
	Axes []Axis
}

// An Axis is one fastener in place, exact: it is drawn and checked, not printed.
type Axis struct {
	What       string     // deck screw 8 x 2 1/2
	Axis       joint.Axis // in the piece
	Long, Head float64    // mm under the head; diameter of the head
}

// A Note is something to mend, take care of, or know, in a reader's words.
type Note struct {
	Kind  string // Mend this, Take care, Worth knowing
	What  string
	Why   string
	Mends []string
	Where string // parts, step
	Snag  *snag.Snag
}

// A Change is one entry of the revision list.
type Change struct {
	Revision, Date string
	What           Text
}

// Title returns the part's name with its hand: "arm, left".
func (p *Part) Title() string {
	if p.Hand == "" {
		return p.Name
	}
	return p.Name + ", " + p.Hand
}

// Aside says how many to make, and which part is the other hand.
func (p *Part) Aside() string {
	aside := "make one"
	if p.Count > 1 {
		aside = "make " + strconv.Itoa(p.Count) + " alike"
	}
	if p.Twin != "" {
		aside += "; mirror of " + p.Twin
	}
	return aside
}

// Edition is the note beside the title: revision, date, units.
func (r *Readings) Edition() []string {
	var parts []string
	if r.Revision != "" {
		parts = append(parts, "revision "+r.Revision)
	}
	if r.Date != "" {
		parts = append(parts, r.Date)
	}
	return append(parts, r.Units)
}
