package compat

import (
	"cmp"
	"slices"
	"strings"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/wire"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Question is a fact to measure or to look up, and what knowing it would decide.
type Question struct {
	Name    string      `json:"name" doc:"The fact." pattern:"\\S"`
	Unit    string      `json:"unit" doc:"Its unit; empty where it has none."`
	How     string      `json:"how" doc:"How to measure or find it."`
	Effort  fact.Effort `json:"effort" doc:"What that takes."`
	Decides []string    `json:"decides" doc:"The rules that some answer decides."`
	Least   float64     `json:"least" doc:"The least number that is likely; 0 of what is no number."`
	Most    float64     `json:"most" doc:"The greatest number that is likely; 0 of what is no number."`
	Usual   float64     `json:"usual" doc:"The usual number; 0 where there is none."`
	Words   []string    `json:"words" doc:"The words that are known for it; of a flag both; empty for numbers and free words."`
	Limit   string      `json:"limit" doc:"Over which answers the first of these rules passes and fails; empty where that was not worked out."`
}

// MarshalJSON writes the question with lists that are never null.
func (q Question) MarshalJSON() ([]byte, error) {
	type plain Question
	q.Decides, q.Words = wire.Some(q.Decides), wire.Some(q.Words)
	return wire.Encode(plain(q))
}

// askPoints is at how many of the possible numbers a question is tried.
const askPoints = 17

// Ask lists the open facts, the most useful first: what each would decide, over all
// that it may be, for the effort of finding it out. What a fact may be is the spread
// of its usual value, else what the usual classes of its kind span, else what the
// field holds, and of words those that are known. What changes nothing, whatever the
// answer, is not asked for. It is empty where nothing is open, and of a Report that
// no Checker has made.
func (r Report) Ask() []Question {
	if r.checker == nil || r.set == nil {
		return nil
	}
	var out []asking
	for _, name := range r.openFacts() {
		if a, ok := r.asking(name); ok {
			out = append(out, a)
		}
	}
	slices.SortStableFunc(out, func(a, b asking) int { return cmp.Compare(b.worth, a.worth) })
	questions := make([]Question, len(out))
	for i, a := range out {
		questions[i] = a.question
	}
	return questions
}

// asking is a question and what it is worth.
type asking struct {
	question Question
	worth    float64
}

// openFacts names the facts that are missing, and the usual ones that decide.
func (r Report) openFacts() []string {
	var out []string
	for _, m := range r.Missing() {
		if strings.Contains(m.Name, ".") { // else it is a part
			out = append(out, m.Name)
		}
	}
	for _, f := range r.findings {
		if f.Lean != nil {
			out = addNames(out, f.Lean.By)
		}
	}
	return out
}

// asking works out what a fact would decide; false where it changes nothing.
func (r Report) asking(name string) (asking, bool) {
	ref, ok := r.set.Vocabulary().Find(name)
	if !ok || ref.Object == figures.Object {
		return asking{}, false
	}
	f := ref.Field()
	q := Question{Name: name, Unit: f.Unit, How: f.How, Effort: f.Effort}
	if f.Grid() > 0 && f.Cap == 0 {
		q.Least, q.Most, q.Usual = possible(ref, r.known(ref))
	} else if f.Grid() == 0 {
		q.Words = wordsOf(f)
	}
	a := asking{question: q}
	v, err := r.checker.varied(r.Mix, name, nil)
	if err != nil {
		return a.untried(r), r.Mix.hasFor(ref)
	}
	if !a.try(r, v) {
		return a, false
	}
	a.worth /= float64(costOf(f.Effort))
	a.question.Limit = r.limit(a.question, v)
	return a, true
}

// hasFor says whether what a fact is of is there.
func (m Mix) hasFor(ref rules.Ref) bool {
	_, there := m.Part(ref.Object.Name())
	return there || ref.Object == figures.Bench
}

// costOf weighs an effort; what nobody has thought about counts as much.
func costOf(e fact.Effort) int {
	switch e {
	case fact.Low:
		return 1
	case fact.Some:
		return 2
	}
	return 4
}

// untried takes a fact of which nobody can say what it may be, such as a list, to
// decide its share of what misses it.
func (a asking) untried(r Report) asking {
	for _, f := range r.findings {
		if f.Verdict == rules.Unknown && slices.Contains(f.Missing, a.question.Name) {
			a.question.Decides = append(a.question.Decides, f.Rule.ID)
			a.worth += 1 / float64(len(f.Missing))
		}
	}
	a.worth /= float64(costOf(a.question.Effort))
	return a
}

// try tries what the fact may be; false where nothing changes.
func (a *asking) try(r Report, v *varied) bool {
	places := v.likely(a.question)
	decided := map[string]bool{}
	changes, tried := false, 0
	for _, i := range places {
		err := v.evaluated(i, func(_ Mix, res *rules.Result) {
			g := r.gain(v, res, decided)
			a.worth += g.worth
			changes = changes || g.changes
		})
		if err == nil { // else it contradicts what is stated
			tried++
		}
	}
	if !changes {
		return false
	}
	a.worth /= float64(tried)
	for _, f := range r.findings {
		if decided[f.Rule.ID] {
			a.question.Decides = append(a.question.Decides, f.Rule.ID)
		}
	}
	return true
}

// likely gives the places that are tried of a fact: words all, numbers at even steps
// between the least and the greatest.
func (v *varied) likely(q Question) []int {
	w := v.between(q.Least, q.Most, mostPoints)
	n := w.last - w.first
	if v.grid > 0 {
		n = min(n, askPoints-1)
	}
	var out []int
	for k := range n + 1 {
		out = append(out, w.first+(w.last-w.first)*k/max(n, 1))
	}
	return out
}

// gain is what one answer is worth: an open point that it decides counts one, one
// that still lacks other facts a share, and one that it opens counts against it. An
// answer by which the mix fails decides all there is.
type gain struct {
	worth   float64
	changes bool
}

// What changes count where they are not the whole of an open point.
const (
	leaning = 0.25 // a warning that a usual value may be wrong about
	opened  = 0.5  // a point that was not open before
)

func (r Report) gain(v *varied, res *rules.Result, decided map[string]bool) gain {
	var g gain
	var all float64
	fails := false
	for _, f := range r.findings {
		if _, hangs := v.hangs.Rule(f.Rule.ID); f.Verdict == rules.Unknown && !hangs {
			all++
		}
	}
	for _, was := range r.findings {
		if _, hangs := v.hangs.Rule(was.Rule.ID); !hangs {
			continue
		}
		i := slices.IndexFunc(res.Findings, func(f rules.Finding) bool { return f.Rule.ID == was.Rule.ID })
		var now rules.Finding
		if i >= 0 {
			now = res.Findings[i]
		}
		worth, changes := progress(was, now, i >= 0)
		if was.Verdict == rules.Unknown {
			all++
		}
		if worth == 1 || worth == leaning && changes {
			decided[was.Rule.ID] = true
		}
		g.worth, g.changes = g.worth+worth, g.changes || changes
	}
	for _, f := range res.Findings {
		fails = fails || f.Verdict == rules.Fail
		if f.Verdict == rules.Unknown && !r.finds(f.Rule.ID) {
			g.worth, g.changes = g.worth-opened, true
		}
	}
	if fails && r.Verdict != rules.Fail {
		g.worth, g.changes = all, true
	}
	return g
}

// finds says whether a rule was applied.
func (r Report) finds(rule string) bool {
	return slices.ContainsFunc(r.findings, func(f rules.Finding) bool { return f.Rule.ID == rule })
}

// progress says how far one rule has come from what it said.
func progress(was, now rules.Finding, applied bool) (worth float64, changes bool) {
	settled := !applied || now.Verdict != rules.Unknown && now.Lean == nil
	switch {
	case was.Verdict == rules.Unknown && settled:
		return 1, true
	case was.Verdict == rules.Unknown && now.Verdict != rules.Unknown: // it warns, and a usual value may be wrong
		return 1 - leaning, true
	case was.Verdict == rules.Unknown:
		lack, left := float64(len(was.Missing)), float64(len(now.Missing))
		return max(0, lack-left) / max(lack, 1) * (1 - leaning), !slices.Equal(was.Missing, now.Missing)
	case was.Lean != nil && settled:
		return leaning, true
	case applied && now.Verdict == rules.Unknown:
		return -opened, true
	}
	return 0, applied && now.Verdict != was.Verdict
}

// limit says over which answers the first rule that a question decides passes, warns
// and fails.
func (r Report) limit(q Question, v *varied) string {
	if len(q.Decides) == 0 {
		return ""
	}
	one, err := r.checker.varied(r.Mix, q.Name, q.Decides[:1])
	if err != nil {
		return ""
	}
	w := one.between(q.Least, q.Most, wouldPoints)
	spans, _ := one.spans(w)
	var parts []string
	for _, s := range spans {
		verb := map[rules.Verdict]string{rules.Pass: "passes", rules.Warn: "warns", rules.Fail: "fails", rules.Unknown: "is still open"}[s.Alone]
		switch {
		case len(s.Rules) == 0: // it has nothing to say
			continue
		case one.grid == 0:
			parts = append(parts, verb+" with "+s.Word)
			continue
		}
		parts = append(parts, verb+spanText(v.ref.Field(), s, one.number(w.first), one.number(w.last)))
	}
	const readable = 5
	decided := slices.ContainsFunc(spans, func(s Span) bool { return s.Alone != rules.Unknown })
	if !decided || len(parts) > readable {
		return ""
	}
	return q.Decides[0] + " " + strings.Join(parts, ", ")
}
