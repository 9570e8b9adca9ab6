package expr

import "testing"

// TestEitherWay holds which conditions may hold between two values of a number alone.
func TestEitherWay(t *testing.T) {
	for turned, want := range map[sense]sense{rising: falling, falling: rising, both: both, 0: 0} {
		if got := turned.turned(); got != want {
			t.Errorf("%d turned is %d, want %d", turned, got, want)
		}
		if got := turned.within(falling); got != want {
			t.Errorf("%d within what falls is %d, want %d", turned, got, want)
		}
	}
	r := Read{0, 0}
	up, down := &Program{reads: []Read{r}, senses: []sense{rising}}, &Program{reads: []Read{r}, senses: []sense{falling}}
	if EitherWay(r, up) || EitherWay(r, up, up) || !EitherWay(r, up, down) || EitherWay(Read{0, 1}, up, down) {
		t.Error("a number is not told that goes either way")
	}
}
