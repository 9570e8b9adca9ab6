package fact

import (
	"cmp"
	"strconv"
	"strings"
)

// MaxName is the most code points of a Name or Choice, which the cost bound of
// rules builds on.
const MaxName = 64

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
// one, or those that hold it as a word, or all of them where they are few, or "".
func Suggest(name string, known []string) string {
	return cmp.Or(suggestLike(name, known), suggestAll(known))
}

// mostHolding is how many names a hint lists as those that hold an unknown one.
const mostHolding = 6

// holding lists known names that hold this one as the begin of a word, as
// rear_shifter does shifter and index/steps does steps, and counts those beyond
// the list.
func holding(name string, known []string) (list []string, more int) {
	n := string(normal(name))
	if len(n) < 3 {
		return nil, 0
	}
	joints := strings.NewReplacer("/", "_", ".", "_")
	for _, k := range known {
		if strings.Contains("_"+joints.Replace(string(normal(k))), "_"+joints.Replace(n)) {
			list = append(list, k)
		}
	}
	more = max(0, len(list)-mostHolding)
	return list[:len(list)-more], more
}

// quoted joins names: "a", "b" or "c".
func quoted(names []string) string {
	var b strings.Builder
	for i, n := range names {
		switch {
		case i > 0 && i == len(names)-1:
			b.WriteString(" or ")
		case i > 0:
			b.WriteString(", ")
		}
		b.WriteString(strconv.Quote(n))
	}
	return b.String()
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
