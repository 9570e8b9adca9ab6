package wire

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"example.org/cogcourt/internal/blind"
)

// FuzzAppend writes any text and any number: the bytes are those of encoding/json with what
// would draw or hide escaped, and whoever reads them gets the same back.
func FuzzAppend(f *testing.F) {
	seeds := []string{"plain", "a\"b\\c", "é ± 0.05\u2028\u202e", "\xff\xed\xa0\x80\U000e0041", "12345678", "\x00\x00\x00\x00\x00\x00\xf0\x3f", "<script>&amp;"}
	blind.Fuzz(f, seeds, func(t testing.TB, text []byte, choice byte) bool {
		wrote := AppendString(nil, text)
		same(t, string(text), wrote)
		same(t, string(text), AppendString(nil, string(text)))
		var back string
		if err := json.Unmarshal(wrote, &back); err != nil || back != strings.ToValidUTF8(string(text), "\ufffd") && utf8.Valid(text) {
			t.Errorf("%q is read as %q, %v", text, back, err)
		}
		for _, r := range string(wrote) {
			if unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp) {
				t.Errorf("%q holds %U", wrote, r)
			}
		}
		for _, x := range numbersOf(text, choice) {
			sameFloat(t, x)
		}
		return len(text) < 64 // longer texts are no better ones
	})
}

// numbersOf makes numbers of bytes: any bits, and decimals as a report has them.
func numbersOf(text []byte, choice byte) []float64 {
	var bits uint64
	for _, b := range text[:min(len(text), 8)] {
		bits = bits<<8 | uint64(b)
	}
	decimal := float64(int64(bits)%2e15) / math.Pow10(int(choice)%16)
	return []float64{math.Float64frombits(bits), decimal, math.Nextafter(decimal, 0), math.Round(decimal*1e6) / 1e6}
}

// sameFloat holds a number against encoding/json, and reads it back to the last bit.
func sameFloat(t testing.TB, x float64) {
	t.Helper()
	got := AppendFloat(nil, x)
	if math.IsNaN(x) || math.IsInf(x, 0) {
		if string(got) != "null" {
			t.Errorf("%v is written %s", x, got)
		}
		return
	}
	same(t, x, got)
	var back float64
	if err := json.Unmarshal(got, &back); err != nil || math.Float64bits(back) != math.Float64bits(x) {
		t.Errorf("%v is written %s and read as %v, %v", x, got, back, err)
	}
}
