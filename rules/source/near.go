package source

import (
	"fmt"
	"strings"
)

// fewNames is how many names a hint may list in full.
const fewNames = 8

// Nearest gives the known name that is most probably meant, or "" when nothing
// is near. Case does not count, nor which of '-', '_' and ' ' joins words; two
// swapped letters are one mistake; a name without its unit is near.
func Nearest(name string, known []string) string {
	n := normal(name)
	if len(n) == 0 || len(n) > MaxName {
		return ""
	}
	best, least := "", allowance(n)+1
	for _, k := range known {
		c := normal(k)
		d := distance(n, c, least-1)
		if len(n) >= 3 && strings.HasPrefix(string(c), string(n)+"_") {
			d = min(d, 1)
		}
		if d < least {
			best, least = k, d
		}
	}
	return best
}

// Suggest gives the sentence of a hint for an unknown name: the nearest known
// one, or all of them where they are few, or "".
func Suggest(name string, known []string) string {
	if near := Nearest(name, known); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	switch {
	case len(known) == 0 || len(known) > fewNames:
		return ""
	case len(known) == 1:
		return "known is " + known[0]
	}
	return "known are " + strings.Join(known, ", ")
}

// normal is a name for comparing.
func normal(name string) []rune {
	s := strings.ToLower(strings.TrimSpace(name))
	return []rune(strings.Map(func(r rune) rune {
		if r == '-' || r == ' ' {
			return '_'
		}
		return r
	}, s))
}

// allowance is how many mistakes a name of this length may hold.
func allowance(name []rune) int {
	switch {
	case len(name) <= 2:
		return 0
	case len(name) <= 4:
		return 1
	case len(name) <= 8:
		return 2
	}
	return 3
}

// distance counts the letters to insert, delete, change or swap with their
// neighbour to make b of a; any count above most is given as most+1. Only a
// band of width 2*most+1 around the diagonal is worked out.
func distance(a, b []rune, most int) int {
	over := most + 1
	if most < 0 || len(a)-len(b) > most || len(b)-len(a) > most {
		return over
	}
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		least := row[0]
		for j := 1; j <= len(b); j++ {
			if j < i-most || j > i+most {
				row[j] = over
				continue
			}
			d := min(last[j]+1, row[j-1]+1, last[j-1]+differ(a[i-1], b[j-1]))
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d = min(d, before[j-2]+1)
			}
			row[j] = d
			least = min(least, d)
		}
		if least > most {
			return over
		}
		before, last, row = last, row, before
	}
	return min(last[len(b)], over)
}

func differ(a, b rune) int {
	if a == b {
		return 0
	}
	return 1
}
