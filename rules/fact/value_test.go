package fact

import "testing"

func TestValueString(t *testing.T) {
	tests := []struct {
		value Value
		want  string
	}{
		{Value{}, "(not stated)"},
		{Num(3.65), "3.65"},
		{Num(0), "0"},
		{Nums([]float64{11, 13.5}), "[11, 13.5]"},
		{Nums([]float64{}), "[]"},
		{Word("cable"), "cable"},
		{Texts("a", "b"), "[a, b]"},
		{Texts([]string{}...), "[]"},
		{Truth(true), "1"},
		{Truth(false), "0"},
	}
	for _, test := range tests {
		if got := test.value.String(); got != test.want {
			t.Errorf("got %s, want %s", got, test.want)
		}
	}
}

// Between its ends a spread is tried at numbers that anybody might state: sums of them
// come out even, and a reader can type one in.
func TestSpreadAtSixDecimals(t *testing.T) {
	s := &Spread{Least: 3.5, Most: 3.7}
	for _, c := range []struct{ to, want float64 }{{-1, 3.5}, {0, 3.65}, {1, 3.7}, {1.0 / 3, 3.666667}, {-1.0 / 7, 3.628571}} {
		if got := s.At(3.65, c.to, false); got != c.want {
			t.Errorf("at %v it gives %v, want %v", c.to, got, c.want)
		}
	}
	if got := (&Spread{Least: 11, Most: 14}).At(12, 0.3, true); got != 13 {
		t.Errorf("a count is tried at %v", got)
	}
}
