package second

import (
	"slices"
	"strconv"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// mostLoose is of how many toleranced facts all corners are tried.
const mostLoose = 4

// told are the facts by which others are known where nobody stated them: what hangs on
// the one hangs on these.
var told = map[string][]string{
	"cassette.pitch_mm":          {"cassette.pitches_mm", "cassette.stack_height_mm"},
	"cassette.cog_thickness_mm":  {"cassette.pitch_mm", "cassette.pitches_mm", "cassette.stack_height_mm"},
	"cassette.pitches_mm":        nil,
	"crankset.ring_thickness_mm": nil,
}

// behind gives the stated facts that a rule hangs on.
func (j *Judge) behind(r *rule) []string {
	var out []string
	for _, name := range r.reads {
		p := j.places[name]
		for _, ref := range figures.Behind(rules.Ref{Object: j.objects[p.object], Index: p.field}) {
			out = addOnce(out, ref.String())
			out = addOnce(out, told[ref.String()]...)
		}
	}
	return out
}

// loose finds the facts of some records for which a test of their values holds.
func (j *Judge) loose(records []*rules.Record, is func(v *fact.Value) bool) []string {
	var out []string
	for i, o := range j.objects {
		if i == j.figures || records[i] == nil {
			continue
		}
		for k, f := range o.Table().Fields() {
			if v := records[i].At(k); v.Known && is(v) {
				out = append(out, o.Name()+"."+f.Name)
			}
		}
	}
	return out
}

func toleranced(v *fact.Value) bool { return v.Tol > 0 || v.Tols() != nil }

// moved gives the records with facts elsewhere, by their names, and the figures worked
// out anew of them.
func (j *Judge) moved(records []*rules.Record, to map[string]float64) []*rules.Record {
	out := slices.Clone(records)
	copied := map[int]bool{}
	for name, at := range to {
		p := j.places[name]
		if !copied[p.object] {
			out[p.object], copied[p.object] = records[p.object].Clone(), true
		}
		v := *records[p.object].At(p.field)
		switch {
		case v.Spread() != nil:
			end := v.Spread().Most
			if at < 0 {
				end = v.Spread().Least
			}
			v.Num += (end - v.Num) * max(at, -at)
			if p.of == fact.Whole {
				v.Num = float64(int(v.Num + 0.5))
			}
			v.Num = sixDecimals(v.Num)
		default:
			v.Num += at * v.Tol
			if v.Tols() != nil {
				list := make([]float64, len(v.List))
				for i, x := range v.List {
					list[i] = x + at*v.Tols()[i]
				}
				v.List = list
			}
		}
		out[p.object].Put(p.field, v)
	}
	out[j.figures] = nil
	return figures.Complete(out)
}

// margin holds what a rule says against the corners of the toleranced facts that it
// hangs on.
func (j *Judge) margin(f *facts, r *rule, s Said, loose []string, at func(to map[string]float64) *facts) Said {
	nominal := s.Ruled
	switch {
	case s.Reason == rules.ReasonWhen:
		nominal = rules.Pass
	case s.Reason != "" || s.Ruled == rules.Unknown:
		return s
	}
	mine := slices.DeleteFunc(slices.Clone(loose), func(name string) bool { return !f.hasRead(r, name) })
	return j.corners(corners{f, r, s, nominal, mine, loose, at})
}

// corners is a rule that is held against the corners of some facts, mine.
type corners struct {
	f       *facts
	r       *rule
	s       Said
	nominal rules.Verdict
	mine    []string
	loose   []string
	at      func(to map[string]float64) *facts
}

func (j *Judge) corners(c corners) Said {
	r, s, nominal, mine := c.r, c.s, c.nominal, c.mine
	if len(mine) == 0 {
		return s
	}
	if len(mine) > mostLoose {
		if s.Reason != "" {
			return s
		}
		s.Margin = &Margin{nominal, mine, true}
		if s.Ruled != rules.Fail {
			s.Ruled = rules.Warn
		}
		return s
	}
	verdicts := make([]rules.Verdict, 1<<len(mine))
	all := true
	for corner := range verdicts {
		to := map[string]float64{}
		for i, name := range mine {
			to[name] = []float64{-1, 1}[corner>>i&1]
		}
		there := c.at(to)
		for _, name := range c.loose {
			if !slices.Contains(mine, name) && there.hasRead(r, name) { // it is read only there: all anew, with it
				c.mine = slices.DeleteFunc(slices.Clone(c.loose), func(n string) bool { return n != name && !slices.Contains(mine, n) })
				return j.corners(c)
			}
		}
		verdicts[corner] = there.apply(r).against()
		all = all && verdicts[corner] == nominal
	}
	if all {
		return s
	}
	m := &Margin{Nominal: nominal}
	for i, name := range mine {
		for corner := range verdicts {
			if verdicts[corner] != verdicts[corner^1<<i] {
				m.By = addOnce(m.By, name)
			}
		}
	}
	if m.By == nil {
		m.By = mine
	}
	return Said{Ruled: rules.Warn, Margin: m, Assumed: s.Assumed}
}

// against is what a rule has against facts: one that is not applied has nothing.
func (s Said) against() rules.Verdict {
	if s.Reason != "" {
		return rules.Pass
	}
	return s.Ruled
}

// asStated is what a rule says where all tolerances are left aside.
func (s Said) asStated() Said {
	if s.Margin != nil {
		s.Ruled = s.Margin.Nominal
	}
	return s
}

// sixDecimals gives a number as anybody would state it.
func sixDecimals(x float64) float64 {
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'f', 6, 64), 64)
	if err != nil {
		return x
	}
	return y
}
