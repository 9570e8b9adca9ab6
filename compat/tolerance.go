package compat

import (
	"slices"
	"strings"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// mostCorners is how many toleranced facts a rule is tried at the corners of: 16
// corners. With more it is left open.
const mostCorners = 4

// loose is a fact that was stated with a tolerance. A list moves as one.
type loose struct {
	place, field int
	name         string
}

// looseFacts finds the toleranced facts among records. Most mixes have none, and
// then nothing more is done.
func looseFacts(records []*rules.Record) []loose {
	var out []loose
	for place, rec := range records {
		if rec == nil || place == figuresPlace {
			continue
		}
		fields := rec.Object().Table().Fields()
		for i := range fields {
			if v := rec.At(i); v.Known && (v.Tol > 0 || v.Tols != nil) {
				out = append(out, loose{place, i, rec.Object().Name() + "." + fields[i].Name})
			}
		}
	}
	return out
}

// moved gives records in which toleranced facts are moved to their ends: by sign
// -1, 0 or 1 for each.
func moved(records []*rules.Record, facts []loose, signs []float64) []*rules.Record {
	out := slices.Clone(records)
	out[figuresPlace] = nil
	for i, l := range facts {
		if signs[i] == 0 {
			continue
		}
		rec := out[l.place]
		values := make([]fact.Value, len(rec.Object().Table().Fields()))
		for j := range values {
			values[j] = *rec.At(j)
		}
		v := &values[l.field]
		v.Num += signs[i] * v.Tol
		if v.Tols != nil {
			v.List = slices.Clone(v.List)
			for k := range v.List {
				v.List[k] += signs[i] * v.Tols[k]
			}
		}
		out[l.place] = rec.Object().NewRecord(values, nil)
	}
	measureAll(out, nil)
	return out
}

// bounds are the figures' worst cases: each toleranced fact is moved to both its
// ends alone, and the shifts towards one side are added up.
func bounds(records []*rules.Record, data *figureData, facts []loose) map[string][2]float64 {
	out := map[string][2]float64{}
	low, high := [figureCount]float64{}, [figureCount]float64{}
	for i := range facts {
		signs := make([]float64, len(facts))
		down, up := [figureCount]float64{}, [figureCount]float64{}
		for _, sign := range []float64{-1, 1} {
			signs[i] = sign
			rec := moved(records, facts, signs)[figuresPlace]
			for f := range figureTable {
				if v := rec.At(f); v.Known && data.values[f].Known && v.List == nil {
					d := v.Num - data.values[f].Num
					down[f], up[f] = min(down[f], d), max(up[f], d)
				}
			}
		}
		for f := range figureTable {
			low[f], high[f] = low[f]+down[f], high[f]+up[f]
		}
	}
	for f, fig := range figureTable {
		if low[f] != 0 || high[f] != 0 {
			out[fig.Name] = [2]float64{round(data.values[f].Num + low[f]), round(data.values[f].Num + high[f])}
		}
	}
	return out
}

// Marginal says that a finding hangs on the tolerances of stated facts.
type Marginal struct {
	Nominal rules.Verdict `json:"nominal"` // by the numbers as stated
	By      []string      `json:"by"`      // the toleranced facts that decide
	Open    bool          `json:"open"`    // too many of them: the worst case was not worked out
}

// sentence says what the tolerances do to the finding.
func (m *Marginal) sentence() string {
	names := strings.Join(m.By, ", ")
	if m.Open {
		return "The worst case was not worked out: too many values carry a tolerance (" + names + ")."
	}
	return "Only just: as stated it would be a " + m.Nominal.String() + ", but not over all of the tolerance of " + names + "; measure that more exactly to settle it."
}

// judgeMargins holds every finding against the corners of the toleranced facts
// that its rule reads: a pass must hold at all of them, and so must a fail.
func (r *Report) judgeMargins(records []*rules.Record, facts []loose) {
	for i := range r.result.Findings {
		f := &r.result.Findings[i]
		if f.Verdict == rules.Unknown || f.Ruled != f.Verdict {
			continue
		}
		mine := r.checker.looseOf(f.Rule, facts)
		if len(mine) == 0 {
			continue
		}
		if m := r.checker.margin(f, records, mine); m != nil {
			if !m.Open {
				f.Verdict, f.Ruled = rules.Warn, rules.Warn
			}
			if r.marginal == nil {
				r.marginal = map[string]*Marginal{}
			}
			r.marginal[f.Rule.ID] = m
		}
	}
}

// looseOf gives the toleranced facts that a rule reads, through figures too.
func (c *Checker) looseOf(rule *rules.Rule, facts []loose) []loose {
	reads := map[[2]int]bool{}
	for _, ref := range c.set.Reads(rule) {
		if ref.Object == figureObject {
			readsOfFigure(reads, ref.Index)
			continue
		}
		place, _ := c.set.Vocabulary().Index(ref.Object.Name())
		reads[[2]int{place, ref.Index}] = true
	}
	var out []loose
	for _, l := range facts {
		if reads[[2]int{l.place, l.field}] {
			out = append(out, l)
		}
	}
	return out
}

func readsOfFigure(reads map[[2]int]bool, i int) {
	for _, in := range figureTable[i].reads {
		reads[[2]int{in.place, in.field}] = true
	}
	for _, j := range figureTable[i].figures {
		readsOfFigure(reads, j)
	}
}

// margin decides a rule at every corner; nil where the verdict holds at all.
func (c *Checker) margin(f *rules.Finding, records []*rules.Record, facts []loose) *Marginal {
	nominal := f.Ruled
	if len(facts) > mostCorners {
		m := &Marginal{Nominal: nominal, Open: true, By: []string{}}
		for _, l := range facts {
			m.By = append(m.By, l.name)
		}
		return m
	}
	verdicts := c.cornered(f.Rule, records, facts)
	if !slices.ContainsFunc(verdicts, func(v rules.Verdict) bool { return v != nominal }) {
		return nil
	}
	// Which of them decides: one whose own ends change the verdict, with the
	// others at either of theirs.
	m := &Marginal{Nominal: nominal, By: []string{}}
	for i, l := range facts {
		for corner, v := range verdicts {
			if v != verdicts[corner^1<<i] {
				m.By = append(m.By, l.name)
				break
			}
		}
	}
	return m
}

// cornered judges a rule at each corner; bit i of a corner's index says that fact i
// stands at its upper end.
func (c *Checker) cornered(rule *rules.Rule, records []*rules.Record, facts []loose) []rules.Verdict {
	verdicts := make([]rules.Verdict, 1<<len(facts))
	signs := make([]float64, len(facts))
	for corner := range verdicts {
		for i := range signs {
			signs[i] = float64(corner>>i&1)*2 - 1
		}
		verdicts[corner] = c.set.Judge(rule, moved(records, facts, signs))
	}
	return verdicts
}
