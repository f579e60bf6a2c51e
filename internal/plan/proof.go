package plan

import (
	"encoding/json"
	"slices"

	"scantling/internal/board"
	"scantling/internal/geom"
	"scantling/internal/measure"
	"scantling/internal/proof"
	"scantling/internal/shop"
	"scantling/internal/snag"
)

// printed is what the plan prints of how it is built, by the way of plan.json, so that
// the proof is given no more than any reader of that file.
func (p *Plan) printed() (*proof.Pages, error) {
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

// prove builds the piece again from its pages, puts the verdict on the front, and
// tells what does not fit or cannot be told.
func (p *Plan) prove() {
	pages, err := p.printed()
	if err != nil || len(pages.Boards) == 0 || len(pages.Steps) == 0 {
		return // there is nothing to build
	}
	p.pages, p.Proof = pages, proof.Build(pages)
	p.Likeness = p.Proof.Like(p.drawn())
	if p.proved() {
		p.Readings.Facts = append(p.Readings.Facts, shop.Words("Built again from these pages by the program: fits within ").
			Show(p.Readings.Pen.Length(proof.Allowed, p.Readings.Mass.From)).Say("."))
		return
	}
	p.Readings.Facts = append(p.Readings.Facts, shop.Words("Not proved: built again from these pages by the program, it does not fit everywhere; see the notes."))
	what, boards := p.worst()
	p.Snags = append(p.Snags, snag.Snag{Code: "not-proved", Severity: snag.Advice, Tier: snag.Settled, Boards: boards,
		What: "built again from its printed pages, " + what,
		Why:  "lengths are printed to the mark of a tape and angles to half a degree; what is built from them may be so far off",
		Mends: []snag.Mend{snag.Say("try the boards on the work there before you fasten them"),
			snag.Say("or choose sizes at which the angles come out at half a degree")}})
}

func (p *Plan) proved() bool { return p.Proof != nil && p.Proof.Proved && p.Likeness.Alike }

// worst says the worst of what keeps a plan from being proved, and of which boards.
func (p *Plan) worst() (what string, boards []string) {
	r, l, said := p.Proof, p.Likeness, p.Readings.Pen.Said
	name := map[string]string{}
	for _, b := range p.Readings.Boards {
		name[string(b.ID)] = b.Spoken
	}
	far := func(mm float64) string {
		v, _ := measure.FromMM(mm)
		return said(v)
	}
	if len(r.Unclear) > 0 {
		return "it cannot be told how it fits: " + r.Unclear[0], nil
	}
	for _, f := range append(append([]proof.Fit{}, r.Joints...), r.Clashes...) {
		of := "the " + name[f.Boards[0]] + " and the " + name[f.Boards[1]]
		switch {
		case f.Gap > proof.Allowed && f.Gap == r.Gap:
			return of + " stand " + far(f.Gap) + " apart where they should meet", f.Boards[:]
		case f.Over > proof.Allowed && f.Over == r.Over:
			return of + " run " + far(f.Over) + " into one another", f.Boards[:]
		case f.Hole > proof.Allowed && f.Hole == r.Hole:
			return "the holes of " + of + " miss by " + far(f.Hole), f.Boards[:]
		}
	}
	for _, s := range l.Slips {
		if s.Far > proof.Drift && s.Far == l.Slip {
			return "the " + name[s.Boards[0]] + " lies " + far(s.Far) + " from where it is drawn on the " + name[s.Boards[1]], s.Boards[:]
		}
	}
	for _, o := range l.Parts {
		if o.Worst > proof.Allowed && o.Worst == l.Part {
			return "part " + o.Letter + ", " + o.Name + ", is " + far(o.Worst) + " off, " + o.Where, nil
		}
	}
	return "no joint could be measured", nil
}

// drawn is the piece as it was designed, for comparison only.
func (p *Plan) drawn() *proof.Design {
	d := &proof.Design{}
	heads := map[string][]geom.Vec{} // where the fasteners of a joint go in
	for _, j := range p.Readings.Joints {
		for _, pair := range j.Pairs {
			for _, a := range pair.Axes {
				heads[j.Name] = append(heads[j.Name], a.Axis.At)
			}
		}
	}
	for _, r := range p.Readings.Boards {
		b := r.Board
		out := proof.Drawn{ID: string(r.ID), Lies: proof.Lies(r.Drawn), Size: geom.Vec{X: b.L, Y: b.W.MM(), Z: b.T.MM()}, Solid: b.Solid, Pose: b.Pose}
		for _, h := range b.Holes {
			atHead := func(head geom.Vec) bool { return head.Distance(b.Pose.Out(h.At)) <= geom.Touch }
			if h.When == board.Together && h.Kind == board.Clearance && slices.ContainsFunc(heads[h.Joint], atHead) {
				out.Bolts = append(out.Bolts, proof.Line{At: h.At, Way: h.Way, Across: h.Diameter, Deep: h.Depth, Joint: h.Joint})
			}
			if h.When == board.Bench && h.Kind != board.Countersink && h.Kind != board.Counterbore {
				out.Holes = append(out.Holes, proof.Line{At: h.At, Way: h.Way, Across: h.Diameter, Deep: h.Depth, Joint: h.Joint})
			}
		}
		d.Boards = append(d.Boards, out)
	}
	for _, j := range p.Readings.Joints {
		for _, pair := range j.Pairs {
			for _, a := range pair.Axes {
				d.Meets = append(d.Meets, proof.Meet{Joint: j.Name, Boards: [2]string{string(pair.A), string(pair.B)}, At: a.Axis.Meet()})
			}
		}
	}
	return d
}
