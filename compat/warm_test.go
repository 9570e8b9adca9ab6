package compat_test

import (
	"context"
	"log/slog"
	"reflect"
	"runtime"
	"strings"
	"testing"
	"time"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

// allocated counts what a function allocates.
func allocated(f func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	f()
	runtime.ReadMemStats(&after)
	return after.Mallocs - before.Mallocs
}

// After Warm the first check with its JSON compiles next to nothing; a checker that is
// not warm shows that the count would tell.
func TestWarm(t *testing.T) {
	m := demoMix(t, "club-two-ring")
	counts := map[bool]uint64{}
	for _, warm := range []bool{false, true} {
		c, err := compat.New(compat.Config{})
		if err != nil {
			t.Fatal(err)
		}
		if warm {
			if err := c.Warm(t.Context()); err != nil {
				t.Fatal(err)
			}
		}
		counts[warm] = allocated(func() { c.Check(m).AppendJSON(nil) })
	}
	t.Logf("%d allocations cold, %d warm", counts[false], counts[true])
	if counts[true]*5 > counts[false] {
		t.Errorf("%d allocations cold, %d warm", counts[false], counts[true])
	}
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	cold, err := compat.New(compat.Config{})
	if err != nil {
		t.Fatal(err)
	}
	var zero compat.Checker
	if cold.Warm(gone) != context.Canceled || zero.Warm(gone) != context.Canceled || zero.Warm(t.Context()) != nil {
		t.Error("the context is not looked at")
	}
	if c, err := compat.NewContext(gone, compat.Config{}); c != nil || err != context.Canceled {
		t.Errorf("%v, %v", c, err)
	}
}

// A cause is not looked for when nobody waits for it.
func TestExplainStops(t *testing.T) {
	c, err := compat.New(compat.Config{})
	if err != nil {
		t.Fatal(err)
	}
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	before, after := c.Check(compat.Mix{}), c.Check(demoMix(t, "club-two-ring"))
	if change, err := compat.ExplainContext(gone, before, after, nil); err != context.Canceled || len(change.New) != 0 {
		t.Errorf("%d new, %v", len(change.New), err)
	}
}

// An event names what it has something to say of, and nothing else.
func TestEventInLogs(t *testing.T) {
	for want, e := range map[string]compat.Event{
		"event.did=check event.name=M event.took=2ms event.hash=h event.verdict=warn": {Did: compat.DidCheck, Name: "M", Took: 2 * time.Millisecond, Hash: "h", Verdict: rules.Warn},
		`event.did=swap event.name="" event.took=1s event.error="context canceled"`:   {Did: compat.DidSwap, Took: time.Second, Err: context.Canceled},
		"event.did=load event.name=Shed event.took=1s event.parts=4":                  {Did: compat.DidLoad, Name: "Shed", Took: time.Second, Parts: 4},
		`event.did=cart event.name=C event.took=1s event.error="context canceled"`:    {Did: compat.DidCart, Name: "C", Took: time.Second, Verdict: rules.Pass, Err: context.Canceled},
	} {
		var out strings.Builder
		slog.New(slog.NewTextHandler(&out, nil)).Info("done", "event", e)
		if !strings.HasSuffix(out.String(), " msg=done "+want+"\n") {
			t.Errorf("it is %s and not %s", out.String(), want)
		}
	}
}

// Findings come one by one in the order of the list, as far as they are asked for.
func TestFindingsOneByOne(t *testing.T) {
	c, err := compat.New(compat.Config{})
	if err != nil {
		t.Fatal(err)
	}
	r := c.Check(demoMix(t, "club-two-ring"))
	want := r.Findings()
	var got []compat.Finding
	for f := range r.All() {
		if got = append(got, f); len(got) == 3 {
			break
		}
	}
	if len(got) != 3 || !reflect.DeepEqual(got, want[:3]) {
		t.Errorf("they are %+v", got)
	}
	for f := range (compat.Report{}).All() {
		t.Errorf("nothing says %+v", f)
	}
}
