package compat

import (
	"iter"
	"math/bits"
	"slices"
	"strings"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/report"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
)

// Report is what a Checker says of a mix. It is immutable; its texts are made
// when they are asked for. The zero Report says nothing and is Unknown.
type Report struct {
	Mix      Mix
	Figures  figures.Figures
	Verdict  rules.Verdict // fail over unknown over warn over pass
	Complete bool          // nothing was left undecided, all of the drive is judged and, for a bike, nothing is absent

	checker  *Checker        // that made it; nil in the zero Report
	set      *rules.Set      // nil in the zero Report, and for a Checker without rules
	result   *rules.Result   // nil where set is
	findings []rules.Finding // fails first; the result's own stand in file order
	told     *told           // texts of them that are made already; nil for most reports
}

// Finding is what one rule says of the mix.
type Finding struct {
	Rule    string // its id
	Title   string // the good state
	Verdict rules.Verdict
	Text    string // what was found, with the numbers
	Speaks  bool   // the Text says more than the Title
	Why     string
	Remedy  string // what would mend it; empty for a pass
	Caution string
	Safety  bool
	Basis   []rules.Basis
	Parts   []string      // the kinds that it is about
	Used    []rules.Fact  // the stated facts that its conditions read
	Values  []rules.Named // the let-names that have a value, sorted
	Softens []string      // assumed facts without which it would fail: it warns, and its Text names them
	Assumed []string      // what these hang on that nobody stated: facts, and figures that take usual values
	Taken   []string      // the same in words: what was taken as usual, with value and unit
	Usual   []string      // the usual facts that these rest on
	Missing []string      // the facts that would decide an unknown
	Error   string
	Adjust  *rules.Adjust // the adjustment that changed it, nil for most
	Ruled   rules.Verdict // the verdict before the adjustment
	Margin  *rules.Margin // that it hangs on tolerances, nil for most
	Lean    *rules.Lean   // that it hangs on usual values, nil for most
	Draw    rules.Draw    // where it is seen, with the limits that are drawn there; zero for most
}

// Findings gives what every applied rule says: fails first, then unknowns,
// warnings and passes, each in the order of the rule files.
func (r Report) Findings() []Finding {
	out := make([]Finding, 0, len(r.findings))
	for f := range r.All() {
		out = append(out, f)
	}
	return out
}

// All gives the findings of Findings one by one: the texts of those behind the last one
// that is asked for are not made.
func (r Report) All() iter.Seq[Finding] {
	return func(yield func(Finding) bool) {
		finder := r.finder()
		defer finder.close()
		for _, f := range r.findings {
			if !yield(finder.finding(f)) {
				return
			}
		}
	}
}

// finder makes findings; what makes figures assumed is worked out once for all.
type finder struct {
	r       Report
	speaker *rules.Speaker
	taking  *taking
	said    map[string]bool // sentences of caution
	text    []byte
}

func (r Report) finder() *finder {
	f := &finder{r: r, said: map[string]bool{}}
	f.taking = f.r.taking()
	if r.result != nil {
		f.speaker = r.result.Speak()
	}
	return f
}

func (fi *finder) close() {
	fi.taking.close()
	if fi.speaker != nil {
		fi.speaker.Close()
	}
}

// say gives the texts of a finding, in one piece of memory.
func (fi *finder) say(f rules.Finding) (text, remedy, caution string) {
	fi.text = fi.speaker.AppendText(fi.text[:0], f)
	first := len(fi.text)
	fi.text = fi.speaker.AppendRemedy(fi.text, f)
	second := len(fi.text)
	fi.text = fi.speaker.AppendCaution(fi.text, f)
	all := string(fi.text)
	return all[:first], all[first:second], all[second:]
}

// finding makes one. They are made in their order: what several beware of is said with
// the first.
func (fi *finder) finding(f rules.Finding) Finding {
	r := &fi.r
	text, remedy, caution := fi.say(f)
	out := Finding{
		Rule: f.Rule.ID, Title: f.Rule.Title, Verdict: f.Verdict, Ruled: f.Ruled,
		Text: text, Why: f.Rule.Why, Remedy: remedy,
		Safety: f.Rule.Safety, Basis: f.Rule.Basis, Draw: f.Rule.Draw, Parts: r.kinds(f.Rule),
		Used: r.result.Used(f), Values: fi.speaker.AppendValues(nil, &f), Missing: slices.Clone(f.Missing), Error: f.Err,
		Caution: once(caution, fi.said), Adjust: r.set.Adjusted(f),
		Margin: f.Margin, Lean: f.Lean, Speaks: f.Speaks(), Softens: slices.Clone(f.Assumed),
	}
	for i := range out.Used {
		assumed, usual := fi.taking.restsOn(&out.Used[i])
		out.Assumed, out.Usual = addNames(out.Assumed, assumed), addNames(out.Usual, usual)
	}
	if len(out.Assumed)+len(out.Usual) > 0 {
		out.Taken = fi.taking.said(slices.Concat(out.Assumed, out.Usual))
	}
	return out
}

// once leaves of a caution the sentences that were not said yet.
func once(caution string, said map[string]bool) string {
	if caution == "" {
		return ""
	}
	var out strings.Builder
	for sentence := range strings.SplitAfterSeq(caution, ". ") {
		if bare := strings.TrimSpace(sentence); !said[bare] {
			said[bare] = true
			out.WriteString(sentence)
		}
	}
	return strings.TrimSpace(out.String())
}

// restsOn names what a used fact rests on that nobody stated.
func (t *taking) restsOn(u *rules.Fact) (assumed, usual []string) {
	if !u.Value.Assumed && u.Value.Usual == fact.NotUsual {
		return nil, nil
	}
	if name, is := strings.CutPrefix(u.Name, figures.Object.Name()+"."); is {
		i, _ := figures.Object.Table().Index(name)
		return t.roots(i)
	}
	if u.Value.Assumed {
		return []string{u.Name}, nil
	}
	return nil, []string{u.Name}
}

// addNames appends the names that are not there yet.
func addNames(to, names []string) []string {
	for _, n := range names {
		if !slices.Contains(to, n) {
			to = append(to, n)
		}
	}
	return to
}

// kinds gives the kinds in the mix whose facts a rule hangs on.
func (r Report) kinds(rule *rules.Rule) []string {
	marks := r.checker.printed.rule(rule).kinds
	if marks == 0 {
		return nil
	}
	out := make([]string, 0, bits.OnesCount64(marks))
	for rest := marks; rest != 0; rest &= rest - 1 {
		if i := bits.TrailingZeros64(rest); r.Mix.facts.Part(i) != nil {
			out = append(out, r.Mix.parts[i].Kind())
		}
	}
	return out
}

// NotApplied gives the rules that had nothing to say, and why.
func (r Report) NotApplied() []rules.NotApplied {
	if r.result == nil {
		return nil
	}
	out := slices.Clone(r.result.NotApplied)
	for i := range out {
		out[i].Names = slices.Clone(out[i].Names)
	}
	return out
}

// Missing ranks the facts that would decide an unknown finding, by how many.
func (r Report) Missing() []Missing {
	var out []Missing
	for _, f := range r.findings {
		if f.Verdict != rules.Unknown {
			continue
		}
		for _, name := range f.Missing {
			i := slices.IndexFunc(out, func(m Missing) bool { return m.Name == name })
			if i < 0 {
				i = len(out)
				out = append(out, describe(r.set.Vocabulary(), name))
			}
			out[i].Rules = append(out[i].Rules, f.Rule.ID)
		}
	}
	slices.SortStableFunc(out, func(a, b Missing) int { return len(b.Rules) - len(a.Rules) })
	return out
}

// describe describes a fact by its name, or a part that is not there.
func describe(v *rules.Vocabulary, name string) Missing {
	m := Missing{Name: name}
	if ref, ok := v.Find(name); ok {
		f := ref.Field()
		m.Doc, m.How, m.Unit = f.Doc, f.How, f.Unit
	} else if i, ok := v.Index(name); ok {
		m.Doc = v.Objects()[i].Doc()
	}
	return m
}

// Absent gives the kinds that a whole bicycle would need and the mix has not;
// none for a cart.
func (r Report) Absent() []string {
	if r.Mix.scope != ScopeBike {
		return nil
	}
	return r.Mix.absentKinds()
}

// RuleSet names the rules that made the report.
func (r Report) RuleSet() RuleSet { return ruleSet(r.set) }

// RuleSet names the rules of the checker.
func (c *Checker) RuleSet() RuleSet { return ruleSet(c.set) }

func ruleSet(s *rules.Set) RuleSet {
	if s == nil {
		return RuleSet{Packs: []report.Pack{}}
	}
	out := RuleSet{Packs: make([]report.Pack, len(s.Packs())), Hash: s.Hash(), Count: len(s.Rules())}
	for i, p := range s.Packs() {
		out.Packs[i] = report.Pack(p)
	}
	return out
}

// RuleVerdict is what one applied rule comes to.
type RuleVerdict struct {
	Rule    string
	Verdict rules.Verdict
}

// Verdicts gives the verdict of every applied rule in the order of Findings, for
// who needs no texts: nothing is rendered.
func (r Report) Verdicts() []RuleVerdict {
	out := make([]RuleVerdict, len(r.findings))
	for i, f := range r.findings {
		out[i] = RuleVerdict{f.Rule.ID, f.Verdict}
	}
	return out
}
