package picture

import (
	"scantling/internal/drawing"
	"scantling/internal/geom"
	"scantling/internal/shop"
	"scantling/internal/typeset"
)

// standsOut is how far the line of a fastener stands out of the wood before its
// head, as a part of the size of the work: it shows from which side the fastener
// goes in.
const standsOut = 1.0 / 30

// driven draws the fasteners a step drives: dashed where they run in the wood, and
// a short line before the head where that can be seen.
func driven(f *drawing.Figure, st *shop.Step, w *work, v drawing.View) {
	around := geom.EmptyBox()
	for _, b := range w.placed {
		around = around.Union(b.Around())
	}
	stands := float64(standsOut * around.Size().Length())
	for _, a := range st.Axes {
		head, tip := a.Axis.At, a.Axis.At.Along(a.Axis.Way, a.Long)
		out := head.Along(a.Axis.Way, -stands)
		f.Lines = append(f.Lines, drawing.Edge{A: v.Place(head), B: v.Place(tip), Weight: drawing.Hair, Dash: drawing.Hidden, Ink: typeset.Live})
		if open(w, head.Along(a.Axis.Way, -geom.NearReach), v.Toward) && open(w, out, v.Toward) {
			f.Lines = append(f.Lines, drawing.Edge{A: v.Place(out), B: v.Place(head), Weight: drawing.Narrow, Ink: typeset.Live})
		}
	}
}

// open reports whether nothing stands between a place and the eye.
func open(w *work, at, toward geom.Vec) bool {
	for _, b := range w.placed {
		here, along := b.Pose.In(at), b.Pose.InWay(toward)
		for _, c := range b.Cells {
			if from, to := c.Ahead(here, along); to > from+geom.Touch {
				return false
			}
		}
	}
	return true
}
