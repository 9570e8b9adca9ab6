package fit

import "math/bits"

// set is a set of small numbers.
type set []uint64

// full is the set of the numbers below n.
func full(n int) set {
	s := make(set, (n+63)/64)
	for i := range n {
		s.add(i)
	}
	return s
}

// none takes all members out.
func (s set) none() set {
	clear(s)
	return s
}

func (s set) add(i int)      { s[i/64] |= 1 << (i % 64) }
func (s set) drop(i int)     { s[i/64] &^= 1 << (i % 64) }
func (s set) has(i int) bool { return s[i/64]&(1<<(i%64)) != 0 }

// size counts the members.
func (s set) size() int {
	n := 0
	for _, w := range s {
		n += bits.OnesCount64(w)
	}
	return n
}

// next gives the least member from i on, -1 where there is none.
func (s set) next(i int) int {
	for at := i / 64; at < len(s); at++ {
		w := s[at]
		if at == i/64 {
			w &= ^uint64(0) << (i % 64)
		}
		if w != 0 {
			return at*64 + bits.TrailingZeros64(w)
		}
	}
	return -1
}

// empty says whether there is no member.
func (s set) empty() bool { return s.next(0) < 0 }
