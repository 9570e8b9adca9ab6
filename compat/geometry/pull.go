package geometry

// What riders put into a bicycle: the force of one who stands on a pedal, in N,
// from the strength rules of the trade, and the torque at the crank that a maker of
// geared hubs reckons a rider with, in N m.
const (
	pedalForce  = 1500
	riderTorque = 250
)

// Drive is what pulls at the chain: riders on cranks of so many mm, and a motor at
// the crank. Factor is how often the ring turns for a turn of the crank, 1 unless
// the motor gears it up.
type Drive struct {
	Riders, Crank, Assist, Factor float64 // one or two; mm; N m; ratio
}

// ChainPull is the pull on a half-inch chain, in N, on a ring of so many teeth:
// (riders x 1500 N x crank + assist) / (ring's radius x factor).
func (d Drive) ChainPull(ring float64) float64 {
	radius := PitchDiameter(Pitch, ring) / 2000
	if !positive(d.Riders, d.Crank, d.Factor, radius) || !notNegative(d.Assist) {
		return nan()
	}
	return bounded((d.Riders*pedalForce*d.Crank/1000 + d.Assist) / (radius * d.Factor))
}

// HubInput is the torque at a geared hub's sprocket, in N m, of a rider and a motor
// at the crank (N m): (250 + assist) x cog / ring.
func HubInput(assist, ring, cog float64) float64 {
	return bounded(MotorInput(assist, ring, cog) + riderTorque*bounded(cog/ring))
}

// MotorInput is the part of HubInput that the motor alone makes up.
func MotorInput(assist, ring, cog float64) float64 {
	if !notNegative(assist) || !positive(ring, cog) {
		return nan()
	}
	return bounded(assist * cog / ring)
}
