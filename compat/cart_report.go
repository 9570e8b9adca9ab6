package compat

import (
	"context"
	"fmt"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
)

// CartReport says what a cart does to each bicycle, and what became of each of
// its lines.
type CartReport struct {
	Name string

	// Verdict is the worst of the bicycles as they will be: fail over unknown over
	// warn over pass. It is at least unknown where a line is ambiguous, and where
	// the cart changes no bicycle.
	Verdict  rules.Verdict
	Complete bool // every bicycle's report is complete and no line is ambiguous

	Lines []CartLine // every line of the cart in its order
	Bikes []Change   // the bicycles that the cart changes, in their order

	checker *Checker
}

// CheckCart finds out which line is for which bicycle, and compares each bicycle
// before and after. Measurements of parts that are replaced are forgotten, see
// Mix.Refit. It fails with source.Problems for a cart that no reader would have
// given, with ctx's error where it was cancelled between two bicycles, and with
// an *InternalError.
func (c *Checker) CheckCart(ctx context.Context, cart Cart, from *catalog.Catalog) (report CartReport, err error) {
	defer rescue("checking a cart", &err)
	if err := cart.faults(from); err != nil {
		return CartReport{}, err
	}
	p := newPairing(c, cart, from)
	if err := p.pair(ctx); err != nil {
		return CartReport{}, err
	}
	report = CartReport{Name: cart.Name, Lines: p.lines, checker: c, Complete: true}
	for i, bike := range p.bikes {
		if err := ctx.Err(); err != nil {
			return CartReport{}, err
		}
		if parts, lines := p.fittedTo(i); len(lines) > 0 {
			change := compare(c.Check(bike), c.Check(bike.Refit(parts...)), lines)
			report.Bikes = append(report.Bikes, change)
		}
	}
	report.conclude()
	return report, nil
}

// conclude works out the verdict from the bicycles and the lines.
func (r *CartReport) conclude() {
	r.Verdict = rules.Pass
	for _, bike := range r.Bikes {
		if bike.After.Verdict.Rank() < r.Verdict.Rank() {
			r.Verdict = bike.After.Verdict
		}
		r.Complete = r.Complete && bike.After.Complete
	}
	for _, line := range r.Lines {
		r.Complete = r.Complete && line.Use != useAmbiguous
	}
	r.Complete = r.Complete && len(r.Bikes) > 0
	if !r.Complete && r.Verdict != rules.Fail {
		r.Verdict = rules.Unknown
	}
}

// cartJSON is the JSON form of a cart's report.
type cartJSON struct {
	SchemaVersion int           `json:"schema_version"`
	Tool          string        `json:"tool"`
	Rules         ruleSetJSON   `json:"rules"`
	Cart          string        `json:"cart"`
	Verdict       rules.Verdict `json:"verdict"`
	Complete      bool          `json:"complete"`
	Lines         []lineJSON    `json:"lines"`
	Bikes         []bikeJSON    `json:"bikes"`
}

type lineJSON struct {
	Line     int      `json:"line"`
	ID       string   `json:"id"`
	SKU      string   `json:"sku"`
	Name     string   `json:"name"`
	Quantity int      `json:"quantity"`
	Bike     string   `json:"bike"`
	Use      string   `json:"use"`
	Bikes    []string `json:"bikes"`
	Spare    int      `json:"spare"`
	Note     string   `json:"note"`
}

type bikeJSON struct {
	Bike   string `json:"bike"`
	Change Change `json:"change"`
	Report Report `json:"report"` // of the bicycle as it will be
}

// MarshalJSON writes the report, schema_version 1. Every key is always there and
// no list is null. Same cart, same rules, same parts: same bytes.
func (r CartReport) MarshalJSON() ([]byte, error) {
	out := cartJSON{
		SchemaVersion: 1, Tool: "cogcourt " + Version, Cart: r.Name, Verdict: r.Verdict, Complete: r.Complete,
		Rules: ruleSetJSON{Packs: []rules.Pack{}}, Lines: []lineJSON{}, Bikes: []bikeJSON{},
	}
	if r.checker != nil {
		set := r.checker.set
		out.Rules = ruleSetJSON{set.Packs(), set.Hash(), len(set.Rules())}
	}
	for i, l := range r.Lines {
		out.Lines = append(out.Lines, lineJSON{i + 1, l.ID, l.SKU, l.Name, l.Quantity, l.Bike, l.Use, some(l.Bikes), l.Spare, l.Note})
	}
	for _, c := range r.Bikes {
		out.Bikes = append(out.Bikes, bikeJSON{c.After.Mix.name, c, c.After})
	}
	return encode(out)
}

// String says in one line what became of a line of a cart.
func (l CartLine) String() string {
	out := l.Use
	switch {
	case l.ID != "":
		out = l.ID + ": " + out
	case l.SKU != "":
		out = l.SKU + ": " + out
	}
	for i, bike := range l.Bikes {
		out += []string{" to ", ", "}[min(i, 1)] + bike
	}
	if l.Spare > 0 && l.Use != useSpare {
		out += fmt.Sprintf(", %d spare", l.Spare)
	}
	if l.Note != "" {
		out += " (" + l.Note + ")"
	}
	return out
}
