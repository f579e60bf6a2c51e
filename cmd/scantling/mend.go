package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"scantling/internal/measure"
	"scantling/internal/plan"
)

type mendCommand struct {
	design
	Part   string `required:"" help:"The letter of the part." placeholder:"LETTER"`
	Length string `required:"" help:"How long the piece came out; a bare number is inches." placeholder:"LENGTH"`
	Prices string `help:"A price book of your own (CSV)." type:"path" placeholder:"FILE"`
}

// run answers "I cut it too short; now what?".
func (c *mendCommand) run(ctx context.Context, out, errs io.Writer) int {
	length, err := pieceLength(c.Length)
	if err != nil {
		return misuse(errs, err.Error(), nil)
	}
	src, err := os.ReadFile(c.File)
	if err != nil {
		return misuse(errs, "cannot read the design file", err)
	}
	var o plan.Options
	if err := c.options(&o); err != nil {
		return misuse(errs, err.Error(), nil)
	}
	if c.Prices != "" {
		prices, err := os.ReadFile(c.Prices)
		if err != nil {
			return misuse(errs, "cannot read the price book", err)
		}
		o.Prices, o.PricesFile = prices, shown(c.Prices)
	}
	says, err := plan.Open(shown(c.File), src).Mend(ctx, o, c.Part, length)
	switch {
	case errors.Is(err, context.Canceled):
		return misuse(errs, "stopped", nil)
	case err != nil:
		return misuse(errs, err.Error(), nil)
	}
	fmt.Fprint(out, says)
	return exitReady
}

// pieceLength reads a length; a bare number is inches.
func pieceLength(text string) (measure.Length, error) {
	q, bad := measure.Parse(text)
	if bad != nil {
		return 0, fmt.Errorf("--length %q: %s; %s", text, bad.What, bad.Mend)
	}
	l, ok := q.Length()
	if !ok && q.D == (measure.Quantity{}).D {
		q.V *= float64(measure.Inch)
		l, ok = measure.Length(q.V+0.5), true
	}
	if !ok || l <= 0 {
		return 0, fmt.Errorf("--length %q is no length; write it as --length 22 1/2\"", text)
	}
	return l, nil
}
