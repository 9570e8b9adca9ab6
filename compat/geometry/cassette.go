package geometry

// EvenPositions appends the positions, in mm from the first, of n rows that
// stand pitch mm apart: 0, P, 2 P and so on. It serves cogs and steps alike. For
// one row the pitch does not matter.
func EvenPositions(dst []float64, n int, pitch float64) []float64 {
	if n < 1 || (n > 1 && !positive(pitch, pitch*float64(n-1))) {
		return append(dst, nan())
	}
	dst = append(dst, 0)
	for i := 1; i < n; i++ {
		dst = append(dst, pitch*float64(i))
	}
	return dst
}

// ScaledPositions appends the positions, in mm from the first, of rows whose
// distances stand to each other as those given, and that end the whole way, in mm,
// from the first.
func ScaledPositions(dst, distances []float64, way float64) []float64 {
	start := len(dst)
	dst = Positions(dst, distances)
	last := dst[len(dst)-1]
	if !positive(way, last) {
		return append(dst[:start], nan())
	}
	for i := range dst[start:] {
		dst[start+i] *= way / last
	}
	return dst
}

// Positions appends 0 and the running sums of the distances (mm, all positive)
// from each row to the next: one position more than there are distances.
func Positions(dst, distances []float64) []float64 {
	start, at := len(dst), 0.0
	dst = append(dst, 0)
	for _, d := range distances {
		at += d
		if !positive(d, at) {
			return append(dst[:start], nan())
		}
		dst = append(dst, at)
	}
	return dst
}

// PitchFromStack is the distance between neighbouring cogs, in mm, of a cassette
// of n evenly spaced cogs (2 or more) whose stack from outer face to outer face
// and whose cogs have these thicknesses (mm): (stack - cog) / (n - 1).
func PitchFromStack(stack, thickness float64, n int) float64 {
	if n < 2 || !positive(thickness, stack-thickness) {
		return nan()
	}
	return bounded((stack - thickness) / float64(n-1))
}

// StackHeight is the distance, in mm, from the outer face of the first to the
// outer face of the last cog: from the first to the last of the positions, and
// one thickness (mm).
func StackHeight(cogs []float64, thickness float64) float64 {
	if !positive(thickness) || len(cogs) == 0 || !finite(cogs...) {
		return nan()
	}
	if len(cogs) > 1 && !rising(cogs) {
		return nan()
	}
	return bounded(cogs[len(cogs)-1] - cogs[0] + thickness)
}
