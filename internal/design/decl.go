package design

import (
	"scantling/internal/board"
	"scantling/internal/expr"
	"scantling/internal/lumber"
	"scantling/internal/source"
	"scantling/internal/span"
)

// A kind is what a name of the file stands for.
type kind uint8

const (
	aSize kind = iota
	aChoice
	aLet
	aStock
	aPoint
	aPlane
	aPart
	aRow
	aField
	aHardware
	aGoods
	aGroup
)

var kindWords = [...]string{"a size", "a choice", "a value of let", "lumber", "a point", "a plane", "a part", "a row", "a field", "hardware", "goods", "a group"}

// A name is one name of a scope: the file's or a group's.
type name struct {
	text string
	kind kind
	n    int // its number among those of its kind; parts, rows and fields are counted together
	at   span.Range
}

type sizeDecl struct {
	name             string
	at               span.Range
	is, from, to, by *said
	says             string
}

type choiceDecl struct {
	name, says, is string
	of             []string
	at             span.Range // of the name
	isAt           *source.Node
}

type letDecl struct {
	name string
	at   span.Range
	is   *said
}

type lumberDecl struct {
	name  string
	at    span.Range
	stock *lumber.Stock // nil when it could not be read
	treat span.Range    // of the scalar that says the treatment
	from  span.Set
}

// A pointDecl is "where A meets B [meets C]", or the name of a point.
type pointDecl struct {
	name  string
	sc    *scope
	at    span.Range
	node  *source.Node
	meets []expr.Expr // planes, two or three; or one point
	when  *said
}

type planeDecl struct {
	name    string
	sc      *scope
	at      span.Range
	in      *nameRef
	faces   expr.Dir
	through *pointDecl
	tilts   []tiltDecl
	side    *said
	zero    *said
	when    *said
}

// A nameRef is a name where nothing else can stand.
type nameRef struct {
	text string
	node *source.Node
	sc   *scope
}

// A tiltDecl is END ANGLE toward DIRECTION.
type tiltDecl struct {
	key    string // lean, slope, swing
	node   *source.Node
	end    expr.Dir
	angle  *said
	toward expr.Dir
}

// A boardDecl is a part, or a row or a field when that is not nil.
type boardDecl struct {
	name   string
	sc     *scope
	at     span.Range
	when   *said
	of     *nameRef
	orOf   []nameRef // further stocks it may be cut from
	width  *said
	rip    string
	length *said
	in     *nameRef

	runs     expr.Dir
	runsLike *ref // parallel to that part's run
	runsSaid bool // one of the two
	between  *betweenDecl
	faces    expr.Dir
	facing   bool
	tilts    []tiltDecl
	onBoard  bool
	holds    []holdDecl
	corner   *cornerDecl
	centre   *pointDecl

	ends   []*endDecl
	cuts   []*cutDecl
	copies []*copyDecl
	loose  bool

	doubled *said // of a part: how many plies
	row     *rowDecl
	field   *fieldDecl
	unread  [2]bool    // something said of its place, of its ends, was not understood
	place   span.Range // of the place, for errors about what is missing there
}

// A holdDecl puts one side, or with middle the centre, on a place.
type holdDecl struct {
	middle bool
	side   expr.Dir
	key    span.Range
	to     *said
}

type cornerDecl struct {
	node *source.Node
	a, b expr.Dir
	at   pointDecl
}

type betweenDecl struct {
	at       span.Range
	from, to anchorDecl
}

// An anchorDecl is WHAT at P, or tucked into P.
type anchorDecl struct {
	node   *source.Node
	centre bool
	tucked bool
	edge   expr.Dir
	at     pointDecl
}

// An endDecl is what one end is cut to: one way or, for a point, two.
type endDecl struct {
	word expr.Dir
	way  string // "from" or "to" instead of a word, of a board run between points
	key  span.Range
	ways []endWay
}

type endWay struct {
	node                  *source.Node
	to                    *said // position, side, flush with, against
	part                  *ref  // to PART
	mate                  *ref  // mitre with PART
	clearance             *said
	reach                 string // highest, lowest, past
	square                *said  // what the reach is to
	mitre, bevel          *said
	longPoint             expr.Dir
	hasLongPoint, loosely bool // loosely: cut: square alone
}

type cutDecl struct {
	name string
	at   span.Range
	node *source.Node
	when *said

	taper  *taperDecl
	notch  *notchDecl
	edges  *edgesDecl
	recess *recessDecl
	curve  *curveDecl
}

type taperDecl struct {
	node     *source.Node
	side     expr.Dir
	both     bool
	from     *said // D, read from "D below END"
	at       expr.Dir
	wide     *said
	opposite expr.Dir
}

type notchDecl struct {
	node      *source.Node
	round     []ref
	clearance *said
	open      string
	hole      bool
	lean      bool
	ifThere   bool
}

// An edgesDecl is corners rounded, chamfered or beaded.
type edgesDecl struct {
	work board.EdgeWork
	size *said
	of   []string // side words, "ends" or "all"
	node *source.Node

	unread bool // something said of its edges was not understood
}

// A recessDecl is a notch, a housing or a slot by its sizes.
type recessDecl struct {
	kind       board.Kind
	side       expr.Dir
	from       *startDecl
	stop       *startDecl // to: where a housing stops short
	wide, deep *said
	long       *said
	aside      *startDecl
}

// A startDecl is D WAY P: a distance from a side of the board, or from a place.
type startDecl struct {
	node *source.Node
	d    *said    // nil: none
	side expr.Dir // from which side
	way  expr.Dir // which way it goes on
	from *said    // the whole of it, when P is no side of the board
}

// A curveDecl is a snip, a round end, an arch or round corners.
type curveDecl struct {
	kind          board.Kind
	sides         []expr.Dir // its ends; of an arch, its edge
	corner        expr.Dir
	cornered      bool  // there is a corner
	radius        *said // of an arch, its rise
	along, across *said // of an arch, along is what stays clear
}

type copyDecl struct {
	node   *source.Node
	way    string // mirror, flip, turn, marks, every
	axis   expr.Dir
	pair   string // left-right
	angle  *said
	about  *said
	marks  *marksDecl
	call   []string
	callAt span.Range
	when   *said
}

type marksDecl struct {
	node     *source.Node
	middle   bool
	of       expr.Dir
	from     *said
	toward   expr.Dir
	at       []*said
	each, to *said // every
}

type rowDecl struct {
	node         *source.Node
	along        expr.Dir
	from, to     *said
	count, about *said
	gap          *gapDecl
	leaveOut     []*said
	except       []exceptDecl
}

// A fieldDecl is an outline filled with boards.
type fieldDecl struct {
	node     *source.Node
	sides    [6]*said // of a rectangle, by direction
	corners  []pointDecl
	gap      *said
	leftover string // halved, first, last
	middle   string // board, gap
	least    *said
	unread   bool // nothing says what it fills, which was told
}

type exceptDecl struct {
	which string // first, last, 3rd
	board *boardDecl
	at    span.Range
}

type gapDecl struct {
	node                *source.Node
	is, about, from, to *said
	leftover            string
	least               *said
	outside             string
	dried               bool
}

type jointDecl struct {
	name          string
	sc            *scope
	at            span.Range
	node          *source.Node
	join          [2][]ref
	joinAt        span.Range
	with          []*source.Node
	through, head []ref
	said          [2]bool // through and head were written
	lap           *lapDecl
	from          *fromDecl
	counterbore   *counterboreDecl
	pattern       *patternDecl
	expect        *said
	when          *said
}

// A lapDecl is a half lap: the boards whose wood stays on one side.
type lapDecl struct {
	node  *source.Node // that says so
	keeps []ref
	side  expr.Dir
}

type fromDecl struct {
	node *source.Node
	side expr.Dir
	of   *ref
}

type counterboreDecl struct {
	head, nut *said
	plug      bool
}

type patternDecl struct {
	node                       *source.Node
	count                      *said
	set                        string
	setAt                      span.Range
	fromEdge, fromEnd, spacing *said
	ifRoom                     bool
}

type hardwareDecl struct {
	name  string
	sc    *scope
	at    span.Range
	what  *source.Node
	count *said
	fixed []sideDecl
	holds []fixingHold
	box   *boxDecl
	with  []*source.Node
	each  *said // fasteners of each
	when  *said
}

// A sideDecl is boards, or one side of each.
type sideDecl struct {
	ref
	side  expr.Dir
	sided bool
}

// A fixingHold puts one side of a fixed thing, or its middle, on each of some
// places.
type fixingHold struct {
	key    span.Range
	middle bool
	side   expr.Dir
	to     []*said
}

// A boxDecl is the room a fixed thing takes: two ways with a size each, and how
// far it stands out of the side it is on.
type boxDecl struct {
	node  *source.Node
	ways  [2]expr.Dir // along, across
	sizes [2]*said
	thick *said
}

type goodsDecl struct {
	name   string
	sc     *scope
	at     span.Range
	what   *source.Node
	amount *said
	covers []sideDecl
	sold   string // area, length or count
	plus   *said
	when   *said
}

type stepDecl struct {
	node   *source.Node
	name   string
	nameAt span.Range
	add    []ref
	each   []nameRef
	follow *nameRef
	makes  *nameRef
	lies   string
	fasten []nameRef
	hold   []nameRef
	say    *prose
	when   *said
}

type needDecl struct {
	node      *source.Node
	that      *said
	otherwise *prose
	says      *prose
	warn      bool
	when      *said
}

type useDecl struct {
	node         *source.Node
	as           string
	people       *said
	loads        []loadDecl
	built, lives string
	climate      []int // the scalars that say so
	who, stands  string
	touches      []touchDecl
}

// A touchDecl is what touches which boards; on is nil when it touches all.
type touchDecl struct {
	what string
	node *source.Node
	on   []ref
}

type loadDecl struct {
	node                *source.Node
	on                  []ref
	spread, point, line *said
	when                *said
}

type finishDecl struct {
	node  *source.Node
	with  string
	coats *said
	when  *said
}
