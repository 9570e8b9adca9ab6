package second

import (
	"math/rand/v2"
	"slices"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// points is how many points are thrown at the spread of the usual facts of a mix, and as
// many more where facts carry tolerances too.
const points = 10

// mostFew is of how many usual facts every corner is tried where points were too few.
const mostFew = 6

// mostPlaces is how many places a grid of facts may have that no figure declares: nine
// for each of them, and for a count as many as meet every whole number.
const (
	mostPlaces = 9 * 9 * 9
	eachFact   = 9
)

// mix is what is worked out once for one set of facts, and used by all rules.
type mix struct {
	judge   *Judge
	random  *rand.Rand
	nominal *facts
	loose   []string // facts with a tolerance
	usual   []string // and with a spread
	corners map[string]*facts
	samples [2][]*facts // of the usual facts alone, and with corners of the tolerances
}

func (j *Judge) mix(records []*rules.Record, random *rand.Rand) *mix {
	return &mix{
		judge: j, random: random, nominal: j.factsOf(records, nil), corners: map[string]*facts{},
		loose: j.loose(records, toleranced), usual: j.loose(records, func(v *fact.Value) bool { return v.Spread() != nil }),
	}
}

// at gives the facts of the mix with some of them elsewhere. Those that stand by a name
// stay where facts are only usual.
func (m *mix) at(to map[string]float64) *facts {
	records := m.nominal.records
	var held *rules.Record
	for name := range to {
		if slices.Contains(m.usual, name) {
			held = records[m.judge.figures]
		}
	}
	return m.judge.factsOf(m.judge.moved(records, to), held)
}

// corner is at, worked out once for each corner of tolerances.
func (m *mix) corner(to map[string]float64) *facts {
	key := ""
	for _, name := range m.loose {
		if end, ok := to[name]; ok {
			key += name + map[bool]string{true: "+", false: "-"}[end > 0]
		}
	}
	if m.corners[key] == nil {
		m.corners[key] = m.at(to)
	}
	return m.corners[key]
}

// thrown gives points of the box of usual facts, at corners and between; also with the
// tolerances at corners.
func (m *mix) thrown(also bool) []*facts {
	which := 0
	if also {
		which = 1
	}
	if m.samples[which] != nil {
		return m.samples[which]
	}
	for i := range points {
		to := map[string]float64{}
		for _, name := range m.usual {
			switch {
			case i < 2:
				to[name] = float64(2*i - 1)
			case i < 7:
				to[name] = float64(2*m.random.IntN(2) - 1)
			default:
				to[name] = 2*m.random.Float64() - 1
			}
		}
		if also {
			for _, name := range m.loose {
				to[name] = float64(2*m.random.IntN(2) - 1)
			}
		}
		m.samples[which] = append(m.samples[which], m.at(to))
	}
	return m.samples[which]
}

// seen is what a rule was seen to do over a spread.
type seen struct{ fails, clear, open bool }

func (s *seen) add(said Said) {
	switch {
	case said.Reason != "":
		s.clear = true
	case said.Ruled == rules.Unknown:
		s.open = true
	case said.Ruled == rules.Fail || len(said.Assumed) > 0:
		s.fails = true
	default:
		s.clear = true
	}
}

func (s seen) leans() bool { return s.open || s.fails && s.clear }

// spread is what a rule comes to over the spread of what is usual.
type spread struct {
	mix     *mix
	rule    *rule
	said    Said // for the usual values, with tolerances
	seen    seen
	facts   []string // usual ones that it hangs on
	also    []string // toleranced ones that are tried with them
	tooMany bool
}

// spread tries a rule over the spread of the usual facts that it hangs on.
func (m *mix) spread(r *rule) *spread {
	s := &spread{mix: m, rule: r, said: m.judge.margin(m.nominal, r, m.nominal.apply(r), m.loose, m.corner)}
	applied := s.said.Reason == ""
	if r.fail == nil || applied && s.said.Ruled == rules.Unknown ||
		!applied && s.said.Reason != rules.ReasonWhen && s.said.Reason != rules.ReasonFigure {
		return s
	}
	s.facts = slices.DeleteFunc(slices.Clone(m.usual), func(name string) bool { return !m.moves(r, name) })
	if len(s.facts) == 0 {
		return s
	}
	if applied && s.said.Margin == nil {
		s.also = slices.DeleteFunc(slices.Clone(m.loose), func(name string) bool { return !m.readAnywhere(r, name) })
	}
	s.tooMany = len(s.also) > mostLoose || m.undeclared(r, s.facts) > mostPlaces
	if s.tooMany && !applied { // nothing says that it would have something to say
		s.tooMany, s.facts, s.also = false, nil, nil
		return s
	}
	s.seen.add(s.said.asStated())
	for _, f := range m.thrown(false) {
		s.try(f)
	}
	if len(s.also) > 0 && len(s.also) <= mostLoose {
		for _, f := range m.thrown(true) {
			s.try(f)
		}
	}
	return s
}

func (s *spread) try(f *facts) {
	if !s.seen.leans() {
		s.seen.add(f.fails(s.rule))
	}
}

// tryAt tries the rule where facts have some values; it is false where they lie outside of
// what these facts may be.
func (s *spread) tryAt(at []rules.Point) {
	to := map[string]float64{}
	for _, p := range at {
		x, ok := s.mix.whereIs(p)
		if !ok {
			return
		}
		to[p.Name] = x
	}
	if len(s.facts) == 0 {
		return
	}
	said := s.said.asStated()
	if len(to) > 0 {
		said = s.mix.at(to).fails(s.rule)
	}
	s.seen.add(said)
}

// whereIs gives the place of a value between the ends of its spread or tolerance.
func (m *mix) whereIs(p rules.Point) (float64, bool) {
	at := m.judge.places[p.Name]
	rec := m.nominal.records[at.object]
	if rec == nil {
		return 0, false
	}
	v := rec.At(at.field)
	stated, tol := v.Num, v.Tol
	if i := slices.IndexFunc(v.Tols(), func(tol float64) bool { return tol > 0 }); i >= 0 {
		stated, tol = v.List[i], v.Tols()[i] // a list moves as one
	}
	least, most := stated-tol, stated+tol
	if v.Spread() != nil {
		least, most = v.Spread().Least, v.Spread().Most
	}
	const eps = 1e-9
	switch {
	case p.Value < least-eps || p.Value > most+eps:
		return 0, false
	case p.Value < stated:
		return (p.Value - stated) / (stated - least), true
	case p.Value > stated:
		return (p.Value - stated) / (most - stated), true
	}
	return 0, true
}

// everywhere tries all corners of the usual facts, where they are few, and those of
// boxes within theirs: what is not seen at an end may be seen on the way there.
func (s *spread) everywhere() {
	const boxes = 8
	if len(s.facts) == 0 || len(s.facts) > mostFew { // what hangs on none stays what it is
		return
	}
	for box := range boxes {
		for corner := range 1 << len(s.facts) {
			if s.seen.leans() {
				return
			}
			to := map[string]float64{}
			for i, name := range s.facts {
				to[name] = []float64{-1, 1}[corner>>i&1] * float64(boxes-box) / boxes
			}
			s.try(s.mix.at(to))
		}
	}
}

// closer tries each fact alone on a grid, for a place at which nothing can be decided.
func (s *spread) closer() {
	const each = 16
	for _, name := range s.facts {
		for k := range each + 1 {
			if s.seen.leans() {
				return
			}
			s.try(s.mix.at(map[string]float64{name: 2*float64(k)/each - 1}))
		}
	}
}

// narrow says whether the rule only leans in a band so narrow that a grid of nine places a
// fact meets nothing of it: DEVELOPERS.md says that such a one is not seen. Of many facts
// some places of the grid are drawn.
func (s *spread) narrow() bool {
	on := spread{mix: s.mix, rule: s.rule}
	on.seen.add(s.said.asStated())
	places := 1
	for range s.facts {
		places = min(places*eachFact, 2*mostPlaces)
	}
	for k := range min(places, mostPlaces) {
		to, rest := map[string]float64{}, k
		if places > mostPlaces {
			rest = s.mix.random.Int()
		}
		for _, name := range s.facts {
			to[name] = 2*float64(rest%eachFact)/(eachFact-1) - 1
			rest /= eachFact
		}
		if on.try(s.mix.at(to)); on.seen.leans() {
			return false
		}
	}
	return true
}

// failing says whether the rule fails somewhere.
func (s *spread) failing() bool {
	return s.said.Reason == "" && (s.said.Ruled == rules.Fail || s.said.Ruled == rules.Unknown || len(s.said.Assumed) > 0) ||
		s.tooMany || s.seen.leans()
}

// verdict is what the spread makes of the verdict by the usual values.
func (s *spread) verdict() rules.Verdict {
	switch {
	case s.tooMany || s.seen.leans():
		return s.rule.whereOpen()
	case s.said.Reason != "":
		return rules.Pass
	}
	return s.said.Ruled
}

func (r *rule) whereOpen() rules.Verdict {
	if r.openWarns {
		return rules.Warn
	}
	return rules.Unknown
}

// failsBy gives what when and fail_if read or ask for: what only warns fails nowhere.
func (r *rule) failsBy() []string {
	out := addOnce(slices.Clone(r.fail.reads), r.fail.asks...)
	if r.when != nil {
		out = addOnce(addOnce(out, r.when.reads...), r.when.asks...)
	}
	return out
}

// moves says whether anything by which the rule fails goes with a usual fact, and has read
// it: not where only that it is known matters.
func (m *mix) moves(r *rule, fact string) bool {
	j := m.judge
	for _, name := range r.failsBy() {
		if name == fact {
			return true
		}
		of, with := j.ref(name), j.ref(fact)
		if way, _ := figures.Ways(of, with); way != rules.Still && slices.Contains(figures.Behind(of), with) && m.readByAnywhere(name, fact) {
			return true
		}
	}
	return false
}

func (j *Judge) ref(name string) rules.Ref {
	p := j.places[name]
	return rules.Ref{Object: j.objects[p.object], Index: p.field}
}

// undeclared counts the places of the grid on which facts are tried where a figure that
// decides does not say how it goes with them, and counts with others between their ends
// that are read themselves.
func (m *mix) undeclared(r *rule, usual []string) int {
	reads := slices.Clone(r.fail.reads)
	if r.when != nil {
		reads = addOnce(reads, r.when.reads...)
	}
	n := 1
	j := m.judge
	for _, name := range usual {
		p := j.places[name]
		v := m.nominal.records[p.object].At(p.field)
		each := eachFact
		counted := p.of == fact.Whole && v.Spread().Most-v.Spread().Least > 1
		if counted {
			each = 1 + 2*int(max(v.Spread().Most-v.Num, v.Num-v.Spread().Least))
		}
		if counted && slices.Contains(reads, name) || slices.ContainsFunc(reads, func(read string) bool {
			return j.undeclaredBy(read, name) && m.readByAnywhere(read, name)
		}) {
			n *= each
		}
	}
	return n
}
