package expr

import "strings"

// A Chunk is a stretch of prose: literal words, or one measure.
type Chunk struct {
	Words string
	X     Expr // nil for words
	At         // of the words, or of the measure without its braces
}

// ParseText cuts prose into words and the measures in its braces. Problems are
// returned beside whatever could be read.
func ParseText(text string) (chunks []Chunk, problems []*Problem) {
	for i := 0; i < len(text); {
		j := strings.IndexAny(text[i:], "{}")
		if j < 0 {
			return append(chunks, Chunk{text[i:], nil, At{i, len(text)}}), problems
		}
		j += i
		if j > i {
			chunks = append(chunks, Chunk{text[i:j], nil, At{i, j}})
		}
		if text[j] == '}' {
			problems = append(problems, &Problem{Code: "stray-brace", At: At{j, j + 1}, What: "a } without a { before it",
				Mends: []Mend{{Says: "take it out", At: At{j, j + 1}}}})
			i = j + 1
			continue
		}
		end := strings.IndexAny(text[j+1:], "{}")
		if end < 0 || text[j+1+end] == '{' {
			problems = append(problems, &Problem{Code: "stray-brace", At: At{j, j + 1}, What: "this { is not closed",
				Mends: []Mend{{Says: "write } after the measure"}}})
			i = j + 1
			continue
		}
		end += j + 1
		x, p := parseAt(text[:end], j+1)
		if p != nil {
			problems = append(problems, p)
		}
		chunks = append(chunks, Chunk{"", x, At{j + 1, end}})
		i = end + 1
	}
	return chunks, problems
}
