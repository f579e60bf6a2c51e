package design

import "slices"

// A form is what may stand after a key.
type form uint8

const (
	asWords   form = iota // words, as they stand
	asProse               // words with measures in braces
	asMeasure             // an expression
	asPhrase              // an expression with words of its own round it
	asRefs                // one name of parts or rows, or a list of them
	asNames               // one name of the file, or a list of names
	asWord                // one of the key's words
	asWordOr              // one of the key's words, or a measure or name
	asTable               // entries of the key's table
	asNamed               // names, each with the entries of the table
	asList                // a list of entries of the table
	asFree                // names with a measure each
	asAny                 // several of these: the reader of the key says which
)

// A key is one line of the schema: what may be said, and how.
type key struct {
	name  string
	form  form
	doc   string
	table *table   // of asTable, asNamed, asList
	words []string // of asWord, asWordOr
	need  bool     // must be there
}

// A table is the keys one place of the file accepts.
type table struct {
	what string // what an entry of it is called: "a part"
	keys []key
}

func (t *table) find(name string) *key {
	for i := range t.keys {
		if t.keys[i].name == name {
			return &t.keys[i]
		}
	}
	return nil
}

func (t *table) names() []string {
	out := make([]string, 0, len(t.keys))
	for _, k := range t.keys {
		out = append(out, k.name)
	}
	return out
}

// without returns keys without some.
func without(keys []key, names ...string) []key {
	var out []key
	for _, k := range keys {
		if !slices.Contains(names, k.name) {
			out = append(out, k)
		}
	}
	return out
}

// keepsKeys are the six ways a half lap may keep wood.
func keepsKeys() []key {
	var out []key
	for _, s := range sides {
		out = append(out, key{name: "keeps " + s, form: asRefs, doc: "of a half lap: the boards whose wood stays at the " + s})
	}
	return out
}

var directions = []string{"left", "right", "front", "back", "up", "down"}
var sides = []string{"left", "right", "front", "back", "top", "bottom"}
var mirrors = []string{"left-right", "front-back", "top-bottom"}

// The tables, from the leaves up.
var (
	pieceTable = &table{"the file", []key{
		{name: "piece", form: asWords, doc: "the name of the piece", need: true},
		{name: "about", form: asProse, doc: "a few sentences about it; {name} puts a value in"},
		{name: "units", form: asWord, words: []string{"inch", "metric"}, doc: "of the yard it was drawn for: inch is North America, metric the UK and Europe unless region says another"},
		{name: "region", form: asWords, doc: "whose yards it was drawn for: North America, UK and Europe, or Australia and New Zealand"},
		{name: "sizes", form: asNamed, table: sizeTable, doc: "numbers a reader may change"},
		{name: "choices", form: asNamed, table: choiceTable, doc: "alternatives a reader may take"},
		{name: "let", form: asFree, doc: "named values: lengths, angles, counts, positions"},
		{name: "lumber", form: asNamed, table: lumberTable, doc: "stock by its sale name", need: true},
		{name: "points", form: asAny, table: pointTable, doc: "named points: where A meets B [meets C]"},
		{name: "planes", form: asNamed, table: planeTable, doc: "tilted rooms to say things in"},
		{name: "parts", form: asNamed, table: partTable, doc: "single boards and their copies"},
		{name: "rows", form: asNamed, table: rowTable, doc: "boards side by side"},
		{name: "fields", form: asNamed, table: fieldTable, doc: "boards that fill an outline at an angle"},
		{name: "groups", form: asNamed, table: groupTable, doc: "things built more than once"},
		{name: "joints", form: asNamed, table: jointTable, doc: "what is fastened to what, and with what"},
		{name: "hardware", form: asNamed, table: hardwareTable, doc: "bought things that are not wood"},
		{name: "goods", form: asNamed, table: goodsTable, doc: "things sold by area, length or count"},
		{name: "steps", form: asList, table: stepTable, doc: "the order of building"},
		{name: "need", form: asList, table: needTable, doc: "demands the piece must meet"},
		{name: "use", form: asTable, table: useTable, doc: "loads and climate"},
		{name: "finish", form: asTable, table: finishTable, doc: "coats on the wood"},
	}}
	groupTable = &table{"a group", []key{
		{name: "takes", form: asFree, doc: "values its uses may each have otherwise"},
		{name: "uses", form: asAny, doc: "where it stands, each by a name: {left_bay: {at: …}}"},
		{name: "copies", form: asList, table: copyTable, doc: "where else all of it stands"},
		{name: "when", form: asMeasure, doc: "condition"},
		{name: "let", form: asFree, doc: "named values: lengths, angles, counts, positions"},
		{name: "points", form: asAny, table: pointTable, doc: "named points: where A meets B [meets C]"},
		{name: "planes", form: asNamed, table: planeTable, doc: "tilted rooms to say things in"},
		{name: "parts", form: asNamed, table: partTable, doc: "single boards and their copies"},
		{name: "rows", form: asNamed, table: rowTable, doc: "boards side by side"},
		{name: "fields", form: asNamed, table: fieldTable, doc: "boards that fill an outline at an angle"},
		{name: "joints", form: asNamed, table: jointTable, doc: "what is fastened to what, and with what"},
		{name: "hardware", form: asNamed, table: hardwareTable, doc: "bought things that are not wood"},
		{name: "goods", form: asNamed, table: goodsTable, doc: "things sold by area, length or count, for each of it"},
		{name: "steps", form: asList, table: stepTable, doc: "how one of it is built"},
	}}
	useKeys = []key{
		{name: "at", form: asAny, doc: "where its middle stands: a point or a position, or a list of positions"},
		{name: "turn", form: asMeasure, doc: "turned about the upright through its middle"},
		{name: "flip", form: asWord, words: mirrors, doc: "the mirror image of what is written"},
		{name: "when", form: asMeasure, doc: "condition"},
	}
	sizeTable = &table{"a size", []key{
		{name: "is", form: asMeasure, doc: "its value", need: true},
		{name: "from", form: asMeasure, doc: "the least it may be"},
		{name: "to", form: asMeasure, doc: "the most it may be"},
		{name: "by", form: asMeasure, doc: "the step it changes by"},
		{name: "says", form: asWords, doc: "what it is, for the reader"},
	}}
	choiceTable = &table{"a choice", []key{
		{name: "is", form: asWords, doc: "the alternative taken", need: true},
		{name: "of", form: asAny, doc: "all alternatives, as a list", need: true},
		{name: "says", form: asWords, doc: "what it is, for the reader"},
	}}
	lumberTable = &table{"a stock", []key{
		{name: "size", form: asWords, doc: "the name it is sold by: 2x4, 5/4x6 radius edge", need: true},
		{name: "wood", form: asWords, doc: "species or group: southern pine", need: true},
		{name: "grade", form: asWords, doc: "as stamped: No. 2"},
		{name: "treatment", form: asWord, words: []string{"none", "above ground", "ground contact"}, doc: "against decay"},
	}}
	pointTable = &table{"a point", []key{
		{name: "is", form: asPhrase, doc: "where A meets B [meets C]", need: true},
		{name: "when", form: asMeasure, doc: "condition"},
	}}
	planeTable = &table{"a plane", []key{
		{name: "in", form: asNames, doc: "the plane it is said in"},
		{name: "faces", form: asWord, words: directions, doc: "the way it looks before it is tilted"},
		{name: "through", form: asPhrase, doc: "a point on it: where A meets B [meets C]"},
		{name: "lean", form: asPhrase, doc: "END ANGLE toward DIRECTION, for a plane that looks to a side"},
		{name: "slope", form: asPhrase, doc: "END ANGLE toward up or down, for a plane that looks up or down"},
		{name: "side", form: asMeasure, doc: "the side of a board, or a named cut, that is this plane"},
		{name: "zero", form: asMeasure, doc: "where its upward axis starts"},
		{name: "when", form: asMeasure, doc: "condition"},
	}}
	placeTable = &table{"a place", []key{
		{name: "runs", form: asAny, doc: "the way the grain goes: a direction, a part it is parallel to, or {from, to}"},
		{name: "faces", form: asWord, words: directions, doc: "the way the show face looks"},
		{name: "lean", form: asPhrase, doc: "END ANGLE toward DIRECTION, for an upright board; a list gives two"},
		{name: "slope", form: asPhrase, doc: "END ANGLE toward up or down, for a level board"},
		{name: "swing", form: asPhrase, doc: "END ANGLE toward a level direction, for a level board"},
		{name: "measured", form: asWord, words: []string{"square on", "on the board"}, doc: "where its angles are taken"},
		{name: "left", form: asMeasure, doc: "what its left side goes through"},
		{name: "right", form: asMeasure, doc: "what its right side goes through"},
		{name: "front", form: asMeasure, doc: "what its front side goes through"},
		{name: "back", form: asMeasure, doc: "what its back side goes through"},
		{name: "top", form: asMeasure, doc: "what its top goes through"},
		{name: "bottom", form: asMeasure, doc: "what its bottom goes through"},
		{name: "middle", form: asAny, doc: "what its centre goes through; a list gives two"},
		{name: "corner", form: asPhrase, doc: "SIDE SIDE at POINT: the long corner there goes through the point"},
		{name: "centre", form: asPhrase, doc: "a point its centre line goes through"},
	}}
	endTable = &table{"an end", []key{
		{name: "to", form: asMeasure, doc: "the side it is cut to"},
		{name: "clearance", form: asMeasure, doc: "how far short of it, square to it"},
		{name: "cut", form: asWord, words: []string{"square"}, doc: "square to the board"},
		{name: "highest", form: asMeasure, doc: "where the highest corner of a square cut lies"},
		{name: "lowest", form: asMeasure, doc: "where the lowest corner of a square cut lies"},
		{name: "past", form: asMeasure, doc: "what the whole of a square cut lies past, touching it"},
		{name: "mitre", form: asMeasure, doc: "angle off square across the show face"},
		{name: "bevel", form: asMeasure, doc: "angle off square across the edge"},
		{name: "long point", form: asWord, words: sides, doc: "the side that keeps its length"},
	}}
	cutTable = &table{"a cut", []key{
		{name: "taper", form: asPhrase, doc: "the edge planed away: right edge, or both"},
		{name: "from", form: asPhrase, doc: "where it starts, from a side of the board: D below END, D right of EDGE"},
		{name: "to", form: asPhrase, doc: "where a taper ends: W wide at END; where a housing stops: D above END"},
		{name: "notch round", form: asRefs, doc: "parts or rows the board is cut out for"},
		{name: "clearance", form: asMeasure, doc: "room left round them"},
		{name: "open", form: asWord, words: sides, doc: "the side a notch opens to"},
		{name: "hole", form: asWord, words: []string{"yes", "no"}, doc: "keep it closed all round"},
		{name: "follow", form: asWord, words: []string{"lean"}, doc: "slant the walls with the other board"},
		{name: "if there", form: asWord, words: []string{"yes", "no"}, doc: "no word when nothing needs it"},
		{name: "notch", form: asPhrase, doc: "the edge or end it is cut into, through the thickness: bottom edge"},
		{name: "housing", form: asPhrase, doc: "the side a dado, groove or rabbet is let into: front"},
		{name: "slot", form: asPhrase, doc: "the face a long hole with round ends goes through from"},
		{name: "wide", form: asMeasure, doc: "from one wall to the other: along the grain from an end, across it from an edge; of a slot, across"},
		{name: "deep", form: asMeasure, doc: "how far into the board"},
		{name: "long", form: asMeasure, doc: "how long a slot is"},
		{name: "aside", form: asPhrase, doc: "where a slot lies across, if not in the middle: D right of EDGE"},
		{name: "snip", form: asPhrase, doc: "the end a corner is sawn off at, or both ends"},
		{name: "corner", form: asPhrase, doc: "the edge whose corner is sawn off"},
		{name: "along", form: asMeasure, doc: "how much of the edge a snip takes"},
		{name: "across", form: asMeasure, doc: "how much of the end a snip takes"},
		{name: "round end", form: asPhrase, doc: "the end that is sawn round, or both ends"},
		{name: "arch", form: asPhrase, doc: "the edge that is sawn hollow"},
		{name: "rise", form: asMeasure, doc: "how far an arch rises into the wood"},
		{name: "clear", form: asMeasure, doc: "how much an arch leaves straight at either end"},
		{name: "corners", form: asPhrase, doc: "the end whose corners are rounded, or both ends"},
		{name: "of", form: asPhrase, doc: "the edge whose corner alone is rounded"},
		{name: "radius", form: asMeasure, doc: "of a round end (half the width when unsaid), or of corners"},
		{name: "round", form: asMeasure, doc: "radius the corners of the section are rounded to"},
		{name: "chamfer", form: asMeasure, doc: "width of a bevel along corners"},
		{name: "bead", form: asMeasure, doc: "width of a bead along corners"},
		{name: "edges", form: asAny, doc: "the sides whose corners are rounded, chamfered or beaded; all: the long ones"},
		{name: "when", form: asMeasure, doc: "condition"},
	}}
	copyTable = &table{"a copy", []key{
		{name: "mirror", form: asWord, words: mirrors, doc: "the same on the other side, as in a mirror"},
		{name: "turn", form: asMeasure, doc: "turned about the upright through the middle, all the way round: 180° gives two, 90° four"},
		{name: "marks", form: asTable, table: marksTable, doc: "one at each of a list of distances"},
		{name: "every", form: asTable, table: everyTable, doc: "one every so far"},
		{name: "flip", form: asWord, words: mirrors, doc: "the mirror image instead of the board, not beside it"},
		{name: "about", form: asMeasure, doc: "where the mirror or the axis stands, if not in the middle"},
		{name: "call", form: asNames, doc: "names for the copies, in order"},
		{name: "when", form: asMeasure, doc: "condition"},
	}}
	marksTable = &table{"marks", []key{
		{name: "of", form: asWordOr, words: append([]string{"middle"}, sides...), doc: "the side of each board the distance goes to", need: true},
		{name: "from", form: asMeasure, doc: "where the distances start", need: true},
		{name: "toward", form: asWord, words: directions, doc: "which way they go", need: true},
		{name: "at", form: asAny, doc: "the distances, as a list", need: true},
		{name: "call", form: asNames, doc: "names for the copies, in order"},
	}}
	everyTable = &table{"every", []key{
		{name: "of", form: asWordOr, words: append([]string{"middle"}, sides...), doc: "the side of each board the distance goes to", need: true},
		{name: "from", form: asMeasure, doc: "where the first stands", need: true},
		{name: "toward", form: asWord, words: directions, doc: "which way they go", need: true},
		{name: "each", form: asMeasure, doc: "the distance from one to the next", need: true},
		{name: "to", form: asMeasure, doc: "what none goes past", need: true},
	}}
	partTable = &table{"a part", append(slices.Clone(boardKeys),
		key{name: "doubled", form: asMeasure, doc: "glued up face to face from so many boards of its stock"},
	)}
	rowTable = &table{"a row", append(append([]key(nil), boardKeys...),
		key{name: "fill", form: asTable, table: fillTable, doc: "what the boards fill, side by side"},
		key{name: "gap", form: asTable, table: gapTable, doc: "the space between them, and what becomes of the rest"},
		key{name: "leave out", form: asAny, doc: "numbers of boards that are not there, as a list"},
		key{name: "except", form: asAny, doc: "a board that differs: {last: {…}}"},
	)}
	fieldTable = &table{"a field", append(without(boardKeys, "length", "ends"),
		key{name: "outline", form: asTable, table: outlineTable, doc: "the sides of the rectangle it fills"},
		key{name: "corners", form: asAny, doc: "the corners of what it fills, in order, as a list of points"},
		key{name: "gap", form: asMeasure, doc: "the space between two boards"},
		key{name: "leftover", form: asWord, words: []string{"halved", "first", "last"}, doc: "where what whole boards leave goes: half at either corner, all at one"},
		key{name: "middle", form: asWord, words: []string{"board", "gap"}, doc: "what lies in the middle, with the rest at both corners"},
		key{name: "least", form: asMeasure, doc: "the narrowest board at a corner"},
	)}
	outlineTable = &table{"an outline", []key{
		{name: "left", form: asMeasure, doc: "its left side"},
		{name: "right", form: asMeasure, doc: "its right side"},
		{name: "front", form: asMeasure, doc: "its front side"},
		{name: "back", form: asMeasure, doc: "its back side"},
		{name: "top", form: asMeasure, doc: "its upper side"},
		{name: "bottom", form: asMeasure, doc: "its lower side"},
	}}
	boardKeys = []key{
		{name: "of", form: asNames, doc: "the stock it is cut from, or a list of them: the first gives its size, the cheapest is cut"},
		{name: "width", form: asMeasure, doc: "ripped to this width"},
		{name: "rip", form: asWord, words: sides, doc: "the edge a rip is taken from"},
		{name: "length", form: asMeasure, doc: "long point to long point"},
		{name: "like", form: asNames, doc: "all keys as there, except those written here"},
		{name: "when", form: asMeasure, doc: "condition"},
		{name: "in", form: asNames, doc: "the plane it is placed in"},
		{name: "place", form: asTable, table: placeTable, doc: "how it lies and what it is held by"},
		{name: "ends", form: asAny, doc: "what each end is cut to"},
		{name: "cuts", form: asNamed, table: cutTable, doc: "tapers, notches, rounded corners"},
		{name: "loose", form: asWord, words: []string{"yes", "no"}, doc: "nothing fastens it on purpose: it drops in and lifts out"},
		{name: "copies", form: asList, table: copyTable, doc: "where else it stands"},
	}
	fillTable = &table{"fill", []key{
		{name: "along", form: asWord, words: directions, doc: "the way the boards follow one another", need: true},
		{name: "from", form: asMeasure, doc: "where the first begins"},
		{name: "to", form: asMeasure, doc: "where the last ends"},
		{name: "count", form: asMeasure, doc: "how many"},
		{name: "about", form: asMeasure, doc: "what the row is centred on"},
	}}
	gapTable = &table{"gap", []key{
		{name: "is", form: asMeasure, doc: "exactly so much"},
		{name: "about", form: asMeasure, doc: "as near to this as comes out even"},
		{name: "from", form: asMeasure, doc: "the least that will do"},
		{name: "to", form: asMeasure, doc: "the most that will do"},
		{name: "leftover", form: asWord, doc: "what becomes of the rest",
			words: []string{"even", "rip last", "rip both", "rip all", "at start", "at end", "at both"}},
		{name: "least", form: asMeasure, doc: "the narrowest a ripped board may be"},
		{name: "outside", form: asWord, words: []string{"gap", "half", "none"}, doc: "the space before the first and after the last"},
		{name: "once", form: asWord, words: []string{"dried"}, doc: "the gaps asked for are those once the boards have dried"},
	}}
	patternTable = &table{"a pattern", []key{
		{name: "count", form: asMeasure, doc: "fasteners where two boards meet"},
		{name: "set", form: asWord, words: []string{"diagonal", "row", "across", "stagger"}, doc: "how they stand"},
		{name: "from edge", form: asMeasure, doc: "how far from the edge"},
		{name: "from end", form: asMeasure, doc: "how far from the end"},
		{name: "spacing", form: asMeasure, doc: "how far from one another"},
		{name: "if room", form: asWord, words: []string{"yes", "no"}, doc: "where two boards meet over too little, nothing is driven"},
	}}
	counterboreTable = &table{"a counterbore", []key{
		{name: "head", form: asMeasure, doc: "how deep the head sits below the face"},
		{name: "nut", form: asMeasure, doc: "how deep the nut of a bolt sits below the face"},
		{name: "plug", form: asWord, words: []string{"yes", "no"}, doc: "a wooden plug is glued in over the head"},
	}}
	jointTable = &table{"a joint", append([]key{
		{name: "join", form: asAny, doc: "the two sides: names, or lists of names", need: true},
		{name: "with", form: asAny, doc: "the fastener, or a list of them", need: true},
		{name: "through", form: asRefs, doc: "the boards the fastener goes through first"},
		{name: "head", form: asRefs, doc: "the boards a bolt's head lies on"},
		{name: "from", form: asPhrase, doc: "the face it enters by: a side word, or a part's side"},
		{name: "counterbore", form: asTable, table: counterboreTable, doc: "how deep the head sits below the face; or the head, the nut and a plug each"},
		{name: "pattern", form: asTable, table: patternTable, doc: "how many, and how they stand"},
		{name: "expect", form: asMeasure, doc: "how many pairs there must be"},
		{name: "when", form: asMeasure, doc: "condition"},
	}, keepsKeys()...)}
	boxTable = &table{"a box", []key{
		{name: "along", form: asPhrase, doc: "a direction and how long it is that way: right 10\"", need: true},
		{name: "across", form: asPhrase, doc: "the other direction on that side, and its width: up 2\"", need: true},
		{name: "thick", form: asMeasure, doc: "how far it stands out of the side", need: true},
	}}
	fixingTable = &table{"where hardware sits", []key{
		{name: "left", form: asAny, doc: "where its left side is"},
		{name: "right", form: asAny, doc: "where its right side is"},
		{name: "front", form: asAny, doc: "where its front is"},
		{name: "back", form: asAny, doc: "where its back is"},
		{name: "top", form: asAny, doc: "where its top is"},
		{name: "bottom", form: asAny, doc: "where its bottom is"},
		{name: "middle", form: asAny, doc: "where its middle is"},
	}}
	hardwareTable = &table{"hardware", []key{
		{name: "what", form: asWords, doc: "what to ask for", need: true},
		{name: "count", form: asMeasure, doc: "how many"},
		{name: "fixed to", form: asRefs, doc: "the parts it is fixed to"},
		{name: "with", form: asAny, doc: "the fastener, or a list of them"},
		{name: "when", form: asMeasure, doc: "condition"},
		{name: "at", form: asTable, table: fixingTable, doc: "where it sits on that side: holds as of a board, each one place or a list"},
		{name: "box", form: asTable, table: boxTable, doc: "the room it takes"},
		{name: "each", form: asMeasure, doc: "how many of those fasteners each of it takes"},
	}}
	goodsTable = &table{"goods", []key{
		{name: "what", form: asWords, doc: "what to ask for", need: true},
		{name: "amount", form: asMeasure, doc: "how much: an area, a length or a count"},
		{name: "covers", form: asRefs, doc: "sides of boards it covers: long_board.back"},
		{name: "sold by", form: asWord, words: []string{"area", "length", "count"}, doc: "what of those sides counts"},
		{name: "plus", form: asMeasure, doc: "so much more, for waste: 10%"},
		{name: "when", form: asMeasure, doc: "condition"},
	}}
	stepTable = &table{"a step", []key{
		{name: "name", form: asWords, doc: "its heading", need: true},
		{name: "add", form: asRefs, doc: "parts, rows, goods, sub-assemblies"},
		{name: "each", form: asAny, doc: "done for each of these sides: [left, right]"},
		{name: "makes", form: asNames, doc: "the name of the sub-assembly it makes"},
		{name: "lies", form: asWords, doc: "how the work lies"},
		{name: "fasten", form: asNames, doc: "joints made in this step"},
		{name: "hold", form: asNames, doc: "joints put together now and fastened later"},
		{name: "say", form: asProse, doc: "what to do, with live values in braces"},
		{name: "when", form: asMeasure, doc: "condition"},
		{name: "follow", form: asNames, doc: "a group's own steps, for each of it: end_frame.steps"},
	}}
	needTable = &table{"a need", []key{
		{name: "that", form: asMeasure, doc: "a condition", need: true},
		{name: "else", form: asProse, doc: "what is wrong when it fails", need: true},
		{name: "how", form: asWord, words: []string{"stop", "warn"}, doc: "an error, or a caution"},
		{name: "says", form: asProse, doc: "the rule and its reason, for a reader beside the sizes"},
		{name: "when", form: asMeasure, doc: "condition"},
	}}
	useTable = &table{"the use", []key{
		{name: "as", form: asWords, doc: "table, seat, …", need: true},
		{name: "people", form: asMeasure, doc: "how many at once"},
		{name: "also", form: asList, table: loadTable, doc: "further loads"},
		{name: "climate", form: asTable, table: climateTable, doc: "where it is built and where it lives"},
		{name: "who", form: asWord, words: []string{"adults", "children"}, doc: "children: their fingers and heads must not be caught"},
		{name: "touches", form: asTable, table: touchesTable, doc: "what lies on or against which boards; food, skin or soil alone: all of it"},
	}}
	touchesTable = &table{"what touches it", []key{
		{name: "food", form: asRefs, doc: "the boards bare food lies on"},
		{name: "skin", form: asRefs, doc: "the boards people sit or lean on"},
		{name: "soil", form: asRefs, doc: "the boards that hold soil food grows in"},
	}}
	loadTable = &table{"a load", []key{
		{name: "surface", form: asRefs, doc: "what it lies on", need: true},
		{name: "spread", form: asMeasure, doc: "over all of it: psf or kPa"},
		{name: "point", form: asMeasure, doc: "in one place: lbf or N"},
		{name: "line", form: asMeasure, doc: "along it: plf"},
		{name: "when", form: asMeasure, doc: "condition"},
	}}
	climateTable = &table{"the climate", []key{
		{name: "built", form: asWords, doc: "where it is built"},
		{name: "lives", form: asWords, doc: "where it lives"},
		{name: "stands", form: asWord, words: []string{"soil", "paving"}, doc: "what its feet stand on"},
	}}
	finishTable = &table{"the finish", []key{
		{name: "with", form: asWords, doc: "what, or none", need: true},
		{name: "coats", form: asMeasure, doc: "how many"},
		{name: "when", form: asMeasure, doc: "condition: bare wood when it fails"},
	}}
)
