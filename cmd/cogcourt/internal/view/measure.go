package view

import (
	"fmt"
	"slices"
	"strings"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// notJudged names what the mix has and no rule judges, and says in sentences why
// else a figure means nothing for this mix. A reader would otherwise miss the checks
// without a word.
func (p *printer) notJudged() {
	word := "unjudged"
	for _, n := range p.report.NotJudged() {
		block(p.w, word, Capital(n.What)+": "+lower(n.Text))
		under(p.w, "beware", n.Caution)
		word = ""
	}
	for _, s := range p.meaningless() {
		block(p.w, word, s)
		word = ""
	}
}

// meaningless gives the sentences that say why a figure means nothing for this mix.
func (p *printer) meaningless() []string {
	var out []string
	for _, na := range p.report.NotApplied() {
		if na.Reason != rules.ReasonFigure || na.Quiet {
			continue
		}
		if s := full(Capital(na.Names[0])); !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

// needs lists what to order: one line a thing, with all that it must be.
func (p *printer) needs() { items(p.w, "order", orderLines(p.report.Needs())) }

// orderLines gives each thing one line, so that nobody orders three chains for one
// bicycle.
func orderLines(needs []rules.FilledNeed) []string {
	var lines []string
	at := map[string]int{}
	for _, n := range needs {
		text := n.What
		if n.Value != 0 && !strings.Contains(n.What, rules.Decimal(n.Value, -1)) {
			text += ", " + rules.Decimal(n.Value, -1) + " " + n.Unit
		}
		i, there := at[n.Thing]
		if n.Thing == "" || !there {
			at[n.Thing] = len(lines)
			lines = append(lines, text)
			continue
		}
		text = strings.TrimSpace(strings.TrimPrefix(strings.TrimPrefix(text, "new "), n.Thing+" "))
		lines[i] += "; " + text
	}
	return lines
}

// measure is a fact to measure, in words.
type measure struct {
	what, unit string
	how, file  string   // how to find it out, and where it goes; empty where nobody says
	hangs      []string // on it
}

// measures lists the facts that would decide what is open.
func (p *printer) measures() []measure {
	open := map[string]compat.Finding{}
	for _, f := range p.findings {
		open[f.Rule] = f
	}
	var out []measure
	for _, m := range p.report.Missing() {
		to := measure{what: Capital(p.report.Words(m.Name)), unit: unitText(m.Unit), how: m.How}
		if kind, field, ok := strings.Cut(m.Name, "."); ok {
			to.file = kind + ": {" + field + ": ...}"
		}
		for _, rule := range m.Rules {
			to.hangs = append(to.hangs, p.hanging(open[rule]))
		}
		out = append(out, to)
	}
	return out
}

// measureFirst prints the facts that would decide what is open, each with a blank to
// write the measure on, how to find it out, where it goes in the file, and what hangs
// on it.
func (p *printer) measureFirst() {
	for _, m := range p.measures() {
		fmt.Fprintln(p.w)
		block(p.w, "measure", m.what+": "+strings.TrimSpace("____ "+m.unit))
		under(p.w, "how", m.how)
		under(p.w, "file", m.file)
		items(p.w, "  open", m.hangs)
	}
}

// hanging says what an open finding is about, and over which usual values it hangs: once,
// then by its rule alone.
func (p *printer) hanging(f compat.Finding) string {
	text := "[" + f.Rule + "]"
	if p.tell(f.Rule) {
		return text
	}
	if f.Lean != nil {
		text = f.Text + " " + text
	}
	return "Whether " + full(lower(f.Title)) + " " + text
}

// rest counts what passed and what did not apply, or shows the latter.
func (p *printer) rest() {
	if p.style.Explain {
		items(p.w, "silent", p.silent())
		return
	}
	if text := p.restCount(); text != "" {
		block(p.w, "rest", text+"; --explain shows them.")
	}
}

// restCount counts what passed and what did not apply.
func (p *printer) restCount() string {
	var text []string
	if n := p.count(rules.Pass); n > 0 {
		text = append(text, counted(n, "check", "checks")+" passed")
	}
	if n := len(p.report.NotApplied()); n > 0 {
		text = append(text, counted(n, "rule", "rules")+" had nothing to say")
	}
	return strings.Join(text, ", ")
}

// silent says of each rule that did not apply why.
func (p *printer) silent() []string {
	na := p.report.NotApplied()
	lines := make([]string, len(na))
	for i, n := range na {
		why := map[rules.Reason]string{
			rules.ReasonWhen: "not a question with these parts", rules.ReasonAbsent: "not in the mix: ",
			rules.ReasonUnstated: "not stated: ",
		}[n.Reason]
		names := strings.Join(n.Names, ", ")
		switch n.Reason {
		case rules.ReasonAbsent:
			names = kindsText(n.Names)
		case rules.ReasonUnstated:
			words := make([]string, len(n.Names))
			for i, name := range n.Names {
				words[i] = p.report.Words(name)
			}
			names = strings.Join(words, ", ")
		}
		lines[i] = n.Rule.ID + ": " + why + names
	}
	return lines
}

// kindsText names kinds in words.
func kindsText(kinds []string) string {
	return kindWords(strings.Join(kinds, ", "))
}
