package rules

// leave puts what the spread makes of a rule into its finding.
func (res *Result) leave(r *Rule, l *Lean, rules []*Rule) {
	f := res.finding(r, rules)
	detail := *f.Detail
	detail.Lean = l
	ruled := Unknown
	if r.warnsWhereOpen() {
		ruled = Warn
	} else {
		detail.Missing, detail.Assumed, detail.Margin = l.By, nil, nil
		if l.Ask != "" {
			detail.Missing = []string{l.Ask}
		}
	}
	f.Detail = res.detail(detail)
	res.give(f, ruled)
}

// warnsWhereOpen says whether not knowing does no harm: the rule itself asks that
// facts be stated, or says so.
func (r *Rule) warnsWhereOpen() bool {
	when := r.logic().when
	return r.OpenWarns || when != nil && len(when.Stated()) > 0
}
