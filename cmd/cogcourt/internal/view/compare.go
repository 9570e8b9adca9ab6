package view

import (
	"fmt"
	"io"
	"strings"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// Change prints what differs between two reports: what got worse and is new
// first, each with the parts that bring it about. New findings that pass, and
// gone ones that passed, are counted only.
func Change(w io.Writer, c compat.Change, style Style) {
	if style.Plain {
		plainChange(w, "mix", c, style)
		return
	}
	end := newEnding(w, style, ending{one: "mix", many: "mixes"})
	p := printer{w: end.w, style: style, report: c.After}
	p.marked(c.After.Verdict, nameOf(c.After.Mix))
	block(p.w, "", fmt.Sprintf("Compared with %s (%s): %s.", nameOf(c.Before.Mix), c.Before.Verdict, changes(c)))
	p.absent()
	quiet := p.changes(c)
	p.gearsChanged(c)
	p.apart(quiet)
	end.add(last{c.After.Verdict, nameOf(c.After.Mix), changes(c)})
	end.print()
}

// changes counts what differs.
func changes(c compat.Change) string {
	return fmt.Sprintf("%d worse, %d new, %d better, %d gone", len(c.Worse), len(c.New), len(c.Better), len(c.Gone))
}

// changed is a list of findings under the word for what became of them.
type changed struct {
	word string
	list []compat.ChangedFinding
}

// shownOf gives the lists of a change as they are shown. Findings that pass, and are
// new or gone, are news to nobody: they are left out, and counted.
func (p *printer) shownOf(c compat.Change) (lists []changed, quiet int) {
	for _, l := range []changed{{"worse", c.Worse}, {"new", c.New}, {"better", c.Better}, {"gone", c.Gone}, {"same", c.Same}} {
		shown := changed{word: l.word}
		for _, f := range l.list {
			if f.Verdict == rules.Pass && (!f.Was.Applied || !f.Now.Applied) && !p.style.Explain {
				quiet++
			} else {
				shown.list = append(shown.list, f)
			}
		}
		if len(shown.list) > 0 {
			lists = append(lists, shown)
		}
	}
	return lists, quiet
}

// changes prints the findings of a change by what became of them, and gives what
// counts those that were left out.
func (p *printer) changes(c compat.Change) (quiet func()) {
	lists, n := p.shownOf(c)
	for _, l := range lists {
		fmt.Fprintln(p.w)
		block(p.w, l.word, "")
		for _, f := range l.list {
			p.changed(f)
		}
	}
	return func() {
		if n > 0 {
			block(p.w, "rest", quietText(c, n))
		}
	}
}

// quietText counts the findings of a change that are news to nobody.
func quietText(c compat.Change, n int) string {
	if len(c.Before.Mix.Parts()) == 0 { // what else should they be
		return counted(n, "check passed.", "checks passed.")
	}
	return counted(n, "check that passes is new or gone.", "checks that pass are new or gone.")
}

// changed prints one changed finding.
func (p *printer) changed(f compat.ChangedFinding) {
	p.said(f.Finding, turned(f))
	if p.style.Explain {
		under(p.w, "why", f.Why)
	}
	items(p.w, "  cause", causes(f))
	if f.Was != f.Now && f.Now.Applied {
		p.mending(f.Finding)
	}
	if p.style.Explain {
		p.used(f.Finding)
	}
}

// causes names what brings a change about.
func causes(f compat.ChangedFinding) []string {
	out := make([]string, len(f.Causes))
	for i, set := range f.Causes {
		if out[i] = strings.ReplaceAll(strings.Join(set, " together with "), "_", " "); i > 0 {
			out[i] = "also " + out[i]
		}
	}
	return out
}

// turned says from which verdict to which a finding went; nothing of a new one.
func turned(f compat.ChangedFinding) string {
	switch {
	case f.Was == f.Now || !f.Was.Applied:
		return ""
	case !f.Now.Applied:
		return "(" + f.Was.String() + " to nothing to say)"
	}
	return "(" + f.Was.String() + " to " + f.Now.String() + ")"
}
