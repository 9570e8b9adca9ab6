package wire

import (
	"math"
	"math/rand/v2"
	"testing"
	"unicode"
)

// same holds what is appended against what encoding/json makes of the value.
func same(t testing.TB, v any, got []byte) {
	t.Helper()
	want, err := Encode(v)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != string(want) {
		t.Errorf("%#v is written %s, not %s", v, got, want)
	}
}

// TestAppendString goes over every character, bytes that are none, and texts made of
// both.
func TestAppendString(t *testing.T) {
	texts := []string{"", "plain", "a\x80b", "\xff", "\xed\xa0\x80", "\xe2\x80", "<b>&amp;", "é\"\\ü"}
	for r := rune(0); r <= unicode.MaxRune; r++ {
		if r < 0x3000 || r >= 0xd800 && r < 0xe010 || r >= 0xfe00 && r < 0x10010 || r%257 == 0 || unicode.Is(unicode.Cf, r) {
			texts = append(texts, "a"+string(r)+"b")
		}
	}
	random := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		b := make([]byte, random.IntN(24))
		for i := range b {
			b[i] = byte(random.IntN(256))
		}
		texts = append(texts, string(b))
	}
	for b := range 256 { // at each place of eight bytes that are looked at together, and behind them
		for at := range 9 {
			eight := []byte("abcdefgh~}!#[]^~ \x21")
			eight[at] = byte(b)
			texts = append(texts, string(eight))
		}
	}
	for _, text := range texts {
		same(t, text, AppendString(nil, text))
		same(t, text, AppendString(nil, []byte(text)))
	}
}

func TestAppendFloat(t *testing.T) {
	list := []float64{0, math.Copysign(0, -1), 1, -1, 0.1, -2.675, 1e-6, 9.9e-7, 1.5e-9, -1e-10, 1e-100, 1e15, 1e15 + 2, -1e15, 1e20, 1e21, 1.5e300,
		math.MaxFloat64, math.SmallestNonzeroFloat64, 1 << 53, 123456789012345, 0.30000000000000004}
	random := rand.New(rand.NewPCG(3, 4))
	for range 5000 {
		list = append(list, math.Float64frombits(random.Uint64()), math.Round(random.NormFloat64()*1e8)/1e6, float64(random.IntN(1e6)))
	}
	for range 20_000 { // on grids, at and beside the ends of what they are good for
		x := float64(random.Int64N(2e15)-1e15) / math.Pow10(random.IntN(16))
		list = append(list, x, math.Nextafter(x, 0), math.Nextafter(x, math.Inf(1)))
	}
	for _, x := range list {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			continue
		}
		same(t, x, AppendFloat(nil, x))
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if got := string(AppendFloat(nil, x)); got != "null" {
			t.Errorf("%v is written %s", x, got)
		}
	}
}

func TestAppendAny(t *testing.T) {
	for _, v := range []any{1.5, true, false, "a\n", []float64{1, 2.5}, []float64{}, []string{"a", "ü"}, []string{}, map[string]int{"a": 1}, nil, 7} {
		same(t, v, AppendAny(nil, v))
	}
	if got := string(AppendAny([]byte("x"), func() {})); got != "xnull" {
		t.Errorf("a function is written %s", got)
	}
}
