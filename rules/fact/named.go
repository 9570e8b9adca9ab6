package fact

import (
	"cmp"
	"slices"
	"strings"
	"unicode/utf8"
)

// Named is something that goes by a name of its own and by others: those that the
// trade has for it.
type Named struct {
	Name string
	Also []string
}

// AlsoCalled is a description with the other names of what it describes, by which
// people find it.
func AlsoCalled(doc string, also []string) string {
	if len(also) == 0 {
		return doc
	}
	return doc + " Also called " + strings.Join(also, ", ") + "."
}

// Fit says how well a word fits a name, better ones being greater.
type Fit uint8

// How well a word fits. Neither case, joints between words, plurals nor the unit
// at the end of a name count.
const (
	NoFit     Fit = iota
	PartOther     // a part of another name, or mostly made of one
	NearOther     // a few letters beside another name
	NearOwn       // a few letters beside its own name
	PartOwn       // a part of its own name
	IsOther       // another name
	IsOwn         // its own name
)

// Match is one of several things that a word fits.
type Match struct {
	Index int // in the list of what was looked through
	Fit   Fit
	By    string // the name that the word fits
	unit  int    // 1 where the word ends in the unit that the name ends in
}

// Find gives what a word fits, best first.
func Find(word string, known []Named) []Match {
	a := ask(word)
	if len(a.exact) == 0 || utf8.RuneCountInString(word) > MaxName {
		return nil
	}
	var out []Match
	for i, k := range known {
		m := Match{Index: i, By: k.Name, Fit: a.own(k.Name)}
		if a.unit != "" && a.unit == unitAtEnd(k.Name) {
			m.unit = 1
		}
		for _, other := range k.Also {
			if fit := a.other(other); fit > m.Fit {
				m.Fit, m.By = fit, other
			}
		}
		if m.Fit != NoFit {
			out = append(out, m)
		}
	}
	slices.SortStableFunc(out, func(x, y Match) int {
		return cmp.Or(cmp.Compare(y.Fit, x.Fit), cmp.Compare(y.unit, x.unit))
	})
	return out
}

// asked is a word that is looked for.
type asked struct {
	letters []rune   // as names are compared letter by letter
	exact   []string // ways to read it, without joints: whole, its unit spelt out, without its unit
	bare    []string // its words, without a unit
	joined  string   // bare, each between underscores
	unit    string   // the unit at its end, as names of fields write it
}

func ask(word string) asked {
	tokens := tokensOf(word)
	if len(tokens) == 0 {
		return asked{}
	}
	a := asked{letters: normal(word), bare: tokens, exact: []string{strings.Join(tokens, "")}}
	if last := len(tokens) - 1; last > 0 && units[tokens[last]] != "" {
		a.unit, a.bare = units[tokens[last]], tokens[:last]
		if spelt := speltOut[a.unit]; spelt != "" {
			a.exact = append(a.exact, strings.Join(a.bare, "")+spelt)
		}
		a.exact = append(a.exact, strings.Join(a.bare, ""))
	}
	a.joined = between(a.bare)
	return a
}

// own says how the word fits the own name of something.
func (a asked) own(name string) Fit {
	tokens := tokensOf(name)
	whole := strings.Join(tokens, "")
	bare := tokens
	if unitAtEnd(name) != "" {
		bare = tokens[:len(tokens)-1]
	}
	switch {
	case a.exact[0] == whole, slices.Contains(a.exact, strings.Join(bare, "")):
		return IsOwn
	case a.within(tokens):
		return PartOwn
	case distance(a.letters, normal(name), allowance(a.letters)) <= allowance(a.letters):
		return NearOwn
	}
	return NoFit
}

// other says how the word fits another name of something. These are many, so that
// fewer wrong letters are forgiven than in own names, and a word that holds one
// must say little else: a link's colour is not the length of a chain.
func (a asked) other(name string) Fit {
	tokens := tokensOf(name)
	whole := strings.Join(tokens, "")
	if slices.Contains(a.exact, whole) {
		return IsOther
	}
	bare := a.exact[len(a.exact)-1]
	if most := slips([]rune(bare)); distance([]rune(bare), []rune(whole), most) <= most {
		return NearOther
	}
	if a.within(tokens) || strings.Contains(a.joined, between(tokens)) && 2*len(whole) >= len(bare) {
		return PartOther
	}
	return NoFit
}

// within says whether the words stand one behind the other in a name, the last of
// them maybe not to its end.
func (a asked) within(name []string) bool {
	start := strings.TrimSuffix(a.joined, "_")
	return len(start) > 3 && strings.Contains(between(name), start)
}

// between puts words between underscores.
func between(tokens []string) string { return "_" + strings.Join(tokens, "_") + "_" }

// tokensOf parts a name into its words, in lower case and in the singular.
func tokensOf(name string) []string {
	tokens := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return strings.ContainsRune("_- ./'", r) })
	for i, t := range tokens {
		tokens[i] = singular(t)
	}
	return tokens
}

// singular takes the sign of the plural from a word, by the usual rules alone.
func singular(word string) string {
	stem, plural := strings.CutSuffix(word, "s")
	switch {
	case word == "teeth":
		return "tooth"
	case !plural || len(word) <= 3 || strings.HasSuffix(stem, "s") || strings.HasSuffix(stem, "u") || strings.HasSuffix(stem, "i"):
		return word
	case strings.HasSuffix(stem, "ie"):
		return strings.TrimSuffix(stem, "ie") + "y"
	case strings.HasSuffix(stem, "che"), strings.HasSuffix(stem, "she"), strings.HasSuffix(stem, "sse"), strings.HasSuffix(stem, "xe"):
		return strings.TrimSuffix(stem, "e")
	}
	return stem
}

// units are the words in which a name may end that say in what it is counted, and
// what the names of fields write for them.
var units = map[string]string{
	"mm": "mm", "cm": "mm", "m": "mm", "in": "mm", "inch": "mm", "t": "t", "tooth": "t", "nm": "nm", "deg": "deg", "degree": "deg",
	"percent": "percent", "pct": "percent", "v": "v", "volt": "v", "n": "n", "c": "c",
}

// speltOut are units that people also write as what is counted in them.
var speltOut = map[string]string{"t": "tooth", "v": "voltage", "nm": "torque"}

// unitAtEnd is the unit in which the name of a field ends; empty for one without.
func unitAtEnd(name string) string {
	if i := strings.LastIndexByte(name, '_'); i > 0 {
		return units[singular(name[i+1:])]
	}
	return ""
}
