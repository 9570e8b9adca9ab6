package compat

import (
	"slices"
	"testing"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
)

// quietSentences say how things should be on such a bicycle.
var quietSentences = []string{
	"there is no spare click",
	"the shifter is not indexed: the rider sets the position by ear", // what a report names itself
	"the hub is fixed: there is nothing to shift",
	"the gears are in the hub: there is no rear derailleur to index",
	"the drive is a belt: its cogs, line, tension and length are not judged",
	"the chain is not one of half an inch",
	"the frame has an idler: measure the chain on the bicycle",
	"a chain for 1/8 inch goes on every cog and ring",
	"no derailleur takes the chain up: the axle is moved until it is right",
	"a derailleur or tensioner takes the chain up",
	"nobody states the chain's count: the count to cut is worked out",
	"it is screwed on as one: no lockring holds it",
	"body and cassette of this family are made in one length",
	"this family is not reckoned by class: state both heights",
	"a single cog has no lockring of a cassette",
	"the cassette is made for another body",
	"the room to the next cog decides",
	"nobody says for how many cogs they are",
	"the connector's own width decides",
	"the connector is no wider than the chain",
	"both heights are stated: the margin decides",
	"the hub has no gears of its own",
	"the cogs are shifted by a derailleur: what its hub gear bears is not judged",
	"the maker of the hub gear states no limit of its drive",
	"a friction lever finds each ring by ear",
	"a motor at the front has no cable",
	"a single ring has no step",
	"the cell is the other part's",
	"the cell does not fit: its form is the fault",
	"the cage is made for another number of rings",
	"the cassette does not go on this body",
	"no body that takes the cassette is stated to be sold for the hub",
	"what is stated of ring and crank differs already",
	"neither ring nor crank is said to have splines",
	"the inset of the smallest cog is only usual: measure it on the hub",
	"one of shifter and rear derailleur has a cable and the other a motor", // which drive/actuation tells
	"one rider alone pulls at the chain: any chain bears it",
	"the body is named, or it is the one that wants no spacer",
}

// Of a figure without meaning it is no news how things should be, and news of every
// other sentence: no figure takes over what was said of an earlier one.
func TestOnlyWhatShouldBeIsQuiet(t *testing.T) {
	quiet, news := 0, 0
	eachReport(t, 400, func(t *testing.T, d random.Draw, r Report) {
		for i, f := range figures.Object.Table().Fields() {
			_, lack := r.Figures.Value(f.Name)
			if lack.Quiet != slices.Contains(quietSentences, lack.Reason) {
				t.Errorf("%s (place %d): %q is quiet: %v", f.Name, i, lack.Reason, lack.Quiet)
			}
			switch {
			case lack.Quiet:
				quiet++
			case lack.Reason != "":
				news++
			}
		}
	})
	if quiet < fewer(20) || news < fewer(100) {
		t.Errorf("only %d quiet and %d other sentences were seen", quiet, news)
	}
}
