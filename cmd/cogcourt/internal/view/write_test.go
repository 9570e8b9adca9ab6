package view

import (
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/cogcourt/rules/fact"
)

func TestClean(t *testing.T) {
	for in, want := range map[string]string{
		"plain":                   "plain",
		"Räder, 34 t, ±0,1 °C 車輪": "Räder, 34 t, ±0,1 °C 車輪",
		"a\x1b[2Jb":               `a\u{1b}[2Jb`,
		"a\nb\tc\r":               `a\u{a}b\u{9}c\u{d}`,
		"\u202eabc\u2069":         `\u{202e}abc\u{2069}`,
		"a\u200bb\ufeffc\u00add":  `a\u{200b}b\u{feff}c\u{ad}d`,
		"a\u2028b\u0085c":         `a\u{2028}b\u{85}c`,
		"\U000e0041\ue000\u3164":  `\u{e0041}\u{e000}\u{3164}`,
		"a\xffb\xc3":              `a\xffb\xc3`,
		"\ufffd":                  "\ufffd",
		"":                        "",
	} {
		if got := Clean(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
		if again := Clean(Clean(in)); again != Clean(in) {
			t.Errorf("%q is cleaned twice: %q", in, again)
		}
	}
}

func TestWrap(t *testing.T) {
	long := strings.Repeat("word ", 40)
	for _, c := range []struct {
		first string
		rest  int
		text  string
	}{
		{"", 0, long}, {"  - ", 4, long}, {"        Why: ", 13, long}, {"a/rule/with/a/long/id/that/goes/on/and/on/until/there/is/little/room/left  ", 2, long},
		{"", 0, "a " + strings.Repeat("x", 100) + " b"}, {"first ", 6, strings.Repeat("ü", 75)}, {"", 4, "one"}, {"first: ", 4, ""}, {"", 0, ""},
	} {
		var b strings.Builder
		wrap(&b, c.first, c.rest, c.text)
		lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
		for i, line := range lines {
			if n := utf8.RuneCountInString(line); n > width {
				t.Errorf("%d columns: %s", n, line)
			}
			if i > 0 && !strings.HasPrefix(line, strings.Repeat(" ", c.rest)) {
				t.Errorf("the margin is not kept: %q", line)
			}
			if strings.TrimRight(line, " ") != line {
				t.Errorf("blanks at the end of %q", line)
			}
		}
		between := " "
		for _, word := range strings.Fields(c.text) {
			if utf8.RuneCountInString(word) > width-c.rest {
				between = "" // it was cut, and only its letters are the same
			}
		}
		got := strings.Join(strings.Fields(strings.TrimPrefix(b.String(), strings.TrimRight(c.first, " "))), between)
		if got != strings.Join(strings.Fields(c.text), between) {
			t.Errorf("words are lost: %q of %q", got, c.text)
		}
	}
	var b strings.Builder
	fold(&b, "# As built: ", "# ", long)
	for line := range strings.Lines(b.String()) {
		if !strings.HasPrefix(line, "# ") {
			t.Errorf("a line of a remark is none: %q", line)
		}
	}
}

func TestSentences(t *testing.T) {
	for _, c := range [][3]string{
		{"The chain clears", "the chain clears", "The chain clears"},
		{"B-gap is right", "b-gap is right", "B-gap is right"},
		{"ISO sizes", "ISO sizes", "ISO sizes"},
		{"Übersetzung", "übersetzung", "Übersetzung"},
		{"über", "über", "Über"},
		{"A", "a", "A"}, {"", "", ""}, {"\xff", "\xff", "\xff"},
	} {
		if lower(c[0]) != c[1] || Capital(c[0]) != c[2] {
			t.Errorf("%q: %q and %q", c[0], lower(c[0]), Capital(c[0]))
		}
	}
	if full("a") != "a." || full("a.") != "a." || full("a?") != "a?" {
		t.Error("full stops are not right")
	}
}

func TestValues(t *testing.T) {
	mm := fact.Field{Type: fact.Fraction, Unit: "mm"}
	for _, c := range []struct {
		v    fact.Value
		f    fact.Field
		want string
	}{
		{fact.Num(0.553), mm, "0.55 mm"}, {fact.Num(3.5), mm, "3.5 mm"}, {fact.Num(100), mm, "100 mm"}, {fact.Num(-0.001), mm, "0 mm"},
		{fact.Num(0.146667), fact.Field{Type: fact.Fraction}, "0.1467"},
		{fact.Num(41), fact.Field{Type: fact.Whole, Unit: "t"}, "41 teeth"},
		{fact.Nums([]float64{10, 12.25}), fact.Field{Type: fact.Fractions, Unit: "pitches"}, "[10, 12.25] half-inch links"},
		{fact.Truth(true), fact.Field{Type: fact.Flag}, "yes"}, {fact.Truth(false), fact.Field{Type: fact.Flag}, "no"},
		{fact.Word("cable"), fact.Field{Type: fact.Choice}, "cable"},
		{fact.Num(1e15), fact.Field{Type: fact.Fraction, Unit: "N"}, "1000000000000000 N"},
	} {
		if got := valueText(c.v, c.f); got != c.want {
			t.Errorf("%v: %q, want %q", c.v, got, c.want)
		}
	}
}
