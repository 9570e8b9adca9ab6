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
	named := p.report.NotJudged()
	var sentences []string
	for _, na := range p.report.NotApplied() {
		if na.Reason == rules.ReasonFigure && !na.Quiet && !slices.Contains(sentences, na.Names[0]) {
			sentences = append(sentences, na.Names[0])
		}
	}
	word := "unjudged"
	for _, n := range named {
		block(p.w, word, Capital(n.What)+": "+lower(n.Text))
		under(p.w, "beware", n.Caution)
		word = ""
	}
	for _, s := range sentences {
		block(p.w, word, full(Capital(s)))
		word = ""
	}
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

// measureFirst lists the facts that would decide what is open, each with a blank to
// write the measure on, how to find it out, where it goes in the file, and what hangs
// on it.
func (p *printer) measureFirst() {
	open := map[string]compat.Finding{}
	for _, f := range p.findings {
		open[f.Rule] = f
	}
	for _, m := range p.report.Missing() {
		fmt.Fprintln(p.w)
		block(p.w, "measure", Capital(p.report.Words(m.Name))+": "+strings.TrimSpace("____ "+unitText(m.Unit)))
		under(p.w, "how", m.How)
		if kind, field, ok := strings.Cut(m.Name, "."); ok {
			under(p.w, "file", kind+": {"+field+": ...}")
		}
		hangs := make([]string, len(m.Rules))
		for i, rule := range m.Rules {
			hangs[i] = p.hanging(open[rule])
		}
		items(p.w, "  open", hangs)
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
	na := p.report.NotApplied()
	if p.style.Explain {
		p.silent(na)
		return
	}
	var text []string
	if n := p.count(rules.Pass); n > 0 {
		text = append(text, counted(n, "check", "checks")+" passed")
	}
	if len(na) > 0 {
		text = append(text, counted(len(na), "rule", "rules")+" had nothing to say")
	}
	if len(text) > 0 {
		block(p.w, "rest", strings.Join(text, ", ")+"; --explain shows them.")
	}
}

// silent says of each rule that did not apply why.
func (p *printer) silent(na []rules.NotApplied) {
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
	items(p.w, "silent", lines)
}

// kindsText names kinds in words.
func kindsText(kinds []string) string {
	return strings.ReplaceAll(strings.Join(kinds, ", "), "_", " ")
}
