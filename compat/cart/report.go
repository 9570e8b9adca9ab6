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
	begin := time.Now()
	defer func() { tell(with, cart.Name, begin, ended{out.Verdict, err}) }()
	defer rescue("checking a cart", &err)
	p, err := cart.paired(ctx, with, from)
	if err != nil {
		return Report{}, err
	}
	out = p.report(cart.Name)
	err = p.each(ctx, func(i int, bike, then compat.Mix, lines []compat.Difference) error {
		change, err := compat.ExplainContext(ctx, with.Check(bike), with.Check(then), lines)
		if err == nil {
			out.Bikes, out.Places = append(out.Bikes, change), append(out.Places, i)
		}
		return err
	})
	if err != nil {
		return Report{}, err
	}
	out.conclude()
	if o.Mend {
		if err := out.mend(ctx, o, with, from); err != nil {
			return Report{}, err
		}
	}
	return out, nil
}

// ended is how a cart's check ended.
type ended struct {
	verdict rules.Verdict
	err     error
}

// tell gives the checker's observer the end of a cart's check.
func tell(with *compat.Checker, name string, begin time.Time, as ended) {
	if tell := with.Observer(); tell != nil {
		tell(compat.Event{Did: compat.DidCart, Name: name, Took: time.Since(begin), Hash: with.RuleSet().Hash,
			Verdict: as.verdict, Err: as.err})
	}
}

// conclude works out the verdict from the bicycles and the lines.
func (r *Report) conclude() {
	t := tally{worst: rules.Pass}
	for i := range r.Bikes {
		t.add(&r.Bikes[i].After)
	}
	t.conclude(r)
}

// tally is what the bicycles of a cart come to.
type tally struct {
	worst rules.Verdict
	open  bool // the report of one is not complete
	bikes int
}

func (t *tally) add(after *compat.Report) {
	t.bikes++
	t.open = t.open || !after.Complete
	if after.Verdict.Rank() < t.worst.Rank() {
		t.worst = after.Verdict
	}
}

// conclude gives a report its verdict, by its lines too.
func (t tally) conclude(r *Report) {
	r.Verdict, r.Complete = t.worst, !t.open && t.bikes > 0
	for i := range r.Lines {
		r.Complete = r.Complete && r.Lines[i].Use != Ambiguous
	}
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
