// Package phrase makes pieces of a sentence: a list of words, a first letter made
// large, a name of the file as it is said. Texts of every package read alike
// because they are put together here.
package phrase

import "strings"

// List joins words as a sentence does: "a, b and c"; nothing of none.
func List(words []string) string {
	switch n := len(words); n {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
}

// Begin returns s with its first letter large. A quote or a digit stays as it is.
func Begin(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}

// Spaced returns a name of a design file as it is said: "shelf slat" of
// "shelf_slat".
func Spaced(name string) string { return strings.ReplaceAll(name, "_", " ") }
