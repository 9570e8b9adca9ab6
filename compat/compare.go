package compat

import (
	"fmt"
	"strings"

	"example.org/cogcourt/compat/internal/wire"
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
	Was Standing // before; not applied for a new one
	Now Standing // after; not applied for one that is gone

	// Causes names what brings the change about: kinds of parts and bench, or the
	// lines of a cart. It is computed, by checking the mix with some of what
	// differs left out. What stands in one list does it only together; of several
	// lists each does it without the others. It is empty for what has not
	// changed, and where the two reports are of different rules.
	Causes [][]string

	// Lines are the Causes as numbers of a cart's lines, from 1; nil for Compare.
	Lines [][]int
}

// Standing is what a rule gives for one of two mixes: a verdict, where it is
// applied. The zero Standing is that of a rule that is not.
type Standing struct {
	Applied bool
	Verdict rules.Verdict // Unknown where it is not applied
}

// String gives the verdict, and nothing for a rule that is not applied.
func (s Standing) String() string {
	if !s.Applied {
		return ""
	}
	return s.Verdict.String()
}

// MarshalText writes what String gives.
func (s Standing) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText reads what MarshalText writes.
func (s *Standing) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*s = Standing{}
		return nil
	}
	var v rules.Verdict
	if err := v.UnmarshalText(text); err != nil {
		return err
	}
	*s = Standing{Applied: true, Verdict: v}
	return nil
}

// rank orders what a rule can give: the worst verdict 0, not applied 4.
func (s Standing) rank() int {
	if !s.Applied {
		return noFinding
	}
	return s.Verdict.Rank()
}

// noFinding ranks a rule that is not applied.
const noFinding = 4

// String says the change in one line: both verdicts, the finding and its causes.
func (f ChangedFinding) String() string {
	verdict := f.Now.String()
	switch {
	case !f.Was.Applied:
		verdict = "new " + verdict
	case !f.Now.Applied:
		verdict = f.Was.String() + ", gone"
	case f.Was != f.Now:
		verdict = f.Was.String() + " to " + verdict
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
	return Explain(before, after, differences(before.Mix, after.Mix))
}

// standings gives what every applied rule gives, by the rule's id.
func (r Report) standings() map[string]Standing {
	out := make(map[string]Standing, len(r.findings))
	for i := range r.findings {
		out[r.findings[i].Rule.ID] = Standing{Applied: true, Verdict: r.findings[i].Verdict}
	}
	return out
}

// Explain is Compare for differences that the caller knows, as a cart knows them by
// its lines: together they are all that differs between the two mixes.
func Explain(before, after Report, parts []Difference) Change {
	c := Change{Before: before, After: after}
	b := newBlame(before, after, parts)
	was, now := before.standings(), after.standings()
	lost, found := before.finder(), after.finder()
	for _, f := range after.findings {
		changed := ChangedFinding{Was: was[f.Rule.ID], Now: now[f.Rule.ID]}
		list := &c.Same
		switch from, to := changed.Was.rank(), changed.Now.rank(); {
		case from == noFinding:
			list = &c.New
		case to < from:
			list = &c.Worse
		case to > from:
			list = &c.Better
		case f.Verdict == rules.Pass:
			continue
		}
		changed.Finding = found(f)
		b.causes(&changed, f.Rule)
		*list = append(*list, changed)
	}
	for _, f := range before.findings {
		if now[f.Rule.ID].Applied {
			continue
		}
		changed := ChangedFinding{Finding: lost(f), Was: was[f.Rule.ID]}
		b.causes(&changed, f.Rule)
		c.Gone = append(c.Gone, changed)
	}
	return c
}

// changeJSON is the JSON form of a change.
type changeJSON struct {
	SchemaVersion int           `json:"schema_version"`
	Tool          string        `json:"tool"`
	Before        sideJSON      `json:"before"`
	After         sideJSON      `json:"after"`
	New           []changedJSON `json:"new"`
	Worse         []changedJSON `json:"worse"`
	Better        []changedJSON `json:"better"`
	Gone          []changedJSON `json:"gone"`
	Same          []changedJSON `json:"same"`
}

type sideJSON struct {
	Mix      string        `json:"mix"`
	Scope    Scope         `json:"scope"`
	Verdict  rules.Verdict `json:"verdict"`
	Complete bool          `json:"complete"`
	Rules    RuleSet       `json:"rules"`
}

type changedJSON struct {
	Rule    string     `json:"rule"`
	Before  Standing   `json:"before"`
	After   Standing   `json:"after"`
	Text    string     `json:"text"`
	Remedy  string     `json:"remedy"`
	Caution string     `json:"caution"`
	Safety  bool       `json:"safety"`
	Causes  [][]string `json:"causes"`
	Lines   [][]int    `json:"lines"`
}

// MarshalJSON writes the change, schema_version 1. Every key is always there and
// no list is null.
func (c Change) MarshalJSON() ([]byte, error) {
	return wire.Encode(changeJSON{
		SchemaVersion: 1, Tool: "cogcourt " + Version, Before: side(c.Before), After: side(c.After),
		New: changed(c.New), Worse: changed(c.Worse), Better: changed(c.Better), Gone: changed(c.Gone), Same: changed(c.Same),
	})
}

func side(r Report) sideJSON {
	return sideJSON{r.Mix.name, r.Mix.scope, r.Verdict, r.Complete, r.RuleSet()}
}

func changed(list []ChangedFinding) []changedJSON {
	out := make([]changedJSON, len(list))
	for i, f := range list {
		out[i] = changedJSON{f.Rule, f.Was, f.Now, f.Text, f.Remedy, f.Caution, f.Safety, wire.Some(f.Causes), wire.Some(f.Lines)}
	}
	return out
}
