package plan

import (
	"bytes"
	"encoding/json"
	"math"
	"slices"
	"strings"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/proof"
	"scantling/internal/shop"
	"scantling/internal/snag"
	"scantling/internal/source"
	"scantling/internal/span"
)

// FormatVersion is the version of plan.json. It grows when a field changes its
// meaning or goes; new fields do not change it.
const FormatVersion = 1

// JSON returns plan.json, described in doc/plan-json.md. Its bytes are the same
// for the same plan.
func (p *Plan) JSON() []byte {
	e := jsonEncoder{p.tree}
	r := p.Readings
	var doc struct {
		Format   string       `json:"format"`
		Version  int          `json:"version"`
		File     string       `json:"file"`
		Piece    jsonPiece    `json:"piece"`
		Sizes    []jsonSize   `json:"sizes"`
		Choices  []jsonChoice `json:"choices"`
		Needs    []jsonNeed   `json:"needs"`
		Boards   []jsonBoard  `json:"boards"`
		Parts    []jsonPart   `json:"parts"`
		Joints   []jsonJoint  `json:"joints"`
		Buy      jsonBuy      `json:"buy"`
		Cuts     jsonCuts     `json:"cuts"`
		Hardware []jsonLine   `json:"hardware"`
		Steps    []jsonStep   `json:"steps"`
		Proof    *jsonProof   `json:"proof,omitempty"`
		Hangs    *jsonHangs   `json:"tolerance,omitempty"`
		Snags    []jsonSnag   `json:"snags"`
		Totals   jsonTotals   `json:"totals"`
	}
	doc.Format, doc.Version, doc.File = "scantling plan", FormatVersion, p.File
	doc.Piece = jsonPiece{Name: r.Piece, About: e.text(r.About), Units: r.Units, Revision: r.Revision,
		Date: r.Date, Ready: r.Ready, Facts: e.texts(r.Facts)}
	for _, s := range r.Sizes {
		doc.Sizes = append(doc.Sizes, jsonSize{s.Name, s.Says, e.number(s.Value), e.number(s.Least), e.number(s.Most), e.number(s.Step)})
	}
	for _, c := range r.Choices {
		doc.Choices = append(doc.Choices, jsonChoice(c))
	}
	doc.Needs = []jsonNeed{}
	for _, n := range r.Needs {
		doc.Needs = append(doc.Needs, e.need(n))
	}
	for _, b := range r.Boards {
		doc.Boards = append(doc.Boards, e.board(b))
	}
	for _, pt := range r.Parts {
		doc.Parts = append(doc.Parts, e.part(pt))
	}
	doc.Joints = []jsonJoint{}
	for _, j := range r.Joints {
		doc.Joints = append(doc.Joints, e.joint(j))
	}
	doc.Buy = jsonBuy{Boards: e.lines(r.Buy.Boards), OnHand: e.lines(r.Buy.OnHand), Goods: e.lines(r.Buy.Goods), Cost: e.number(r.Buy.Cost), Prices: r.Buy.PriceNote, Metal: r.Buy.Metal,
		Alternatives: []jsonAlternative{}}
	for _, a := range r.Buy.Alternatives {
		doc.Buy.Alternatives = append(doc.Buy.Alternatives, jsonAlternative{e.text(a.Says), e.maybe(a.Extra)})
	}
	doc.Cuts = e.cuts(r.Saw)
	doc.Hardware = e.lines(r.Buy.Hardware)
	for _, s := range r.Steps {
		doc.Steps = append(doc.Steps, e.step(s))
	}
	doc.Proof, doc.Hangs = p.jsonProof(), p.jsonHangs()
	for _, s := range p.Snags {
		doc.Snags = append(doc.Snags, newSnag(s))
	}
	doc.Totals = jsonTotals{Width: e.number(r.Overall[0]), Depth: e.number(r.Overall[1]), Height: e.number(r.Overall[2]),
		Mass: e.number(r.Mass), Boards: len(r.Boards), Parts: len(r.Parts), CostCents: costCents(r)}
	return encode(doc)
}

// SnagsJSON returns the snags alone, for `scantling check --json`.
func (p *Plan) SnagsJSON() []byte {
	list := []jsonSnag{}
	for _, s := range p.Snags {
		list = append(list, newSnag(s))
	}
	return encode(map[string]any{"format": "scantling snags", "version": FormatVersion, "file": p.File, "snags": list})
}

func encode(v any) []byte {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	if err := enc.Encode(v); err != nil {
		panic("plan: plan.json holds a value JSON cannot: " + err.Error())
	}
	return out.Bytes()
}

// A jsonNumber is a number a person may read: its value under the name of its
// unit, the text as printed, and the ranges of the file it came from.
type jsonNumber struct {
	unit  string
	value float64
	shown string
	how   string
	from  [][2]int
}

func (n jsonNumber) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	put := func(key string, v any) error {
		if b.Len() > 1 {
			b.WriteByte(',')
		}
		text, err := json.Marshal(v)
		b.WriteString(`"` + key + `":`)
		b.Write(text)
		return err
	}
	b.WriteByte('{')
	if err := put(n.unit, n.value); err != nil {
		return nil, err
	}
	put("shown", n.shown)
	if n.how != "" {
		put("how", n.how)
	}
	put("from", n.from)
	b.WriteByte('}')
	return b.Bytes(), nil
}

type jsonSpan struct {
	Words  string      `json:"words,omitempty"`
	Number *jsonNumber `json:"number,omitempty"`
}

type jsonPiece struct {
	Name     string       `json:"name"`
	About    []jsonSpan   `json:"about"`
	Units    string       `json:"units"`
	Revision string       `json:"revision,omitempty"`
	Date     string       `json:"date,omitempty"`
	Ready    bool         `json:"ready"`
	Facts    [][]jsonSpan `json:"facts"`
}

type jsonSize struct {
	Name  string     `json:"name"`
	Says  string     `json:"says"`
	Value jsonNumber `json:"value"`
	Least jsonNumber `json:"least"`
	Most  jsonNumber `json:"most"`
	By    jsonNumber `json:"by"`
}

type jsonChoice struct {
	Name string   `json:"name"`
	Says string   `json:"says"`
	Is   string   `json:"is"`
	Of   []string `json:"of"`
}

// A jsonNeed is what the design asks; holds is absent when nobody can tell.
type jsonNeed struct {
	Says  []jsonSpan `json:"says,omitempty"`
	Else  []jsonSpan `json:"else"`
	How   string     `json:"how"`
	Holds *bool      `json:"holds,omitempty"`
	Sizes []string   `json:"sizes"`
}

func (e jsonEncoder) need(n shop.Need) jsonNeed {
	out := jsonNeed{Says: e.text(n.Says), Else: e.text(n.Else), How: "warn", Sizes: append([]string{}, n.Sizes...)}
	if n.Stop {
		out.How = "stop"
	}
	if n.Known {
		out.Holds = &n.Holds
	}
	return out
}

type jsonBoard struct {
	ID     board.ID  `json:"id"`
	Part   string    `json:"part"`
	Called string    `json:"called"`
	Lies   jsonLies  `json:"lies"`
	Pose   jsonPose  `json:"pose"`
	Solid  jsonSolid `json:"solid"`
}

// A jsonLies says what the first end and the show face of a part are called.
type jsonLies struct {
	End  string `json:"end"`
	Face string `json:"face"`
}

// A jsonPose takes the board's own frame (blank corner at 0, x along the grain,
// z out of the show face) to the piece: p = at + x·right + y·up ….
type jsonPose struct {
	X  [3]float64 `json:"x"`
	Y  [3]float64 `json:"y"`
	Z  [3]float64 `json:"z"`
	At [3]float64 `json:"at_mm"`
}

type jsonSolid struct {
	Vertices [][3]float64 `json:"vertices_mm"`
	Faces    []jsonFace   `json:"faces"`
}

type jsonFace struct {
	Of    string  `json:"of"`
	Loops [][]int `json:"loops"`
}

type jsonPart struct {
	Letter      string      `json:"letter"`
	Name        string      `json:"name"`
	Hand        string      `json:"hand"`
	Twin        string      `json:"twin,omitempty"`
	Count       int         `json:"count"`
	Stock       string      `json:"stock"`
	Thickness   jsonNumber  `json:"thickness"`
	Width       jsonNumber  `json:"width"`
	Length      jsonNumber  `json:"length"`
	ShortLength *jsonNumber `json:"short_length,omitempty"`
	EdgeLength  *jsonNumber `json:"edge_length,omitempty"`
	Volume      jsonNumber  `json:"volume"`
	Mass        jsonNumber  `json:"mass"`
	Note        []jsonSpan  `json:"note"`
	Changed     []jsonSpan  `json:"changed,omitempty"`
	Cuts        []jsonCut   `json:"cuts"`
	Holes       []jsonHole  `json:"holes"`
	Boards      []board.ID  `json:"boards"`
	Drawn       jsonLies    `json:"drawn"`
	Need        string      `json:"need,omitempty"`
}

type jsonCut struct {
	Kind     string      `json:"kind"`
	Name     string      `json:"name"`
	Words    []jsonSpan  `json:"words"`
	Setting  *jsonNumber `json:"setting,omitempty"`
	Included *jsonNumber `json:"included,omitempty"`
	Offset   *jsonNumber `json:"offset,omitempty"`
	Bevel    *jsonNumber `json:"bevel,omitempty"`
	Swing    string      `json:"swing,omitempty"`
	FaceUp   string      `json:"face_up,omitempty"`
	Fence    string      `json:"fence,omitempty"`
	Keep     string      `json:"keep,omitempty"`
	Long     string      `json:"long,omitempty"`
	Lean     *jsonNumber `json:"lean,omitempty"`
	LongFace string      `json:"long_face,omitempty"`
	ByMarks  bool        `json:"by_marks,omitempty"`
	Marks    []jsonMark  `json:"marks,omitempty"`
}

type jsonMark struct {
	Label string     `json:"label"`
	At    jsonNumber `json:"at"`
}

type jsonHole struct {
	Kind     string      `json:"kind"`
	Bit      jsonNumber  `json:"bit"`
	Depth    jsonNumber  `json:"depth"`
	Sunk     *jsonNumber `json:"countersink,omitempty"`
	Face     string      `json:"face"`
	End      string      `json:"end"`
	FromEnd  jsonNumber  `json:"from_end"`
	Rim      string      `json:"edge"`
	FromRim  jsonNumber  `json:"from_edge"`
	Together board.ID    `json:"together,omitempty"`
	Joint    string      `json:"joint"`
	Words    []jsonSpan  `json:"words"`
}

type jsonJoint struct {
	Name  string     `json:"name"`
	With  []string   `json:"with"`
	Total int        `json:"total"`
	Pairs []jsonPair `json:"pairs"`
}

type jsonPair struct {
	Boards [2]board.ID `json:"boards"`
	Area   jsonNumber  `json:"area"`
	Axes   []jsonAxis  `json:"axes"`
}

type jsonAxis struct {
	What   string     `json:"what"`
	At     [3]float64 `json:"at_mm"`
	Way    [3]float64 `json:"way"`
	LongMM float64    `json:"long_mm"`
	HeadMM float64    `json:"head_mm"`
	WoodMM [2]float64 `json:"wood_mm"`
	SunkMM [2]float64 `json:"sunk_mm"`
	Only   board.ID   `json:"only,omitempty"`
}

type jsonBuy struct {
	Boards []jsonLine `json:"boards"`
	OnHand []jsonLine `json:"on_hand"`
	Goods  []jsonLine `json:"goods"`
	Cost   jsonNumber `json:"cost"`
	Prices string     `json:"prices"`
	Metal  string     `json:"metal,omitempty"`

	Alternatives []jsonAlternative `json:"alternatives"`
}

type jsonAlternative struct {
	Says  []jsonSpan  `json:"says"`
	Extra *jsonNumber `json:"extra,omitempty"`
}

type jsonLine struct {
	What   string      `json:"what"`
	Length *jsonNumber `json:"length,omitempty"`
	Count  int         `json:"count"`
	Spare  int         `json:"spare,omitempty"`
	Packs  string      `json:"packs,omitempty"`
	Each   *jsonNumber `json:"each,omitempty"`
	Total  *jsonNumber `json:"total,omitempty"`
	Use    string      `json:"use,omitempty"`
	From   [][2]int    `json:"from"`
}

type jsonCuts struct {
	Boards     []jsonSawBoard `json:"boards"`
	CostCents  int64          `json:"cost_cents"`
	BoundCents int64          `json:"bound_cents"`
	Optimal    bool           `json:"optimal"`
	Checked    bool           `json:"checked"`
	Kerf       jsonNumber     `json:"kerf"`
	Squared    jsonNumber     `json:"squared"`
}

type jsonSawBoard struct {
	Stock    string        `json:"stock"`
	Length   jsonNumber    `json:"length"`
	Same     int           `json:"same"`
	Sections []jsonSection `json:"sections"`
}

type jsonSection struct {
	FromMM float64      `json:"from_mm"`
	LongMM float64      `json:"long_mm"`
	CutAt  *jsonNumber  `json:"cut_at,omitempty"`
	RipsAt []jsonNumber `json:"rips_at,omitempty"`
	Strips []jsonStrip  `json:"strips"`
}

type jsonStrip struct {
	AtMM    float64     `json:"at_mm"`
	WidthMM float64     `json:"width_mm"`
	Pieces  []jsonPiec  `json:"pieces"`
	Left    *jsonNumber `json:"left,omitempty"`
	Offcut  string      `json:"offcut,omitempty"`
}

type jsonPiec struct {
	Part    string     `json:"part"`
	Mark    jsonNumber `json:"mark"`
	StartMM float64    `json:"start_mm"`
	EndMM   float64    `json:"end_mm"`
	SlantMM [2]float64 `json:"slant_mm"`
	AtMM    float64    `json:"at_mm"`
	WidthMM float64    `json:"width_mm"`
}

type jsonStep struct {
	Number int            `json:"number"`
	Name   string         `json:"name"`
	Lies   string         `json:"lies,omitempty"`
	People int            `json:"people"`
	Times  int            `json:"times"`
	Each   string         `json:"each,omitempty"`
	Again  []jsonAgain    `json:"again"`
	Add    []jsonStepPart `json:"add"`
	Boards []board.ID     `json:"boards"`
	Fasten []jsonFasten   `json:"fasten"`
	Marks  []jsonMarks    `json:"marks"`
	Square []jsonSquare   `json:"square"`
	Say    []jsonSpan     `json:"say"`
	Checks [][]jsonSpan   `json:"checks"`
	Lift   []jsonSpan     `json:"lift"`
	Around []jsonAround   `json:"around"`
	Reach  jsonReach      `json:"reach"`
}

type jsonAround struct {
	Kind    string                `json:"kind"`
	Words   []jsonSpan            `json:"words"`
	Figures map[string]jsonNumber `json:"figures"`
	Source  string                `json:"source"`
}

type jsonAgain struct {
	Each     string      `json:"each"`
	Mirrored bool        `json:"mirrored"`
	Boards   []board.ID  `json:"boards"`
	Marks    []jsonMarks `json:"marks"`
}

type jsonStepPart struct {
	Part  string `json:"part"`
	Name  string `json:"name"`
	Hand  string `json:"hand,omitempty"`
	Count int    `json:"count"`
}

type jsonFasten struct {
	What  string       `json:"what"`
	Count int          `json:"count"`
	Joint string       `json:"joint"`
	Bits  []jsonNumber `json:"bits"`
	From  []string     `json:"driven_from"`
	Drill []jsonDrill  `json:"drill,omitempty"`
}

// A jsonDrill is where bolts go through the board under their heads.
type jsonDrill struct {
	Board board.ID   `json:"board"`
	Holes []jsonHole `json:"holes"`
}

type jsonMarks struct {
	Boards []board.ID   `json:"boards"`
	Called string       `json:"called"`
	Words  [][]jsonSpan `json:"words"`
}

type jsonSquare struct {
	Frame     string          `json:"frame"`
	Boards    []board.ID      `json:"boards"`
	Diagonals [2]jsonDiagonal `json:"diagonals"`
	Allowed   jsonNumber      `json:"allowed"`
	Racked    jsonNumber      `json:"racked"`
	Across    jsonNumber      `json:"across"`
	Words     []jsonSpan      `json:"words"`
}

type jsonDiagonal struct {
	A     string     `json:"a"`
	B     string     `json:"b"`
	Value jsonNumber `json:"value"`
}

type jsonProof struct {
	Proved  bool        `json:"proved"`
	Allowed float64     `json:"allowed_mm"`
	Gap     float64     `json:"worst_gap_mm"`
	Overlap float64     `json:"worst_overlap_mm"`
	Hole    float64     `json:"worst_hole_mm"`
	Part    float64     `json:"worst_part_mm"`
	Slip    float64     `json:"worst_slip_mm"`
	Builds  []jsonBuild `json:"builds"`
	Joints  []jsonFit   `json:"joints"`
	Clashes []jsonFit   `json:"clashes"`
	Parts   []jsonOff   `json:"parts"`
	Unclear []string    `json:"unclear"`
}

type jsonBuild struct {
	Way     string  `json:"way"`
	Gap     float64 `json:"gap_mm"`
	Overlap float64 `json:"overlap_mm"`
	Hole    float64 `json:"hole_mm"`
}

// A jsonHangs says what it does when every length and mark is off by so much.
type jsonHangs struct {
	By        float64    `json:"by_mm"`
	Rows      []jsonHang `json:"rows"`
	Diagonals []jsonHang `json:"diagonals"`
	Holes     []jsonHang `json:"holes"`
}

type jsonHang struct {
	What  string      `json:"what"`
	Count int         `json:"count,omitempty"`
	Off   [2]float64  `json:"worst_likely_mm"`
	Chain *[2]float64 `json:"chained_worst_likely_mm,omitempty"`
}

type jsonOff struct {
	Part  string  `json:"part"`
	Off   float64 `json:"off_mm"`
	Where string  `json:"where"`
}

type jsonFit struct {
	Name    string    `json:"name,omitempty"`
	Boards  [2]string `json:"boards"`
	Gap     float64   `json:"gap_mm"`
	Overlap float64   `json:"overlap_mm"`
	Hole    float64   `json:"hole_mm"`
	Slip    float64   `json:"slip_mm"`
}

type jsonSnag struct {
	Code     string     `json:"code"`
	Severity string     `json:"severity"`
	At       [2]int     `json:"at"`
	What     string     `json:"what"`
	Why      string     `json:"why,omitempty"`
	Boards   []string   `json:"boards,omitempty"`
	Mends    []jsonMend `json:"mends,omitempty"`
}

type jsonMend struct {
	Says  string     `json:"says"`
	Edits []jsonEdit `json:"edits,omitempty"`
}

type jsonEdit struct {
	At   [2]int `json:"at"`
	Text string `json:"text"`
}

type jsonTotals struct {
	Width     jsonNumber `json:"width"`
	Depth     jsonNumber `json:"depth"`
	Height    jsonNumber `json:"height"`
	Mass      jsonNumber `json:"mass"`
	Boards    int        `json:"boards"`
	Parts     int        `json:"parts"`
	CostCents int64      `json:"cost_cents"`
}

// A jsonEncoder turns readings into what plan.json holds.
type jsonEncoder struct{ tree *source.Tree }

func (e jsonEncoder) from(s span.Set) [][2]int {
	out := [][2]int{}
	for _, r := range e.tree.Ranges(s) {
		out = append(out, [2]int{r.Start, r.End})
	}
	return out
}

// units gives the key under which a quantity of each dimension stands, and what
// one of it is in the quantity's own counts.
var units = map[measure.Dim]struct {
	key string
	one float64
}{
	measure.DimLength: {"mm", 1e6}, measure.DimArea: {"mm2", 1e12}, measure.DimVolume: {"mm3", 1e18},
	measure.DimAngle: {"deg", 1e9}, measure.DimMass: {"kg", 1}, measure.DimNone: {"n", 1}, measure.DimMoney: {"cents", 1},
	measure.DimForce: {"newton", 1}, measure.DimPressure: {"mpa", 1e-12}, measure.DimForcePerLength: {"newton_per_mm", 1e-6},
}

func (e jsonEncoder) number(s shop.Shown) jsonNumber {
	u := units[s.Exact.D]
	if u.key == "" {
		panic("plan: a printed number has the dimension " + s.Exact.D.String())
	}
	how := ""
	switch s.Origin {
	case shop.Fixed:
		how = "fixed"
	case shop.ToFit:
		how = "cut to fit"
	}
	return jsonNumber{u.key, s.Exact.V / u.one, s.Text, how, e.from(s.From)}
}

func (e jsonEncoder) maybe(s *shop.Shown) *jsonNumber {
	if s == nil {
		return nil
	}
	n := e.number(*s)
	return &n
}

func (e jsonEncoder) text(t shop.Text) []jsonSpan {
	out := []jsonSpan{}
	for _, s := range t {
		out = append(out, jsonSpan{s.Words, e.maybe(s.Shown)})
	}
	return out
}

func (e jsonEncoder) texts(ts []shop.Text) [][]jsonSpan {
	out := [][]jsonSpan{}
	for _, t := range ts {
		out = append(out, e.text(t))
	}
	return out
}

func (e jsonEncoder) board(r *shop.BoardReading) jsonBoard {
	b := r.Board
	return jsonBoard{ID: r.ID, Part: r.Part, Called: r.Spoken, Lies: jsonLies(r.Lies),
		Pose:  jsonPose{vec(b.Pose.X), vec(b.Pose.Y), vec(b.Pose.Z), vec(b.Pose.At)},
		Solid: solid(b)}
}

// solid lists the corners of a board in piece coordinates, each once, and its
// outer faces as loops of them: anticlockwise seen from outside, holes after.
func solid(b *board.Board) jsonSolid {
	out := jsonSolid{Vertices: [][3]float64{}, Faces: []jsonFace{}}
	corners, loops := b.Solid.Mesh()
	for _, c := range corners {
		out.Vertices = append(out.Vertices, vec(b.Pose.Out(c)))
	}
	for i, f := range b.Solid.Faces {
		out.Faces = append(out.Faces, jsonFace{faceName(b, f.Tag), loops[i]})
	}
	return out
}

// faceName says what made a face: a side by its word, or a cut.
func faceName(b *board.Board, t geom.Tag) string {
	if c := b.CutAt(t); c != nil {
		if c.Name != "" {
			return c.Name
		}
		return c.Kind.String() + " " + b.Sides[c.Side]
	}
	return b.Sides[t]
}

func vec(v geom.Vec) [3]float64 { return [3]float64{v.X, v.Y, v.Z} }

func (e jsonEncoder) part(p *shop.Part) jsonPart {
	hand := p.Hand
	if hand == "" {
		hand = "none"
	}
	out := jsonPart{Letter: p.Letter, Name: p.Name, Hand: hand, Twin: p.Twin, Count: p.Count, Stock: p.Stock,
		Thickness: e.number(p.Thick), Width: e.number(p.Wide), Length: e.number(p.Long),
		ShortLength: e.maybe(p.Short), EdgeLength: e.maybe(p.Edge), Volume: e.number(p.Volume), Mass: e.number(p.Mass),
		Note: e.text(p.CutNote), Changed: e.text(p.Changed), Cuts: []jsonCut{}, Holes: []jsonHole{}, Boards: p.Boards, Drawn: jsonLies(p.Drawn), Need: p.Need}
	for _, c := range p.Ends {
		if c == nil {
			continue
		}
		out.Cuts = append(out.Cuts, e.sawn("end", c, c.Words))
	}
	for _, c := range p.Cuts {
		if c.Saw != nil {
			out.Cuts = append(out.Cuts, e.sawn(c.Kind, c.Saw, c.Words))
			continue
		}
		out.Cuts = append(out.Cuts, jsonCut{Kind: c.Kind, Name: c.Name, Words: e.text(c.Words), Marks: e.distances(c.Marks)})
	}
	for _, c := range p.Edges {
		out.Cuts = append(out.Cuts, jsonCut{Kind: "edge", Name: c.Edges, Words: e.text(c.Words)})
	}
	for _, h := range p.Holes {
		out.Holes = append(out.Holes, e.hole(h))
	}
	return out
}

// sawn is an angled cut with its card.
func (e jsonEncoder) sawn(kind string, c *shop.SawCut, words shop.Text) jsonCut {
	return jsonCut{Kind: kind, Name: c.End, Words: e.text(words), Setting: e.maybe(&c.Setting),
		Included: e.maybe(&c.Included), Offset: e.maybe(&c.Offset), Bevel: e.maybe(c.Bevel), Swing: c.Swing, FaceUp: c.FaceUp, Fence: c.Fence,
		Keep: c.Keep, Long: c.Long, Lean: e.maybe(c.BevelOffset), LongFace: c.LongFace, ByMarks: c.ByMarks, Marks: e.distances(c.Marks)}
}

func (e jsonEncoder) distances(all []shop.Mark) []jsonMark {
	var out []jsonMark
	for _, m := range all {
		out = append(out, jsonMark{m.Label, e.number(m.At)})
	}
	return out
}

func (e jsonEncoder) drills(all []shop.Drill) []jsonDrill {
	var out []jsonDrill
	for _, d := range all {
		j := jsonDrill{Board: d.Board, Holes: []jsonHole{}}
		for _, h := range d.Holes {
			j.Holes = append(j.Holes, e.hole(h))
		}
		out = append(out, j)
	}
	return out
}

func (e jsonEncoder) hole(h shop.HoleReading) jsonHole {
	hole := jsonHole{Kind: h.Kind, Bit: e.number(h.Bit), Depth: e.number(h.Depth), Face: h.Face, End: h.End, FromEnd: e.number(h.FromEnd),
		Rim: h.Rim, FromRim: e.number(h.FromRim), Together: h.Mate, Joint: h.Joint, Words: e.text(h.Words)}
	if h.Sunk.Text != "" {
		hole.Sunk = e.maybe(&h.Sunk)
	}
	return hole
}

func (e jsonEncoder) joint(j shop.Joint) jsonJoint {
	out := jsonJoint{Name: j.Name, With: j.With, Total: j.Total, Pairs: []jsonPair{}}
	for _, p := range j.Pairs {
		pair := jsonPair{Boards: [2]board.ID{p.A, p.B}, Area: e.number(p.Area), Axes: []jsonAxis{}}
		for _, a := range p.Axes {
			pair.Axes = append(pair.Axes, jsonAxis{a.What, vec(a.Axis.At), vec(a.Axis.Way), a.Long, a.Head, a.Axis.Stack, a.Axis.Sunk, a.Axis.In})
		}
		out.Pairs = append(out.Pairs, pair)
	}
	return out
}

func (e jsonEncoder) lines(list []shop.BuyLine) []jsonLine {
	out := []jsonLine{}
	for _, l := range list {
		out = append(out, jsonLine{l.What, e.maybe(l.Length), l.Count, l.Spare, l.Packs, e.maybe(l.Each), e.maybe(l.Total), l.Use, e.from(l.From)})
	}
	return out
}

func (e jsonEncoder) cuts(s shop.Saw) jsonCuts {
	out := jsonCuts{Boards: []jsonSawBoard{}, CostCents: s.CostCents, BoundCents: s.Bound, Optimal: s.Optimal, Checked: s.Checked,
		Kerf: e.number(s.Kerf), Squared: e.number(s.Squared)}
	for _, b := range s.Boards {
		jb := jsonSawBoard{Stock: b.Stock, Length: e.number(b.Length), Same: b.Same, Sections: []jsonSection{}}
		for _, sec := range b.Sections {
			js := jsonSection{FromMM: sec.From, LongMM: sec.Long, CutAt: e.maybe(sec.CutAt), Strips: []jsonStrip{}}
			for _, r := range sec.RipsAt {
				js.RipsAt = append(js.RipsAt, e.number(r))
			}
			for _, st := range sec.Strips {
				strip := jsonStrip{AtMM: st.Near, WidthMM: st.Wide, Pieces: []jsonPiec{}, Left: e.maybe(st.Left), Offcut: st.Offcut}
				for _, p := range st.Pieces {
					strip.Pieces = append(strip.Pieces, jsonPiec{p.Letter, e.number(p.Mark), p.Start, p.End, [2]float64{p.SlantStart, p.SlantEnd}, p.Near, p.Wide})
				}
				js.Strips = append(js.Strips, strip)
			}
			jb.Sections = append(jb.Sections, js)
		}
		out.Boards = append(out.Boards, jb)
	}
	return out
}

func (e jsonEncoder) step(s shop.Step) jsonStep {
	out := jsonStep{Number: s.Number, Name: s.Name, Lies: s.Lies, People: s.People, Times: max(1, s.Times), Each: s.Each, Again: []jsonAgain{},
		Add: []jsonStepPart{}, Boards: ids(s.New), Fasten: []jsonFasten{}, Marks: e.marks(s.Marks), Square: []jsonSquare{},
		Say: e.text(s.Say), Checks: e.texts(s.Checks), Reach: e.reach(&s.Reach)}
	for _, a := range s.Again {
		out.Again = append(out.Again, jsonAgain{a.Each, a.Mirrored, ids(a.New), e.marks(a.Marks)})
		for _, id := range a.New {
			if !slices.Contains(out.Boards, id) {
				out.Boards = append(slices.Clip(out.Boards), id)
			}
		}
	}
	out.Lift, out.Around = e.text(s.Lift), []jsonAround{}
	for _, a := range s.Around {
		x := jsonAround{a.Kind, e.text(a.Words), map[string]jsonNumber{}, a.Source}
		for _, f := range a.Figures {
			x.Figures[f.Name] = e.number(f.Value)
		}
		out.Around = append(out.Around, x)
	}
	for _, a := range s.Add {
		out.Add = append(out.Add, jsonStepPart{a.Letter, a.Name, a.Hand, a.Count})
	}
	for _, f := range s.Fasten {
		bits := []jsonNumber{}
		for _, b := range f.Bits {
			bits = append(bits, e.number(b))
		}
		out.Fasten = append(out.Fasten, jsonFasten{f.What, f.Count, f.Joint, bits, append([]string{}, f.Driven...), e.drills(f.Drill)})
	}
	for _, d := range s.Square {
		sq := jsonSquare{Frame: d.Frame, Boards: d.Boards, Allowed: e.number(d.Allowed), Racked: e.number(d.Racked), Across: e.number(d.Across), Words: e.text(d.Words)}
		for i, x := range d.Diagonals {
			sq.Diagonals[i] = jsonDiagonal{x.A, x.B, e.number(x.Value)}
		}
		out.Square = append(out.Square, sq)
	}
	return out
}

func (e jsonEncoder) marks(all []shop.BoardMarks) []jsonMarks {
	out := []jsonMarks{}
	for _, m := range all {
		out = append(out, jsonMarks{m.Boards, m.Spoken, e.texts(m.Words)})
	}
	return out
}

// ids is a list of boards that is never null.
func ids(of []board.ID) []board.ID {
	if of == nil {
		return []board.ID{}
	}
	return of
}

func (p *Plan) jsonProof() *jsonProof {
	if p.Proof == nil {
		return nil
	}
	r, l := p.Proof, p.Likeness
	out := &jsonProof{Proved: p.proved(), Allowed: proof.Allowed, Gap: micron(r.Gap), Overlap: micron(r.Over), Hole: micron(r.Hole),
		Part: micron(l.Part), Slip: micron(l.Slip),
		Builds: []jsonBuild{}, Joints: []jsonFit{}, Clashes: []jsonFit{}, Parts: []jsonOff{}, Unclear: append([]string{}, r.Unclear...)}
	for _, b := range r.Builds {
		out.Builds = append(out.Builds, jsonBuild{b.Way.String(), micron(b.Gap), micron(b.Over), micron(b.Hole)})
	}
	slips := map[proof.Slip]float64{}
	for _, s := range l.Slips {
		slips[proof.Slip{Joint: s.Joint, Boards: s.Boards}] = s.Far
	}
	for _, f := range r.Joints {
		out.Joints = append(out.Joints, jsonFit{f.Joint, f.Boards, micron(f.Gap), micron(f.Over), micron(f.Hole), micron(slips[proof.Slip{Joint: f.Joint, Boards: f.Boards}])})
	}
	for _, f := range r.Clashes {
		out.Clashes = append(out.Clashes, jsonFit{f.Joint, f.Boards, micron(f.Gap), micron(f.Over), micron(f.Hole), 0})
	}
	for _, o := range l.Parts {
		out.Parts = append(out.Parts, jsonOff{o.Letter, micron(o.Worst), o.Where})
	}
	return out
}

func (p *Plan) jsonHangs() *jsonHangs {
	if p.Hangs == nil {
		return nil
	}
	list := func(all []Hang) []jsonHang {
		out := []jsonHang{}
		for _, h := range all {
			j := jsonHang{What: h.What, Count: h.Count, Off: [2]float64{micron(h.Off.Worst), micron(h.Off.Likely)}}
			if h.Count > 0 {
				j.Chain = &[2]float64{micron(h.Other.Worst), micron(h.Other.Likely)}
			}
			out = append(out, j)
		}
		return out
	}
	return &jsonHangs{proof.Allowed, list(p.Hangs.Rows), list(p.Hangs.Diagonals), list(p.Hangs.Holes)}
}

// micron rounds what was measured on a build to a thousandth of a millimetre.
func micron(mm float64) float64 { return float64(math.Round(float64(mm*1000)) / 1000) }

func newSnag(s snag.Snag) jsonSnag {
	out := jsonSnag{Code: string(s.Code), Severity: strings.ToLower(s.Severity.String()), At: [2]int{s.At.Start, s.At.End},
		What: s.What, Why: s.Why, Boards: s.Boards}
	for _, m := range s.Mends {
		jm := jsonMend{Says: m.Says}
		for _, ed := range m.Edits {
			jm.Edits = append(jm.Edits, jsonEdit{[2]int{ed.At.Start, ed.At.End}, ed.Text})
		}
		out.Mends = append(out.Mends, jm)
	}
	return out
}

// costCents is what the whole shopping list costs.
func costCents(r *shop.Readings) int64 {
	m, _ := r.Buy.Cost.Exact.Money()
	return int64(m)
}
