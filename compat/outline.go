package compat

import "example.org/cogcourt/rules"

// Outline is all that the drawings of a report are made of: what is where, how wide it
// is, and the limits that were judged by. It has no NaN; what is not known is told
// apart from 0, and why it is not known stands in Lacks. Lists run from the smallest
// cog and from the largest ring. It marshals with the keys of its fields.
//
// A front end that draws for itself needs nothing else; package compat/picture draws
// from it too.
type Outline struct {
	Mix         string        `json:"mix" doc:"What the mix is called."`
	Cogs        []OutlineCog  `json:"cogs" doc:"The cogs, smallest first; empty where nobody counted them."`
	Rings       []OutlineRing `json:"rings" doc:"The rings in use, largest first."`
	Thickness   Number        `json:"thickness" doc:"How thick a cog is, mm."`
	Chainstay   Number        `json:"chainstay" doc:"From the crank's axle to the wheel's at rest, mm."`
	OverLocknut Number        `json:"over_locknut" doc:"The width of the hub over its locknuts, mm."`
	Turn        Number        `json:"turn" doc:"Metres a turn of the wheel."`
	Index       OutlineIndex  `json:"index" doc:"How the steps meet the cogs."`
	Chain       OutlineChain  `json:"chain" doc:"The chain."`
	Guide       OutlineGuide  `json:"guide" doc:"The guide pulley under the largest cog."`
	Lacks       []OutlineLack `json:"lacks" doc:"What is not known of a drawing, and why."`
}

// Number is one number of an outline. The zero Number is not known, which is not 0.
type Number struct {
	Value   float64 `json:"value" doc:"The number; 0 where it is not known."`
	Known   bool    `json:"known" doc:"Whether it is known."`
	Assumed bool    `json:"assumed" doc:"Nobody stated it: a convention stands in, for it or behind it."`
	Usual   bool    `json:"usual" doc:"Nobody stated it: it is usual, or rests on what is."`
}

// OutlineCog is one cog.
type OutlineCog struct {
	Teeth       Number        `json:"teeth" doc:"Its teeth."`
	Position    Number        `json:"position" doc:"Its middle from that of the smallest cog, mm inward."`
	Line        Number        `json:"line" doc:"Its middle from the frame's middle plane, mm outward."`
	PitchRadius Number        `json:"pitch_radius" doc:"From the axle to the pins of a chain that lies on it, mm."`
	TipRadius   Number        `json:"tip_radius" doc:"From the axle to the tips of its teeth, mm."`
	Error       Number        `json:"error" doc:"Where the guide pulley stands beside it after the best offset, mm towards the spokes."`
	Warn        Number        `json:"warn" doc:"The error up to which it passes, mm, by its nearer neighbour."`
	Fail        Number        `json:"fail" doc:"The error up to which it does not fail, mm, by its nearer neighbour."`
	Verdict     rules.Verdict `json:"verdict" doc:"What its error comes to, no worse than the rule; unknown where it is not judged."`
	Gap         Number        `json:"gap" doc:"The room between a chain on it and the next larger cog, mm; not known of the last."`
	GapVerdict  rules.Verdict `json:"gap_verdict" doc:"What that room comes to by the chain's limits."`
	Rub         Number        `json:"rub" doc:"The room of the chain on it to its neighbours, less half of the error, mm."`
}

// OutlineRing is one ring.
type OutlineRing struct {
	Teeth       Number    `json:"teeth" doc:"Its teeth."`
	Line        Number    `json:"line" doc:"Its middle from the frame's middle plane, mm outward."`
	PitchRadius Number    `json:"pitch_radius" doc:"From the axle to the pins of a chain that lies on it, mm."`
	TipRadius   Number    `json:"tip_radius" doc:"From the axle to the tips of its teeth, mm."`
	Ratios      []float64 `json:"ratios" doc:"Turns of the wheel for one of the cranks, on each cog; empty where cogs are not known."`
}

// OutlineIndex is how the steps meet the cogs.
type OutlineIndex struct {
	Offset   Number   `json:"offset" doc:"How far all steps are moved so that the worst error is least, mm towards the spokes."`
	Residual Number   `json:"residual" doc:"The worst error that is left, mm."`
	Align    Number   `json:"align" doc:"The cog to align on, counted from the smallest as 1."`
	ByName   bool     `json:"by_name" doc:"The three are known as one set, so that no limit is held against each cog."`
	Open     bool     `json:"open" doc:"Whether the errors are within the limits is not decided: usual values leave it open."`
	Taken    []string `json:"taken" doc:"What was taken as usual or assumed, in words."`
}

// OutlineChain is the chain.
type OutlineChain struct {
	Outer         Number        `json:"outer" doc:"Its width over the pins, mm."`
	Inner         Number        `json:"inner" doc:"Its width between the inner plates, mm."`
	GapWarn       Number        `json:"gap_warn" doc:"The room to the next larger cog under which it warns, mm."`
	GapFail       Number        `json:"gap_fail" doc:"The room to the next larger cog under which it fails, mm."`
	AngleLargest  Number        `json:"angle_largest" doc:"Its angle on the largest pair, degrees, positive where the ring is further out."`
	AngleSmallest Number        `json:"angle_smallest" doc:"Its angle on the smallest ring and cog, degrees."`
	Rest          Number        `json:"rest" doc:"Half-inch links on the largest ring and cog at rest."`
	Longest       Number        `json:"longest" doc:"The same where the axle is farthest from the crank."`
	Count         Number        `json:"count" doc:"Half-inch links of the chain on the bicycle."`
	Counted       bool          `json:"counted" doc:"The count is that of a chain that is there, and not one to cut to."`
	Spare         Number        `json:"spare" doc:"The count less the longest length."`
	Slack         Number        `json:"slack" doc:"The count less the length on the smallest ring and cog."`
	HeldBy        string        `json:"held_by" doc:"What takes up its slack: derailleur, tensioner or axle; empty where it is not known."`
	SpareWarn     Number        `json:"spare_warn" doc:"The links to spare under which it warns."`
	SpareFail     Number        `json:"spare_fail" doc:"The links to spare under which it fails."`
	SpareVerdict  rules.Verdict `json:"spare_verdict" doc:"What the links to spare come to; unknown where they are not judged."`
	Taken         []string      `json:"taken" doc:"What was taken as usual or assumed of its length, in words."`
	WidthTaken    []string      `json:"width_taken" doc:"What was taken as usual or assumed of its room between the cogs, in words."`
}

// OutlineGuide is the guide pulley under the largest cog.
type OutlineGuide struct {
	Gap       Number   `json:"gap" doc:"The wanted room between the tips of the two, mm."`
	Bolt      Number   `json:"bolt" doc:"From the largest cog's tips to the middle of the pulley's bolt as wanted, mm."`
	TipRadius Number   `json:"tip_radius" doc:"From the bolt to the tips of the pulley's teeth, mm."`
	Measured  Number   `json:"measured" doc:"The room between the tips as measured, mm."`
	Taken     []string `json:"taken" doc:"What was taken as usual or assumed, in words."`
}

// OutlineLack says why something of a drawing is not known.
type OutlineLack struct {
	Of   string `json:"of" doc:"The drawing, or top or guide of the views."`
	Text string `json:"text" doc:"Why it is not drawn, in a sentence."`
}

// Lack gives why a drawing, or top or guide of the views, cannot be drawn; it is not ok
// where it can.
func (o Outline) Lack(of string) (lack OutlineLack, ok bool) {
	for _, l := range o.Lacks {
		if l.Of == of {
			return l, true
		}
	}
	return OutlineLack{}, false
}
