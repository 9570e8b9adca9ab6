package rules

import (
	"fmt"
	"slices"
	"time"

	"example.org/cogcourt/rules/source"
)

// pendingAdjust is an adjustment whose rule is looked up when every file is read.
type pendingAdjust struct {
	*Adjust
	node *source.Node // the rule's id; nil where there is none
}

// adjust reads one entry of adjust:.
func (l *loader) adjust(path string, n *source.Node) {
	if !l.keys(n, path, "rule", "to", "reason", "by", "until") {
		return
	}
	a := &Adjust{Pos: n.Pos}
	rule := n.Get("rule")
	if rule != nil {
		a.Pos = rule.Pos
	}
	a.Rule = l.text(n, path, "rule")
	a.Reason = l.text(n, path, "reason")
	a.By = l.text(n, path, "by")
	words := []string{"pass", "warn", "fail"}
	to := l.text(n, path, "to")
	if i := slices.Index(words, to); i >= 0 {
		a.To = []Verdict{Pass, Warn, Fail}[i]
	} else if to != "" {
		text := fmt.Sprintf("%q is no verdict to adjust to", to)
		n.Get("to").Refuse(l.ps, path+".to", text, l.adjustHint(to, words)).Code = source.NoSuchChoice
	}
	if until := l.text(n, path, "until"); until != "" {
		day, err := time.Parse(time.DateOnly, until)
		if err != nil {
			text := fmt.Sprintf("%q is no day", until)
			n.Get("until").Refuse(l.ps, path+".until", text, "write 2027-03-31, the last day in UTC").Code = source.BadAdjust
		}
		a.Until = day
	}
	l.adjusts = append(l.adjusts, pendingAdjust{a, rule})
}

// adjustHint helps who wants a rule to keep quiet.
func (l *loader) adjustHint(to string, words []string) string {
	if slices.Contains([]string{"off", "none", "ignore", "skip", "disable", "disabled", "false"}, to) {
		return "write to: pass"
	}
	return l.ps.Suggest(to, words)
}

// applyAdjusts gives each adjustment to its rule, which may stand in any file.
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
			a.node.Refuse(l.ps, "adjust", fmt.Sprintf("no rule is called %q", a.Rule), l.ps.Suggest(a.Rule, ids)).Code = source.UnknownID
		case r.adjust != nil:
			text, hint := fmt.Sprintf("%s is adjusted twice", a.Rule), "the other one is at "+r.adjust.Pos.String()
			a.node.Refuse(l.ps, "adjust", text, hint).Code = source.Twice
		case r.Safety && a.To == Pass:
			text := fmt.Sprintf("%s is about safety and cannot be adjusted below warn", a.Rule)
			a.node.Refuse(l.ps, "adjust", text, "write to: warn").Code = source.BadAdjust
		default:
			r.adjust = a.Adjust
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

// Adjust changes what one rule's warnings and fails are given as, by decision of
// a named person until a day.
type Adjust struct {
	Rule   string
	To     Verdict
	Reason string
	By     string
	Until  time.Time // the last day, UTC
	Pos    source.Pos
}
