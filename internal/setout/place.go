package setout

import (
	"math"

	"scantling/internal/board"
	"scantling/internal/geom"
)

// A Tilt is one lean, slope or swing: "END ANGLE toward DIR" (rule 9).
type Tilt struct {
	End    Dir     // which end moves: Up for top, Down for foot
	Angle  float64 // radians
	Toward Dir
}

// TiltWord returns the word rule 9 has for a tilt toward a direction of a board
// that runs so: lean (upright boards), slope (level boards toward up or down) or
// swing (level boards toward a level direction).
func TiltWord(runs, toward Dir) string {
	switch {
	case runs.Axis() == 2:
		return "lean"
	case toward.Axis() == 2:
		return "slope"
	}
	return "swing"
}

// Orient returns the orientation of a bar that runs and faces so in a room, with
// no tilt, one, or two (rule 9).
//
//	Run ∝ r + tan α·f + tan β·s,  face normal ∝ f − tan α·r,  edge = face × run
//
// r the run word, f the faces word, s the third; α is the tilt toward or from f,
// β along s, both read square-on in the two views. With onBoard ("measured: on
// the board") β is read on the wide face instead, which is tipped by α: tan β in
// the formula becomes tan β / cos α.
//
// Fault: Skew if faces lies on the run's axis, a tilt's End does not, its Toward
// does, or two tilts go along one axis; Steep unless every angle is under 89°.
func Orient(room Room, runs, faces Dir, tilts []Tilt, onBoard bool) (Frame, error) {
	if runs.Axis() == faces.Axis() || len(tilts) > 2 ||
		len(tilts) == 2 && tilts[0].Toward.Axis() == tilts[1].Toward.Axis() {
		return Frame{}, &Fault{Kind: Skew}
	}
	r, f := room.Way(runs), room.Way(faces)
	third := grows(3 - runs.Axis() - faces.Axis())
	var towardFace, aside float64 // tan α, tan β
	for _, t := range tilts {
		if t.End.Axis() != runs.Axis() || t.Toward.Axis() == runs.Axis() {
			return Frame{}, &Fault{Kind: Skew}
		}
		tan, err := tangent(t.Angle)
		if err != nil {
			return Frame{}, err
		}
		if t.End != runs { // the start moves: the run goes the other way
			tan = -tan
		}
		switch t.Toward {
		case faces:
			towardFace = tan
		case faces.Opposite():
			towardFace = -tan
		default:
			aside = float64(tan * t.Toward.Sign())
		}
	}
	if onBoard {
		aside = float64(aside * math.Sqrt(1+float64(towardFace*towardFace)))
	}
	run := r.Along(f, towardFace).Along(room.Way(third), aside)
	return framed(room, run.Unit(), f.Along(r, -towardFace).Unit(), runs, faces), nil
}

// framed completes an orientation; the third pair of words goes by where the
// untilted edge looks.
func framed(room Room, run, face geom.Vec, runs, faces Dir) Frame {
	f := Frame{Run: run, Face: face, Edge: face.Cross(run)}
	far := grows(3 - runs.Axis() - faces.Axis())
	if f.Edge.Dot(room.Way(far)) < 0 {
		far = far.Opposite()
	}
	f.Words = [6]Dir{runs.Opposite(), runs, far.Opposite(), far, faces.Opposite(), faces}
	return f
}

// Along returns the orientation of a bar that runs parallel to another part's
// run and faces so; its face still holds the third word's line. words, those read
// at the default sizes, names its sides; nil takes the nearest words. Fault: Steep
// if the run is within 1° of the way it should face.
func Along(room Room, run geom.Vec, faces Dir, words *[6]Dir) (Frame, error) {
	f := room.Way(faces)
	runs, _ := room.nearestBut(run, faces.Axis(), -1)
	if words != nil {
		runs = words[board.Finish]
	}
	r := room.Way(runs)
	tan := run.Dot(f) / run.Dot(r)
	if limit, _ := tangent(steepest * (1 - parallel)); !(math.Abs(tan) < limit) {
		return Frame{}, &Fault{Kind: Steep, Has: math.Pi / 2, Want: steepest}
	}
	out := framed(room, run, f.Along(r, -tan).Unit(), runs, faces)
	if words != nil {
		out.Words = *words
	}
	return out, nil
}

// Side returns the side that answers to a word.
func (f Frame) Side(word Dir) board.Side {
	for s, w := range f.Words {
		if w == word {
			return board.Side(s)
		}
	}
	panic("setout: a frame without words")
}

// Out returns the unit direction out of a side.
func (f Frame) Out(s board.Side) geom.Vec {
	way := [...]geom.Vec{f.Run, f.Edge, f.Face}[s/2]
	if s&1 == 0 {
		return way.Negated()
	}
	return way
}

// Steepness returns the angle between the run and the level, in radians.
func (f Frame) Steepness() float64 { return tipped(f.Run.Z) }
