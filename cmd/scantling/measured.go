package main

import (
	"fmt"

	"scantling/internal/measure"
	"scantling/internal/plan"
)

// workshop is what a reader's own boards and saw are, as the command line has
// them.
type workshop struct {
	Board   []string `help:"What your boards of one stock really measure, thickness first, as in --board \"leg_stock=1 1/2 x 5 3/8\". May be given several times." placeholder:"STOCK=T x W" sep:"none"`
	Kerf    string   `help:"What your blade cuts away; 1/8\" or 3 mm unless given." placeholder:"LENGTH"`
	Squared string   `help:"What squaring one end takes off a board, the cut included; 1/2\" or 12 mm unless given." placeholder:"LENGTH"`
	Reserve string   `help:"Kept free at the far end of every board, for knots and splits; nothing unless given." placeholder:"LENGTH"`
	Car     string   `help:"The longest board that fits your car; longer ones are not bought." placeholder:"LENGTH"`
	Fewest  bool     `name:"fewest-cuts" help:"Buy the fewest boards rather than the cheapest: fewer to carry, square and saw."`
	Tape    string   `help:"The finest marks of your tape in an edition in inches, 1/16 or 1/32 in; lengths are said to the nearest." enum:"1/16,1/32" default:"1/16"`
	Tool    []string `help:"How large a tool of yours is, as in --tool 'drill long=6'. May be given several times." placeholder:"SIZE=LENGTH" sep:"none"`
	Have    []string `help:"Boards you have, as in --have '2 of 2x6 southern pine, ground contact, 50\"'. They are used before any are bought. May be given several times." placeholder:"BOARDS" sep:"none"`
}

// into puts the workshop into the options of a plan.
func (w *workshop) into(o *plan.Options) error {
	for _, text := range w.Board {
		m, err := plan.ParseMeasured(text, *o.Region)
		if err != nil {
			return fmt.Errorf("--board: %w", err)
		}
		o.Measured = append(o.Measured, m)
	}
	for _, text := range w.Have {
		h, err := plan.ParseOnHand(text, *o.Region)
		if err != nil {
			return fmt.Errorf("--have: %w", err)
		}
		o.OnHand = append(o.OnHand, h)
	}
	for _, text := range w.Tool {
		t, err := plan.ParseTool(text, *o.Region)
		if err != nil {
			return fmt.Errorf("--tool: %w", err)
		}
		o.Tools = append(o.Tools, t)
	}
	if w.Tape == "1/32" {
		o.Tape = measure.ThirtySecond
	}
	o.FewestCuts = w.Fewest
	for _, l := range []struct {
		name, text string
		into       *measure.Length
	}{{"--reserve", w.Reserve, &o.Reserve}, {"--car", w.Car, &o.Car}} {
		if l.text == "" {
			continue
		}
		read, err := plan.ParseLength(l.text, *o.Region)
		if err != nil {
			return fmt.Errorf("%s: %w", l.name, err)
		}
		*l.into = read
	}
	if w.Kerf != "" {
		l, err := plan.ParseLength(w.Kerf, *o.Region)
		if err != nil {
			return fmt.Errorf("--kerf: %w", err)
		}
		if l == 0 {
			return fmt.Errorf("--kerf %s: every blade takes some wood; measure a cut in scrap", w.Kerf)
		}
		o.Kerf = l
	}
	if w.Squared != "" {
		l, err := plan.ParseLength(w.Squared, *o.Region)
		if err != nil {
			return fmt.Errorf("--squared: %w", err)
		}
		o.Squared = &l
	}
	return nil
}
