package design

import (
	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/region"
	"scantling/internal/span"
)

// A Piece is one piece of furniture worked out from its file under one set of
// sizes and choices: every board in place, exact, and everything else the file
// says, resolved to boards. Nothing in it is rounded.
type Piece struct {
	Name   string // "Orchard sorting table"
	NameAt span.Range
	About  Text
	Region region.Region // where it is to be built
	Units  measure.Units // of its yards

	Sizes   []Size   // in file order
	Choices []Choice // in file order
	Lumber  []Lumber // in file order

	Boards []*Board // in file order, then in the order of their copies
	Rows   []Row    // the figures of each row, mirrored rows once
	Fields []Field  // the figures of each field, mirrored fields once

	Joints   []Joint
	Steps    []Step // in building order; a step done for each side stands once a side
	Needs    []Need
	Use      Use
	Finish   Finish
	Hardware []Hardware
	Goods    []Goods

	byID map[board.ID]*Board
}

// Board returns the board with the given ID, or nil.
func (p *Piece) Board(id board.ID) *Board { return p.byID[id] }

// Text is prose whose numbers can still be traced to what they were computed
// from.
type Text []Span

// A Span is a stretch of prose: literal words, or one value.
type Span struct {
	Words string
	Value *Value // nil for words
}

// A Value is one value in prose: a quantity, or a word when Word is not empty.
// It is exact; package shop rounds it.
type Value struct {
	Q    measure.Quantity
	Word string
	From span.Set
	At   span.Range // of the expression, braces excluded
}

// A Figure is an exact quantity with the scalars it was computed from.
type Figure struct {
	Q    measure.Quantity
	From span.Set
}

// A Size is a number the reader may change.
type Size struct {
	Name, Says  string
	Value       measure.Quantity // in force
	Least, Most measure.Quantity
	Step        measure.Quantity // V 0: any value in the range
	Default     measure.Quantity // as the file has it
	At          span.Range       // of the scalar holding the value
	From        span.Set
}

// A Choice is an alternative the reader may take.
type Choice struct {
	Name, Says  string
	Is, Default string
	Of          []string
	At          span.Range // of the scalar holding the value
	From        span.Set
}

// A Lumber is stock under the name the file gives it.
type Lumber struct {
	Name  string // leg_stock
	Stock *lumber.Stock
	At    span.Range
	Treat span.Range // of the scalar that says the treatment; zero when unsaid
	From  span.Set
}

// A Board is a board in place with the words people know it by and the scalars
// each of its quantities was computed from.
type Board struct {
	*board.Board
	Name    string   // name of the part or row in the file: shelf_slat
	Lumber  string   // name of its stock in the file: slat_stock
	Or      []string // names of other stocks of the file it may be cut from as well
	Spoken  string   // "front left leg", "3rd shelf slat from the left"
	Row     int      // number in its row, from 1; 0 when in no row
	Field   int      // number in its field, from 1; 0 when in no field
	Ply     int      // number in a part glued up from several, from 1 at its show face; 0 when it is whole
	Written bool     // the copy the file describes
	Rip     bool     // narrower than its stock
	Loose   bool     // nothing fastens it, on purpose: it drops in

	At         span.Range // of the name of its part in the file
	Section    span.Set   // thickness and width
	LengthFrom span.Set   // both ends
	Place      span.Set   // pose
	CutsFrom   span.Set   // tapers and notches
}

// All returns the scalars anything about the board was computed from.
func (b *Board) All() span.Set { return b.Section.Union(b.LengthFrom, b.Place, b.CutsFrom) }

// A Row is the figures of boards set side by side.
type Row struct {
	Name     string
	Count    Figure
	Span     Figure     // from limit to limit
	Gap      Figure     // between neighbours; 0 when there is one board
	Dried    Figure     // the gap once the boards have dried, where gaps were asked for so; no dimension elsewhere
	Wanted   Figure     // the gap asked for, as it is when laid; no dimension when none is, or a range of them
	GapAt    span.Range // of the scalar that asks for a gap; zero when none does
	Widths   []measure.Quantity
	Leftover Figure // space at the ends, or what the rips took: see Rule
	Rule     string // even, rip last, rip both, rip all, at start, at end, at both
	At       span.Range
}

// A Field is the figures of an outline filled with boards.
type Field struct {
	Name   string
	Count  Figure // pieces, the corners' among them
	Gap    Figure
	Across Figure // the outline, square to the boards
	Corner Figure // the widest board at a corner is so wide; 0 when whole boards come out
	Rule   string // halved, first, last, middle board, middle gap
	At     span.Range
}

// A Joint is a declaration: which boards are to be fastened and how. Package
// joint finds the pairs that touch.
type Joint struct {
	Name        string
	Sides       [2][]board.ID // every board of either side, in board order
	With        []Fastening
	Through     []board.ID // boards the fastener passes through, head on their outside; nil when unsaid
	Head        []board.ID // for bolts: boards the head lies on; nil when unsaid
	From        string     // side word the fastener enters from, "" when unsaid
	FromSaid    string     // From as written, before a group's copy turned it
	FromAt      span.Range
	FromOf      []board.ID // boards whose side From is; nil: the boards of Through or Head
	Counterbore Counterbore
	Pattern     Pattern
	Expect      *Figure // number of pairs there must be
	Lap         *Figure // of a half lap: how deep it is; nil of other joints, or where depths differ
	At          span.Range
	JoinAt      span.Range
	Scalars     span.Set
}

// A Fastening is one thing a joint is made with.
type Fastening struct {
	Phrase string // as written: "screw 10 x 3"
	At     span.Range
	From   span.Set
}

// A Counterbore is the recess in which a fastener's head or nut sits.
type Counterbore struct {
	Head *Figure // how deep; nil: on the face
	Nut  *Figure
	Plug bool          // a plug closes it over the head
	At   [2]span.Range // of the scalars saying the two depths; zero when unsaid
}

// A Pattern says where fasteners stand in the contact area of a pair.
type Pattern struct {
	Count    int    // 0 when unsaid
	Set      string // "", "diagonal", "row", "across", "stagger"
	FromEdge *Figure
	FromEnd  *Figure
	Spacing  *Figure
	IfRoom   bool // pairs that meet over too little go without
	At       span.Range
	CountAt  span.Range // of the scalar saying each; zero when unsaid
	SetAt    span.Range
	EdgeAt   span.Range
	EndAt    span.Range
	Scalars  span.Set
}

// A Step is one action of building.
type Step struct {
	Name    string
	Each    string // side or copy word of a step done for each: "left"
	Add     []board.ID
	AddMade []string // sub-assemblies added: names given by Makes, with the side word before them when there is one of each
	Goods   []string // names of hardware and goods added
	Entry   int      // which entry of the file's steps it comes of, from 0
	Group   string   // the group whose own steps it is of; "" of the file's
	Item    int      // which of those it is, from 0
	Makes   string   // name of the sub-assembly this step makes
	GoesOn  bool     // it goes on with the sub-assembly the step before made
	Lies    string   // "upright", "top down", "outside down", …
	Fasten  []string // joints named
	Hold    []string // joints put together but fastened later
	Say     Text
	At      span.Range
	From    span.Set
}

// A Need is a demand the file makes on the piece.
type Need struct {
	That  string // as written
	Else  Text
	Says  Text     // the rule and its reason, for a reader; nil when unsaid
	Sizes []string // names of the sizes and choices it depends on, in file order
	Stop  bool     // an error when it fails, else a caution
	Holds bool
	Known bool // false: cannot be told, since something it reads is unknown
	At    span.Range
	From  span.Set
}

// A Use says how the piece will be used.
type Use struct {
	As     string // table, seat, …
	People *Figure
	Loads  []Load
	Built  string // climate words
	Lives  string
	Stands string // what its feet stand on: "soil", "paving", or "" when unsaid
	Who    string // "children", or "" when unsaid
	// Touches says what lies on or against which boards: food, skin, soil that
	// food grows in.
	Touches []Touch
	At      span.Range
	From    span.Set
}

// A Touch is one thing that touches boards.
type Touch struct {
	What string     // food, skin or soil
	On   []board.ID // nil: no boards are named
	All  bool       // said of the whole piece
	At   span.Range
}

// A Load is a load beside those of the use.
type Load struct {
	On     []board.ID
	Spread *Figure // pressure
	Point  *Figure // force
	Line   *Figure // force per length
	At     span.Range
}

// A Finish is the coats on the wood.
type Finish struct {
	With  string // "" or "none": bare
	Coats int
	At    span.Range
	From  span.Set
}

// A Hardware is a bought thing that is not wood.
type Hardware struct {
	Name  string
	What  string
	Count Figure
	Fixed []board.ID
	Boxes []Fitting // each of it in place, when the file says how large it is
	With  []Fastening
	Each  int // fasteners of each kind that each of it takes; 0: nobody says
	At    span.Range
	From  span.Set
}

// A Fitting is one piece of hardware in place: a box, whose frame lies at its middle on
// the side it is fixed to; X and Y lie along that side, and Z looks out of it.
type Fitting struct {
	At   geom.Pose
	Size geom.Vec // mm along X, Y and Z
	From span.Set
}

// A Goods is something sold by area, length or count.
type Goods struct {
	Name   string
	What   string
	Amount Figure
	At     span.Range
	From   span.Set
}
