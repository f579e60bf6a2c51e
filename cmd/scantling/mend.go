package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"scantling/internal/plan"
)

type mendCommand struct {
	design
	Part   string `required:"" help:"The letter of the part." placeholder:"LETTER"`
	Length string `required:"" help:"How long the piece came out; a bare number is inches, or in a metric edition millimetres." placeholder:"LENGTH"`
	Prices string `help:"A price book of your own (CSV)." type:"path" placeholder:"FILE"`
}

// run answers "I cut it too short; now what?".
func (c *mendCommand) run(ctx context.Context, out, errs io.Writer) int {
	var o plan.Options
	s, code := c.session(&o, errs)
	if s == nil {
		return code
	}
	length, err := plan.ParseLength(c.Length, *o.Region)
	switch {
	case err != nil:
		return misuse(errs, "--length "+err.Error(), nil)
	case length == 0:
		return misuse(errs, "--length "+c.Length+": a piece of no length is none", nil)
	}
	if c.Prices != "" {
		prices, err := os.ReadFile(c.Prices)
		if err != nil {
			return misuse(errs, "cannot read the price book", err)
		}
		o.Prices, o.PricesFile = prices, shown(c.Prices)
	}
	says, err := s.Mend(ctx, o, c.Part, length)
	switch {
	case errors.Is(err, context.Canceled):
		return misuse(errs, "stopped", nil)
	case err != nil:
		return misuse(errs, err.Error(), nil)
	}
	fmt.Fprint(out, says)
	return exitReady
}
