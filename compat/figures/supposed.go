package figures

import (
	"slices"
	"strings"
)

// A supposition is what a figure takes for granted where nobody stated it. What
// counts as assumed marks the figure, so that a rule that fails on it warns; the
// others are conventions, as usual as that a ring is round.
type supposition struct {
	what    string // that is taken
	open    string // what nobody stated then, of what counts as assumed
	safe    string // the direction in which being wrong does no harm
	why     string
	counts  bool     // as assumed
	figures []string // that take it
}

// The suppositions, by their places in the list.
const (
	takesMadeFor = iota
	takesAsManySteps
	takesOnePull
	takesNoTakeUp
	takesTwoLinks
	takesNoSpacer
	takesTipRadius
	takesPulleyFloat
	takesHangerKept
	takesRoundRing
	takesRingOnLine
	takesNoDrop
	takesCrankLength
	takesRingAsCrank
	takesOneRider
	takesNoRecess
	takesFamilyCog
	takesNoMotor
	takesStandardRollers
	takesUniversalThread
)

// suppositions lists every one, with the figures that take it; a test holds the list
// against what the figures do.
var suppositions = []supposition{
	takesMadeFor: {what: "that a motor's steps are as wide as the pitch of the cassette that it is made for",
		open: "the steps of the motor",
		safe: "either: the width of steps shows on the stand, and their number is never supposed",
		why:  "nobody publishes the steps themselves", counts: true,
		figures: []string{"step_positions_mm", "index_share_kind"}},
	takesAsManySteps: {what: "that a motor known by its pitch alone makes no fewer steps than the cogs need, to reckon how far each " +
		"is off",
		open: "the steps of the motor",
		safe: "more steps would lie beyond the last cog and move no error; whether there are more is asked by the count of steps, " +
			"which supposes nothing",
		why: "the error at each cog hangs on the width of the steps alone", counts: true,
		figures: []string{"step_positions_mm", "index_share_kind"}},
	takesOnePull: {what: "that no converter stands between shifter and derailleur",
		safe:    "either: a converter is seen, and without it the numbers would miss by far",
		why:     "converters are rare",
		figures: []string{"step_positions_mm", "index_share_kind", "index_own_set", "index_set_warns"}},
	takesNoTakeUp: {what: "that the first click takes up no slack",
		safe:    "either: it moves the first step alone, and shows on the stand",
		why:     "most pulls are stated without it",
		figures: []string{"step_positions_mm", "index_share_kind"}},
	takesTwoLinks: {what: "two half-inch links to pass the derailleur's pulleys",
		open: "how many half-inch links the derailleur's pulleys want",
		safe: "longer: a link too many hangs slack on small pairs, a link too few tears",
		why:  "the trade's inch", counts: true,
		figures: []string{"chain_pitches_reckoned"}},
	takesNoSpacer: {what: "that no spacer stands behind the cassette",
		open: "whether a spacer stands behind the cassette",
		safe: "more: a stack that stands too high without a spacer stands higher with one; one that is too low asks for it",
		why:  "a spacer that nobody names may lie on the bench", counts: true,
		figures: []string{"lockring_margin_mm", "spacer_off_mm", "spacer_wanted_mm", "spoke_gap_mm", "cog_lines_mm", "dropout_room_mm"}},
	takesTipRadius: {what: "the tip radius of a guide pulley by its teeth, the mean of two published limits",
		open: "the tip radius of the guide pulley",
		safe: "smaller: a pulley that is smaller than reckoned leaves more room",
		why:  "real pulleys are on the low side", counts: true,
		figures: []string{"guide_tip_radius_mm", "guide_bolt_to_cog_mm", "b_gap_measured_mm"}},
	takesPulleyFloat: {what: "a side float of the guide pulley of 0.2 mm",
		open: "how far the guide pulley floats sideways",
		safe: "more: a pulley that floats further forgives more",
		why:  "common practice", counts: true,
		figures: []string{"index_free_play_mm"}},
	takesHangerKept: {what: "that a link which does not say leaves the hanger as it is",
		open: "which hanger the link leaves",
		safe: "either: another hanger is seen when the link is held to it",
		why:  "most links only lower the derailleur", counts: true,
		figures: []string{"mount_hanger"}},
	takesRoundRing: {what: "that a ring is round",
		safe:    "either: an oval ring is seen",
		why:     "most are",
		figures: []string{"ring_reach_t"}},
	takesRingOnLine: {what: "that a single ring stands on the chainline",
		safe:    "either: it is what a chainline is of",
		why:     "a convention of the word",
		figures: []string{"ring_lines_mm"}},
	takesNoDrop: {what: "that a link which does not say does not lower the derailleur",
		safe:    "lower: the rating it reckons is the lesser one",
		why:     "the rating is the derailleur's own then",
		figures: []string{"link_reach_t"}},
	takesCrankLength: {what: "cranks of 175 mm",
		open: "how long the cranks are",
		safe: "shorter: they pull less at the chain",
		why:  "hardly any are longer", counts: true,
		figures: []string{"chain_pull_n"}},
	takesRingAsCrank: {what: "that the ring turns as often as the cranks",
		open: "how often the ring turns for a turn of the cranks",
		safe: "more often: the pull gets less; where it would be out of all proportion it is asked for",
		why:  "so do all rings that a crank carries", counts: true,
		figures: []string{"chain_pull_n"}},
	takesOneRider: {what: "one rider",
		safe:    "either: a tandem is seen",
		why:     "a frame without a timing chain has one",
		figures: []string{"chain_pull_n"}},
	takesNoRecess: {what: "that the frame's end is flat where the chain runs",
		open: "whether the frame's end is hollowed where the chain runs",
		safe: "hollow: it leaves more room",
		why:  "most are, and the others say so", counts: true,
		figures: []string{"dropout_room_mm"}},
	takesFamilyCog: {what: "the smallest cog that bodies of that family take",
		open: "the smallest cog that this very body takes",
		safe: "larger: a hub that takes a smaller cog forgives more",
		why:  "one page or none names it", counts: true,
		figures: []string{"least_cog_t", "least_cog_kind_t"}},
	takesNoMotor: {what: "that a frame which does not say has no motor at the crank",
		safe:    "either: a motor is seen, and a frame that has one says so",
		why:     "most have none",
		figures: []string{"chain_pull_n", "hub_input_nm", "motor_input_nm"}},
	takesStandardRollers: {what: "rollers of the usual diameter on parts for 12 cogs and more",
		open: "which rollers they are made for",
		safe: "smaller than the teeth: it runs, and where one part states the larger ones the others are asked",
		why:  "one road family has the larger ones", counts: true,
		figures: []string{"chain_roller_class", "cog_roller_class", "ring_roller_class"}},
	takesUniversalThread: {what: "that a frame with a universal hanger takes an axle of m12-1.0",
		open: "the thread of the frame's axle",
		safe: "either: an axle of another thread does not screw in, and is not to be forced",
		why:  "the hanger was published with that thread", counts: true,
		figures: []string{"axle_thread"}},
}

// opens names what nobody stated where a figure takes something for granted that counts
// as assumed, of itself or through another that it is made from.
func opens(list []*figure, f *figure) string {
	var all []string
	for _, s := range suppositions {
		takes := s.counts && slices.ContainsFunc(f.from, func(i int) bool { return slices.Contains(s.figures, list[i].Name) })
		if takes && !slices.Contains(all, s.open) {
			all = append(all, s.open)
		}
	}
	return strings.Join(all, ", or ")
}

// suppose notes that the figure in work takes something for granted.
func (m *measuring) suppose(place int) {
	if m.supposed != nil {
		m.supposed(place)
	}
	if !suppositions[place].counts {
		return
	}
	m.doubt.assumed = true
	if m.roots != nil {
		m.doubt.roots = m.merge(m.doubt.roots, m.now.itself)
	}
}

// Supposed says, in a line each, what the figures take for granted where nobody
// stated it, in which direction that is safe, and which figures do.
func Supposed() []string {
	var out []string
	for _, s := range suppositions {
		mark := "convention"
		if s.counts {
			mark = "assumed"
		}
		for _, name := range slices.Sorted(slices.Values(s.figures)) {
			out = append(out, name+" ("+mark+"): "+s.what+". Safe "+s.safe+". Why: "+s.why+".")
		}
	}
	return out
}
