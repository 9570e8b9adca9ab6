// Package geometry holds the formulas behind the figures: pure functions of
// numbers, with no parts, records or rules. It imports math and nothing else.
//
// Lengths are millimetres, angles degrees, teeth and chain lengths plain counts;
// a chain is counted in pitches of half an inch. Positions grow from the
// smallest cog towards the spokes, and every list runs that way. An index error
// is step less cog: where it is positive, the pulley stands too far towards the
// spokes. Lines are distances from the frame's middle plane, outboard positive.
//
// How far a row of steps misses a cassette, and what is left of the miss once
// the offset is set:
//
//	cogs := geometry.EvenPositions(nil, 12, 3.75)
//	steps := geometry.EvenPositions(nil, 12, 3.65)
//	ix := geometry.MeasureIndex(steps, cogs)
//	// ix.Offset 0.55 towards the spokes, ix.Residual 0.55, a share of 0.147
//
// Nothing panics and nothing is logged. What lies outside the domain of a
// formula is NaN: an input that is not finite, a count below one, lists that do
// not fit each other, a result too large to hold. A list that cannot be formed
// is one NaN, never an empty list, so that no condition on all of its entries
// can hold by accident. Results are never infinite.
//
// Functions that give a list append to dst, which may be nil, and allocate only
// when it is too short. All others allocate nothing.
package geometry
