// Package spell finds the known name somebody probably meant, so that every
// message about an unknown name can end with a mend.
package spell

// Nearest returns the known names that cost fewest edits (letters put in,
// taken out or changed) to reach from asked: at most three, equals in the order
// given, the first the best guess. It returns none when even those would change
// more than half of what was written.
func Nearest(asked string, known []string) []string {
	best := len([]rune(asked))/2 + 1
	var near []string
	for _, k := range known {
		if len(asked) > 4*len(k)+8 { // too long to be a slip for k
			continue
		}
		d := Edits(asked, k)
		if d >= best && (d > best || len(near) == 0 || len(near) == 3) {
			continue
		}
		if d < best {
			best, near = d, nil
		}
		near = append(near, k)
	}
	return near
}

// Edits returns how many letters must be put in, taken out or changed to turn
// a into b (V. Levenshtein's distance, 1965).
func Edits(a, b string) int {
	from, to := []rune(a), []rune(b)
	row := make([]int, len(to)+1)
	for j := range row {
		row[j] = j
	}
	for i, r := range from {
		diagonal := row[0]
		row[0] = i + 1
		for j, s := range to {
			change := diagonal
			if r != s {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, diagonal+1)
		}
	}
	return row[len(to)]
}
