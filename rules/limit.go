package rules

import (
	"math"
	"slices"
	"sort"
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
	plain   bool    // there it is applied, decided, and by no assumption
	oneWay  bool    // no verdict comes twice on the way
}

// at is the verdict with the fact at a place of its spread, -1 to 1.
func (l *limiter) at(to float64) (Verdict, float64) {
	l.to = append(l.to[:0], placed{l.read, to})
	l.mover.at(l.to, l.reads, l.tried)
	return l.verdict, l.value
}

func (l *limiter) try(records []*Record) {
	l.verdict, l.plain = Pass, false
	if f := l.alone(records); f != nil {
		l.verdict, l.plain = f.Ruled, f.Ruled != Unknown && len(f.Assumed) == 0
	}
	l.value = records[l.read.Object].At(l.read.Field).Num
}

func (l *limiter) all() []Limit {
	_, most := l.at(1)
	l.oneWay = l.plain
	v, x := l.at(-1)
	l.oneWay = l.oneWay && l.plain && l.goesOneWay()
	out := []Limit{{x, most, v}}
	for k := l.change(0, v); k <= limitEach; k = l.change(k, v) {
		last := &out[len(out)-1]
		var x float64
		last.Most, x = l.between(place(k-1), place(k), v)
		v, _ = l.at(place(k))
		out = append(out, Limit{x, most, v})
	}
	return out
}

// place is the k-th of the places at which a change is looked for.
func place(k int) float64 { return -1 + 2*float64(k)/limitEach }

// change gives the first place behind the k-th at which the verdict is another; one beyond
// the last where there is none. Where no verdict comes twice it need not look at each.
func (l *limiter) change(k int, v Verdict) int {
	other := func(k int) bool { is, _ := l.at(place(k)); return is != v }
	if !l.oneWay {
		for k++; k <= limitEach && !other(k); k++ {
		}
		return k
	}
	if !other(limitEach) {
		return limitEach + 1
	}
	return k + 1 + sort.Search(limitEach-k-1, func(i int) bool { return other(k + 1 + i) })
}

// goesOneWay says whether both conditions of the rule begin to hold in one direction of the
// fact and end to in the other, so that the verdict only ever becomes worse, or better.
func (l *limiter) goesOneWay() bool {
	set, g := l.res.set, l.rule.logic()
	of := set.vocabulary.ref(l.read)
	way := func(read expr.Read) (int8, bool) {
		ref := set.vocabulary.ref(read)
		switch way, turns := set.ways(ref, of); {
		case ref == of:
			return 1, !l.counted(l.read)
		case !slices.Contains(set.behind(ref), of), way == Still:
			return 0, true
		default:
			return way, way != 0 && !turns
		}
	}
	if g.when != nil && slices.ContainsFunc(g.when.Reads(), func(r expr.Read) bool { w, ok := way(r); return w != 0 || !ok }) {
		return false
	}
	var s expr.Sense
	for _, c := range g.conds {
		for _, read := range c.prog.Reads() {
			w, ok := way(read)
			if !ok {
				return false
			}
			goes := c.prog.Begins(read) | c.prog.Ends(read).Turned()
			switch w {
			case 1:
				s |= goes
			case -1:
				s |= goes.Turned()
			}
		}
	}
	return s != expr.Both
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
