package twin

import "slices"

// lacks is a set of facts that nobody stated, by their place among the names.
type lacks uint64

// truth is what a condition comes to. While anything lacks it is open, and holds
// says nothing.
type truth struct {
	holds bool
	lacks lacks
}

func (t truth) is(want bool) bool { return t.lacks == 0 && t.holds == want }

// or holds where one side does, whatever the other lacks.
func or(a, b truth) truth {
	if a.is(true) || b.is(true) {
		return truth{holds: true}
	}
	return truth{lacks: a.lacks | b.lacks}
}

// and does not hold where one side does not, whatever the other lacks.
func and(a, b truth) truth {
	if a.is(false) || b.is(false) {
		return truth{}
	}
	return truth{holds: true, lacks: a.lacks | b.lacks}
}

func not(a truth) truth { return truth{!a.holds, a.lacks} }

// number is a number that may lack facts.
type number struct {
	x     float64
	lacks lacks
}

func (a number) minus(b number) number     { return number{a.x - b.x, a.lacks | b.lacks} }
func (a number) above(limit float64) truth { return truth{a.x > limit, a.lacks} }
func (a number) below(limit float64) truth { return truth{a.x < limit, a.lacks} }
func (a number) belowOther(b number) truth { return a.minus(b).below(0) }
func (a word) equals(b word) truth         { return truth{a.s == b.s, a.lacks | b.lacks} }
func (a word) says(text string) truth      { return truth{a.s == text, a.lacks} }
func (l wordList) hold(text string) truth  { return truth{slices.Contains(l.all, text), l.lacks} }
func (l wordList) holdWord(w word) truth {
	return truth{slices.Contains(l.all, w.s), l.lacks | w.lacks}
}
func (l list) at(i int) number                 { return number{l.entry(i), l.lacks} }
func (l list) count() number                   { return number{float64(len(l.xs)), l.lacks} }
func (l list) any(is func(float64) bool) truth { return truth{l.has(is), l.lacks} }

// word is a text that may lack facts.
type word struct {
	s     string
	lacks lacks
}

// wordList is a list of words that may lack facts.
type wordList struct {
	all   []string
	lacks lacks
}

// list is a list of numbers that may lack facts.
type list struct {
	xs    []float64
	lacks lacks
}

// entry counts from the end for negative places.
func (l list) entry(i int) float64 {
	if i < 0 {
		i += len(l.xs)
	}
	if i < 0 || i >= len(l.xs) {
		return 0
	}
	return l.xs[i]
}

func (l list) has(is func(float64) bool) bool {
	for _, x := range l.xs {
		if is(x) {
			return true
		}
	}
	return false
}
