package snag

// Nearest returns the known name most like a misspelt one, and false if none is
// near enough to suggest. Nearness counts letters left out, put in, changed and
// neighbours swapped (Damerau–Levenshtein distance, optimal string alignment);
// at most a third of the letters, and at least one, may differ. Of names
// equally near the first is returned.
func Nearest(name string, known []string) (string, bool) {
	a := []rune(name)
	const longest = 64
	if len(a) == 0 || len(a) > longest {
		return "", false
	}
	best, found := max(1, len(a)/3)+1, ""
	for _, k := range known {
		b := []rune(k)
		if len(b) > longest || k == name {
			continue
		}
		if d := distance(a, b); d < best {
			best, found = d, k
		}
	}
	return found, found != ""
}

func distance(a, b []rune) int {
	// Rows of the table of distances between beginnings of a and of b: the one
	// being filled, the one above and the one above that.
	row, above, above2 := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		above2, above, row = above, row, above2
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := 1
			if a[i-1] == b[j-1] {
				change = 0
			}
			row[j] = min(above[j]+1, row[j-1]+1, above[j-1]+change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], above2[j-2]+1)
			}
		}
	}
	return row[len(b)]
}
