package snag

import "scantling/internal/span"

// Data is a snag as plain data for programs; field names are part of the plan's
// format.
type Data struct {
	Code       string        `json:"code"`
	Severity   string        `json:"severity"` // error, caution, advice
	CannotTell bool          `json:"cannot_tell,omitempty"`
	At         *PlaceData    `json:"at,omitempty"`
	What       string        `json:"what"`
	Why        string        `json:"why,omitempty"`
	Related    []RelatedData `json:"related,omitempty"`
	Boards     []string      `json:"boards,omitempty"`
	Step       int           `json:"step,omitempty"`
	Mends      []MendData    `json:"mends,omitempty"`
}

// PlaceData is a range: bytes [Start, End), and line and column of its start,
// both from 1, the column in characters.
type PlaceData struct {
	File   string `json:"file"`
	Start  int    `json:"start"`
	End    int    `json:"end"`
	Line   int    `json:"line,omitempty"`
	Column int    `json:"column,omitempty"`
}

// RelatedData is another place that explains the snag.
type RelatedData struct {
	At   *PlaceData `json:"at,omitempty"`
	Says string     `json:"says"`
}

// MendData is one way out.
type MendData struct {
	Says  string     `json:"says"`
	Edits []EditData `json:"edits,omitempty"`
}

// EditData replaces bytes by text.
type EditData struct {
	At   *PlaceData `json:"at"`
	Text string     `json:"text"`
}

// Data returns the list as plain data, in its order.
func (l List) Data(src Sources) []Data {
	out := make([]Data, len(l))
	for i, s := range l {
		out[i] = s.Data(src)
	}
	return out
}

// Data returns the snag as plain data.
func (s Snag) Data(src Sources) Data {
	d := Data{Code: string(s.Code), Severity: s.Severity.String(), CannotTell: s.CannotTell,
		At: PlaceDataOf(s.At, src), What: s.What, Why: s.Why, Boards: s.Boards, Step: s.Step}
	for _, r := range s.Related {
		d.Related = append(d.Related, RelatedData{PlaceDataOf(r.At, src), r.Says})
	}
	for _, m := range s.Mends {
		md := MendData{Says: m.Says}
		for _, e := range m.Edits {
			md.Edits = append(md.Edits, EditData{PlaceDataOf(e.At, src), e.Text})
		}
		d.Mends = append(d.Mends, md)
	}
	return d
}

// PlaceDataOf returns at as plain data, nil for the zero range. Line and column
// are left out if src does not hold the file.
func PlaceDataOf(at span.Range, src Sources) *PlaceData {
	if at.IsZero() {
		return nil
	}
	d := &PlaceData{File: at.File, Start: at.Start, End: at.End}
	if text, ok := src[at.File]; ok {
		p := PlaceOf(text, at.Start)
		d.Line, d.Column = p.Line, p.Column
	}
	return d
}
