package cart_test

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules"
)

// ofRule is a checker of one rule alone, see shopRule; tell hears of what it does.
func ofRule(t testing.TB, limit int, want string, tell func(compat.Event)) *compat.Checker {
	t.Helper()
	c, err := compat.New(compat.Config{NoStandard: true, Rules: []fs.FS{shopRule(limit, want)}, Observe: tell})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Two shops with rules of their own share one catalogue; either takes other rules or
// other parts alone, and the other shop is left as it is.
func TestTwoShopsShareParts(t *testing.T) {
	parts := shelf(t)
	strict, err := cart.LiveOf(t.Context(), ofRule(t, 31, "pass", nil), parts)
	if err != nil {
		t.Fatal(err)
	}
	lenient, err := cart.LiveOf(t.Context(), ofRule(t, 60, "pass", nil), parts)
	if err != nil {
		t.Fatal(err)
	}
	if verdictWith(t, strict, 51) != rules.Fail || verdictWith(t, lenient, 51) != rules.Pass {
		t.Error("the two judge by one set of rules")
	}
	_, one := strict.Now()
	if _, other := lenient.Now(); one != parts || other != parts {
		t.Error("a catalogue was copied")
	}
	held := parts.Parts()
	fewer, err := parts.Without(held[0].ID())
	if err != nil {
		t.Fatal(err)
	}
	if err := strict.SwapParts(t.Context(), fewer); err != nil {
		t.Fatal(err)
	}
	if s, l := strict.Status(), lenient.Status(); s.Parts != len(held)-1 || l.Parts != len(held) || s.Taken != 2 || verdictWith(t, strict, 51) != rules.Fail {
		t.Errorf("%+v, %+v", s, l)
	}
	if err := strict.SwapRules(t.Context(), ofRule(t, 60, "pass", nil)); err != nil {
		t.Fatal(err)
	}
	if s := strict.Status(); s.Parts != len(held)-1 || s.Hash != lenient.Status().Hash || verdictWith(t, strict, 51) != rules.Pass {
		t.Errorf("%+v", s)
	}
}

// Rules that do not prove are refused whichever way they come, and so is what is nothing.
func TestSwapAloneIsRefused(t *testing.T) {
	parts := shelf(t)
	var wrong *cart.RuleError
	if _, err := cart.LiveOf(t.Context(), ofRule(t, 31, "fail", nil), parts); !errors.As(err, &wrong) {
		t.Errorf("rules that do not prove are taken: %v", err)
	}
	live, err := cart.LiveOf(t.Context(), ofRule(t, 31, "pass", nil), parts)
	if err != nil {
		t.Fatal(err)
	}
	before := live.Status()
	for name, err := range map[string]error{
		"unproven":   live.SwapRules(t.Context(), ofRule(t, 32, "fail", nil)),
		"no rules":   live.SwapRules(t.Context(), &compat.Checker{}),
		"no checker": live.SwapRules(t.Context(), nil),
		"no parts":   live.SwapParts(t.Context(), nil),
	} {
		if err == nil {
			t.Errorf("%s: it is taken", name)
		}
	}
	if s := live.Status(); s.Hash != before.Hash || s.Refused != 4 || s.Taken != 1 || s.LastProblem == nil {
		t.Errorf("%+v", s)
	}
	var empty cart.Live
	if err := errors.Join(empty.SwapParts(t.Context(), parts), empty.SwapRules(t.Context(), ofRule(t, 31, "pass", nil))); !strings.Contains(err.Error(), "no rules and no parts") {
		t.Errorf("half of a first candidate: %v", err)
	}
	if err := empty.Swap(compat.Config{}, demo.Files()); err != nil || empty.Status().Taken != 1 {
		t.Errorf("a Live that was nothing: %v", err)
	}
}

// Rules whose files are those in use stay, with what is compiled of them.
func TestEqualRulesStay(t *testing.T) {
	cfg := compat.Config{NoStandard: true, Rules: []fs.FS{shopRule(31, "pass")}}
	live, err := cart.NewLive(cfg, demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	first, parts := live.Now()
	if err := live.Swap(cfg, demo.Files()); err != nil {
		t.Fatal(err)
	}
	if again, others := live.Now(); again != first || others == parts {
		t.Error("the checker is another one, or the parts were not loaded")
	}
	for _, other := range []compat.Config{
		{NoStandard: true, Rules: cfg.Rules, NoUsual: true},
		{NoStandard: true, Rules: cfg.Rules, Clock: time.Now},
		{NoStandard: true, Rules: []fs.FS{shopRule(32, "pass")}},
	} {
		before, _ := live.Now()
		if err := live.Swap(other, demo.Files()); err != nil {
			t.Fatal(err)
		}
		if now, _ := live.Now(); now == before {
			t.Errorf("%+v: the checker is the same", other)
		}
	}
}

// Whoever is told hears of every check, cart, load and swap, of what was refused as well.
func TestObserve(t *testing.T) {
	var guard sync.Mutex
	var heard []string
	tell := func(e compat.Event) {
		guard.Lock()
		defer guard.Unlock()
		what := fmt.Sprintf("%s %s", e.Did, e.Name)
		switch {
		case e.Err != nil:
			what += " not"
		case e.Did == compat.DidCheck || e.Did == compat.DidCart:
			what += " " + e.Verdict.String()
		}
		if heard = append(heard, what); e.Took <= 0 || e.Err == nil && e.Hash == "" && e.Parts == 0 {
			t.Errorf("%+v", e)
		}
	}
	good := compat.Config{NoStandard: true, Rules: []fs.FS{shopRule(31, "pass")}, Observe: tell}
	live, err := cart.NewLive(good, demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	if _, err := live.CheckCart(t.Context(), "c.json", []byte(`{"cart": "Order", "lines": [{"id": "reedbed-12-10-51"}]}`)); err != nil {
		t.Fatal(err)
	}
	if _, err := live.CheckCart(t.Context(), "c.json", []byte(`{`)); err == nil {
		t.Fatal("half a cart is judged")
	}
	if err := live.Swap(compat.Config{NoStandard: true, Rules: []fs.FS{shopRule(31, "fail")}}, demo.Files()); err == nil {
		t.Fatal("a false example is taken")
	}
	want := []string{"load rules", "load demo (invented)", "swap demo (invented)", "check Order unknown", "check Order fail", "cart Order fail",
		"cart c.json not", "load rules", "load demo (invented)", "swap  not"}
	if !slices.Equal(heard, want) {
		t.Errorf("heard are\n%q\nand not\n%q", heard, want)
	}
}

// What nobody waits for any more is left, wherever it is, and is neither taken nor refused.
func TestSwapStops(t *testing.T) {
	live, err := cart.LiveOf(t.Context(), ofRule(t, 31, "pass", nil), shelf(t))
	if err != nil {
		t.Fatal(err)
	}
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	_, parts := live.Now()
	_, first := cart.NewLiveContext(gone, compat.Config{}, demo.Files())
	for name, err := range map[string]error{
		"first": first, "whole": live.SwapContext(gone, compat.Config{}, demo.Files()),
		"parts": live.SwapParts(gone, parts), "rules": live.SwapRules(gone, ofRule(t, 40, "pass", nil)),
	} {
		if err != context.Canceled {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := live.CheckCart(gone, "c.json", []byte(`{"lines": [{"id": "reedbed-12-10-51"}]}`)); err != context.Canceled {
		t.Errorf("a cart: %v", err)
	}
	if s := live.Status(); s.Taken != 1 || s.Refused != 0 {
		t.Errorf("%+v", s)
	}
}

// slow is a folder whose files come when they are let.
type slow struct {
	fs.FS
	let chan struct{}
}

func (s slow) Open(name string) (fs.File, error) {
	<-s.let
	return s.FS.Open(name)
}

// A candidate waits for the one that is tried, but not for longer than it is waited for.
func TestSwapWaitsItsTurn(t *testing.T) {
	parts := shelf(t)
	with := ofRule(t, 31, "pass", nil)
	synctest.Test(t, func(t *testing.T) {
		live, err := cart.LiveOf(t.Context(), with, parts)
		if err != nil {
			t.Fatal(err)
		}
		let := make(chan struct{})
		var all sync.WaitGroup
		all.Go(func() {
			if err := live.Swap(compat.Config{NoStandard: true, Rules: []fs.FS{shopRule(32, "pass")}}, slow{demo.Files(), let}); err != nil {
				t.Error(err)
			}
		})
		synctest.Wait()
		soon, cancel := context.WithTimeout(t.Context(), time.Second)
		defer cancel()
		if err := live.SwapParts(soon, parts); err != context.DeadlineExceeded {
			t.Errorf("it waits for ever: %v", err)
		}
		close(let)
		all.Wait()
		if s := live.Status(); s.Taken != 2 || s.Refused != 0 {
			t.Errorf("%+v", s)
		}
	})
}
