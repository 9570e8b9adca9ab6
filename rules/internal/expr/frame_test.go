package expr

import (
	"strings"
	"sync"
	"testing"

	"example.org/cogcourt/rules/fact"
)

// counted puts a counter under a let-name's closure.
func counted(s *Scope, name string, n *int) {
	q := &s.lets[name].prog.quick
	inner := q.num
	q.num = func(f *Frame) (float64, bool) { *n++; return inner(f) }
}

// TestLetsAreLazy holds that a let-name is worked out only where it is read, and
// once a round.
func TestLetsAreLazy(t *testing.T) {
	l := boatLanguage(t)
	s := l.NewScope()
	var n int
	s.Let("twice", 0, must(t, s, "sail.area_m2 * 2", Value))
	counted(s, "twice", &n)
	s.Let("more", 1, must(t, s, "twice + twice", Value))
	cond := must(t, s, "sail.wet && more > twice + more", Condition)
	frames := NewFrames(l, 2)
	f := frames.Open()
	f.Put(0, set(l.objects[0], map[string]fact.Value{"area_m2": fact.Num(-3), "wet": {}}))
	if got := cond.Decide(f).State; got != False || n != 0 {
		t.Errorf("dry: %v after working it out %d times", got, n)
	}
	f.Put(0, set(l.objects[0], map[string]fact.Value{"area_m2": fact.Num(-3), "wet": fact.Truth(true)}))
	f.Renew()
	for range 3 {
		if got := cond.Decide(f).State; got != True || n != 1 {
			t.Errorf("wet: %v after working it out %d times", got, n)
		}
	}
	f.Close()
	f = frames.Open()
	defer f.Close()
	f.Put(0, set(l.objects[0], map[string]fact.Value{"area_m2": fact.Num(3), "wet": fact.Truth(true)}))
	if got := cond.Decide(f).State; got != False || n != 2 {
		t.Errorf("other facts: %v after working it out %d times", got, n)
	}
}

// TestLetUnknownOnce holds that the engine works a let-name out once a round too,
// and that an unstated fact within it is named.
func TestLetUnknownOnce(t *testing.T) {
	l := boatLanguage(t)
	s := l.NewScope()
	s.Let("over", 0, must(t, s, "sail.area_m2 - 2 * mast.height_m", Value))
	cond := must(t, s, "over > 1 || over < -1", Condition)
	f := NewFrames(l, 1).Open()
	defer f.Close()
	f.Put(0, set(l.objects[0], nil))
	f.Put(1, set(l.objects[1], map[string]fact.Value{"height_m": fact.Num(2)}))
	got := cond.Decide(f)
	if got.State != Undecided || len(got.Lacks) != 1 || l.Name(got.Lacks[0]) != "sail.area_m2" {
		t.Errorf("got %+v", got)
	}
	first := f.lets[0].slow
	cond.Decide(f)
	if f.lets[0].slow != first {
		t.Error("the let-name was worked out again in the same round")
	}
}

// short is a record with no room for its fields: reading it panics, as a
// mistake in a function of the language would.
var short = &Record{}

// TestPanicIsAnError holds that a panic in the engine's evaluation is the
// condition's error, and harms no later evaluation in the same frame.
func TestPanicIsAnError(t *testing.T) {
	l := boatLanguage(t)
	loop := must(t, l.NewScope(), "[2.0, 3.0].all(p, p > sail.area_m2)", Condition)
	if loop.quick.truth != nil {
		t.Fatal("loops over a list that is written out are the engine's")
	}
	good := set(l.objects[0], map[string]fact.Value{"area_m2": fact.Num(1)})
	f := NewFrames(l, 0).Open()
	defer f.Close()
	f.Put(0, short)
	if got := loop.Decide(f); got.State != Faulty || !strings.Contains(got.Err, "internal error") {
		t.Errorf("got %+v", got)
	}
	if got := loop.Render(f, 1); got != NotComputed {
		t.Errorf("renders %q", got)
	}
	f.Put(0, good)
	f.Renew()
	if got := loop.Decide(f); got.State != True {
		t.Errorf("after the panic: %+v", got)
	}
}

// TestPanicInClosure holds that a panic in a closure leaves no value of an
// earlier round in a let-name, and that texts and numbers survive it.
func TestPanicInClosure(t *testing.T) {
	l := boatLanguage(t)
	s := l.NewScope()
	s.Let("over", 0, must(t, s, "sail.area_m2 - 1", Value))
	number := must(t, s, "over + 1", Value)
	frames := NewFrames(l, 1)
	f := frames.Open()
	f.Put(0, set(l.objects[0], map[string]fact.Value{"area_m2": fact.Num(5)}))
	if x, ok := number.Number(f); !ok || x != 5 {
		t.Errorf("got %v, %t", x, ok)
	}
	f.Put(0, short)
	f.Renew()
	for range 2 { // the second time the let-name has been tried already
		if x, ok := number.Number(f); ok {
			t.Errorf("a panic gives %v", x)
		}
		if got := number.Render(f, 0); got != NotComputed {
			t.Errorf("a panic renders %q", got)
		}
	}
	f.Close()
}

// TestManyGoroutines evaluates shared programs, and compiles with a shared
// language, from several goroutines at once. The race detector watches.
func TestManyGoroutines(t *testing.T) {
	l := boatLanguage(t)
	s := l.NewScope()
	s.Let("over", 0, must(t, s, "sail.area_m2 - 2 * mast.height_m", Value))
	cond := must(t, s, "over > 1 || sail.panels_m2.exists(p, p > over)", Condition)
	text := must(t, s, "over", Value)
	frames := NewFrames(l, 1)
	var wg sync.WaitGroup
	for g := range 8 {
		wg.Go(func() {
			for i := range 100 {
				area := float64(g*100 + i)
				f := frames.Open()
				f.Put(0, set(l.objects[0], map[string]fact.Value{"area_m2": fact.Num(area), "panels_m2": fact.Nums([]float64{400})}))
				f.Put(1, set(l.objects[1], map[string]fact.Value{"height_m": fact.Num(200)}))
				over := area - 400
				want := over > 1 || 400 > over
				if got := cond.Decide(f).State == True; got != want {
					t.Errorf("an area of %v gives %t", area, got)
				}
				if got := text.Render(f, 0); got != Decimal(over, 0) {
					t.Errorf("an area of %v prints %s", area, got)
				}
				f.Close()
			}
			for range 5 {
				if p, issues := l.NewScope().Compile("sail.reefs > 1 && mast.stayz > 1", Condition); p != nil || len(issues) != 1 {
					t.Errorf("got %v", issues)
				}
			}
		})
	}
	wg.Wait()
}

// TestRoundComesRound holds that no value looks new after four thousand million
// rounds of one frame.
func TestRoundComesRound(t *testing.T) {
	l := boatLanguage(t)
	s := l.NewScope()
	s.Let("over", 0, must(t, s, "sail.reefs + 1", Value))
	p := must(t, s, "over", Value)
	f := NewFrames(l, 1).Open()
	defer f.Close()
	f.round = 1
	f.Put(0, set(l.objects[0], map[string]fact.Value{"reefs": fact.Num(1)}))
	if x, _ := p.Number(f); x != 2 {
		t.Errorf("got %v", x)
	}
	f.round = ^uint32(0)
	f.Put(0, set(l.objects[0], map[string]fact.Value{"reefs": fact.Num(5)}))
	f.Renew()
	if x, _ := p.Number(f); x != 6 {
		t.Errorf("got %v", x)
	}
}
