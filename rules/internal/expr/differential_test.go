package expr

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"
)

// tally counts what a differential run met, so that a generator that stopped
// writing anything of interest would show.
type tally struct {
	evaluations, quick, unknown, errors, definite, completed int
}

// TestQuickAgreesWithEngine evaluates random expressions over random records,
// with objects and facts missing, by the closures and by the engine. Where the
// closures are definite the engine must say the same, and the public answers
// must be the engine's always.
func TestQuickAgreesWithEngine(t *testing.T) {
	const wanted = 20_000
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
		for range 8 {
			compareOnce(t, w, p, frames, story, &n)
		}
		if t.Failed() {
			return
		}
	}
	t.Logf("%+v", n)
	for name, share := range map[string]int{"quick": n.quick, "unknown": n.unknown, "error": n.errors, "definite with facts missing": n.completed} {
		if share < wanted/50 {
			t.Errorf("only %d evaluations were %s", share, name)
		}
	}
}

func compareOnce(t *testing.T, w *writer, p *Program, frames *Frames, story string, n *tally) {
	f := frames.Open()
	defer f.Close()
	records := []*Record{w.values(p.lang.objects[0], 0.75), w.values(p.lang.objects[1], 0.75)}
	for i, r := range records {
		f.Put(i, r)
	}
	engineFirst := w.IntN(2) == 0
	var want ref.Val
	if engineFirst { // so that let-names are worked out by the engine first
		want = p.exec(f)
	}
	got, ok := p.quickValue(f)
	if !engineFirst {
		want = p.exec(f)
	}
	n.evaluations++
	switch want.(type) {
	case *types.Unknown:
		n.unknown++
	case *types.Err:
		n.errors++
	default:
		n.definite++
	}
	if ok {
		n.quick++
		if !same(got, want) {
			t.Errorf("%s: quick gives %v, the engine %v", story, got, want)
		}
	}
	public(t, p, f, want, story)
	if p.kind == types.BoolType {
		completed(t, w, p, f, records, story, n)
	}
}

// quickValue gives the answer of the closure in the engine's form.
func (p *Program) quickValue(f *Frame) (ref.Val, bool) {
	switch q := p.quick; {
	case q.num != nil:
		x, ok := q.num(f)
		return boxAs(x, nil, p.kind), ok
	case q.truth != nil:
		b, ok := q.truth(f)
		return types.Bool(b), ok
	case q.text != nil:
		s, ok := q.text(f)
		return types.String(s), ok
	case q.list != nil:
		xs, ok := q.list(f)
		return numbers{xs: xs, whole: p.kind.Parameters()[0] == types.IntType}, ok
	}
	return nil, false
}

func same(a, b ref.Val) bool {
	if xs, ok := unboxList(a); ok {
		ys, ok := unboxList(b)
		return ok && slices.Equal(xs, ys)
	}
	return a.Type() == b.Type() && a.Equal(b) == types.True
}

// public holds the answers that other packages get against the engine's.
func public(t *testing.T, p *Program, f *Frame, want ref.Val, story string) {
	if p.kind == types.BoolType {
		got := p.Decide(f)
		var state State
		var lacks []Read
		switch v := want.(type) {
		case types.Bool:
			state = decided(bool(v)).State
		case *types.Unknown:
			state, lacks = Undecided, p.lang.reads(v.IDs())
		case *types.Err:
			state = Faulty
		}
		if got.State != state || !slices.Equal(got.Lacks, lacks) || (got.Err != "") != (state == Faulty) {
			t.Errorf("%s: Decide gives %+v, the engine %v", story, got, want)
		}
		if p.Holds(f) != (state == True) {
			t.Errorf("%s: Holds differs from %v", story, want)
		}
		for _, r := range got.Lacks {
			if f.records[r.Object] != nil && f.known(r) {
				t.Errorf("%s: lacks %s, which is stated", story, p.lang.Name(r))
			}
		}
	}
	if got, want := p.Render(f, 3), p.renderValue(want, 3); got != want {
		t.Errorf("%s: renders %q, the engine's value %q", story, got, want)
	}
	if p.IsNumber() {
		x, ok := p.Number(f)
		y, wantOK := unboxNumber(want)
		if ok != wantOK || ok && x != y {
			t.Errorf("%s: Number gives %v, %t, the engine %v", story, x, ok, want)
		}
	}
}

// completed holds that a condition which is decided although facts are missing
// stays so whatever they are.
func completed(t *testing.T, w *writer, p *Program, f *Frame, records []*Record, story string, n *tally) {
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
	n.completed++
	for range 3 {
		for i, r := range records {
			f.Put(i, w.complete(p.lang.objects[i], r))
		}
		f.Renew()
		if after := p.Decide(f).State; after != before {
			t.Errorf("%s: %v with facts missing, %v with all", story, before, after)
		}
	}
}
