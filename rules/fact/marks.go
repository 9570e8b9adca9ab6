package fact

// MostMarks is how many facts Marks tell apart.
const MostMarks = 192

// Marks is a set of facts, for those who gave each of up to MostMarks a bit of its own.
type Marks [MostMarks / 64]uint64

// EveryMark is the set of them all.
var EveryMark = Marks{^uint64(0), ^uint64(0), ^uint64(0)}

// MarkAt is the set of the one with the i-th bit, from 0. It panics beyond MostMarks.
func MarkAt(i int) (out Marks) {
	out[i/64] = 1 << (i % 64)
	return out
}

// Join adds what stands in another set.
func (m *Marks) Join(other Marks) {
	m[0] |= other[0]
	m[1] |= other[1]
	m[2] |= other[2]
}

// Both gives what stands in two sets.
func (m Marks) Both(other Marks) Marks {
	return Marks{m[0] & other[0], m[1] & other[1], m[2] & other[2]}
}

// Meets says whether two sets have one in common.
func (m Marks) Meets(other Marks) bool { return m[0]&other[0]|m[1]&other[1]|m[2]&other[2] != 0 }

// None says whether nothing stands in the set.
func (m Marks) None() bool { return m[0]|m[1]|m[2] == 0 }
