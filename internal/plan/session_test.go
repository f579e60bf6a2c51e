//go:build !js

package plan

import (
	"bytes"
	"context"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"scantling/internal/measure"
)

// said is everything a plan says at the level Settled, as bytes.
func said(p *Plan) string {
	var b bytes.Buffer
	b.WriteString(p.Messages())
	b.WriteString(p.Summary())
	if p.Readings != nil {
		b.Write(p.JSON())
	}
	if p.Piece != nil {
		for _, x := range p.Piece.Boards {
			fmt.Fprintf(&b, "%s %v %v\n", x.ID, x.Pose, x.Solid.Volume)
		}
	}
	return b.String()
}

// A session that has run under other settings keeps no trace of them: the result
// is byte for byte that of a fresh session. It guards every memo kept between
// runs.
func TestASessionForgets(t *testing.T) {
	type used struct {
		src     []byte
		session *Session
		piece   *Plan
	}
	var all []used
	for _, file := range examples {
		src := example(t, file)
		all = append(all, used{src, Open("design.yaml", src), sound(t, src, Live)})
	}
	rapid.Check(t, func(t *rapid.T) {
		u := all[rapid.IntRange(0, len(all)-1).Draw(t, "example")]
		o := Options{Want: rapid.SampledFrom([]Want{Live, Live, Live, Settled}).Draw(t, "want"), Set: anySettings(t, u.piece)}
		again, err := u.session.Run(context.Background(), o)
		if err != nil {
			t.Fatal(err)
		}
		fresh, err := Open("design.yaml", u.src).Run(context.Background(), o)
		if err != nil {
			t.Fatal(err)
		}
		if said(again) != said(fresh) {
			t.Fatalf("%v: a used session says other things than a fresh one", o.Set)
		}
	})
}

// anySettings sets some sizes to some of their steps, one past either end too,
// and some choices.
func anySettings(t *rapid.T, p *Plan) (out []Setting) {
	for _, z := range p.Piece.Sizes {
		if rapid.Bool().Draw(t, "set "+z.Name) {
			n := int((z.Most.V - z.Least.V) / z.Step.V)
			v := z.Least.V + float64(rapid.IntRange(-1, n+1).Draw(t, z.Name))*z.Step.V
			out = append(out, Setting{z.Name, exact(measure.Quantity{V: v, D: z.Least.D})})
		}
	}
	for _, c := range p.Piece.Choices {
		if rapid.Bool().Draw(t, "set "+c.Name) {
			out = append(out, Setting{c.Name, rapid.SampledFrom(c.Of).Draw(t, c.Name)})
		}
	}
	return out
}
