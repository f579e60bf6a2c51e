// Package start writes the first design file of a piece: a whole, commented
// file that checks clean, made from a few answers, to be changed from there.
//
// Start from Start. What can be begun stands in the folder uses, one design
// file each, which is a good one as it is; answers only replace a size, the
// name and the lumber in it. Uses, Places and Woods list what may be answered.
package start

import (
	"embed"
	"fmt"
	"strings"

	"scantling/internal/lumber"
	"scantling/internal/measure"
	"scantling/internal/region"
	"scantling/internal/source"
	"scantling/internal/span"
	"scantling/internal/spell"
	"scantling/internal/wood"
)

// Answers are what a person said. Only What must be said.
type Answers struct {
	What string // the name of a use: "bench"
	Name string // of the piece; as the use is called unless said

	// Length, Depth and Height as written: `5'`, `42 1/2"`, `120 cm`. A bare
	// number is in inches, or in a metric region in millimetres. What is not said is as usual for the use.
	Length, Depth, Height string

	Region region.Region // whose yard the lumber is from
	Stands string        // the name of a place; "grass" unless said
	Wood   string        // one of Woods, or a wood as package wood names it; as usual for the use unless said
}

// An Error says which answer cannot be followed, and what can.
type Error struct {
	Field      string // of Answers, in lower case: "length"
	What, Mend string // clauses without a full stop
}

func (e *Error) Error() string { return e.What + "; " + e.Mend }

// A Use is a kind of furniture that can be begun.
type Use struct {
	Name  string // "bench"
	Says  string // what it is, in a few words
	Sizes []Size // those that may be answered, in the order of the file
	Wood  string // of Woods, the usual one

	stands string // "stands on"
	food   bool   // soil for food touches it
}

// A Size is one number that may be answered.
type Size struct {
	Name         string // "length", "depth" or "height"
	Says         string // "length of the seat"
	Is, From, To measure.Length
}

// A Place is where a piece may stand.
type Place struct {
	Name   string
	Says   string // with its article, as in "stands on the grass"
	Ground bool   // wet earth is near: what stands there wants treatment for ground contact
}

//go:embed uses/*.yaml
var files embed.FS

// Uses returns what can be begun, in sizes of North America.
func Uses() []Use { return UsesIn(region.America) }

// UsesIn returns what can be begun, in sizes of a region.
func UsesIn(r region.Region) []Use {
	uses := []Use{
		{Name: "table", Says: "to eat or work at", Wood: "treated pine", stands: "stands on"},
		{Name: "bench", Says: "to sit on, without a back", Wood: "treated pine", stands: "stands on"},
		{Name: "shelf", Says: "open shelves for pots, tools or firewood", Wood: "treated pine", stands: "stands on"},
		{Name: "planter", Says: "a lined box for herbs and flowers", Wood: "cedar", stands: "stands on", food: true},
		{Name: "gate", Says: "pickets on two rails with a brace", Wood: "cedar", stands: "hangs over"},
	}
	for i := range uses {
		sizes := tree(uses[i].Name, r).Root.Get("sizes")
		for k, key := range sizes.Keys {
			switch key.Text {
			case "length", "depth", "height":
				n := sizes.Items[k]
				uses[i].Sizes = append(uses[i].Sizes, Size{key.Text, n.Get("says").Text, ours(n.Get("is")), ours(n.Get("from")), ours(n.Get("to"))})
			}
		}
	}
	return uses
}

// Places returns where a piece may stand.
func Places() []Place {
	return []Place{
		{"grass", "the grass", true}, {"soil", "bare soil", true}, {"gravel", "gravel", true},
		{"terrace", "a terrace", false}, {"deck", "a deck", false}, {"porch", "a porch", false},
	}
}

// Woods returns the lumber most yards sell for outdoors.
func Woods() []string { return []string{"treated pine", "cedar"} }

// tree reads the file of a use as it is written for a region.
func tree(use string, r region.Region) *source.Tree {
	src, err := files.ReadFile("uses/" + use + ".yaml")
	if err != nil {
		panic("start: " + err.Error())
	}
	parse := func(src []byte) *source.Tree {
		t, snags := source.Parse(use+".yaml", src)
		if len(snags) > 0 {
			panic("start: " + use + ": " + snags[0].What)
		}
		return t
	}
	src = parse(src).Written(r)
	if r.Metric() {
		src = []byte(strings.Replace(string(src), "units: inch", "units: metric\nregion: "+r.String(), 1))
	}
	return parse(src)
}

// unitsOf returns the units of a region's yards.
func unitsOf(r region.Region) measure.Units {
	if r.Metric() {
		return measure.Metric
	}
	return measure.Imperial
}

// ours reads a length in one of our own files.
func ours(n *source.Node) measure.Length {
	q, err := measure.Parse(n.Text)
	if err != nil {
		panic("start: " + n.Text + ": " + err.Error())
	}
	l, _ := q.Length()
	return l
}

// Start writes the design file the answers ask for. The error is an *Error.
func Start(a Answers) ([]byte, error) {
	use, err := useOf(a.What, a.Region)
	if err != nil {
		return nil, err
	}
	place, err := placeOf(a.Stands)
	if err != nil {
		return nil, err
	}
	if a.Wood == "" {
		a.Wood = use.Wood
	}
	timber, err := timberOf(a.Wood, place, a.Region)
	if err != nil {
		return nil, err
	}
	t := tree(use.Name, a.Region)
	var edits []span.Edit
	if a.Name = strings.TrimSpace(a.Name); a.Name != "" {
		if strings.ContainsFunc(a.Name, func(r rune) bool { return r < ' ' || r == 0x7f }) {
			return nil, &Error{"name", "the name holds a sign that cannot be printed", "write it on one line"}
		}
		if strings.Contains(a.Name, "|") {
			return nil, &Error{"name", "the name holds a |, which parts what is said for different regions", "leave it out"}
		}
		set, err := source.Set(t, t.Root.Get("piece"), a.Name)
		if err != nil {
			return nil, &Error{"name", "“" + a.Name + "” cannot be written as a name", "use letters, digits and blanks"}
		}
		edits = append(edits, set...)
	}
	for _, said := range []struct{ name, text string }{{"length", a.Length}, {"depth", a.Depth}, {"height", a.Height}} {
		if said.text == "" {
			continue
		}
		l, err := use.size(said.name, said.text, unitsOf(a.Region))
		if err != nil {
			return nil, err
		}
		n := t.Root.Get("sizes").Get(said.name).Get("is")
		edits = append(edits, span.Edit{At: n.Range, Text: l.Exact(unitsOf(a.Region))})
	}
	for _, n := range t.Root.Get("lumber").Items {
		edits = append(edits, span.Edit{At: n.Range, Text: timber.of(n)})
	}
	edits = append(edits, comment(t, timber.says(use, place)))
	out, ok := span.Apply(t.Src, edits)
	if !ok {
		panic("start: edits overlap in " + use.Name)
	}
	return out, nil
}

// stands is the line of our own files that says where the piece stands.
const stands = "# STANDS"

func comment(t *source.Tree, says string) span.Edit {
	at := strings.Index(string(t.Src), stands)
	return span.Edit{At: span.Range{File: t.File, Start: at, End: at + len(stands)}, Text: "# " + says}
}

func useOf(name string, r region.Region) (Use, error) {
	var known []string
	for _, u := range UsesIn(r) {
		if u.Name == strings.ToLower(strings.TrimSpace(name)) {
			return u, nil
		}
		known = append(known, u.Name)
	}
	return Use{}, &Error{"what", fmt.Sprintf("“%s” cannot be begun here", name), nearest(name, known)}
}

func placeOf(name string) (Place, error) {
	var known []string
	for _, p := range Places() {
		if p.Name == strings.ToLower(strings.TrimSpace(name)) || name == "" {
			return p, nil
		}
		known = append(known, p.Name)
	}
	return Place{}, &Error{"stands", fmt.Sprintf("“%s” is no place known here", name), nearest(name, known)}
}

// nearest says what was meant, or what may be.
func nearest(asked string, known []string) string {
	if near := spell.Nearest(strings.ToLower(asked), known); len(near) > 0 {
		return "did you mean " + near[0] + "?"
	}
	return "say " + strings.Join(known[:len(known)-1], ", ") + " or " + known[len(known)-1]
}

// size reads an answer and holds it against the range of the use.
func (u Use) size(name, text string, units measure.Units) (measure.Length, error) {
	var names []string
	for _, s := range u.Sizes {
		if names = append(names, s.Name); s.Name != name {
			continue
		}
		q, bad := measure.Parse(text)
		if bad != nil {
			return 0, &Error{name, bad.What, bad.Mend}
		}
		if q.D == measure.DimNone {
			unit := measure.Inch
			if units == measure.Metric {
				unit = measure.Millimetre
			}
			q.V, q.D = q.V*float64(unit), measure.DimLength
		}
		l, ok := q.Length()
		if !ok {
			return 0, &Error{name, "“" + text + "” is no length", map[measure.Units]string{measure.Imperial: `write it in inches: 42"`, measure.Metric: "write it in millimetres: 1050 mm"}[units]}
		}
		if l < s.From || l > s.To {
			return 0, &Error{name, fmt.Sprintf("a %s cannot be begun with a %s of %s", u.Name, name, l.Exact(units)),
				fmt.Sprintf("take %s to %s; the file can be changed to more", s.From.Exact(units), s.To.Exact(units))}
		}
		return l, nil
	}
	return 0, &Error{name, fmt.Sprintf("a %s has no %s to answer", u.Name, name), "leave it out; it asks for " + strings.Join(names, " and ")}
}

// A timber is the lumber a piece is begun with.
type timber struct {
	wood    wood.Wood
	region  region.Region
	treated bool
	ground  bool // for ground contact where the file of the use says so
}

// timberOf reads the answer about lumber.
func timberOf(name string, p Place, r region.Region) (timber, error) {
	switch strings.ToLower(strings.TrimSpace(name)) {
	case "treated pine":
		w, err := wood.Lookup(map[region.Region]string{region.America: "southern pine", region.Europe: "scots pine", region.Australasia: "radiata pine"}[r])
		return timber{w, r, true, p.Ground}, err
	case "cedar":
		name = "western red cedar"
	}
	w, err := wood.LookupIn(r, name)
	if err != nil {
		return timber{}, &Error{"wood", err.Error(), "or say " + strings.Join(Woods(), " or ")}
	}
	return timber{wood: w, region: r}, nil
}

// of returns what stands after the name of a stock.
func (t timber) of(n *source.Node) string {
	size := n.Get("size").Text
	if !t.treated {
		return fmt.Sprintf("{size: %s, wood: %s, treatment: %v}", size, t.wood.NameIn(t.region), lumber.Untreated)
	}
	treatment := lumber.AboveGround
	if t.ground && n.Get("treatment").Text == lumber.GroundContact.String() {
		treatment = lumber.GroundContact
	}
	return fmt.Sprintf("{size: %s, wood: %s, grade: %s, treatment: %v}", size, t.wood.NameIn(t.region), n.Get("grade").Text, treatment)
}

// says explains the choice of lumber in the file.
func (t timber) says(u Use, p Place) string {
	where := fmt.Sprintf("It %s %s", u.stands, p.Says)
	switch {
	case t.treated && u.food:
		return where + ". The wood is treated: grow flowers in it; for anything to eat take a wood that lasts without."
	case t.treated && t.ground:
		return where + ": what is near the earth is treated for ground contact, the rest for use above ground."
	case t.treated:
		return where + ", so treatment for use above ground will do. Coat every cut end."
	case t.wood.Decay <= wood.Slight:
		return where + ". Without treatment this wood decays soon outdoors: keep it under a roof, or paint it well."
	case t.wood.Decay < wood.Resistant:
		return where + ". This wood lasts some years in the weather by itself, and more if it is kept off the ground and oiled."
	case p.Ground && u.stands == "stands on":
		return where + " and has no preservative in it: put a stone or a pad under each foot, and it lasts."
	}
	return where + " and has no preservative in it: this wood lasts in the weather by itself."
}
