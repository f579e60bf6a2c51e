package plan

import (
	"scantling/internal/board"
	"scantling/internal/reach"
	"scantling/internal/shop"
)

type jsonReach struct {
	Ways  []jsonWay      `json:"boards"`
	Order [][]board.ID   `json:"order,omitempty"`
	Apart [][]board.ID   `json:"apart,omitempty"`
	Tools []jsonToolRoom `json:"fasteners"`
	In    []jsonSpan     `json:"in"`
	Mind  [][]jsonSpan   `json:"mind"`
}

type jsonWay struct {
	Boards []board.ID   `json:"boards"`
	Clear  string       `json:"clear"`
	From   string       `json:"from,omitempty"`
	Way    [][3]float64 `json:"way"`
	FarMM  []float64    `json:"far_mm"`
}

type jsonToolRoom struct {
	Joint   string  `json:"joint"`
	What    string  `json:"what"`
	Count   int     `json:"count"`
	Tool    string  `json:"tool"`
	Side    string  `json:"side"`
	Clear   string  `json:"clear"`
	NeedsMM float64 `json:"needs_mm"`
	RoomMM  float64 `json:"room_mm,omitempty"` // left out where nothing is in front
	Before  string  `json:"before,omitempty"`
}

func (e jsonEncoder) reach(r *shop.Reach) jsonReach {
	out := jsonReach{Ways: []jsonWay{}, Order: r.Order, Apart: r.Apart, Tools: []jsonToolRoom{}, In: e.text(r.In), Mind: e.texts(r.Mind)}
	for _, w := range r.Ways {
		way := jsonWay{Boards: w.Boards, Clear: w.Clear, From: w.From, Way: [][3]float64{}, FarMM: []float64{}}
		for i, line := range w.Lines {
			way.Way, way.FarMM = append(way.Way, vec(line)), append(way.FarMM, w.Far[i])
		}
		out.Ways = append(out.Ways, way)
	}
	for _, t := range r.Tools {
		room := t.Free
		if room >= reach.Endless {
			room = 0
		}
		out.Tools = append(out.Tools, jsonToolRoom{t.Joint, t.What, t.Count, t.Tool, t.Side, t.Clear, t.Needs, room, t.Before})
	}
	return out
}
