// Command scantlingwasm is the engine for a browser: the chain of the command
// scantling, compiled to WebAssembly and called from a worker.
//
// Everything passes through linear memory: the page writes a request into the
// buffer that take gives it, calls one of the exported functions, and reads the
// answer from where at and size say. A view of memory is good until the next call
// only. Built with the tag `whole` it also makes the files of a plan: the book,
// the lists, plan.json. The page loads that second module when somebody asks for
// them.
package main

import (
	"context"
	"encoding/json"
	"fmt"

	"scantling/internal/measure"
	"scantling/internal/plan"
	"scantling/internal/region"
)

// A request is what the page asks for. Words are as a person writes them and as
// the command line takes them.
type request struct {
	Want     plan.Want  `json:"want"` // 0 live, 1 settled, 2 with all pictures
	Set      [][]string `json:"set"`  // name and value
	Measured []string   `json:"measured"`
	Have     []string   `json:"have"`
	Kerf     string     `json:"kerf"`
	Squared  string     `json:"squared"`
	Tape     string     `json:"tape"`   // 1/16 or 1/32
	Region   string     `json:"region"` // where the file was drawn for when empty
	Paper    string     `json:"paper"`
	Prices   string     `json:"prices"` // a price book; the design's own when empty
	Date     string     `json:"date"`
	Column   float64    `json:"column"`  // mm
	Editing  bool       `json:"editing"` // numbers tell where they stand in the file
	Nodes    int        `json:"nodes"`
}

// options puts the request into the words of package plan.
func (r *request) options(home region.Region) (plan.Options, error) {
	o := plan.Options{Want: r.Want, Paper: r.Paper, Date: r.Date, Nodes: r.Nodes}
	in := home
	if r.Region != "" {
		asked, ok := region.Parse(r.Region)
		if !ok {
			return o, fmt.Errorf("region %q is not known; write %s", r.Region, region.Short)
		}
		in = asked
	}
	o.Region = &in
	for _, s := range r.Set {
		if len(s) != 2 {
			return o, fmt.Errorf("a size is set by its name and its value, not by %d words", len(s))
		}
		o.Set = append(o.Set, plan.Setting{Name: s[0], Value: s[1]})
	}
	for _, text := range r.Measured {
		m, err := plan.ParseMeasured(text, in)
		if err != nil {
			return o, err
		}
		o.Measured = append(o.Measured, m)
	}
	for _, text := range r.Have {
		h, err := plan.ParseOnHand(text, in)
		if err != nil {
			return o, err
		}
		o.OnHand = append(o.OnHand, h)
	}
	if r.Kerf != "" {
		l, err := plan.ParseLength(r.Kerf, in)
		if err != nil {
			return o, fmt.Errorf("the blade: %w", err)
		}
		o.Kerf = l
	}
	if r.Squared != "" {
		l, err := plan.ParseLength(r.Squared, in)
		if err != nil {
			return o, fmt.Errorf("squaring an end: %w", err)
		}
		o.Squared = &l
	}
	if r.Tape == "1/32" {
		o.Tape = measure.ThirtySecond
	}
	if r.Prices != "" {
		o.Prices, o.PricesFile = []byte(r.Prices), "your prices"
	}
	return o, nil
}

// An answer is what a call brought: words, and the picture's figures.
type answer struct {
	text  []byte
	scene []byte
}

// failed is the answer to what was not understood.
func failed(err error) answer {
	text, _ := json.Marshal(map[string]string{"error": err.Error()})
	return answer{text: text}
}

// run answers a request about a session.
func run(s *plan.Session, asked []byte) answer {
	r, p, err := compute(s, asked)
	if err != nil {
		return failed(err)
	}
	page := p.Page(plan.PageOptions{Column: r.Column, Editing: r.Editing, Pictures: r.Want == plan.Book})
	return answer{page.JSON(), p.Scene()}
}

func compute(s *plan.Session, asked []byte) (request, *plan.Plan, error) {
	var r request
	if err := json.Unmarshal(asked, &r); err != nil {
		return r, nil, fmt.Errorf("the request is no JSON: %w", err)
	}
	o, err := r.options(s.Region())
	if err != nil {
		return r, nil, err
	}
	p, err := s.Settle(context.Background(), o)
	return r, p, err
}
