package rules

import "context"

// Warm compiles what a load has put off until it is first asked for: what verdicts hang
// on, texts and needs, but no examples and no steps of the sheet. It ends with ctx's
// error once ctx is done, which is looked at between two rules; what is compiled by then
// stays so. A set is the same before and after, but for the time of its first answers.
func (s *Set) Warm(ctx context.Context) error {
	for _, r := range s.rules {
		if err := ctx.Err(); err != nil {
			return err
		}
		r.logic()
		r.facts()
		for _, t := range []*template{r.say, r.passing, r.remedy, r.caution} {
			t.warm()
		}
		for _, n := range r.Needs {
			n.what.warm()
			if n.value != nil {
				n.value()
			}
			if n.when != nil {
				n.when()
			}
		}
	}
	return nil
}

func (t *template) warm() {
	if t != nil {
		t.pieces()
	}
}
