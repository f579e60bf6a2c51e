package plan

import (
	"encoding/json"

	"scantling/internal/board"
	"scantling/internal/proof"
	"scantling/internal/shop"
)

// pages is what the plan prints of how it is built, by the way of plan.json, so that
// the proof is given no more than any reader of that file.
func (p *Plan) pages() (*proof.Pages, error) {
	e := jsonEncoder{p.tree}
	type boardInPlace struct {
		ID     board.ID `json:"id"`
		Part   string   `json:"part"`
		Called string   `json:"called"`
		Lies   jsonLies `json:"lies"`
	}
	var doc struct {
		Boards []boardInPlace `json:"boards"`
		Parts  []jsonPart     `json:"parts"`
		Joints []jsonJoint    `json:"joints"`
		Steps  []jsonStep     `json:"steps"`
	}
	r := p.Readings
	for _, b := range r.Boards {
		doc.Boards = append(doc.Boards, boardInPlace{b.ID, b.Part, b.Spoken, jsonLies(b.Lies)})
	}
	for _, q := range r.Parts {
		doc.Parts = append(doc.Parts, e.part(q))
	}
	for _, j := range r.Joints {
		doc.Joints = append(doc.Joints, e.joint(j))
	}
	for _, s := range r.Steps {
		doc.Steps = append(doc.Steps, e.step(s))
	}
	text, err := json.Marshal(doc)
	if err != nil {
		return nil, err
	}
	return proof.Read(text)
}

// prove builds the piece again from its pages and puts the verdict on the front.
func (p *Plan) prove() {
	pages, err := p.pages()
	if err != nil || len(p.Readings.Boards) == 0 {
		return // there is nothing to build
	}
	p.Proof = proof.Build(pages)
	p.Readings.Facts = append(p.Readings.Facts, p.verdict())
}

// verdict says in a sentence what came of building from the pages.
func (p *Plan) verdict() shop.Text {
	if p.Proof.Proved {
		return shop.Words("Built again from these pages by the program: fits within ").
			Show(p.Readings.Pen.Length(proof.Allowed, p.Readings.Mass.From)).Say(".")
	}
	return shop.Words("Not proved: built again from these pages by the program, it does not fit everywhere.")
}
