// Package region names the parts of the world whose yards, units and words a
// plan may be made for. A plan of one region is worked out again from that
// region's lumber and fasteners; nothing is converted from another's.
package region

import "strings"

// A Region is one of them. The zero Region is America.
type Region uint8

const (
	America     Region = iota // the United States and Canada
	Europe                    // the United Kingdom, Ireland and the mainland
	Australasia               // Australia and New Zealand
)

// All returns every region.
func All() []Region { return []Region{America, Europe, Australasia} }

var names = [...]struct {
	name string
	also []string
}{
	{"North America", []string{"america", "us", "usa", "united states", "canada"}},
	{"UK and Europe", []string{"europe", "uk", "eu", "united kingdom", "britain", "ireland"}},
	{"Australia and New Zealand", []string{"australasia", "au", "nz", "australia", "new zealand"}},
}

// String returns the name a page prints: "UK and Europe".
func (r Region) String() string { return names[r].name }

// Metric reports whether lumber is sold in millimetres there.
func (r Region) Metric() bool { return r != America }

// Short is how a person asks for one in a few letters, for messages.
const Short = "us, uk, eu, au or nz"

// Parse reads a region by its name or a country's, in any case: "UK and
// Europe", "uk", "New Zealand". It returns false for anything else.
func Parse(s string) (Region, bool) {
	s = strings.Join(strings.Fields(strings.ToLower(s)), " ")
	for i, n := range names {
		if s == strings.ToLower(n.name) {
			return Region(i), true
		}
		for _, a := range n.also {
			if s == a {
				return Region(i), true
			}
		}
	}
	return America, false
}
