package view

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/compat/fit"
	"example.org/cogcourt/rules"
)

// Fit prints what fits a mix: the choices, the best first, then what stands in the way.
func Fit(w io.Writer, a fit.Answer, currency string) {
	p := searchPrinter{w, currency}
	wrap(w, "", 0, fitHead(a, cmp.Or(a.Mix, "the mix")))
	for i, c := range a.Choices {
		fmt.Fprintln(w)
		p.choice(i+1, c, nil)
	}
	fmt.Fprintln(w)
	for _, row := range fitRows(a) {
		block(w, row.Word, row.Text)
	}
}

// fitRows tell what stands in the way, and what comes next.
func fitRows(a fit.Answer) []row {
	out := refused(a)
	for _, f := range a.Standing {
		says := map[bool]string{true: "is open", false: "fails"}[f.Verdict == rules.Unknown]
		out = append(out, row{"anyway", f.Rule + " " + says + " whatever is chosen. " + full(f.Text)})
	}
	switch {
	case a.Cut && len(a.Choices) == 0:
		out = append(out, row{"ended", "The search was ended before it had seen all: it is not proven that nothing goes."})
	case a.Cut:
		out = append(out, row{"ended", "The search was ended before it had seen all: there may be better choices."})
	case len(a.Blocked) > 0:
		out = append(out, row{"blocked", "These rules leave nothing together: " + strings.Join(a.Blocked, ", ") + "."})
	}
	if len(a.Choices) > 0 {
		out = append(out, row{"next", orderIsCheck})
	}
	return out
}

// orderIsCheck is what a choice does not replace.
const orderIsCheck = "Before ordering, check the mix with the choice: its report has the cautions, what to order with it and what is not judged here."

// fitHead is the first sentence.
func fitHead(a fit.Answer, mix string) string {
	if len(a.Kinds) == 1 {
		refused := 0
		for _, r := range a.Refused {
			refused += r.Parts
		}
		goes := a.Parts[0] - refused
		out := fmt.Sprintf("%d of %s %s on %s", goes, counted(a.Parts[0], kindWords(a.Kinds[0]), plural(a.Kinds[0])), verb(goes, "goes", "go"), mix)
		if len(a.Choices) == 0 && goes > 0 { // they are too dear, or a warning is one too many
			return "None of " + counted(a.Parts[0], kindWords(a.Kinds[0]), plural(a.Kinds[0])) + " is a choice for " + mix + "."
		}
		return full(out)
	}
	var words []string
	for _, k := range a.Kinds {
		words = append(words, kindWords(k))
	}
	return full(fmt.Sprintf("%s of %s for %s", counted(len(a.Choices), "choice", "choices"), listed(words), mix))
}

// kindWords is a kind as one says it.
func kindWords(kind string) string { return strings.ReplaceAll(kind, "_", " ") }

func plural(kind string) string { return kindWords(kind) + "s" }

// searchPrinter prints choices.
type searchPrinter struct {
	w        io.Writer
	currency string
}

// choice prints one choice: a part a line, then what is to be known of it. Of an
// exchange it names the part that goes.
func (p searchPrinter) choice(number int, c fit.Choice, from *compat.Mix) {
	first := fmt.Sprintf("%-*s%2d  ", gutter, strings.ToUpper(c.Verdict().String()), number)
	const set = gutter + 4
	for _, line := range slices.Concat(p.partLines(c, from), p.choiceLines(c)) {
		wrap(p.w, first, set, line)
		first = strings.Repeat(" ", set)
	}
}

// partLines names the parts of a choice with their prices; see choice.
func (p searchPrinter) partLines(c fit.Choice, from *compat.Mix) []string {
	out := make([]string, len(c.Parts))
	for i, part := range c.Parts {
		line := kindWords(part.Kind()) + " " + partName(part)
		if from != nil {
			if old, ok := from.Part(part.Kind()); ok {
				line = kindWords(part.Kind()) + ": " + partName(old) + " goes, " + partName(part) + " comes"
			}
		}
		if c.Kept(i) {
			line += ", which it has"
		} else {
			line += ", " + p.priceOf(part)
		}
		out[i] = line
	}
	return out
}

// choiceLines tell what is to be known of a choice.
func (p searchPrinter) choiceLines(c fit.Choice) []string {
	var out []string
	if len(c.Parts) > 1 {
		out = append(out, "Together "+p.price(c)+".")
	}
	out = append(out, said(c))
	for i, others := range c.Alike {
		if len(others) > 0 {
			out = append(out, "As good a "+kindWords(c.Parts[i].Kind())+": "+p.others(others)+".")
		}
	}
	if usual := c.Usual(); len(usual) > 0 {
		out = append(out, "Rests on what is usual, for nobody stated "+strings.Join(usual, ", ")+".")
	}
	return out
}

// said names the rules that warn or are open, or counts those that do not.
func said(c fit.Choice) string {
	var out []string
	switch {
	case c.Passes+c.Warnings+c.Unknowns == 0:
		return "No rule has anything to say of it here."
	case c.Verdict() == rules.Pass:
		return "No fault found in " + counted(c.Passes, "check", "checks") + "."
	}
	if c.Warnings > 0 {
		out = append(out, counted(c.Warnings, "warning", "warnings")+": "+strings.Join(c.Warns, ", "))
	}
	if c.Unknowns > 0 {
		out = append(out, fmt.Sprint(c.Unknowns)+" open: "+strings.Join(c.Open, ", "))
	}
	return Capital(strings.Join(out, "; "))
}

// mostOthers is how many parts are named that do as well.
const mostOthers = 3

func (p searchPrinter) others(parts []catalog.Part) string {
	var out []string
	for _, part := range parts[:min(len(parts), mostOthers)] {
		out = append(out, part.ID()+" "+p.priceOf(part))
	}
	if more := len(parts) - mostOthers; more > 0 {
		out = append(out, fmt.Sprintf("%d more", more))
	}
	return strings.Join(out, ", ")
}

// price is what a choice costs.
func (p searchPrinter) price(c fit.Choice) string {
	bought := 0
	for i := range c.Parts {
		if !c.Kept(i) {
			bought++
		}
	}
	switch {
	case bought == 0:
		return "nothing to buy"
	case c.Unpriced == bought:
		return "no price"
	case c.Unpriced > 0:
		return p.money(c.Cents) + " and " + counted(c.Unpriced, "part", "parts") + " without a price"
	}
	return p.money(c.Cents)
}

func (p searchPrinter) money(cents int64) string {
	return strings.TrimSpace(fmt.Sprintf("%d.%02d %s", cents/100, cents%100, p.currency))
}

func (p searchPrinter) priceOf(part catalog.Part) string {
	cents, ok := part.Cents()
	if !ok {
		return "no price"
	}
	return p.money(cents)
}

// partName is a part's id, or its name where it has none.
func partName(p catalog.Part) string { return cmp.Or(p.ID(), p.Name(), "described in the mix") }

// refused tells how many parts go with nothing, by the rules that refuse them.
func refused(a fit.Answer) []row {
	var out []row
	for i, kind := range a.Kinds {
		var by []string
		n := 0
		for _, r := range a.Refused {
			if r.Kind != kind {
				continue
			}
			n += r.Parts
			text := fmt.Sprintf("%s %d", r.Rule, r.Parts)
			if r.Open > 0 {
				text += fmt.Sprintf(" (%d of them open)", r.Open)
			}
			by = append(by, text)
		}
		switch {
		case a.Parts[i] == 0:
			out = append(out, row{"refused", "There is no " + kindWords(kind) + " to choose from."})
		case n > 0:
			out = append(out, row{"refused", fmt.Sprintf("%d of %s, first by: %s (--why ID tells of one).", n,
				counted(a.Parts[i], kindWords(kind), plural(kind)), strings.Join(by, ", "))})
		}
	}
	return out
}

// Mending prints the exchanges that mend a mix.
func Mending(w io.Writer, m fit.Mending, on compat.Mix, currency string) {
	p := searchPrinter{w, currency}
	mix := cmp.Or(m.Mix, "the mix")
	if len(m.Fails) == 0 {
		wrap(w, "", 0, "Nothing fails on "+mix+": there is nothing to mend.")
		return
	}
	fails := fmt.Sprintf("%s (%s)", counted(len(m.Fails), "fail", "fails"), strings.Join(m.Fails, ", "))
	switch {
	case len(m.Swaps) > 0:
		wrap(w, "", 0, fmt.Sprintf("%s %s %s: %s.", Capital(number1(m.Parts)), verb(m.Parts, "part mends", "parts mend"), mix, fails))
	case m.None:
		wrap(w, "", 0, fmt.Sprintf("Nothing in this catalogue mends %s: %s.", mix, fails))
		block(w, "blocked", "These rules cannot hold together whatever is exchanged: "+strings.Join(m.Blocks, ", ")+"."+fixed(m))
	case m.Cut:
		wrap(w, "", 0, fmt.Sprintf("The search was ended before it had seen all: no exchange was found that mends %s: %s.", mix, fails))
	default:
		wrap(w, "", 0, fmt.Sprintf("No exchange of up to %s mends %s: %s.", counted(m.Most, "part", "parts"), mix, fails))
	}
	for i, c := range m.Swaps {
		fmt.Fprintln(w)
		p.choice(i+1, c, &on)
	}
	if len(m.Swaps) == 0 {
		return
	}
	fmt.Fprintln(w)
	if m.Parts > 1 {
		block(w, "fewer", "No "+verb(m.Parts-1, "single part does.", "smaller exchange does."))
	}
	if m.Cut {
		block(w, "ended", "The search was ended before it had seen all: there may be a cheaper one.")
	}
	block(w, "next", orderIsCheck)
}

// cartMendings prints what would mend the bicycles of a cart that fail.
func cartMendings(w io.Writer, r cart.Report, currency string) {
	for _, m := range r.Mendings {
		for _, bike := range r.Bikes {
			if bike.After.Mix.Name() == m.Bike {
				fmt.Fprintln(w)
				Mending(w, m.Mending, bike.After.Mix, currency)
			}
		}
	}
}

// number1 writes small numbers as words.
func number1(n int) string {
	if words := []string{"", "one", "two", "three", "four", "five"}; n < len(words) {
		return words[n]
	}
	return fmt.Sprint(n)
}

// fixed names the kinds that were not for exchange.
func fixed(m fit.Mending) string {
	if len(m.Fixed) == 0 {
		return ""
	}
	var words []string
	for _, k := range m.Fixed {
		words = append(words, kindWords(k))
	}
	return " Not for exchange: " + listed(words) + "."
}

// mostAlone is how many parts that go with nothing are named.
const mostAlone = 20

// Audit prints what in a catalogue goes with what.
func Audit(w io.Writer, a fit.Audit) {
	var sum fit.Pairs
	for _, p := range a.Pairs {
		sum.Pass, sum.Warn, sum.Open = sum.Pass+p.Pass, sum.Warn+p.Warn, sum.Open+p.Open
		sum.Fail, sum.Silent = sum.Fail+p.Fail, sum.Silent+p.Silent
	}
	pairs := sum.Pass + sum.Warn + sum.Open + sum.Fail + sum.Silent
	wrap(w, "", 0, fmt.Sprintf("%s, %s in %s of kinds: %d pass, %d warn, %d are open, %d fail; of %d no rule has anything to say.",
		counted(a.Parts, "part", "parts"), counted(pairs, "pair", "pairs"), counted(len(a.Pairs), "pair", "pairs"),
		sum.Pass, sum.Warn, sum.Open, sum.Fail, sum.Silent))
	fmt.Fprintf(w, "\n%-38s %7s %7s %7s %7s %7s\n", "", "pass", "warn", "open", "fail", "silent")
	quiet := 0
	for _, p := range a.Pairs {
		if p.Pass+p.Warn+p.Open+p.Fail == 0 { // two parts are too few for the rules that look at both
			quiet++
			continue
		}
		fmt.Fprintf(w, "%-38s %7d %7d %7d %7d %7d\n", kindWords(p.Kinds[0])+" and "+kindWords(p.Kinds[1]), p.Pass, p.Warn, p.Open, p.Fail, p.Silent)
	}
	if quiet > 0 {
		wrap(w, "", 0, counted(quiet, "pair", "pairs")+" of kinds more, of which no rule has anything to say of two parts alone.")
	}
	alone(w, a.Alone)
	if len(a.Facts) == 0 {
		return
	}
	fmt.Fprintf(w, "\nState these of every part, to decide what is open:\n")
	for _, f := range a.Facts {
		wrap(w, "  ", 4, fmt.Sprintf("%s decides %s; %d %s open still", f.Fact, counted(f.Pairs, "pair", "pairs"), f.Open, verb(f.Open, "is", "are")))
	}
}

// alone prints the parts that fail with all parts of a kind.
func alone(w io.Writer, list []fit.Alone) {
	if len(list) == 0 {
		return
	}
	fmt.Fprintf(w, "\nThese go with nothing of another kind here:\n")
	shown := slices.Clone(list[:min(len(list), mostAlone)])
	for _, p := range shown {
		wrap(w, "  ", 4, fmt.Sprintf("%s %s fails with %s", kindWords(p.Part.Kind()), p.Part.ID(),
			verb(p.Parts, "the one "+kindWords(p.With), fmt.Sprintf("all %d %s", p.Parts, plural(p.With)))))
	}
	if more := len(list) - len(shown); more > 0 {
		fmt.Fprintf(w, "  and %d more; --format json lists them\n", more)
	}
}

// Why prints why a part does not go on a mix, or that it does: what it fails, leaves open
// and warns of, by the rules that can change with it.
func Why(w io.Writer, part catalog.Part, r compat.Report, reach map[string]bool) {
	var found []compat.Finding
	passes := 0
	for _, f := range r.Findings() {
		switch {
		case !reach[f.Rule]:
		case f.Verdict == rules.Pass:
			passes++
		default:
			found = append(found, f)
		}
	}
	goes := map[rules.Verdict]string{rules.Pass: "goes on", rules.Warn: "goes on, with a warning,", rules.Unknown: "is undecided on", rules.Fail: "does not go on"}
	wrap(w, "", 0, fmt.Sprintf("The %s %s %s %s.", kindWords(part.Kind()), partName(part), goes[WorstOf(r, reach)], nameOf(r.Mix)))
	for _, f := range found {
		fmt.Fprintln(w)
		block(w, strings.ToUpper(f.Verdict.String()), f.Text+"  ["+f.Rule+"]")
		under(w, "mend", f.Remedy)
	}
	switch {
	case len(found) > 0:
	case passes == 0:
		block(w, "rest", "No rule has anything to say of it with these parts.")
	default:
		block(w, "rest", "No fault found in "+counted(passes, "check", "checks")+".")
	}
}

// WorstOf is the worst verdict of some rules, unknown where none of them applies.
func WorstOf(r compat.Report, of map[string]bool) rules.Verdict {
	worst, some := rules.Pass, false
	for _, v := range r.Verdicts() {
		if !of[v.Rule] {
			continue
		}
		if some = true; v.Verdict.Rank() < worst.Rank() {
			worst = v.Verdict
		}
	}
	if !some {
		return rules.Unknown
	}
	return worst
}
