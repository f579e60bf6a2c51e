package expr

// Nearest returns the name of known that is fewest keystrokes away from asked,
// the first of equals; "" when none is near enough to have been meant.
func Nearest(asked string, known []string) string {
	best, far := "", len(asked)/3+2
	for _, k := range known {
		if d := keystrokes(asked, k); d < far {
			best, far = k, d
		}
	}
	return best
}

// keystrokes returns the least number of letters to put in, take out, replace
// or exchange with their neighbour to make b of a.
func keystrokes(a, b string) int {
	var rows [3][]int
	for i := range rows {
		rows[i] = make([]int, len(b)+1)
	}
	for j := range rows[1] {
		rows[1][j] = j
	}
	for i := 1; i <= len(a); i++ {
		two, one, now := rows[(i+2)%3], rows[i%3], rows[(i+1)%3]
		now[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			now[j] = min(one[j]+1, now[j-1]+1, one[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				now[j] = min(now[j], two[j-2]+1)
			}
		}
	}
	return rows[(len(a)+1)%3][len(b)]
}

// nearestMend offers the nearest known name in place of the word at.
func nearestMend(asked string, known []string, at At) Mend {
	if n := Nearest(asked, known); n != "" {
		return Mend{Says: "did you mean " + n + "?", At: at, Text: n}
	}
	s := "there are: "
	for i, k := range known {
		if i > 0 {
			s += ", "
		}
		s += k
	}
	return Mend{Says: s}
}
