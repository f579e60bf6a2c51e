//go:build whole || !js

package main

import (
	"context"
	"encoding/json"

	"scantling/internal/plan"
)

// makeFiles answers with the files of a plan: in text a list of their names and
// sizes, in scene their bytes, one after another.
func makeFiles(s *plan.Session, asked []byte) answer {
	var r request
	if err := json.Unmarshal(asked, &r); err != nil {
		return failed(err)
	}
	o, err := r.options(s.Region())
	if err != nil {
		return failed(err)
	}
	o.Want = plan.Book
	p, err := s.Run(context.Background(), o)
	if err != nil {
		return failed(err)
	}
	all, err := p.Files()
	if err != nil {
		return failed(err)
	}
	type entry struct {
		Path string `json:"path"`
		Size int    `json:"size"`
	}
	list := []entry{}
	var bytes []byte
	for _, f := range all {
		list = append(list, entry{f.Path, len(f.Bytes)})
		bytes = append(bytes, f.Bytes...)
	}
	text, _ := json.Marshal(map[string]any{"files": list})
	return answer{text, bytes}
}
