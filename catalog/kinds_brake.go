package catalog

import (
	"example.org/cogcourt/rules/fact"
)

// Brake is the field table of the rear brake, as far as a lever that shifts as
// well has to move it.
var Brake = newKind("brake", "The brake that a lever with a shifter in it has to move.", []fact.Field{
	{Name: "pull", Type: fact.Choice, Choices: []string{"short-pull", "long-pull", "hydraulic"},
		Doc: "How it is moved: by little cable as most rim brakes of drop bars, by about twice as much as long-armed rim " +
			"brakes and most cable discs, or by fluid.",
		How: "Read it from the brake's sheet; arms of about 100 mm beside the rim are long-pull, a hose without a wire in " +
			"it is hydraulic.",
		Effort: fact.Low, Also: []string{"brake pull", "cable pull", "linear pull", "brake type"}},
	brakeFluid("fluid"),
})

// Rotor is the field table of brake rotors.
var Rotor = newKind("rotor", "The rotor of the rear disc brake.", []fact.Field{
	{Name: "mount", Type: fact.Choice, Choices: rotorMounts[:2],
		Doc:    "What fixes it to the hub: six-bolt, or splined with a lockring.",
		How:    "Look at its middle: six small holes, or a toothed bore.",
		Effort: fact.Low, Also: []string{"mounting", "disc mount", "disk mount", "rotor interface"}},
	{Name: "diameter_mm", Type: fact.Fraction, Unit: "mm", Min: 100, Max: 260,
		Doc:    "Its outer diameter.",
		How:    "Read it from the rotor, or measure across it with a ruler: 140, 160, 180 and 203 mm are usual.",
		Effort: fact.Low, Also: []string{"rotor size", "disc size", "disc diameter", "disk size"}},
})

func brakeFluid(name string) fact.Field {
	return fact.Field{Name: name, Type: fact.Choice, Choices: []string{"mineral", "dot"},
		Doc:    "The fluid of a hydraulic brake: mineral oil or dot fluid, which must never be mixed.",
		How:    "Read it from the lid of the reservoir or the manual.",
		Effort: fact.Low, Also: []string{"brake oil", "hydraulic fluid", "hydraulic oil"}}
}

// The fields below say of a shifter where it goes and what else hangs on it.

func integratedBrake() fact.Field {
	return fact.Field{Name: "integrated_brake", Type: fact.Choice, Choices: []string{"none", "short-pull", "long-pull", "hydraulic"},
		Doc:    "The brake that the same lever moves: none, a cable brake of short or long pull, or a hydraulic one.",
		How:    "Look whether the brake lever and the shifter are one piece, and for a hose; the sheet says which brakes its pull is for.",
		Effort: fact.Low, Also: []string{"brake lever"}}
}

func side() fact.Field {
	return fact.Field{Name: "side", Type: fact.Choice, Choices: []string{"left", "right", "either"},
		Doc:    "The side of the bar that it is made for, as the rider sits.",
		How:    "Read it from the box, or hold it to the bar: the lever must lie under the thumb or the fingers.",
		Effort: fact.Low, Also: []string{"hand"}}
}

func barKind(what string) fact.Field {
	return fact.Field{Name: "bar_kind", Type: fact.Choice, Choices: []string{"flat", "drop", "bar-end", "down-tube", "stem"},
		Doc:    what + ": flat or drop bar, the bar's open end, a boss on the down tube, or the stem.",
		How:    "Look at it; a clamp of 22.2 mm is for a flat bar, one of 23.8 mm for a drop bar.",
		Effort: fact.Low, Also: []string{"handlebar", "handlebar type", "bar type", "drop bar", "flat bar"}}
}

func sharesClamp() fact.Field {
	return fact.Field{Name: "shares_clamp", Type: fact.Flag,
		Doc:    "Whether it hangs on the clamp of the brake lever and has none of its own.",
		How:    "Look for a band of its own round the bar.",
		Effort: fact.Low, Also: []string{"shared clamp"}}
}
