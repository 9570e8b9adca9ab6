package compat

import (
	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules"
)

// Cautions about brakes, and a motor in a wheel, that no rule judges.
const (
	leverUnjudged = "The brake of the shifter's own lever was not judged: look whether its pull, " +
		"cable or hydraulic, and its fluid are those of the brake."
	armOfHubBrake = "The hub has a brake of its own: its reaction arm is clipped tight to the stay before the first turn of the wheel."
	motorInWheel  = "The motor in the wheel was not judged: unplug its cable before the wheel comes out, " +
		"and tighten nuts and torque arm as they are marked."
)

var (
	rearLever  = catalog.RearShifter.Ref("integrated_brake")
	frontLever = catalog.FrontShifter.Ref("integrated_brake")
	hubMotor   = catalog.Frame.Ref("assist")
	hubBrake   = catalog.Hub.Ref("brake")
)

// brakeCautions tells of a lever that moves a brake which is not in the mix, and of
// a brake or a motor inside the hub.
func (r Report) brakeCautions() []string {
	var out []string
	facts := r.Mix.Facts()
	moves := func(lever rules.Ref) bool {
		v := facts.Value(lever)
		return v.Known && v.Text != "none"
	}
	place, _ := catalog.KindIndex(catalog.Brake.Name())
	if facts.Part(place) == nil && (moves(rearLever) || moves(frontLever)) {
		out = append(out, leverUnjudged)
	}
	if facts.Value(hubBrake).Known {
		out = append(out, armOfHubBrake)
	}
	if facts.Value(hubMotor).Text == "hub" {
		out = append(out, motorInWheel)
	}
	return out
}
