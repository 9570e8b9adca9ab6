package compat_test

import (
	"encoding/json"
	"strings"
	"testing"
	"unicode"

	"example.org/cogcourt/compat"
)

// The strings stay true: every character comes back, and none that draws or
// hides is left as it is.
func TestEscapeJSON(t *testing.T) {
	for r := rune(0); r <= unicode.MaxRune; r++ {
		if r >= 0xd800 && r <= 0xdfff {
			continue
		}
		raw, err := json.Marshal(string(r))
		if err != nil {
			t.Fatal(err)
		}
		text := compat.EscapeJSON(raw)
		var back string
		if err := json.Unmarshal(text, &back); err != nil || back != string(r) {
			t.Fatalf("%U is written %s and read as %q: %v", r, text, back, err)
		}
		hides := unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp)
		if raw := strings.ContainsRune(string(text), r); raw == hides && r >= 0x7f {
			t.Fatalf("%U is written %s", r, text)
		}
	}
	for in, want := range map[string]string{
		"{\n\t\"a\": \"ä ± 0.02 é\"\r\n}": "{\n\t\"a\": \"ä ± 0.02 é\"\r\n}",
		"\"\u007f\u009b1A\"":              `"\u007f\u009b1A"`,
		"\"\u202e\u2066\u200b\u061c\"":    `"\u202e\u2066\u200b\u061c"`,
		"\"\U000e0041x\"":                 `"\udb40\udc41x"`,
		"\"\xffa\u200b\"":                 "\"\xffa\\u200b\"",
		"":                                "",
	} {
		if got := string(compat.EscapeJSON([]byte(in))); got != want {
			t.Errorf("%q gives %q, want %q", in, got, want)
		}
	}
}

// A report, a change and a sheet hold no such character, also where somebody
// puts them into something of his own.
func TestJSONHidesNothing(t *testing.T) {
	checker, err := compat.New(compat.Config{})
	if err != nil {
		t.Fatal(err)
	}
	name := "x\u007f\u009b1A\u202e\u200b\ufeff\U000e0041y"
	quoted, _ := json.Marshal(name)
	mix, err := compat.ReadMix("a.json", []byte(strings.NewReplacer("NAME", string(compat.EscapeJSON(quoted))).Replace(
		`{"mix": NAME, "parts": {"chain": {"name": NAME, "speeds": 12}}}`)), nil)
	if err != nil {
		t.Fatal(err)
	}
	r := checker.Check(mix)
	for _, v := range []any{r, checker.Sheet(mix), compat.Compare(r, r), map[string]any{"mine": r}} {
		text, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range string(text) {
			if unicode.IsControl(c) || unicode.Is(unicode.Cf, c) {
				t.Fatalf("%T holds %U", v, c)
			}
		}
		if !strings.Contains(string(text), `x\u007f\u009b1A\u202e\u200b\ufeff\udb40\udc41y`) {
			t.Errorf("%T does not hold the name: %.300s", v, text)
		}
	}
}
