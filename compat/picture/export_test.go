package picture

import "fmt"

// Faults lists the labels of a drawing that lie over another or outside, and says how
// many labels it has.
func (p Picture) Faults() (faults []string, labels int) {
	for i, b := range p.on.boxes {
		if b.from.x < 0 || b.from.y < 0 || b.to.x > p.on.size.x || b.to.y > p.on.size.y {
			faults = append(faults, fmt.Sprintf("%q lies outside: %v of %v", b.text, b, p.on.size))
		}
		for _, other := range p.on.boxes[:i] {
			if b.meets(other) {
				faults = append(faults, fmt.Sprintf("%q lies over %q", b.text, other.text))
			}
		}
	}
	return faults, len(p.on.boxes)
}

// Left gives the labels for which there was no room.
func (p Picture) Left() []string { return p.on.left }

// Tangent is tangent of two circles, each as x, y, radius and turn.
func Tangent(a, b [4]float64) (from, to [2]float64) {
	p, q := tangent(wheel{pt{a[0], a[1]}, a[2], a[3]}, wheel{pt{b[0], b[1]}, b[2], b[3]})
	return [2]float64{p.x, p.y}, [2]float64{q.x, q.y}
}
