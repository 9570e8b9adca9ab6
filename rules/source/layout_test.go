package source

import (
	"math/rand"
	"strings"
	"testing"
	"unicode/utf8"
)

// TestLayout compares places and offsets with a walk over the text, on texts
// with every kind of line break and lines far longer than the stride.
func TestLayout(t *testing.T) {
	rnd := rand.New(rand.NewSource(6))
	pieces := []string{"a", "é", "日", "😀", "\n", "\r\n", "\r", "\r\r\n", "\n\n", strings.Repeat("x", stride-1), strings.Repeat("é", stride), strings.Repeat("b", 1000)}
	for range fewer(300) {
		var b strings.Builder
		for range rnd.Intn(20) {
			b.WriteString(pieces[rnd.Intn(len(pieces))])
		}
		text := b.String()
		l := wholeLayout("f", text)
		want := Pos{"f", 1, 1}
		for at := 0; at <= len(text); {
			if got := l.pos(at); got != want {
				t.Fatalf("%.60q: offset %d is %v, want %v", text, at, got, want)
			}
			if got := l.offset(want.Line, want.Col); got != at {
				t.Fatalf("%.60q: %v is offset %d, want %d", text, want, got, at)
			}
			r, size := utf8.DecodeRuneInString(text[at:])
			at += max(size, 1)
			if want.Col++; r == '\n' || r == '\r' && !strings.HasPrefix(text[min(at, len(text)):], "\n") {
				want = Pos{"f", want.Line + 1, 1}
			}
		}
	}
}

// TestLineBreaks reads texts that the three line breaks part, and finds the
// same places in all.
func TestLineBreaks(t *testing.T) {
	const lines = "é: 1\nb:\n  - x y\n  - 'z\n    w'\n  - |\n    v\n"
	for _, br := range []string{"\n", "\r\n", "\r"} {
		root, err := Parse("x.yaml", []byte(strings.ReplaceAll(lines, "\n", br)))
		if err != nil {
			t.Fatalf("%q: %v", br, err)
		}
		items := root.Get("b").Items
		for _, c := range []struct {
			got  Pos
			line int
			col  int
		}{
			{items[0].At(2), 3, 7}, {items[0].At(3), 3, 8}, {items[1].Pos, 4, 5}, {items[1].At(0), 4, 6}, {items[1].At(1), 4, 7},
			{items[1].At(2), 5, 5}, {items[1].At(3), 5, 6}, {items[2].Pos, 6, 5}, {items[2].At(0), 7, 5}, {items[2].At(2), 8, 1},
		} {
			if c.got != (Pos{"x.yaml", c.line, c.col}) {
				t.Errorf("%q: %v, want %d:%d", br, c.got, c.line, c.col)
			}
		}
	}
}

// TestByteOrderMark drops one in front, and counts columns behind it.
func TestByteOrderMark(t *testing.T) {
	for _, file := range []string{"x.yaml", "x.json"} {
		n, err := Parse(file, []byte("\ufeff{\"a\": 1}"))
		if err != nil || n.Get("a").Pos != (Pos{file, 1, 7}) {
			t.Errorf("%v, %v", n.Get("a"), err)
		}
	}
}

// TestAtWithoutText asks for places in what has none, and beyond the ends.
func TestAtWithoutText(t *testing.T) {
	n, err := Parse("x.yaml", []byte("a:\nb: ''\nc: [1]\nd: |\n\ne: \"\\\n  \""))
	if err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]string{"a": "x.yaml:1:3", "b": "x.yaml:2:5", "c": "x.yaml:3:4", "d": "x.yaml:4:4", "e": "x.yaml:6:5"} {
		for _, i := range []int{-1, 0, 7} {
			if got := n.Get(key).At(i).String(); got != want {
				t.Errorf("%s at %d: %s, want %s", key, i, got, want)
			}
		}
	}
}

// wholeLayout is that of a whole file.
func wholeLayout(name, text string) *layout { return &layout{name: name, text: text} }
