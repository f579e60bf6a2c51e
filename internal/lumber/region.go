package lumber

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"scantling/internal/measure"
	"scantling/internal/region"
	"scantling/internal/spell"
)

// SizesIn returns the catalogue of a region, in the order its yards list it.
func SizesIn(r region.Region) []Size {
	if r == region.America {
		return Sizes()
	}
	var all []Size
	for _, m := range metricRows() {
		if m.region == r {
			all = append(all, m.size())
		}
	}
	return all
}

// LookupIn returns the size sold by the given name in a region: "45x95",
// "47x100 sawn", "38x89 CLS" in Europe, where the thickness is said first;
// "90x45" in Australasia, where the width is. Spaces, case, the sign between the
// figures and a closing mm are free. A name that fits several rows ("47x100",
// which is sold rough and regularised) or none is a *NameError.
func LookupIn(r region.Region, name string) (Size, error) {
	if r == region.America {
		return lookupAmerican(name)
	}
	fits := find(r, foldMetric(name))
	switch len(fits) {
	case 0:
		return Size{}, unknownIn(r, name)
	case 1:
		return fits[0].size(), nil
	}
	e := &NameError{Noun: "sale size", Asked: name}
	e.Candidates = names(fits)
	var measures []string
	for _, m := range fits {
		measures = append(measures, fmt.Sprintf("%s measures %d by %d mm", m.edge, m.thick, m.wide))
	}
	e.Why = strings.Join(measures, ", ")
	return Size{}, e
}

// find returns the rows of a metric region that bear a folded name: the one
// whose whole name it is, or all whose figures it is.
func find(r region.Region, asked string) (fits []metricRow) {
	for _, m := range metricRows() {
		if m.region != r {
			continue
		}
		if asked == fold(string(m.name())) {
			return []metricRow{m}
		}
		if asked == m.bare() {
			fits = append(fits, m)
		}
	}
	return fits
}

// lookupAbroad looks a name up that is no American one; metric says that it
// looks like one of a metric catalogue, so that its error is the one to tell.
func lookupAbroad(name string) (s Size, err error, metric bool) {
	first, _, _ := strings.Cut(foldMetric(name), "x")
	mm, e := strconv.Atoi(first)
	metric = e == nil && mm >= 16 // thinner is no board there, thicker no board here
	if !metric {
		return Size{}, nil, false
	}
	var told *NameError // the error that says most: what it may be, else why not, else the nearest
	for _, r := range []region.Region{region.Europe, region.Australasia} {
		s, err := LookupIn(r, name)
		if err == nil {
			return s, nil, true
		}
		e := err.(*NameError)
		if told == nil || len(told.Candidates) == 0 && (len(e.Candidates) > 0 || told.Why == "" && e.Why != "") {
			told = e
		}
	}
	return Size{}, told, true
}

// foldMetric is fold, and leaves out a closing mm.
func foldMetric(s string) string { return strings.TrimSuffix(fold(s), "mm") }

// unknownIn explains a name no row of a metric region bears.
func unknownIn(r region.Region, name string) error {
	e := &NameError{Noun: "sale size", Asked: name}
	asked := foldMetric(name)
	figures := strings.Split(asked, "x")
	if len(figures) == 3 {
		if fits := find(r, figures[0]+"x"+figures[1]); len(fits) > 0 {
			e.Nearest = names(fits)
			e.Why = "A sale size has no length in it; lengths are chosen when the boards are bought"
			return e
		}
	}
	if len(figures) == 2 {
		if fits := find(r, figures[1]+"x"+figures[0]); len(fits) > 0 {
			e.Nearest = names(fits)
			e.Why = "In " + r.String() + " the " + map[region.Region]string{region.Europe: "thickness", region.Australasia: "width"}[r] + " is said first"
			return e
		}
	}
	if s, err := lookupAmerican(name); err == nil {
		thick, wide := int(s.Thick.Round(measure.Millimetre)/measure.Millimetre), int(s.Wide.Round(measure.Millimetre)/measure.Millimetre)
		e.Why = fmt.Sprintf("That is sold in %v, where it measures %d by %d mm", region.America, thick, wide)
		if r == region.Australasia {
			thick, wide = wide, thick
		}
		asked = fmt.Sprintf("%dx%d", thick, wide)
	}
	e.Nearest = nearestIn(r, asked)
	return e
}

// nearestIn returns the names most like asked: the two rows whose section
// differs least, or else those spelled most alike.
func nearestIn(r region.Region, asked string) []string {
	first, then, _ := strings.Cut(asked, "x")
	a, err1 := strconv.Atoi(first)
	b, err2 := strconv.Atoi(then)
	type sized struct {
		name string
		off  int
	}
	var all []sized
	var known []string
	for _, m := range metricRows() {
		if m.region == r {
			off := max(m.first-a, a-m.first) + max(m.then-b, b-m.then)
			all, known = append(all, sized{string(m.name()), off}), append(known, fold(string(m.name())))
		}
	}
	if err1 == nil && err2 == nil && a < 1000 && b < 1000 {
		slices.SortStableFunc(all, func(x, y sized) int { return x.off - y.off })
		return []string{all[0].name, all[1].name}
	}
	var near []string
	for _, folded := range spell.Nearest(asked, known) {
		near = append(near, all[slices.Index(known, folded)].name)
	}
	return near
}

func names(rows []metricRow) (out []string) {
	for _, m := range rows {
		out = append(out, string(m.name()))
	}
	return out
}
