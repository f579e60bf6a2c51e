package proof

import (
	"fmt"
	"strings"

	"scantling/internal/geom"
	"scantling/internal/steady"
)

// agrees checks that the sentence of an angled end says what stands on its card.
func (c *Cut) agrees() error {
	said := strings.ToLower(c.Words.String())
	pointed := len(c.Marks) > 0
	var want []string
	if pointed {
		want = append(want, "a point; mark that on the end, "+c.Marks[0].At.Shown+" "+strings.TrimPrefix(c.Marks[0].Label, "the point ")+". From there to this edge")
	}
	if !c.ByMarks {
		want = append(want, c.FaceUp+" up", c.Fence+" against the fence", "the part "+c.Keep+" of the blade")
		if c.Swing != "" && c.Setting != nil && c.Included != nil {
			tip := "the tip is " + c.Included.Shown
			if pointed {
				tip = "it stands " + c.Included.Shown + " off the edge"
			}
			want = append(want, c.Setting.Shown+" "+c.Swing+" of zero", tip)
		}
		if c.Bevel != nil {
			want = append(want, "tilt the blade "+c.Bevel.Shown)
		}
	}
	if c.Swing != "" && c.Offset != nil {
		from := "the long point on the " + c.Long
		if pointed {
			from = "square across from the point"
		}
		want = append(want, from, "step "+c.Offset.Shown)
	}
	if c.Lean != nil {
		want = append(want, "the line runs "+c.Lean.Shown+" back from the "+c.LongFace)
	}
	for _, w := range want {
		if !strings.Contains(said, strings.ToLower(w)) {
			return fmt.Errorf("its card and its sentence do not agree on %q", w)
		}
	}
	return nil
}

// across returns the outward normal of an angled end, sawn one way.
func (s *sheet) across(c *Cut, end int, way Way) (geom.Vec, error) {
	if err := c.agrees(); err != nil && !strings.Contains(c.Words.String(), "saw it square") {
		return geom.Vec{}, err
	}
	if c.ByMarks {
		way = ByOffset
	}
	if way == BySetting {
		return s.onSaw(c, end)
	}
	long, err := s.side(c.Long)
	if err != nil || long != nearEdge && long != farEdge {
		return geom.Vec{}, fmt.Errorf("the long point is said to be on the %q", c.Long)
	}
	e, o := outOf(end), outOf(long)
	var mitre float64 // tangent of the angle off square
	switch way {
	case ByIncluded:
		if c.Included == nil {
			return geom.Vec{}, fmt.Errorf("no angle of the tip is printed")
		}
		tip, err := c.Included.radians()
		if err != nil {
			return geom.Vec{}, err
		}
		mitre = steady.Cos(tip) / steady.Sin(tip)
	case ByOffset:
		if c.Offset == nil {
			return geom.Vec{}, fmt.Errorf("no offset is printed")
		}
		step, err := c.Offset.mm()
		if err != nil {
			return geom.Vec{}, err
		}
		wide := s.size.Y
		if len(c.Marks) > 0 { // stepped from the point
			if _, wide, err = s.pointed(c); err != nil {
				return geom.Vec{}, err
			}
		}
		mitre = step / wide
	}
	n := e.Along(o, -mitre).Unit()
	if c.Bevel == nil {
		return n, nil
	}
	longer, err := s.side(c.LongFace)
	if err != nil || longer != underFace && longer != showFace {
		return geom.Vec{}, fmt.Errorf("the longer face is said to be the %q", c.LongFace)
	}
	f := outOf(longer)
	if way == ByOffset {
		if c.Lean == nil {
			return geom.Vec{}, fmt.Errorf("no offset over the thickness is printed")
		}
		lean, err := c.Lean.mm()
		if err != nil {
			return geom.Vec{}, err
		}
		return e.Along(o, -mitre).Along(f, -lean/s.size.Z).Unit(), nil
	}
	tilt, err := c.Bevel.radians()
	if err != nil {
		return geom.Vec{}, err
	}
	return n.Times(steady.Cos(tilt)).Along(f, -steady.Sin(tilt)), nil
}

// onSaw lays the board on the saw as its card says and returns the outward normal
// of the cut.
//
// On the saw's table back is toward the fence, up is up, right is to the right of
// whoever stands at it. At zero the blade stands square to the fence and upright.
// Swinging it right moves its front end right, so that seen from above the line
// runs from the fence to the front and right; a tilted blade leans left.
func (s *sheet) onSaw(c *Cut, end int) (geom.Vec, error) {
	face, err := s.side(c.FaceUp)
	if err != nil {
		return geom.Vec{}, err
	}
	edge, err := s.side(c.Fence)
	if err != nil {
		return geom.Vec{}, err
	}
	if face != showFace && face != underFace || edge != nearEdge && edge != farEdge {
		return geom.Vec{}, fmt.Errorf("no board lies on a saw with its %s up and its %s against the fence", c.FaceUp, c.Fence)
	}
	up, back := outOf(face), outOf(edge)
	right := back.Cross(up)
	var swing, tilt float64
	if c.Setting != nil {
		if swing, err = c.Setting.radians(); err != nil {
			return geom.Vec{}, err
		}
	}
	if c.Bevel != nil {
		if tilt, err = c.Bevel.radians(); err != nil {
			return geom.Vec{}, err
		}
	}
	switch {
	case c.Swing == "left":
		swing = -swing
	case c.Swing != "right" && swing != 0:
		return geom.Vec{}, fmt.Errorf("which way the saw is swung is not said")
	}
	// The blade's right side, square to its line on the table, then tipped.
	n := right.Times(steady.Cos(swing)).Along(back, steady.Sin(swing))
	n = n.Times(steady.Cos(tilt)).Along(up, steady.Sin(tilt))
	switch c.Keep {
	case "left": // what is kept lies left: the waste is right
	case "right":
		n = n.Negated()
	default:
		return geom.Vec{}, fmt.Errorf("which side of the blade is kept is not said")
	}
	if n.Dot(outOf(end)) <= 0 {
		return geom.Vec{}, fmt.Errorf("with the %s up and the %s against the fence that end points to the other side of the blade", c.FaceUp, c.Fence)
	}
	return n, nil
}
