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
