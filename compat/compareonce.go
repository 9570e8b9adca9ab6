package compat

import (
	"context"

	"example.org/cogcourt/rules"
)

// ExplainOnce judges two mixes and gives use what differs between them, as Explain does
// of their reports. Neither the Change nor what hangs on it may be kept beyond use, for
// its memory serves again. Its findings hold what the JSON of a Change says of them, their
// Rule, Text, Remedy, Caution and Safety, both verdicts and the causes, and nothing else.
// It ends with ctx's error alone once ctx is done, as ExplainContext does.
func (c *Checker) ExplainOnce(ctx context.Context, mixes [2]Mix, parts []Difference, use func(Change)) (err error) {
	c.checkOnce(mixes[0], func(before Report) {
		c.checkOnce(mixes[1], func(after Report) {
			var change Change
			if change, err = explain(ctx, before, after, explaining{parts, (*finder).spoken}); err != nil {
				return
			}
			change.After.told = &told{change.New, change.Worse, change.Better, change.Same}
			use(change)
		})
	})
	return err
}

// spoken makes of a finding what the JSON of a change says of it.
func (fi *finder) spoken(f rules.Finding) Finding {
	text, remedy, caution := fi.say(f)
	return Finding{Rule: f.Rule.ID, Text: text, Remedy: remedy, Caution: once(caution, fi.said), Safety: f.Rule.Safety}
}

// told are findings of a report whose texts are made already: lists in its order.
type told [4][]ChangedFinding

// next gives that of a rule, nil where there is none. The rules are asked for in the order
// of the report, none of them left out.
func (t *told) next(id string) *ChangedFinding {
	for i := range t {
		if list := t[i]; len(list) > 0 && list[0].Rule == id {
			t[i] = list[1:]
			return &list[0]
		}
	}
	return nil
}
