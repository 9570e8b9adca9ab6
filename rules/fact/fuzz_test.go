package fact_test

import (
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"example.org/cogcourt/internal/blind"
	"example.org/cogcourt/rules/fact"
)

// FuzzClean makes any text fit for a terminal: no character that draws, moves or hides is
// left, what is plain stays as it is, and cleaning twice is cleaning once. What is nearest
// to a word is one of those that there are.
func FuzzClean(f *testing.F) {
	seeds := []string{"plain", "\x1b[31mred\a", "\u202eturned\u2066", "x\u200b\ufeff\u00ad", "\xff\xfe", "\u009b1A", "é 日 \U000e0041", `\u{1b}`, "casette", "rear_deraileur"}
	words := []string{"cassette", "chain", "rear_derailleur", "pitch_mm", "pitches_mm", ""}
	blind.Fuzz(f, seeds, func(t testing.TB, raw []byte, _ byte) bool {
		text := string(raw)
		got := fact.Clean(text)
		if i := strings.IndexFunc(got, draws); i >= 0 || !utf8.ValidString(got) {
			t.Errorf("%q is cleaned to %q", text, got)
		}
		if again := fact.Clean(got); again != got {
			t.Errorf("%q is cleaned to %q, and to %q", text, got, again)
		}
		if utf8.ValidString(text) && strings.IndexFunc(text, func(r rune) bool { return r > 0x7e || r < ' ' }) < 0 && got != text {
			t.Errorf("%q is cleaned to %q", text, got)
		}
		if near := fact.Nearest(text, words); near != "" && !slices.Contains(words, near) {
			t.Errorf("%q is near %q", text, near)
		}
		if hint := fact.Suggest(text, words); strings.IndexFunc(hint, draws) >= 0 {
			t.Errorf("%q gives the hint %q", text, hint)
		}
		return utf8.ValidString(text)
	})
}

// draws tells what must not reach a terminal from anybody's text.
func draws(r rune) bool {
	return unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Co, unicode.Cs) || r == '\u3164'
}
