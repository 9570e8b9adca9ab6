package view

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
)

func TestColumnsOfTexts(t *testing.T) {
	for text, want := range map[string]int{
		"": 0, "plain": 5, "Räder": 5, "車輪": 4, "車a輪": 5, "ﾊﾝ": 2, "한글": 4, "e\u0301e": 2, "🚲": 2, "±°…": 3, "дом": 3,
	} {
		if got := columns(text); got != want {
			t.Errorf("%q takes %d columns, want %d", text, got, want)
		}
	}
}

func TestPieces(t *testing.T) {
	for _, c := range []struct {
		word string
		room int
		want []string
	}{
		{"abc", 3, []string{"abc"}}, {"abcd", 3, []string{"abc", "d"}}, {"abcdefg", 3, []string{"abc", "def", "g"}},
		{"車輪車", 5, []string{"車輪", "車"}}, {"車輪", 1, []string{"車", "輪"}}, {"ae\u0301b", 2, []string{"ae\u0301", "b"}}, {"", 3, []string{""}},
	} {
		if got := pieces(c.word, c.room); !slices.Equal(got, c.want) {
			t.Errorf("%q in %d: %q, want %q", c.word, c.room, got, c.want)
		}
	}
	for text, want := range map[string]string{"abcdef": "abcdef", "abcdefg": "abc...", "車輪車輪": "車...", "": ""} {
		if got := cut(text, 6); got != want {
			t.Errorf("%q is cut to %q, want %q", text, got, want)
		}
	}
}

// A text in wide letters is folded by what it takes on the screen.
func TestWideLettersAreFolded(t *testing.T) {
	var b strings.Builder
	block(&b, "mend", strings.Repeat("車", 100)+" "+strings.Repeat("輪 ", 40))
	lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
	if len(lines) != 5 {
		t.Errorf("%d lines:\n%s", len(lines), b.String())
	}
	for _, line := range lines {
		wide := 0
		for _, r := range line {
			if r > 0x2000 {
				wide++
			}
		}
		if len([]rune(line))+wide > width {
			t.Errorf("it goes over the edge: %s", line)
		}
	}
}

// What is longer than the screen ends with its verdict, on one line however it is
// called; what is not does not.
func TestVerdictStandsAgain(t *testing.T) {
	for _, name := range []string{"Seven", strings.Repeat("A long name ", 16), strings.Repeat("長", 190), "Bent\u202e" + strings.Repeat("\u202e", 100)} {
		mix, err := compat.NewMix(name, compat.ScopeCart)
		if err != nil {
			t.Fatal(err)
		}
		for rows, again := range map[int]bool{0: false, 1: true, 2: true, 40: false} {
			var b bytes.Buffer
			Reports(&b, []compat.Report{{Mix: mix, Verdict: rules.Unknown}}, 0, Style{Screen: Size{Rows: rows, Columns: width}})
			lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
			end := lines[len(lines)-1]
			if stands := len(lines) > 2 && strings.HasPrefix(end, "UNKNOWN  ") && strings.HasSuffix(end, ": nothing could be checked."); stands != again {
				t.Errorf("%.20s on %d rows ends with %q", name, rows, end)
			}
			if columns(end) > width {
				t.Errorf("%d columns: %s", columns(end), end)
			}
		}
	}
}

// A narrow screen needs more rows for the same lines.
func TestRowsOfANarrowScreen(t *testing.T) {
	for _, c := range []struct {
		screen Size
		over   bool
	}{{Size{4, 80}, false}, {Size{3, 80}, true}, {Size{4, 40}, true}, {Size{6, 40}, false}, {Size{5, 40}, false}, {Size{3, 0}, true}, {Size{}, false}} {
		p := page{Writer: &bytes.Buffer{}, screen: c.screen}
		for _, text := range []string{strings.Repeat("x", 40), strings.Repeat("y", 40) + "\n", "\n", strings.Repeat("z", 40), "\n"} {
			if _, err := p.Write([]byte(text)); err != nil {
				t.Fatal(err)
			}
		}
		if p.over() != c.over {
			t.Errorf("%v: %d rows, over %v", c.screen, p.rows, p.over())
		}
	}
}
