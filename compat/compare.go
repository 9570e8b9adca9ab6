package compat

import (
	"fmt"
	"slices"
	"strings"

	"example.org/cogcourt/rules"
)

// Change is what differs between two reports, finding by finding: by the id of
// the rule and its verdict. The lists stand in the order of the reports, fails
// first.
type Change struct {
	Before, After Report

	New    []ChangedFinding // the rule had nothing to say before
	Worse  []ChangedFinding // pass, warn, unknown, fail: further along this row
	Better []ChangedFinding
	Gone   []ChangedFinding // the rule has nothing to say any more
	Same   []ChangedFinding // of one verdict in both, and not a pass
}

// ChangedFinding is one finding of a Change: that of the second report, or of
// the first where it is gone.
type ChangedFinding struct {
	Finding
	Was string // the verdict before, empty for a new one
	Now string // the verdict after, empty for one that is gone

	// Causes names what brings the change about: kinds of parts and bench, or the
	// lines of a cart. It is computed, by checking the mix with some of what
	// differs left out. What stands in one list does it only together; of several
	// lists each does it without the others. It is empty for what has not
	// changed, and where the two reports are of different rules.
	Causes [][]string

	// Lines are the Causes as numbers of a cart's lines, from 1; nil for Compare.
	Lines [][]int
}

// String says the change in one line: both verdicts, the finding and its causes.
func (f ChangedFinding) String() string {
	verdict := f.Now
	switch {
	case f.Was == "":
		verdict = "new " + f.Now
	case f.Now == "":
		verdict = f.Was + ", gone"
	case f.Was != f.Now:
		verdict = f.Was + " to " + f.Now
	}
	out := fmt.Sprintf("%s: %s: %s", verdict, f.Rule, f.Text)
	if len(f.Causes) > 0 {
		out += " Because of " + causesText(f.Causes) + "."
	}
	return out
}

// causesText names causes as part of a sentence.
func causesText(causes [][]string) string {
	sets := make([]string, len(causes))
	for i, set := range causes {
		sets[i] = strings.Join(set, " together with ")
	}
	return strings.Join(sets, ", and also because of ")
}

// Compare holds a report against an earlier one: what is new, worse, better and
// gone, and which of the parts and bench facts that differ between the two mixes
// brings each change about.
func Compare(before, after Report) Change {
	return compare(before, after, differences(before.Mix, after.Mix))
}

// Levels order what a rule can give, the worst first; noFinding is that of a
// rule that is not applied.
const noFinding = 4

// levels gives the level of every finding by the rule.
func (r Report) levels() map[string]int {
	out := make(map[string]int, len(r.result.Findings))
	for i := range r.result.Findings {
		out[r.result.Findings[i].Rule.ID] = r.result.Findings[i].Verdict.Rank()
	}
	return out
}

// level looks a rule up.
func level(levels map[string]int, rule string) int {
	if l, ok := levels[rule]; ok {
		return l
	}
	return noFinding
}

// compare is Compare for differences that are known: those of a cart are lines.
func compare(before, after Report, parts []difference) Change {
	c := Change{Before: before, After: after}
	b := newBlame(before, after, parts)
	was, now := before.levels(), after.levels()
	lost, found := before.finder(), after.finder()
	for _, f := range after.result.Findings {
		from, to := level(was, f.Rule.ID), f.Verdict.Rank()
		list := &c.Same
		switch {
		case from == noFinding:
			list = &c.New
		case to < from:
			list = &c.Worse
		case to > from:
			list = &c.Better
		case f.Verdict == rules.Pass:
			continue
		}
		changed := ChangedFinding{Finding: found(f), Now: f.Verdict.String()}
		if from != noFinding {
			changed.Was = verdictIn(before, f.Rule.ID).String()
		}
		b.causes(&changed, f.Rule, from, to)
		*list = append(*list, changed)
	}
	for _, f := range before.result.Findings {
		if level(now, f.Rule.ID) != noFinding {
			continue
		}
		changed := ChangedFinding{Finding: lost(f), Was: f.Verdict.String()}
		b.causes(&changed, f.Rule, f.Verdict.Rank(), noFinding)
		c.Gone = append(c.Gone, changed)
	}
	return c
}

// verdictIn finds the verdict of a rule that has one.
func verdictIn(r Report, rule string) rules.Verdict {
	i := slices.IndexFunc(r.result.Findings, func(f rules.Finding) bool { return f.Rule.ID == rule })
	return r.result.Findings[i].Verdict
}

// changeJSON is the JSON form of a change.
type changeJSON struct {
	SchemaVersion int           `json:"schema_version" const:"1"`
	Tool          string        `json:"tool" doc:"The tool and its version." pattern:"\\S"`
	Before        sideJSON      `json:"before" doc:"The first mix."`
	After         sideJSON      `json:"after" doc:"The second mix."`
	New           []changedJSON `json:"new" doc:"Findings of rules that had nothing to say before."`
	Worse         []changedJSON `json:"worse" doc:"Findings with a graver verdict."`
	Better        []changedJSON `json:"better" doc:"Findings with a milder verdict."`
	Gone          []changedJSON `json:"gone" doc:"Findings of rules that have nothing to say any more."`
	Same          []changedJSON `json:"same" doc:"Findings of one verdict in both that do not pass."`
}

type sideJSON struct {
	Mix      string        `json:"mix" doc:"What the mix is called."`
	Scope    string        `json:"scope" words:"scope" doc:"A cart is judged by what is in it, a bike lacks what is not there."`
	Verdict  rules.Verdict `json:"verdict" doc:"The verdict."`
	Complete bool          `json:"complete" doc:"Nothing was left undecided and, of a bike, nothing is absent."`
	Rules    ruleSetJSON   `json:"rules" doc:"The rules that were used."`
}

type changedJSON struct {
	Rule    string     `json:"rule" doc:"The rule's id." pattern:"\\S"`
	Before  string     `json:"before" words:"verdict or none" doc:"The verdict before; empty for a new finding."`
	After   string     `json:"after" words:"verdict or none" doc:"The verdict after; empty for one that is gone."`
	Text    string     `json:"text" doc:"What was found, with its numbers." pattern:"\\S"`
	Remedy  string     `json:"remedy" doc:"What would mend it; empty for a pass."`
	Caution string     `json:"caution" doc:"What to beware of; empty for most."`
	Safety  bool       `json:"safety" doc:"Whether it must not be adjusted below warn."`
	Causes  [][]string `json:"causes" doc:"What brings it about: each list does so by itself, what stands in one does it together."`
	Lines   [][]int    `json:"lines" doc:"The causes as lines of a cart, from 1; empty where there is no cart."`
}

// MarshalJSON writes the change, schema_version 1. Every key is always there and
// no list is null.
func (c Change) MarshalJSON() ([]byte, error) {
	return encode(changeJSON{
		SchemaVersion: 1, Tool: "cogcourt " + Version, Before: side(c.Before), After: side(c.After),
		New: changed(c.New), Worse: changed(c.Worse), Better: changed(c.Better), Gone: changed(c.Gone), Same: changed(c.Same),
	})
}

func side(r Report) sideJSON {
	packs, hash, count := r.RuleSet()
	return sideJSON{r.Mix.name, r.Mix.scope.String(), r.Verdict, r.Complete, ruleSetJSON{packs, hash, count}}
}

func changed(list []ChangedFinding) []changedJSON {
	out := make([]changedJSON, len(list))
	for i, f := range list {
		out[i] = changedJSON{f.Rule, f.Was, f.Now, f.Text, f.Remedy, f.Caution, f.Safety, some(f.Causes), some(f.Lines)}
	}
	return out
}
