package expr

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"
)

// tally counts what a differential run met, so that a generator that stopped
// writing anything of interest would show.
type tally struct {
	evaluations, quick, unknown, plain, errors, definite, completed int
}

// TestQuickAgreesWithEngine evaluates random expressions over random records,
// with objects and facts missing, by the closures and by the engine. Where the
// closures are definite the engine must say the same, and the public answers
// must be the engine's always.
func TestQuickAgreesWithEngine(t *testing.T) {
	wanted := 20_000
	if testing.Short() {
		wanted /= 10
	}
	l := boatLanguage(t)
	w := &writer{Rand: rand.New(rand.NewPCG(1, 2))}
	var n tally
	for n.evaluations < wanted {
		k := sort(w.IntN(int(sorts)))
		if w.IntN(2) == 0 {
			k = flag
		}
		p, slots, story, err := w.program(l, k)
		if err != nil {
			t.Fatal(err)
		}
		if p == nil {
			continue
		}
		frames := NewFrames(l, slots)
		c := comparison{t, w, p, story, &n}
		for range 8 {
			c.once(frames)
		}
		if t.Failed() {
			return
		}
	}
	t.Logf("%+v", n)
	for name, share := range map[string]int{"quick": n.quick, "unknown": n.unknown, "unknown without the engine": n.plain,
		"error": n.errors, "definite with facts missing": n.completed} {
		if share < wanted/50 {
			t.Errorf("only %d evaluations were %s", share, name)
		}
	}
}

// comparison is one random program under test.
type comparison struct {
	t     testing.TB
	w     *writer
	p     *Program
	story string
	n     *tally
}

func (c comparison) errorf(format string, args ...any) {
	c.t.Helper()
	c.t.Errorf("%s: "+format, append([]any{c.story}, args...)...)
}

// once compares the answers over one random set of facts.
func (c comparison) once(frames *Frames) {
	f := frames.Open()
	defer f.Close()
	p := c.p
	records := []*Record{c.w.values(p.lang.objects[0], 0.75), c.w.values(p.lang.objects[1], 0.75)}
	for i, r := range records {
		f.Put(i, r)
	}
	engineFirst := c.w.IntN(2) == 0
	var want ref.Val
	if engineFirst { // so that let-names are worked out by the engine first
		want = p.exec(f)
	}
	got, ok := p.quickValue(f)
	if !engineFirst {
		want = p.exec(f)
	}
	c.n.count(want)
	if ok {
		c.n.quick++
		if !same(got, want) {
			c.errorf("quick gives %v, the engine %v", got, want)
		}
	}
	c.public(f, want)
	if p.typ == types.BoolType {
		c.completed(f, records)
	}
}

func (n *tally) count(v ref.Val) {
	n.evaluations++
	switch v.(type) {
	case *types.Unknown:
		n.unknown++
	case *types.Err:
		n.errors++
	default:
		n.definite++
	}
}

// quickValue gives the answer of the closure in the engine's form.
func (p *Program) quickValue(f *Frame) (ref.Val, bool) {
	switch q := p.quick; {
	case q.num != nil:
		x, ok := q.num(f)
		return boxAs(x, nil, p.typ), ok
	case q.truth != nil:
		b, ok := q.truth(f)
		return types.Bool(b), ok
	case q.text != nil:
		s, ok := q.text(f)
		return types.String(s), ok
	case q.list != nil:
		xs, ok := q.list(f)
		return numbers{xs: xs, whole: p.typ.Parameters()[0] == types.IntType}, ok
	}
	if p.quick.words != nil {
		list, ok := p.quick.words(f)
		return types.NewStringList(types.DefaultTypeAdapter, list), ok
	}
	return nil, false
}

func same(a, b ref.Val) bool {
	if xs, ok := unboxWords(a); ok && len(xs) > 0 {
		ys, ok := unboxWords(b)
		return ok && slices.Equal(xs, ys)
	}
	if xs, ok := unboxList(a); ok {
		ys, ok := unboxList(b)
		return ok && slices.Equal(xs, ys)
	}
	return a.Type() == b.Type() && a.Equal(b) == types.True
}

// public holds the answers that other packages get against the engine's.
func (c comparison) public(f *Frame, want ref.Val) {
	p := c.p
	if p.typ == types.BoolType {
		got := p.Decide(f)
		var state State
		var lacks []Read
		switch v := want.(type) {
		case types.Bool:
			state = decided(bool(v)).State
		case *types.Unknown:
			state, lacks = Undecided, p.lang.reads(v.IDs())
			if p.lacks(f) != nil {
				c.n.plain++
			}
		case *types.Err:
			state = Faulty
		}
		if got.State != state || !slices.Equal(got.Lacks, lacks) || (got.Err != "") != (state == Faulty) {
			c.errorf("Decide gives %+v, the engine %v", got, want)
		}
		if p.Holds(f) != (state == True) {
			c.errorf("Holds differs from %v", want)
		}
		for _, r := range got.Lacks {
			if f.records[r.Object] != nil && f.known(r) {
				c.errorf("lacks %s, which is stated", p.lang.Name(r))
			}
		}
	}
	if got, want := p.Render(f, 3), string(p.appendValue(nil, want, 3)); got != want {
		c.errorf("renders %q, the engine's value %q", got, want)
	}
	if p.IsNumber() {
		x, ok := p.Number(f)
		y, wantOK := unboxNumber(want)
		if ok != wantOK || ok && x != y {
			c.errorf("Number gives %v, %t, the engine %v", x, ok, want)
		}
	}
}

// completed holds that a condition which is decided although facts are missing
// stays so whatever they are. stated() alone asks whether a fact lacks: with it the answer
// may be another, and random expressions have none.
func (c comparison) completed(f *Frame, records []*Record) {
	if strings.Contains(c.story, "stated(") {
		return
	}
	p := c.p
	before := p.Decide(f).State
	if before != True && before != False {
		return
	}
	open := false
	for _, r := range p.reads {
		open = open || !f.known(r)
	}
	if !open {
		return
	}
	c.n.completed++
	for range 3 {
		for i, r := range records {
			f.Put(i, c.w.complete(p.lang.objects[i], r))
		}
		f.Renew()
		if after := p.Decide(f).State; after != before {
			c.errorf("%v with facts missing, %v with all", before, after)
		}
	}
}

// TestLetsWithLoopsInLoops compares loops that ask for a let-name with a loop of its own:
// random expressions seldom hang on which entry the outer one is at.
func TestLetsWithLoopsInLoops(t *testing.T) {
	l := boatLanguage(t)
	w := &writer{Rand: rand.New(rand.NewPCG(3, 4))}
	for inner, outer := range map[string]string{
		"sail.panels_m2.all(each, each > 0.5)":     "sail.panels_m2.exists(each, let_0 && each < 1.6)",
		"sail.knots.exists(each, each > 1)":        "sail.knots.all(each, let_0 || each < 2)",
		"sail.makers.all(each, each != 'nobody')":  "sail.makers.exists(each, let_0 && each.startsWith('a'))",
		"sail.knots.all(each, each < 9)":           "sail.panels_m2.exists(each, each < 1.6 && let_0 && each < 1.6)",
		"mast.makers.exists(each, each == 'none')": "sail.makers.all(each, !let_0 && each.startsWith('a'))",
	} {
		s := l.NewScope()
		let, issues := s.Compile(inner, Value)
		if len(issues) > 0 {
			t.Fatal(issues)
		}
		s.Let("let_0", 0, let)
		p, issues := s.Compile(outer, Condition)
		if len(issues) > 0 {
			t.Fatal(issues)
		}
		var n tally
		c, frames := comparison{t, w, p, inner + "; " + outer, &n}, NewFrames(l, 1)
		for range 500 {
			c.once(frames)
		}
		if n.quick < 100 {
			t.Errorf("%s: closures answered %d times", outer, n.quick)
		}
	}
}
