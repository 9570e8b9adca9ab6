package second

import (
	"fmt"
	"slices"
	"strings"

	"example.org/cogcourt/rules/fact"
)

// loops writes rules that hang on the entries of loops. The language has no loop within
// a loop, but a loop may ask for a let-name that has one, and that for another: so an
// entry is read before and behind such a name, which may be worked out there for the
// first time. Beside these it writes choices whose branches may lack facts, and texts with
// loops. Limits are taken from the lists themselves, so that entries lie on both sides:
// what is drawn over the range of a field hardly ever tells one entry from another.
type loops struct {
	*writer
	lists   []field
	entry   string   // the name of the loop around
	truths  []string // let-names
	numbers []string
	words   []string
}

// loopRule writes one.
func (w *writer) loopRule(id string) string {
	l := &loops{writer: w}
	all := append(slices.Clone(w.facts[fact.Fractions]), w.facts[fact.Wholes]...)
	w.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	for i, f := range all { // of few lists, for where one is not known little is decided
		if i < 2 || f.name == "cassette.cogs_t" {
			l.lists = append(l.lists, f)
		}
	}
	var b strings.Builder
	fmt.Fprintf(&b, "rules:\n  - id: %s\n    title: Drawn\n    why: Drawn of loops.\n    let:\n", id)
	for i := range 1 + w.IntN(4) {
		name := fmt.Sprintf("given_%d", i)
		switch w.IntN(4) {
		case 0, 1:
			fmt.Fprintf(&b, "      %s: %q\n", name, l.over())
			l.truths = append(l.truths, name)
		case 2:
			fmt.Fprintf(&b, "      %s: %q\n", name, "("+l.over()+" ? 1.0 * "+l.limit()+" : "+l.middle()+")")
			l.numbers = append(l.numbers, name)
		case 3:
			fmt.Fprintf(&b, "      %s: %q\n", name, "("+l.over()+" ? 'heron' : 'reed')")
			l.words = append(l.words, name)
		}
	}
	if w.IntN(3) == 0 {
		fmt.Fprintf(&b, "    when: %q\n", "stated("+l.list().name+") && "+l.over())
	}
	fmt.Fprintf(&b, "    fail_if: %q\n", l.over())
	if w.IntN(2) == 0 {
		fmt.Fprintf(&b, "    warn_if: %q\n", l.over())
	}
	fmt.Fprintf(&b, "    say: Look.\n    remedy: %q\n    basis: {practice: drawn}\n", "{"+l.over()+" ? 'heron' : 'reed'}.")
	return b.String()
}

func (l *loops) list() field { return l.lists[l.IntN(len(l.lists))] }

// over writes a loop over a list.
func (l *loops) over() string {
	l.entry, l.inner = []string{"x", "y"}[l.IntN(2)], true
	defer func() { l.inner = false }()
	return l.list().name + []string{".exists", ".all"}[l.IntN(2)] + "(" + l.entry + ", " + l.body() + ")"
}

// body writes what a loop asks of its entry: often before and behind another loop.
func (l *loops) body() string {
	join := func() string { return []string{" && ", " || "}[l.IntN(2)] }
	switch l.IntN(6) {
	case 0:
		return l.other() + join() + l.own()
	case 1:
		return "(" + l.own() + join() + l.other() + ")" + join() + l.own()
	case 2:
		return "!(" + l.other() + ")" + join() + l.own()
	case 3:
		return "(" + l.other() + " ? " + l.own() + " : " + l.own() + ")"
	case 4: // a branch may lack its facts
		return "(" + l.own() + " ? " + l.truth(1) + " : " + l.other() + ")"
	}
	return l.own()
}

// other writes a condition of a let-name that has a loop of its own.
func (l *loops) other() string {
	switch n, k := len(l.truths), len(l.words); {
	case n > 0 && (k == 0 || l.IntN(3) > 0):
		return l.truths[l.IntN(n)]
	case k > 0:
		return l.words[l.IntN(k)] + []string{" == ", " != "}[l.IntN(2)] + "'heron'"
	}
	return l.own()
}

// own writes a condition on the entry.
func (l *loops) own() string {
	compare := []string{" < ", " <= ", " > ", " >= "}[l.IntN(4)]
	switch l.IntN(5) {
	case 0:
		return "near(" + l.entry + ", " + l.limit() + ", " + fmt.Sprint(1+l.IntN(4)) + ")"
	case 1:
		return "(" + l.truth(0) + " ? 1.0 * " + l.entry + " : 1.0 * " + l.limit() + ")" + compare + l.limit()
	}
	return l.entry + compare + l.limit()
}

// limit writes a number that lies among the entries of a list.
func (l *loops) limit() string {
	if n := len(l.numbers); n > 0 && l.IntN(2) == 0 {
		return l.numbers[l.IntN(n)]
	}
	list := l.list()
	if l.IntN(2) == 0 {
		return l.beside(list, fmt.Sprintf("%s[%d]", list.name, l.IntN(3)))
	}
	return l.beside(list, []string{"first", "last"}[l.IntN(2)]+"("+list.name+")")
}

// middle writes one that lies between them, and is reckoned over the whole list.
func (l *loops) middle() string {
	list := l.list()
	if l.IntN(2) == 0 {
		return l.beside(list, "(min("+list.name+") + max("+list.name+")) / 2")
	}
	return l.beside(list, "sum("+list.name+") / count("+list.name+")")
}

// beside moves a number of a list of fractions a little: on equal distances such as those
// of even cogs a rule would else hang on how their last decimal is rounded.
func (l *loops) beside(list field, number string) string {
	if list.Type == fact.Wholes {
		return number
	}
	return "(" + number + []string{" + ", " - "}[l.IntN(2)] + fmt.Sprintf("%.4f", 0.0003+0.5*l.Float64()) + ")"
}
