package design

import (
	"fmt"

	"scantling/internal/region"
	"scantling/internal/snag"
	"scantling/internal/source"
)

// Home returns the region a file says it was drawn for, by its keys region and
// units: North America when it has neither.
func Home(tree *source.Tree) (region.Region, snag.List) {
	home, metric := region.America, false
	units := tree.Root.Get("units")
	if units != nil && units.Text == "metric" {
		home, metric = region.Europe, true
	}
	n := tree.Root.Get("region")
	if n == nil || n.Kind != source.Scalar {
		return home, nil
	}
	in, ok := region.Parse(n.Text)
	if !ok {
		s := snag.Snag{Code: "unknown-word", At: n.Range, What: "“" + n.Text + "” is no region known here"}
		for _, r := range region.All() {
			s.Mends = append(s.Mends, snag.Replace("write "+r.String(), n.Range, r.String()))
		}
		return home, snag.List{s}
	}
	if units != nil && metric != in.Metric() {
		word := map[bool]string{true: "metric", false: "inch"}[in.Metric()]
		return in, snag.List{{Code: "said-twice", At: n.Range, What: "yards of " + in.String() + " do not sell by the " + map[bool]string{true: "millimetre", false: "inch"}[metric],
			Related: []snag.Related{{At: units.Range, Says: "the units are said here"}},
			Mends:   []snag.Mend{snag.Replace("write units: "+word, units.Range, word), snag.Say("or leave units out: the region says them")}}}
	}
	return in, nil
}

// Region returns where the piece is to be built.
func (d *Design) Region() region.Region { return d.region }

// besides returns what to write for a value so that this edition says text, and
// the others what they do.
func (d *Design) besides(n *source.Node, text string) string {
	if whole := d.whole.Scalars[n.Ordinal]; d.region == d.home || n.Start != whole.Start || n.End != whole.End {
		return text // the only edition there is, or an alternative already
	}
	switch others := n.Text; {
	case d.region == region.Europe && !d.home.Metric():
		return others + " | " + text
	case d.region == region.Australasia && d.home == region.America:
		return others + " | " + others + " | " + text
	case d.region == region.America:
		return text + " | " + others
	case d.region == region.Europe:
		return others + " | " + text + " | " + others
	default:
		return others + " | " + others + " | " + text
	}
}

// Tree returns the edition's tree: of each value the alternative it says.
func (d *Design) Tree() *source.Tree { return d.tree }

// inches tells of measures a metric edition has in inches.
func (r *reader) inches() {
	at := r.d.tree.Inches()
	if len(at) == 0 {
		return
	}
	s := snag.Snag{Code: "inches-in-metric", Severity: snag.Advice, At: at[0],
		What:  fmt.Sprintf("%d measures of the metric edition are said in inches, this one first; they are worked with as they stand", len(at)),
		Why:   "converted inches come to sizes that no tape, yard or bit of the region has",
		Mends: []snag.Mend{snag.Say(`say it for both editions, in figures of each: 3/4" | 20 mm`)}}
	if len(at) == 1 {
		s.What = "a measure of the metric edition is said in inches; it is worked with as it stands"
	}
	r.d.snags = append(r.d.snags, s)
}
