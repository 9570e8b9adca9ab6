package rules

import (
	"fmt"
	"slices"
	"time"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// adjust reads one entry of adjust:.
func (l *loader) adjust(path string, n *source.Node) {
	if !l.keys(n, path, "rule", "to", "reason", "by", "until") {
		return
	}
	a := &Adjust{Pos: n.Pos}
	if r := n.Get("rule"); r != nil {
		a.Pos = r.Pos
	}
	a.Rule = l.text(n, path, "rule")
	a.Reason = l.text(n, path, "reason")
	a.By = l.text(n, path, "by")
	words := []string{"pass", "warn", "fail"}
	to := l.text(n, path, "to")
	if i := slices.Index(words, to); i >= 0 {
		a.To = []Verdict{Pass, Warn, Fail}[i]
	} else if to != "" {
		l.ps.Add(n.Get("to").Pos, path+".to", fmt.Sprintf("%q is no verdict to adjust to", to), adjustHint(to, words))
	}
	if until := l.text(n, path, "until"); until != "" {
		day, err := time.Parse(time.DateOnly, until)
		if err != nil {
			l.ps.Add(n.Get("until").Pos, path+".until", fmt.Sprintf("%q is no day", until), "write 2027-03-31, the last day in UTC")
		}
		a.Until = day
	}
	l.adjusts = append(l.adjusts, a)
}

// adjustHint helps who wants a rule to keep quiet.
func adjustHint(to string, words []string) string {
	if slices.Contains([]string{"off", "none", "ignore", "skip", "disable", "disabled", "false"}, to) {
		return "write to: pass"
	}
	return fact.Suggest(to, words)
}

// applyAdjusts gives each adjustment to its rule.
func (l *loader) applyAdjusts() {
	var ids []string
	for _, r := range l.set.rules {
		ids = append(ids, r.ID)
	}
	for _, a := range l.adjusts {
		r := l.rules[a.Rule]
		switch {
		case a.Rule == "":
		case r == nil:
			l.ps.Add(a.Pos, "adjust", fmt.Sprintf("no rule is called %q", a.Rule), fact.Suggest(a.Rule, ids))
		case r.adjust != nil:
			l.ps.Add(a.Pos, "adjust", fmt.Sprintf("%s is adjusted twice", a.Rule), "the other one is at "+r.adjust.Pos.String())
		case r.Safety && a.To == Pass:
			l.ps.Add(a.Pos, "adjust", fmt.Sprintf("%s is about safety and cannot be adjusted below warn", a.Rule), "write to: warn")
		default:
			r.adjust = a
		}
	}
}

// Adjusted gives the adjustment that changed a finding, nil where none did.
func (s *Set) Adjusted(f Finding) *Adjust {
	if f.Verdict == f.Ruled || f.Rule.adjust == nil {
		return nil
	}
	return f.Rule.adjust
}
