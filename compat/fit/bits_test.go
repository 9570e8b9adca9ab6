package fit

import (
	"slices"
	"testing"
)

// members gives what a set holds, one after the other.
func (s set) members() []int {
	var out []int
	for i := s.next(0); i >= 0; i = s.next(i + 1) {
		out = append(out, i)
	}
	return out
}

// A full set holds what is below its bound, in a word for each 64, and gives up one
// member at a time, on both sides of where words end.
func TestSets(t *testing.T) {
	for n, words := range map[int]int{0: 0, 1: 1, 63: 1, 64: 1, 65: 2, 128: 2, 129: 3, 200: 4} {
		s := full(n)
		var want []int
		for i := range n {
			want = append(want, i)
		}
		if len(s) != words || s.size() != n || !slices.Equal(s.members(), want) || s.empty() != (n == 0) {
			t.Errorf("below %d are %v, in %d words", n, s.members(), len(s))
		}
		for _, out := range []int{0, 63, 64, 65, 127, 128, 130, 199} {
			if out >= n {
				continue
			}
			s := full(n)
			s.drop(out)
			if left := slices.Delete(slices.Clone(want), out, out+1); s.has(out) || !slices.Equal(s.members(), left) {
				t.Errorf("below %d without %d are %v", n, out, s.members())
			}
			if s.add(out); !slices.Equal(s.members(), want) {
				t.Errorf("below %d with %d again are %v", n, out, s.members())
			}
		}
		if !full(n).none().empty() {
			t.Errorf("a set below %d keeps members", n)
		}
	}
}
