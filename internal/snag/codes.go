package snag

import "slices"

// Info explains a code to a person.
type Info struct {
	Code    Code
	Title   string // a few words
	Meaning string // what it means and what to do
	Example string // the smallest text that brings it about
}

// Codes returns every code, in alphabetical order.
func Codes() []Info { return slices.Clone(codes) }

// Explain returns what a code means.
func Explain(c Code) (Info, bool) {
	i, ok := slices.BinarySearchFunc(codes, c, func(x Info, c Code) int {
		if x.Code < c {
			return -1
		} else if x.Code > c {
			return 1
		}
		return 0
	})
	if !ok {
		return Info{}, false
	}
	return codes[i], true
}

// codes has one row a code, in alphabetical order.
var codes = []Info{
	{"anchor", "An anchor, an alias or a tag",
		"YAML's &name, *name, !tag and <<: are not part of a design file: give the value a name under let:, or say like:. A value that begins with one of these signs needs quotes.",
		"let:\n  gap: &g 1/4\"\n"},
	{"bad-escape", "A backslash that is no escape",
		"Inside double quotes a backslash begins an escape such as \\n. Write two, or use single quotes.",
		"about: \"c:\\oak\"\n"},
	{"bolt-length", "No bolt fits the wood",
		"A bolt goes through both boards, a washer and a nut and stands out a quarter inch, and its thread must begin before the nut does. Leave the length out and it is found, or use a thicker bolt.",
		"piece: Post on a rail\nlumber:\n  stock: {size: 2x4, wood: southern pine}\nparts:\n  rail: {of: stock, length: 24\", place: {runs: right, faces: front, front: middle, bottom: floor}}\n  post: {of: stock, length: 24\", place: {runs: up, faces: front, front: against rail.back, left: middle}, ends: {bottom: floor}}\njoints:\n  bolts: {join: [rail, post], with: carriage bolt 5/16 x 2, head: rail, pattern: {count: 2}}\nsteps: [{name: Post, add: [rail, post]}]\n"},
	{"bracket-in-text", "A bracket inside a value between { and }",
		"Between { and } the signs { } [ ] end a text. Put the text in quotes, or write the entry over several lines without the outer braces.",
		"steps:\n  - {name: Legs, say: Fit {leg.length} legs.}\n"},
	{"clash", "Two boards share wood",
		"Two boards run into one another, deeper than any rounding. Move one of them, or let one into the other with a notch or housing.",
		"piece: Post in a rail\nlumber:\n  stock: {size: 2x4, wood: southern pine}\nparts:\n  rail: {of: stock, length: 24\", place: {runs: right, faces: front, front: middle, bottom: floor}}\n  post: {of: stock, length: 24\", place: {runs: up, faces: front, front: 1/4\" in from rail.back, left: middle}, ends: {bottom: floor}}\nsteps: [{name: Post, add: [rail, post]}]\n"},
	{"colon-in-text", "A colon and a blank inside a value",
		"Outside quotes a colon followed by a blank ends a name. Put the text in quotes, or below a >.",
		"about: Beware: wet paint\n"},
	{"comma-split", "A comma split a value",
		"Between { and } or [ and ] a comma begins the next entry. Put the text in quotes; part the arguments of a function by ; instead of a comma.",
		"need:\n  - {that: a < b, else: Too low, lift it.}\n"},
	{"cut-by-comment", "A # made the rest of the value a comment",
		"A blank and # begin a comment, so that screw #10 x 3 says only screw. Write the number without the sign: screw 10 x 3.",
		"joints:\n  rails:\n    with: screw #10 x 3\n"},
	{"duplicate-key", "The same key twice",
		"Each key may stand once in its section; nothing says which of two would count.",
		"let:\n  gap: 1/4\"\n  gap: 3/8\"\n"},
	{"file-too-large", "The file is too large",
		"A design file holds at most 1 MiB.", ""},
	{"indentation", "A line stands at the wrong depth",
		"Entries of one section begin in the same column, deeper than the section's name; a value that stands on the name's line cannot be continued by an entry below it.",
		"let:\n    gap: 1/4\"\n  lip: 1/2\"\n"},
	{"joint-apart", "A joint of boards that do not touch",
		"None of the boards the joint names on one side touches one of those on the other. Place them against one another, or name the boards that do meet.",
		"piece: Post away from a rail\nlumber:\n  stock: {size: 2x4, wood: southern pine}\nparts:\n  rail: {of: stock, length: 24\", place: {runs: right, faces: front, front: middle, bottom: floor}}\n  post: {of: stock, length: 24\", place: {runs: up, faces: front, front: 1\" behind rail.back, left: middle}, ends: {bottom: floor}}\njoints:\n  bolts: {join: [rail, post], with: carriage bolt 5/16, head: rail, pattern: {count: 2}}\nsteps: [{name: Post, add: [rail, post]}]\n"},
	{"joint-count", "Another number of pairs than expected",
		"A joint holds for every two of its boards that touch over half a square inch. expect: says how many there must be, and there are more or fewer.",
		"piece: Post on a rail\nlumber:\n  stock: {size: 2x4, wood: southern pine}\nparts:\n  rail: {of: stock, length: 24\", place: {runs: right, faces: front, front: middle, bottom: floor}}\n  post: {of: stock, length: 24\", place: {runs: up, faces: front, front: against rail.back, left: middle}, ends: {bottom: floor}}\njoints:\n  bolts: {join: [rail, post], with: carriage bolt 5/16, head: rail, pattern: {count: 2}, expect: 2}\nsteps: [{name: Post, add: [rail, post]}]\n"},
	{"joint-held", "A joint no step fastens",
		"hold: puts boards together and leaves the fastening for later, and no later step has the joint under fasten:; or its two boards are never brought together.",
		"piece: Post on a rail\nlumber:\n  stock: {size: 2x4, wood: southern pine}\nparts:\n  rail: {of: stock, length: 24\", place: {runs: right, faces: front, front: middle, bottom: floor}}\n  post: {of: stock, length: 24\", place: {runs: up, faces: front, front: against rail.back, left: middle}, ends: {bottom: floor}}\njoints:\n  bolts: {join: [rail, post], with: carriage bolt 5/16, head: rail, pattern: {count: 2}}\nsteps: [{name: Post, add: [rail, post], hold: [bolts]}]\n"},
	{"joint-slight", "Boards that meet over too little",
		"Two boards of the joint touch over less than half a square inch, too little for a fastener with wood round it, so none is counted there.",
		"piece: Post beside the end of a rail\nlumber:\n  stock: {size: 2x4, wood: southern pine}\nparts:\n  rail: {of: stock, length: 24\", place: {runs: right, faces: front, front: middle, bottom: floor}}\n  post: {of: stock, length: 24\", place: {runs: up, faces: front, front: against rail.back, left: 1/8\" in from rail.right}, ends: {bottom: floor}}\njoints:\n  bolts: {join: [rail, post], with: carriage bolt 5/16, head: rail, pattern: {count: 2}}\nsteps: [{name: Post, add: [rail, post]}]\n"},
	{"marks-missing", "A board the plan cannot place in words",
		"Every board is placed by three marks: against, flush with, or so far from something that is there in that step. Here nothing lies square enough to it. Add it in a step where what it fits against is there.",
		""},
	{"missing-colon", "A line without a colon",
		"Each entry is a name, a colon, a blank and a value.",
		"let:\n  gap 1/4\"\n  lip: 1/2\"\n"},
	{"nearly-touch", "Two boards nearly touch",
		"Two faces look at one another from less than a fiftieth of an inch. Boards meant to touch are placed against one another; boards meant to stand apart need a gap that shows.",
		"piece: Post almost on a rail\nlumber:\n  stock: {size: 2x4, wood: southern pine}\nparts:\n  rail: {of: stock, length: 24\", place: {runs: right, faces: front, front: middle, bottom: floor}}\n  post: {of: stock, length: 24\", place: {runs: up, faces: front, front: 1/64\" behind rail.back, left: middle}, ends: {bottom: floor}}\nsteps: [{name: Post, add: [rail, post]}]\n"},
	{"no-value", "A name without a value",
		"Something must stand after the colon, or deeper below it. An empty list is [].",
		"let:\n  gap:\n"},
	{"not-text", "The file is not text",
		"A design file is UTF-8 text. Save it so in your editor; remove control characters.",
		"piece: \x01\n"},
	{"price-book", "A line of the price book that cannot be read",
		"A price book is a CSV file: place, date and basis; then boards under size,wood,grade,treatment,length_ft,price; then fasteners under hardware,count,price. Names are the catalogue's. A line that is wrong gives no price.",
		"size,wood,grade,treatment,length_ft,price\n2x4,cedar,,none,8,4.00\n"},
	{"screw-long", "A screw or nail that is too long",
		"A quarter inch of wood should be left beyond the tip, else it shows or pricks.",
		"piece: Post on a rail\nlumber:\n  stock: {size: 2x4, wood: southern pine}\nparts:\n  rail: {of: stock, length: 24\", place: {runs: right, faces: front, front: middle, bottom: floor}}\n  post: {of: stock, length: 24\", place: {runs: up, faces: front, front: against rail.back, left: middle}, ends: {bottom: floor}}\njoints:\n  bolts: {join: [rail, post], with: screw 8 x 3, through: rail, pattern: {count: 2}}\nsteps: [{name: Post, add: [rail, post]}]\n"},
	{"screw-short", "A screw or nail that is too short",
		"It should bite an inch of the far board, and two inches where it enters end grain, which holds badly.",
		"piece: Post on a rail\nlumber:\n  stock: {size: 2x4, wood: southern pine}\nparts:\n  rail: {of: stock, length: 24\", place: {runs: right, faces: front, front: middle, bottom: floor}}\n  post: {of: stock, length: 24\", place: {runs: up, faces: front, front: against rail.back, left: middle}, ends: {bottom: floor}}\njoints:\n  bolts: {join: [rail, post], with: screw 8 x 2, through: rail, pattern: {count: 2}}\nsteps: [{name: Post, add: [rail, post]}]\n"},
	{"stray-text", "Something stands after the end of a value",
		"After a closing quote, brace or bracket the entry ends. A text that begins with one of these needs quotes around the whole.",
		"about: {length} long\n"},
	{"tab", "A tab in the indentation",
		"YAML counts blanks at the beginning of a line and has no rule for tabs. Use blanks.",
		"let:\n\tgap: 1/4\"\n"},
	{"too-deep", "Nested too deep",
		"Sections, lists and braces may be nested 64 deep; a measure may nest parentheses, signs and conditions only so far. Write it flatter, or give parts of a measure names under let:.", ""},
	{"unclosed", "A quote, brace or bracket is never closed",
		"Write the closing sign on the same line or deeper below.",
		"sizes:\n  length: {is: 6'\n"},
	{"yaml-mark", "A sign YAML keeps for itself",
		"Directives (%), document marks (--- and ...), complex keys (?) and values that begin with a reserved sign are not part of a design file. A text that begins with such a sign needs quotes.",
		"about: @home\n"},
}
