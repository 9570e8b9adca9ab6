package compat

import (
	"context"
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

// Words lists every word that String gives.
func (s Standing) Words() []string { return append(rules.Unknown.Words(), "") }

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

// standings are what the rules of a report give.
type standings struct {
	set *rules.Set
	at  []Standing // by the places of its rules
}

func (r Report) standings() standings {
	if r.set == nil {
		return standings{}
	}
	out := standings{r.set, make([]Standing, len(r.set.Rules()))}
	for i := range r.findings {
		out.at[r.findings[i].Rule.Place] = Standing{Applied: true, Verdict: r.findings[i].Verdict}
	}
	return out
}

// own is the rule of the set that goes by the same id, nil where there is none.
func (s standings) own(rule *rules.Rule) *rules.Rule {
	switch {
	case s.set == nil:
		return nil
	case rule.Place < len(s.at) && s.set.Rules()[rule.Place] == rule:
		return rule
	}
	own, _ := s.set.Rule(rule.ID)
	return own
}

// of is what a rule gives, which may be one of another set.
func (s standings) of(rule *rules.Rule) Standing {
	if own := s.own(rule); own != nil {
		return s.at[own.Place]
	}
	return Standing{}
}

// Explain is Compare for differences that the caller knows, as a cart knows them by
// its lines: together they are all that differs between the two mixes.
func Explain(before, after Report, parts []Difference) Change {
	c, _ := ExplainContext(context.Background(), before, after, parts)
	return c
}

// ExplainContext is Explain that ends with ctx's error alone once ctx is done, which is
// looked at before each mix that is judged to find a cause.
func ExplainContext(ctx context.Context, before, after Report, parts []Difference) (Change, error) {
	return explain(ctx, before, after, explaining{parts, (*finder).finding})
}

// explaining is how two reports are held together: what differs, and how much of a
// finding is made.
type explaining struct {
	parts []Difference
	make  func(*finder, rules.Finding) Finding
}

func explain(ctx context.Context, before, after Report, how explaining) (Change, error) {
	c := Change{Before: before, After: after}
	was, now := before.standings(), after.standings()
	b := newBlame(before, after, how.parts)
	b.stopped = ctx.Err
	b.of(was, now)
	lost, found := before.finder(), after.finder()
	defer lost.close()
	defer found.close()
	c.makeRoom(was, now)
	for _, f := range after.findings {
		changed := ChangedFinding{Was: was.of(f.Rule), Now: now.of(f.Rule)}
		list := c.listOf(changed.Was, changed.Now)
		if list == nil {
			continue
		}
		changed.Finding = how.make(found, f)
		b.causes(&changed)
		*list = append(*list, changed)
	}
	for _, f := range before.findings {
		if now.of(f.Rule).Applied {
			continue
		}
		changed := ChangedFinding{Finding: how.make(lost, f), Was: was.of(f.Rule)}
		b.causes(&changed)
		c.Gone = append(c.Gone, changed)
	}
	if err := ctx.Err(); err != nil {
		return Change{}, err
	}
	return c, nil
}

// listOf gives the list for a rule that is applied now; nil for one that passes as it did.
func (c *Change) listOf(was, now Standing) *[]ChangedFinding {
	switch from, to := was.rank(), now.rank(); {
	case from == noFinding:
		return &c.New
	case to < from:
		return &c.Worse
	case to > from:
		return &c.Better
	case now.Verdict == rules.Pass:
		return nil
	}
	return &c.Same
}

// makeRoom gives each list memory for what it will hold: a finding is large, and a list
// that grows is copied over and over.
func (c *Change) makeRoom(was, now standings) {
	lists := [...]*[]ChangedFinding{&c.New, &c.Worse, &c.Better, &c.Same}
	var sizes [len(lists)]int
	for _, f := range c.After.findings {
		if i := slices.Index(lists[:], c.listOf(was.of(f.Rule), now.of(f.Rule))); i >= 0 {
			sizes[i]++
		}
	}
	for i, n := range sizes {
		*lists[i] = slices.Grow(*lists[i], n)
	}
}
