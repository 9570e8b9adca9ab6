package fact

// Grid is the step between two numbers of the field that somebody can tell apart: a
// hundredth of a millimetre by a caliper, a tenth of a newton metre by a wrench, a
// thousandth of what has no unit, such as a ratio. It is 0 for what is no number.
func (f Field) Grid() float64 {
	switch f.Type {
	case Whole, Wholes:
		return 1
	case Fraction, Fractions:
	default:
		return 0
	}
	switch f.Unit {
	case "":
		return 0.001
	case "percent", "N m", "deg", "C":
		return 0.1
	case "N":
		return 1
	}
	return 0.01
}
