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
	p := printer{w: w, style: style, report: c.After}
	p.marked(c.After.Verdict, nameOf(c.After.Mix))
	wrap(w, "", 0, fmt.Sprintf("Compared with %s (%s): %s.", nameOf(c.Before.Mix), c.Before.Verdict, changes(c)))
	p.absent()
	p.changes(c)
}

// changes counts what differs.
func changes(c compat.Change) string {
	return fmt.Sprintf("%d worse, %d new, %d better, %d gone", len(c.Worse), len(c.New), len(c.Better), len(c.Gone))
}

// changes prints the findings of a change by what became of them.
func (p *printer) changes(c compat.Change) {
	quiet := 0
	for _, l := range []struct {
		title string
		list  []compat.ChangedFinding
	}{{"Worse", c.Worse}, {"New", c.New}, {"Better", c.Better}, {"Gone", c.Gone}, {"As before", c.Same}} {
		var shown []compat.ChangedFinding
		for _, f := range l.list {
			if f.Verdict == rules.Pass && (!f.Was.Applied || !f.Now.Applied) && !p.style.Explain {
				quiet++
			} else {
				shown = append(shown, f)
			}
		}
		if len(shown) == 0 {
			continue
		}
		fmt.Fprintf(p.w, "\n%s\n", l.title)
		for _, f := range shown {
			p.changed(f)
		}
	}
	if quiet > 0 {
		fmt.Fprintln(p.w)
		one, many := "check that passes is new or gone.", "checks that pass are new or gone."
		if len(c.Before.Mix.Parts()) == 0 { // what else should they be
			one, many = "check passed.", "checks passed."
		}
		wrap(p.w, "", 0, counted(quiet, one, many))
	}
}

// changed prints one changed finding.
func (p *printer) changed(f compat.ChangedFinding) {
	bad := f.Verdict == rules.Fail || f.Verdict == rules.Warn
	title := f.Title
	if bad {
		title = f.Text
	}
	if f.Was != f.Now && f.Was.Applied {
		now := f.Now.String()
		if !f.Now.Applied {
			now = "nothing to say"
		}
		title += " (" + f.Was.String() + " to " + now + ")"
	}
	p.marked(f.Verdict, title+"  ["+f.Rule+"]")
	if bad {
		wrap(p.w, "        Wanted: ", 16, full(lower(f.Title)))
	} else if f.Speaks {
		wrap(p.w, "        ", 8, f.Text)
	}
	for i, set := range f.Causes {
		label := "Because of: "
		if i > 0 {
			label = "Also because of: "
		}
		wrap(p.w, "        "+label, 8+len(label), strings.ReplaceAll(strings.Join(set, " together with "), "_", " "))
	}
	if p.style.Explain {
		defer p.used(f.Finding)
	}
	if f.Was == f.Now || !f.Now.Applied {
		return
	}
	if f.Remedy != "" {
		wrap(p.w, "        Mend: ", 14, f.Remedy)
	}
	if f.Caution != "" {
		wrap(p.w, "        Beware: ", 16, f.Caution)
	}
}
