package rules

import (
	"math"
	"strings"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
)

// Limit is a range of one usual fact over which a rule gives one verdict, all other
// facts standing as usual. Its ends are exact to a hundredth.
type Limit struct {
	Least, Most float64
	Verdict     Verdict // Pass where the rule has nothing to say
}

const (
	limitEach  = 64   // ranges in which a change of verdict is looked for
	limitExact = 1e-5 // of the spread
)

// Limits tells over which ranges of a usual fact, inside its spread, a rule that leans
// on it passes, warns and fails. It is empty for a fact without a spread.
func (res *Result) Limits(f Finding, name string) []Limit {
	records := res.About(f)
	for _, read := range spreads(nil, records) {
		if res.set.vocabulary.lang.Name(read) == name {
			c := res.set.leans.Get().(*leaning)
			defer c.release()
			c.use(res, res.set.again)
			c.mover.from, c.rule, c.one[0] = records, f.Rule, f.Rule
			c.sub.onlyFail = false // a warning is a range of its own
			l := limiter{leaning: c, read: read, reads: res.set.Reads(f.Rule)}
			l.tried = l.try
			return l.all()
		}
	}
	return nil
}

// limiter looks for the places where one rule changes its verdict.
type limiter struct {
	*leaning
	read  expr.Read
	reads []Ref // of the rule
	tried func([]*Record)

	verdict Verdict // at the place that was tried last,
	value   float64 // and the fact there
}

// at is the verdict with the fact at a place of its spread, -1 to 1.
func (l *limiter) at(to float64) (Verdict, float64) {
	l.to = append(l.to[:0], placed{l.read, to})
	l.mover.at(l.to, l.reads, l.tried)
	return l.verdict, l.value
}

func (l *limiter) try(records []*Record) {
	l.verdict = Pass
	if f := l.alone(records); f != nil {
		l.verdict = f.Ruled
	}
	l.value = records[l.read.Object].At(l.read.Field).Num
}

func (l *limiter) all() []Limit {
	v, x := l.at(-1)
	out := []Limit{{x, x, v}}
	before := -1.0
	for k := 1; k <= limitEach; k++ {
		to := -1 + 2*float64(k)/limitEach
		is, value := l.at(to)
		if last := &out[len(out)-1]; is != last.Verdict {
			var x float64
			last.Most, x = l.between(before, to, last.Verdict)
			out = append(out, Limit{x, x, is})
		}
		out[len(out)-1].Most = value
		before = to
	}
	return out
}

// between finds the last value that still gives a verdict, and the first that does not.
func (l *limiter) between(low, high float64, v Verdict) (last, first float64) {
	for high-low > limitExact {
		middle := (low + high) / 2
		if is, _ := l.at(middle); is == v {
			low = middle
		} else {
			high = middle
		}
	}
	_, last = l.at(low)
	_, first = l.at(high)
	return last, first
}

// leaningText says that usual values decide, which, and from where on.
func (res *Result) leaningText(f Finding) string {
	v := res.set.vocabulary
	switch {
	case f.Lean.Ask != "":
		return "Two kinds of parts with that count are sold, and only one of them goes: look which it is by " + v.Words(f.Lean.Ask) + "."
	case f.Lean.Open:
		return "Not decided: too many usual values (" + v.inWords(f.Lean.By) + ") decide together; measure one of them."
	}
	var parts []string
	for _, name := range f.Lean.By {
		if text := res.limitText(f, name); text != "" {
			parts = append(parts, text)
		}
	}
	if len(parts) == 0 {
		return "By usual values it would be a " + f.Lean.Nominal.String() + ", and not over all that is usual of " +
			v.inWords(f.Lean.By) + " together: measure."
	}
	return "It hangs on what is only usual. " + strings.Join(parts, " ")
}

// limitText says what one usual fact decides, empty where it decides nothing alone.
func (res *Result) limitText(f Finding, name string) string {
	limits := res.Limits(f, name)
	if len(limits) < 2 {
		return ""
	}
	records := res.About(f)
	var val *fact.Value
	var unit string
	for _, read := range spreads(nil, records) {
		if res.set.vocabulary.lang.Name(read) == name {
			val, unit = records[read.Object].At(read.Field), res.set.vocabulary.lang.Field(read).Unit
		}
	}
	var parts []string
	for _, l := range limits {
		if l.Verdict == Pass || l.Verdict == Fail {
			parts = append(parts, limitVerb(l.Verdict)+" "+rangeText(l, *val.Spread()))
		}
	}
	words := res.set.vocabulary.Words(name)
	return strings.ToUpper(words[:1]) + words[1:] + ": it " + strings.Join(parts, ", ") + "; usual is " + expr.Decimal(val.Num, -1) +
		" " + spreadText(*val.Spread(), unit) + "."
}

func limitVerb(v Verdict) string {
	if v == Pass {
		return "passes"
	}
	return "fails"
}

// rangeText says a range inside a spread, whose own ends are no limits. Rounding goes
// to the safe side of a limit.
func rangeText(l Limit, s fact.Spread) string {
	low, high := l.Least <= s.Least, l.Most >= s.Most
	up := expr.Decimal(math.Floor(l.Most*100+1e-6)/100, -1)
	from := expr.Decimal(math.Ceil(l.Least*100-1e-6)/100, -1)
	switch {
	case low && high:
		return "throughout"
	case low:
		return "up to " + up
	case high:
		return "from " + from
	}
	return "from " + from + " to " + up
}

// spreadText says how far usual values go.
func spreadText(s fact.Spread, unit string) string {
	return strings.TrimSpace("(" + expr.Decimal(s.Least, -1) + " to " + expr.Decimal(s.Most, -1) + ") " + unit)
}
