package cart

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/report"
	"example.org/cogcourt/rules"
)

// Report says what a cart does to each bicycle, and what became of each of its
// lines. The zero Report is of no line and Unknown.
type Report struct {
	Name string

	// Verdict is the worst of the bicycles as they will be: fail over unknown over
	// warn over pass. It is at least unknown where a line is ambiguous, and where
	// the cart changes no bicycle.
	Verdict  rules.Verdict
	Complete bool // every bicycle's report is complete and no line is ambiguous

	Lines []LineResult    // every line of the cart in its order
	Bikes []compat.Change // the bicycles that the cart changes, in their order

	// Places are those of Bikes among the bicycles of the cart, from 0: a bicycle may
	// have no name.
	Places []int

	Mendings []Mending // of bicycles that fail, in their order; nil unless Options.Mend asks

	rules compat.RuleSet
}

// place is that of the i-th of Bikes; in a report that a program made it may be missing.
func (r *Report) place(i int) int {
	if i < len(r.Places) {
		return r.Places[i]
	}
	return i
}

// LineResult is a line of a cart, and what became of it.
type LineResult struct {
	Line
	Use   Use
	Bikes []string // the bicycles that it is fitted to
	Spare int      // how many of the quantity are left over
	Note  string   // why, in one sentence; empty where it goes without saying
}

// Use says what became of a line.
type Use uint8

// The uses of a line. The zero Use is Ambiguous, so that no line is taken for
// fitted or for a bell by being forgotten.
const (
	Ambiguous Use = iota // nobody can know for which bicycle it is, or which part
	Fitted               // to the bicycles of its result
	Spare                // what it brings is fitted already
	Ignored              // it is no drivetrain part that the catalogue knows
)

var useNames = [...]string{"ambiguous", "fitted", "spare", "ignored"}

// Words lists the words of all uses.
func (u Use) Words() []string { return slices.Clone(useNames[:]) }

// String gives the word that reports use.
func (u Use) String() string {
	if int(u) < len(useNames) {
		return useNames[u]
	}
	return fmt.Sprintf("use %d", u)
}

// MarshalText writes the word.
func (u Use) MarshalText() ([]byte, error) { return []byte(u.String()), nil }

// UnmarshalText reads the word that MarshalText writes.
func (u *Use) UnmarshalText(text []byte) error {
	i := slices.Index(useNames[:], string(text))
	if i < 0 {
		return fmt.Errorf("%q is no use of a line; known are %s", text, strings.Join(useNames[:], ", "))
	}
	*u = Use(i)
	return nil
}

// Check finds out which line is for which bicycle, and compares each bicycle
// before and after. Measurements of parts that are replaced are forgotten, see
// compat.Mix.Refit. It fails with source.Problems for a cart that no reader would
// have given, with ctx's error alone once ctx is done, also while causes are looked
// for, and with an *InternalError.
func (cart Cart) Check(ctx context.Context, with *compat.Checker, from *catalog.Catalog) (Report, error) {
	return cart.CheckWith(ctx, with, from, Options{})
}

// CheckWith is Check with options.
func (cart Cart) CheckWith(ctx context.Context, with *compat.Checker, from *catalog.Catalog, o Options) (out Report, err error) {
	if tell := with.Observer(); tell != nil {
		defer func(begin time.Time) {
			tell(compat.Event{Did: compat.DidCart, Name: cart.Name, Took: time.Since(begin), Hash: with.RuleSet().Hash,
				Verdict: out.Verdict, Err: err})
		}(time.Now())
	}
	defer rescue("checking a cart", &err)
	if err := cart.faults(from); err != nil {
		return Report{}, err
	}
	p := newPairing(with, cart, from)
	if err := p.pair(ctx); err != nil {
		return Report{}, err
	}
	out = Report{Name: cart.Name, Lines: p.lines, rules: with.RuleSet(), Complete: true}
	for i, bike := range p.bikes {
		if err := ctx.Err(); err != nil {
			return Report{}, err
		}
		if parts, lines := p.fittedTo(i); len(lines) > 0 {
			change, err := compat.ExplainContext(ctx, with.Check(bike), with.Check(bike.Refit(parts...)), lines)
			if err != nil {
				return Report{}, err
			}
			out.Bikes, out.Places = append(out.Bikes, change), append(out.Places, i)
		}
	}
	out.conclude()
	if o.Mend {
		if err := out.mend(ctx, o, with, from); err != nil {
			return Report{}, err
		}
	}
	return out, nil
}

// conclude works out the verdict from the bicycles and the lines.
func (r *Report) conclude() {
	r.Verdict = rules.Pass
	for _, bike := range r.Bikes {
		if bike.After.Verdict.Rank() < r.Verdict.Rank() {
			r.Verdict = bike.After.Verdict
		}
		r.Complete = r.Complete && bike.After.Complete
	}
	for _, line := range r.Lines {
		r.Complete = r.Complete && line.Use != Ambiguous
	}
	r.Complete = r.Complete && len(r.Bikes) > 0
	if !r.Complete && r.Verdict != rules.Fail {
		r.Verdict = rules.Unknown
	}
}

// Shape gives the form of a report's JSON, from which its schema is made: see
// compat.Report.Shape.
func (r Report) Shape() any { return report.Cart{} }

// String says in one line what became of a line of a cart.
func (l LineResult) String() string {
	out := l.Use.String()
	switch {
	case l.ID != "":
		out = l.ID + ": " + out
	case l.SKU != "":
		out = l.SKU + ": " + out
	}
	for i, bike := range l.Bikes {
		out += []string{" to ", ", "}[min(i, 1)] + calledBike(bike)
	}
	if l.Spare > 0 && l.Use != Spare {
		out += fmt.Sprintf(", %d spare", l.Spare)
	}
	if l.Note != "" {
		out += " (" + l.Note + ")"
	}
	return out
}

// calledBike is what a bicycle is called within a sentence; one that a nameless
// cart makes has no name.
func calledBike(name string) string { return cmp.Or(name, "the bicycle") }
