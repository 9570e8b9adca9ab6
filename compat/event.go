package compat

import (
	"log/slog"
	"time"

	"example.org/cogcourt/rules"
)

// Event is something that was done, for logs and metrics: Config.Observe is told of it
// at once, in the goroutine that did it, and must not panic. The library itself logs
// nothing. A cart is told of behind the checks of its bicycles, a swap behind the loads
// that it takes.
//
//	cfg.Observe = func(e compat.Event) { slog.Info("cogcourt", "event", e) }
type Event struct {
	Did     Did
	Name    string        // of the mix, the cart or the catalogue; "rules" where rules are loaded
	Took    time.Duration // by the monotonic clock
	Hash    string        // of the rules, as reports name it; empty where there are none
	Verdict rules.Verdict // of a check or a cart
	Parts   int           // of a catalogue that is loaded or taken into use
	Err     error         // why it was not done, nil where it was
}

// Did says what was done.
type Did string

// What is done.
const (
	DidCheck Did = "check" // a mix was judged: it has no error
	DidCart  Did = "cart"  // a cart was judged
	DidLoad  Did = "load"  // rules or a catalogue were loaded
	DidSwap  Did = "swap"  // a candidate was taken into use, or was not
)

// LogValue gives what an event says as a group: did, name and took, and of the others
// those that it has something to say of.
func (e Event) LogValue() slog.Value {
	out := []slog.Attr{slog.String("did", string(e.Did)), slog.String("name", e.Name), slog.Duration("took", e.Took)}
	if e.Hash != "" {
		out = append(out, slog.String("hash", e.Hash))
	}
	if e.Err == nil && (e.Did == DidCheck || e.Did == DidCart) {
		out = append(out, slog.String("verdict", e.Verdict.String()))
	}
	if e.Parts > 0 {
		out = append(out, slog.Int("parts", e.Parts))
	}
	if e.Err != nil {
		out = append(out, slog.String("error", e.Err.Error()))
	}
	return slog.GroupValue(out...)
}

// Observer gives who is told of what is done with the checker, nil for nobody.
func (c *Checker) Observer() func(Event) {
	if c == nil {
		return nil
	}
	return c.observe
}

// begin asks for the time where somebody wants to know.
func (c *Checker) begin() time.Time {
	if c.observe == nil {
		return time.Time{}
	}
	return time.Now()
}

// checked tells of a mix that was judged.
func (c *Checker) checked(begin time.Time, r Report) {
	if c.observe != nil {
		c.observe(Event{Did: DidCheck, Name: r.Mix.Name(), Took: time.Since(begin), Hash: r.RuleSet().Hash, Verdict: r.Verdict})
	}
}
