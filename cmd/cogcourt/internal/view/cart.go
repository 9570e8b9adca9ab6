package view

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules"
)

// Carts prints the reports of carts one below the other, as Reports does those of
// mixes: what became of each line, then what the cart changes on each bicycle.
func Carts(w io.Writer, reports []cart.Report, broken int, style Style) {
	if style.Plain {
		plainCarts(w, reports, style)
		return
	}
	end := newEnding(w, style, ending{one: "cart", many: "carts", broken: broken})
	for i, r := range reports {
		if i > 0 {
			fmt.Fprintln(end.w)
		}
		cartReport(end.w, r, style)
		var after []compat.Report
		for _, bike := range r.Bikes {
			after = append(after, bike.After)
		}
		end.add(last{r.Verdict, cartName(r), cartBrief(r)}, after...)
	}
	end.print()
}

// cartName is what a cart is called.
func cartName(r cart.Report) string { return cmp.Or(r.Name, "a cart without a name") }

// cartBrief is what stands behind the verdict of a cart that is told a second time.
func cartBrief(r cart.Report) string {
	bikes := make([]string, len(r.Bikes))
	for i, bike := range r.Bikes {
		bikes[i] = bike.After.Verdict.String()
	}
	if len(bikes) == 0 {
		return "no bicycle is changed"
	}
	return counted(len(bikes), "bicycle", "bicycles") + ", " + listed(bikes)
}

// cartReport prints the report of one cart.
func cartReport(w io.Writer, r cart.Report, style Style) {
	p := printer{w: w, style: style}
	p.marked(r.Verdict, cartName(r)+" ("+counted(len(r.Lines), "line", "lines")+")")
	block(w, "", cartSentence(r))
	if len(r.Lines) > 0 {
		fmt.Fprintln(w)
	}
	digits, word := len(fmt.Sprint(len(r.Lines))), "lines"
	for i, l := range r.Lines {
		wrap(w, fmt.Sprintf("%-*s%*d. ", gutter, word, digits, i+1), gutter+digits+2, lineText(l))
		word = ""
	}
	for _, bike := range r.Bikes {
		fmt.Fprintln(w)
		cartBike(w, bike, linesOn(r, bike.After.Mix.Name()), style)
	}
	cartMendings(w, r, style.Currency)
}

// cartSentence says in a line what became of the lines, and whether to order them.
// A line that is ambiguous is named: somebody has to say more of it.
func cartSentence(r cart.Report) string {
	by := map[cart.Use][]string{}
	for i, l := range r.Lines {
		by[l.Use] = append(by[l.Use], fmt.Sprint(i+1))
	}
	var parts []string
	for _, use := range []cart.Use{cart.Fitted, cart.Spare, cart.Ignored} {
		if n := len(by[use]); n > 0 {
			parts = append(parts, counted(n, "line is ", "lines are ")+use.String())
		}
	}
	if open := by[cart.Ambiguous]; len(open) > 0 {
		parts = append(parts, linesText(open)+verb(len(open), " is ", " are ")+cart.Ambiguous.String())
	}
	out := Capital(cmp.Or(strings.Join(parts, ", "), "there are no lines")) + "."
	switch {
	case len(r.Bikes) == 0:
		out += " No bicycle is changed: nothing could be judged."
	case r.Verdict == rules.Fail:
		out += " Do not order it as it is."
	case r.Verdict == rules.Unknown:
		out += " Not everything could be decided: look below before ordering."
	}
	return out
}

// linesText names lines by their numbers, of many the first few.
func linesText(numbers []string) string {
	const most = 10
	if len(numbers) == 1 {
		return "line " + numbers[0]
	}
	last := numbers[len(numbers)-1]
	numbers = numbers[:len(numbers)-1]
	if more := len(numbers) - most; more > 0 {
		numbers, last = numbers[:most], fmt.Sprintf("%d more", more+1)
	}
	return "lines " + strings.Join(numbers, ", ") + " and " + last
}

// lineText says what became of a line.
func lineText(l cart.LineResult) string {
	head := cmp.Or(l.ID, l.SKU)
	if l.Name != "" {
		head += ", " + l.Name
	}
	l.ID, l.SKU = "", ""
	if l.Use == cart.Spare && l.Note == "" {
		l.Note = "another line brings the same"
	}
	return head + ": " + l.String()
}

// linesOn gives the numbers of the lines that are fitted to a bicycle.
func linesOn(r cart.Report, bike string) []string {
	var out []string
	for i, l := range r.Lines {
		if slices.Contains(l.Bikes, bike) {
			out = append(out, fmt.Sprint(i+1))
		}
	}
	return out
}

// cartBike prints what a cart changes on one bicycle.
func cartBike(w io.Writer, c compat.Change, lines []string, style Style) {
	p := printer{w: w, style: style, report: c.After, findings: c.After.Findings()}
	p.marked(c.After.Verdict, bikeName(c))
	if len(c.Before.Mix.Parts()) == 0 {
		block(w, "", "Made of "+linesText(lines)+".")
	} else {
		block(w, "", fmt.Sprintf("With %s, compared with before (%s): %s.", linesText(lines), c.Before.Verdict, changes(c)))
	}
	p.absent()
	quiet := p.changes(c)
	if style.Explain {
		p.passedThroughout(c)
	}
	p.measureFirst()
	if style.Explain {
		p.gears()
	}
	p.apart(p.needs, quiet, func() {
		if style.Explain {
			items(p.w, "silent", p.silent())
		}
	})
}

// bikeName is what a bicycle of a cart is called.
func bikeName(c compat.Change) string { return cmp.Or(c.After.Mix.Name(), "the bicycle") }

// passedThroughout prints what passes after and passed before.
func (p *printer) passedThroughout(c compat.Change) {
	changed := map[string]bool{}
	for _, f := range slices.Concat(c.New, c.Worse, c.Better, c.Same) {
		changed[f.Rule] = true
	}
	begun := false
	for _, f := range p.findings {
		if changed[f.Rule] {
			continue
		}
		if !begun {
			fmt.Fprintln(p.w)
			block(p.w, "passed", "")
			begun = true
		}
		pass := compat.Standing{Applied: true, Verdict: f.Verdict}
		p.changed(compat.ChangedFinding{Finding: f, Was: pass, Now: pass})
	}
}
