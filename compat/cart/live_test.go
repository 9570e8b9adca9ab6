package cart_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// shopRule is a rule file of one rule with one example: its limit and what the
// example says can be chosen, so that it does or does not prove.
func shopRule(limit int, want string) fs.FS {
	return filesOf(map[string]string{"shop.yaml": fmt.Sprintf(`pack: shop
edition: %d
rules:
  - id: shop/largest
    title: The largest cog is small
    why: A limit for a test.
    fail_if: last(cassette.cogs_t) > %d
    say: "{last(cassette.cogs_t)} teeth are over %d."
    remedy: Fewer.
    basis: {practice: none}
    examples:
      - {name: thirty, given: {cassette: {cogs_t: [11, 30]}}, want: %s}
`, limit, limit, limit, want)})
}

// A candidate is taken where its rules compile, its examples hold and its parts
// load; on any failure the last good one serves on.
func TestSwap(t *testing.T) {
	noon := time.Date(2031, 5, 1, 12, 0, 0, 0, time.UTC)
	now := noon
	live, err := cart.NewLive(compat.Config{NoStandard: true, Rules: []fs.FS{shopRule(40, "pass")}, Clock: func() time.Time { return now }}, demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	first := live.Status()
	if first.LoadedAt != noon || first.Taken != 1 || first.Refused != 0 || first.LastProblem != nil || first.Rules != 1 || first.Parts < 50 || first.Catalog != "demo (invented)" {
		t.Errorf("%+v", first)
	}
	only := func(files ...fs.FS) compat.Config { return compat.Config{NoStandard: true, Rules: files} }
	bad := []struct {
		name  string
		cfg   compat.Config
		parts fs.FS
		want  string
	}{
		{"does not compile", only(filesOf(map[string]string{"a.yaml": "pack: a\nrules:\n  - {id: a/b, fail_if: cassete.cogs_t}\n"})), demo.Files(), "a.yaml:3:"},
		{"an example does not hold", only(shopRule(20, "pass")), demo.Files(), `shop.yaml:12:9: shop/largest: the example "thirty" gives fail and says pass`},
		{"no rule", only(filesOf(map[string]string{"a.txt": "x"})), demo.Files(), "no rules were found"},
		{"bad parts", only(shopRule(41, "pass")), filesOf(map[string]string{"p.yaml": "parts:\n  - {kind: chains}\n"}), "p.yaml:2:"},
		{"no parts", only(shopRule(41, "pass")), filesOf(map[string]string{"p.txt": ""}), "the folder holds no part file"},
		{"both", only(shopRule(20, "pass")), filesOf(map[string]string{"p.yaml": "parts:\n  - {kind: chains}\n"}), "p.yaml:2:"},
	}
	for i, test := range bad {
		now = now.Add(time.Hour)
		err := live.Swap(test.cfg, test.parts)
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: got %v, want %s", test.name, err, test.want)
		}
		s := live.Status()
		if s.Hash != first.Hash || s.LoadedAt != noon || s.Refused != i+1 || s.LastProblem != err || s.LastProblemAt != now {
			t.Errorf("%s: %+v", test.name, s)
		}
		if got := verdictWith(t, live, 38); got != rules.Pass {
			t.Errorf("%s: the last good rules give %s", test.name, got)
		}
	}
	now = now.Add(time.Hour)
	if err := live.Swap(only(shopRule(35, "pass")), demo.Files()); err != nil {
		t.Fatal(err)
	}
	if s := live.Status(); s.Hash == first.Hash || s.LoadedAt != now || s.Taken != 2 || s.LastProblem == nil {
		t.Errorf("%+v", s)
	}
	if got := verdictWith(t, live, 38); got != rules.Fail {
		t.Errorf("the new rules give %s", got)
	}
}

// verdictWith judges a cassette, and holds that the report names the rules in use.
func verdictWith(t *testing.T, live *cart.Live, largest int) rules.Verdict {
	t.Helper()
	c, parts := live.Now()
	m, err := compat.ReadMix("m.yaml", fmt.Appendf(nil, "{mix: M, parts: {cassette: {cogs_t: [11, %d]}}}", largest), parts)
	if err != nil {
		t.Fatal(err)
	}
	r := c.Check(m)
	if hash := r.RuleSet().Hash; hash != live.Status().Hash {
		t.Errorf("the report names %s, in use is %s", hash, live.Status().Hash)
	}
	return r.Verdict
}

// A rule that a linter may remark on is taken all the same: here a condition
// that can never hold, and a rule without an example.
func TestLintDoesNotBlock(t *testing.T) {
	odd := filesOf(map[string]string{"odd.yaml": `pack: odd
rules:
  - id: odd/never
    title: It never happens
    why: A remark for a test.
    fail_if: last(cassette.cogs_t) > 40 && last(cassette.cogs_t) < 20
    say: Never.
    remedy: None.
    basis: {practice: none}
`})
	if _, err := cart.NewLive(compat.Config{Rules: []fs.FS{odd}}, demo.Files()); err != nil {
		t.Error(err)
	}
}

// brittle is a file system that breaks down when it is opened.
type brittle struct{}

func (brittle) Open(string) (fs.File, error) { panic("the disk is on fire") }

// The errors of three sorts, each produced and each found by errors.As.
func TestErrorSorts(t *testing.T) {
	live, err := cart.NewLive(compat.Config{}, demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	basket := func(text string) error {
		_, err := live.CheckCart(context.Background(), "cart.yaml", []byte(text))
		return err
	}
	_, parts := live.Now()
	_, badMix := compat.ReadMix("mix.yaml", []byte("mix: M\n"), parts)
	canceled, cancel := context.WithCancel(context.Background())
	cancel()
	_, gaveUp := live.CheckCart(canceled, "cart.yaml", []byte("lines:\n  - {id: towrope-9}\n"))
	tests := []struct {
		name string
		err  error
		sort string
	}{
		{"a faulty cart", basket("lines: 3\n"), "input"},
		{"a cart that is no text", basket("\xff\xfe"), "input"},
		{"a faulty mix", badMix, "input"},
		{"faulty parts", live.Swap(compat.Config{}, filesOf(map[string]string{"p.yaml": "parts: 3\n"})), "input"},
		{"faulty rules", live.Swap(compat.Config{Rules: []fs.FS{filesOf(map[string]string{"r.yaml": "rules: 3\n"})}}, demo.Files()), "rule"},
		{"an example that does not hold", live.Swap(compat.Config{Rules: []fs.FS{shopRule(20, "pass")}}, demo.Files()), "rule"},
		{"a disk that breaks down", live.Swap(compat.Config{Rules: []fs.FS{brittle{}}}, demo.Files()), "internal"},
		{"a clock that breaks down", brokenClock(), "internal"},
		{"a cart that was cancelled", gaveUp, "cancelled"},
		{"a good cart", basket("lines:\n  - {id: towrope-9}\n"), "none"},
	}
	for _, test := range tests {
		if got := sortOf(test.err); got != test.sort {
			t.Errorf("%s: is %s, want %s: %v", test.name, got, test.sort, test.err)
		}
		var internal *cart.InternalError
		if errors.As(test.err, &internal) && (internal.Stack == "" || internal.Doing == "" || strings.Contains(test.err.Error(), "goroutine")) {
			t.Errorf("%s: %+v", test.name, internal)
		}
	}
}

func brokenClock() error {
	_, err := cart.NewLive(compat.Config{Clock: func() time.Time { panic(errors.New("no time")) }}, demo.Files())
	return err
}

// sortOf is how a server tells errors apart.
func sortOf(err error) string {
	var internal *cart.InternalError
	var rule *cart.RuleError
	var input source.Problems
	switch {
	case err == nil:
		return "none"
	case errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return "cancelled"
	case errors.As(err, &internal):
		return "internal"
	case errors.As(err, &rule):
		return "rule"
	case errors.As(err, &input):
		return "input"
	}
	return "unknown"
}

// What breaks down inside a rule is that rule's error: the report is whole but
// for it, says so, and is not complete. Here it is the clock, which an adjusted
// rule asks in the middle of being applied.
func TestRuleThatBreaksDown(t *testing.T) {
	adjusted := filesOf(map[string]string{"adjust.yaml": `pack: shop
adjust:
  - {rule: cassette/largest-cog, to: warn, reason: Tried here., by: The workshop, until: 2031-12-31}
`})
	var broken atomic.Bool
	clock := func() time.Time {
		if broken.Load() {
			panic("no time")
		}
		return time.Date(2031, 5, 1, 0, 0, 0, 0, time.UTC)
	}
	live, err := cart.NewLive(compat.Config{Rules: []fs.FS{adjusted}, Clock: clock}, demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	c, parts := live.Now()
	text := "{mix: M, parts: {cassette: {cogs_t: [11, 13, 42], pitch_mm: 4.34}, rear_derailleur: {max_cog_t: 36, capacity_t: 20}, crankset: {rings_t: [40]}, chain: {speeds: 9}}}"
	m, err := compat.ReadMix("m.yaml", []byte(text), parts)
	if err != nil {
		t.Fatal(err)
	}
	whole := c.Check(m)
	broken.Store(true)
	r := c.Check(m)
	broken.Store(false)
	if r.Complete || len(r.Findings()) != len(whole.Findings()) || len(whole.Findings()) < 3 {
		t.Errorf("complete %v, %d findings of %d", r.Complete, len(r.Findings()), len(whole.Findings()))
	}
	want := map[string]rules.Verdict{}
	for _, f := range whole.Findings() {
		want[f.Rule] = f.Verdict
	}
	for _, f := range r.Findings() {
		if f.Rule == "cassette/largest-cog" {
			if f.Verdict != rules.Unknown || !strings.Contains(f.Error, "no time") || !strings.Contains(f.Text, "could not be worked out") {
				t.Errorf("%+v", f)
			}
		} else if f.Verdict != want[f.Rule] || f.Error != "" {
			t.Errorf("%s gives %s, else %s: %s", f.Rule, f.Verdict, want[f.Rule], f.Error)
		}
	}
	if b, err := json.Marshal(r); err != nil || !bytes.Contains(b, []byte(`"complete":false`)) || !bytes.Contains(b, []byte("no time")) {
		t.Errorf("%v: %s", err, b)
	}
	change := compat.Compare(whole, r)
	if len(change.Better)+len(change.Worse) != 1 || len(change.New)+len(change.Gone) > 0 {
		t.Errorf("compared with the whole report: %+v", change)
	}
}
