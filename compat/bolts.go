package compat

import (
	"slices"
	"strings"

	"example.org/cogcourt/compat/report"
)

// bolts are what the steps of the shipped sheet tighten, in words of their own: a
// step says what to do, and not what the bolt is called.
var bolts = map[string]Bolt{
	"bearing":          {Bolt: "cups of the bearing"},
	"ring":             {Bolt: "bolts of the ring", Fact: "bench.ring_bolt_nm"},
	"ring-belt":        {Bolt: "bolts of the front pulley", Fact: "bench.ring_bolt_nm"},
	"crank":            {Bolt: "cranks", Fact: "bench.crank_nm"},
	"lockring":         {Bolt: "lockring of the cogs", Fact: "bench.lockring_nm"},
	"driver":           {Bolt: "tube of the cassette", Fact: "bench.lockring_nm"},
	"wheel":            {Bolt: "rear axle", Fact: "bench.axle_nm"},
	"wheel-full":       {Bolt: "rear axle", Fact: "bench.axle_nm"},
	"axle-nuts":        {Bolt: "nuts of the rear axle", Fact: "bench.axle_nm"},
	"mount":            {Bolt: "rear derailleur", Fact: "bench.torque_nm"},
	"mount-full-tight": {Bolt: "rear derailleur", Fact: "bench.torque_nm"},
	"controller":       {Bolt: "clamp of the controller", Fact: "bench.lever_clamp_nm"},
	"shifter":          {Bolt: "clamp of the shifter", Fact: "bench.lever_clamp_nm"},
	"front-shifter":    {Bolt: "clamp of the front shifter"},
	"cable":            {Bolt: "anchor of the rear cable"},
	"front-bolts":      {Bolt: "front derailleur", Fact: "bench.front_mount_nm"},
	"front-cable":      {Bolt: "anchor of the front cable"},
	"pedals":           {Bolt: "pedals"},
}

// Bolts gives the bolts in the mix with what is wanted of each, in the order in which
// they were tightened; none where the sheet ends before they are gone over.
func (s Sheet) Bolts() []Bolt {
	if !slices.ContainsFunc(s.Steps, func(step SheetStep) bool { return step.ID == report.OverBolts }) {
		return nil
	}
	var out []Bolt
	for _, step := range s.Steps {
		if b, ok := bolts[step.ID]; ok && step.Value != "" {
			b.Wanted = strings.TrimSuffix(step.Value, ".")
			out = append(out, b)
		}
	}
	return out
}
