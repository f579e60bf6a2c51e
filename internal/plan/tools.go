package plan

import (
	"fmt"
	"strings"

	"scantling/internal/measure"
	"scantling/internal/reach"
	"scantling/internal/region"
)

// A Tool is how large one tool of a reader's workshop is: "drill long" 6 in.
type Tool struct {
	Name string
	Size measure.Length
}

// ParseTool reads `drill long = 6`: a size of a tool by its name. A bare number is
// in the unit of the region.
func ParseTool(text string, in region.Region) (Tool, error) {
	name, length, ok := strings.Cut(text, "=")
	if !ok {
		return Tool{}, fmt.Errorf("%q has no =; write the name of the size, = and a length: drill long=6", text)
	}
	t := Tool{Name: strings.TrimSpace(name)}
	var err error
	if t.Size, err = ParseLength(length, in); err != nil {
		return Tool{}, err
	}
	tools := reach.Usual()
	return t, tools.Set(t.Name, t.Size)
}

// tools returns the usual tools with what the reader says of his.
func (o *Options) tools() (*reach.Tools, error) {
	tools := reach.Usual()
	for _, t := range o.Tools {
		if err := tools.Set(t.Name, t.Size); err != nil {
			return nil, err
		}
	}
	return &tools, nil
}
