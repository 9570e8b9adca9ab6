package main

import (
	"fmt"
	"strings"
	"testing/fstest"
)

// check is one rule in each engine's own words. Where an engine needs no other
// words than cogcourt, its text is empty.
type check struct {
	id         string
	fail, warn string // cogcourt
	celFail    string // cel-go on maps, where whole numbers and fractions do not mix
	celWarn    string

	rego string // the body of a rule that gives the verdict
}

// checks are the rules of the table: conditions of the standard pack over facts
// of parts and over figures.
var checks = []check{
	{id: "drive/actuation", fail: "rear_shifter.actuation != rear_derailleur.actuation",
		rego: `input.rear_shifter.actuation != input.rear_derailleur.actuation`},
	{id: "drive/radio", fail: "rear_shifter.radio != rear_derailleur.radio",
		rego: `input.rear_shifter.radio != input.rear_derailleur.radio`},
	{id: "cassette/largest-cog", fail: "last(cassette.cogs_t) - rear_derailleur.max_cog_t > 4", warn: "last(cassette.cogs_t) - rear_derailleur.max_cog_t > 0",
		celFail: "cassette.cogs_t[size(cassette.cogs_t) - 1] - rear_derailleur.max_cog_t > 4.0", celWarn: "cassette.cogs_t[size(cassette.cogs_t) - 1] - rear_derailleur.max_cog_t > 0.0",
		rego: `input.cassette.cogs_t[count(input.cassette.cogs_t)-1] - input.rear_derailleur.max_cog_t > %s`},
	{id: "cassette/capacity", fail: "figures.chain_wrap_t - rear_derailleur.capacity_t > 3", warn: "figures.chain_wrap_t - rear_derailleur.capacity_t > 0",
		rego: `input.figures.chain_wrap_t - input.rear_derailleur.capacity_t > %s`},
	{id: "index/residual", fail: "figures.index_residual_share > 0.2", warn: "figures.index_residual_share > 0.125",
		rego: `input.figures.index_residual_share > %s`},
	{id: "index/trim-range", warn: "abs(figures.index_offset_mm) > rear_derailleur.trim_range_mm / 2",
		celWarn: "(figures.index_offset_mm < 0.0 ? -figures.index_offset_mm : figures.index_offset_mm) > rear_derailleur.trim_range_mm / 2.0",
		rego:    `abs(input.figures.index_offset_mm) > input.rear_derailleur.trim_range_mm / 2`},
	{id: "chain/neighbour-gap", fail: "figures.neighbour_gap_mm < -0.08", warn: "figures.neighbour_gap_mm < 0.05",
		rego: `input.figures.neighbour_gap_mm < %s`},
	{id: "chain/roller", fail: "chain.roller_class == 'large' && (cassette.roller_class == 'standard' || crankset.roller_class == 'standard')",
		rego: "input.chain.roller_class == \"large\"\n\tclash"},
	{id: "chain/length", fail: "figures.chain_margin_pitches < 1.0", warn: "figures.chain_margin_pitches < 1.95",
		rego: `input.figures.chain_margin_pitches < %s`},
	{id: "hub/over-locknut", fail: "abs(hub.over_locknut_mm - frame.over_locknut_mm) > 3.0", warn: "abs(hub.over_locknut_mm - frame.over_locknut_mm) > 1.0",
		celFail: "hub.over_locknut_mm - frame.over_locknut_mm > 3.0 || frame.over_locknut_mm - hub.over_locknut_mm > 3.0",
		celWarn: "hub.over_locknut_mm - frame.over_locknut_mm > 1.0 || frame.over_locknut_mm - hub.over_locknut_mm > 1.0",
		rego:    `abs(input.hub.over_locknut_mm - input.frame.over_locknut_mm) > %s`},
	{id: "hub/freehub", fail: "!(hub.freehub in cassette.freehub)", rego: `not input.hub.freehub in input.cassette.freehub`},
	{id: "line/angle-largest", warn: "figures.backpedal_entry_mm > 0.82", rego: `input.figures.backpedal_entry_mm > %s`},
}

// limits are the numbers of the rego bodies, fail and warn.
var limits = map[string][2]string{
	"cassette/largest-cog": {"4", "0"}, "cassette/capacity": {"3", "0"}, "index/residual": {"0.2", "0.125"},
	"chain/neighbour-gap": {"-0.08", "0.05"}, "chain/length": {"1.0", "1.95"}, "hub/over-locknut": {"3", "1"}, "line/angle-largest": {"", "0.82"},
}

// pack writes the checks as a rule file of cogcourt.
func pack() fstest.MapFS {
	var b strings.Builder
	b.WriteString("pack: peers\nrules:\n")
	for _, c := range checks {
		fmt.Fprintf(&b, "  - id: %s\n    title: sound\n    why: to compare\n    say: a fault\n    remedy: mend it\n    basis: {practice: the standard pack}\n", c.id)
		if c.fail != "" {
			fmt.Fprintf(&b, "    fail_if: %q\n", c.fail)
		}
		if c.warn != "" {
			fmt.Fprintf(&b, "    warn_if: %q\n", c.warn)
		}
	}
	return fstest.MapFS{"peers.yaml": {Data: []byte(b.String())}}
}

// module writes the checks as one rego module: the set of failed and of warned
// ids.
func module() string {
	var b strings.Builder
	b.WriteString("package peers\n\nclash if input.cassette.roller_class == \"standard\"\n\nclash if input.crankset.roller_class == \"standard\"\n")
	for _, c := range checks {
		for i, name := range []string{"fails", "warns"} {
			body := c.rego
			if [2]string{c.fail, c.warn}[i] == "" {
				continue
			}
			if strings.Contains(body, "%s") {
				body = fmt.Sprintf(body, limits[c.id][i])
			}
			fmt.Fprintf(&b, "\n%s contains %q if {\n\t%s\n}\n", name, c.id, body)
		}
	}
	return b.String()
}
