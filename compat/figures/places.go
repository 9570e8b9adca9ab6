package figures

import "math/bits"

// places is a set of figures, by their places in the table.
type places [mostFigures / 64]uint64

func (s *places) add(place int) { s[place/64] |= 1 << (place % 64) }

func (s *places) join(other *places) {
	for i := range s {
		s[i] |= other[i]
	}
}

// both gives what stands in two sets.
func (s *places) both(other *places) places {
	var out places
	for i := range s {
		out[i] = s[i] & other[i]
	}
	return out
}

// all goes over the set, the lowest first.
func (s *places) all(yield func(place int) bool) {
	for i, word := range s {
		for ; word != 0; word &= word - 1 {
			if !yield(i*64 + bits.TrailingZeros64(word)) {
				return
			}
		}
	}
}

// allPlaces is every figure of the table.
var allPlaces = func() (out places) {
	for i := range table {
		out.add(i)
	}
	return out
}()
