package source

import (
	"fmt"
	"math/rand"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"
	"unicode/utf8"
)

// TestPlaces writes random scalars in every style and reads each code point
// back from the place that At gives for it.
func TestPlaces(t *testing.T) {
	want, each := fewer(24_000), fewer(2_500)
	rnd := rand.New(rand.NewSource(1))
	seen := make(map[style]int)
	count := 0
	for tries := 0; count < want || len(seen) < 6 || least(seen) < each; tries++ {
		if tries > 20*want {
			t.Fatalf("too few of the random texts can be read: %v", seen)
		}
		file, text, find := scalarFile(rnd)
		root, err := Parse(file, []byte(text))
		if err != nil {
			continue
		}
		n := find(root)
		if n == nil || n.Text == "" || n.Kind != Text {
			continue
		}
		seen[n.style]++
		count++
		if fault := misplaced(text, n); fault != "" {
			t.Fatalf("%s\n%s\nvalue %q, style %d", fault, text, n.Text, n.style)
		}
	}
	t.Logf("texts by style: %v", seen)
}

func least(counts map[style]int) int {
	n := 1 << 30
	for _, c := range counts {
		n = min(n, c)
	}
	return n
}

// misplaced reads a scalar back from the file and says what does not fit. It
// knows nothing of how the places were found.
func misplaced(text string, n *Node) string {
	last := -1
	for i, want := range []rune(n.Text) {
		at := seek(text, n.At(i))
		if at <= last {
			return fmt.Sprintf("rune %d at offset %d, behind %d", i, at, last)
		}
		last = at
		if !standsAt(text[at:], want, n.style) {
			return fmt.Sprintf("rune %d is %q, at %v stands %.12q", i, want, n.At(i), text[at:])
		}
	}
	count := utf8.RuneCountInString(n.Text)
	if end := seek(text, n.At(count)); end <= last || end > len(text) || n.At(count+5) != n.At(count) {
		return fmt.Sprintf("the end is at %v", n.At(count))
	}
	return ""
}

// seek turns a place into an offset the slow way.
func seek(text string, p Pos) int {
	line, at := 1, 0
	for ; line < p.Line; line++ {
		i := strings.IndexAny(text[at:], "\r\n")
		if i < 0 {
			return -1
		}
		at += i + 1
		if text[at-1] == '\r' && strings.HasPrefix(text[at:], "\n") {
			at++
		}
	}
	for range p.Col - 1 {
		_, size := utf8.DecodeRuneInString(text[at:])
		at += size
	}
	return at
}

// standsAt reports whether a text begins with a rune as the style writes it.
func standsAt(text string, want rune, s style) bool {
	got, _ := utf8.DecodeRuneInString(text)
	if got == '\r' || got == '\n' {
		return want == '\n' || want == ' ' && s != styleLiteral
	}
	if got != '\\' || s != styleDouble && s != styleJSON {
		return got == want
	}
	names := map[byte]rune{'0': 0, 'a': 7, 'b': 8, 't': 9, '\t': 9, 'n': 10, 'v': 11, 'f': 12, 'r': 13, 'e': 27,
		' ': ' ', '"': '"', '\'': '\'', '\\': '\\', '/': '/', 'N': 0x85, '_': 0xa0, 'L': 0x2028, 'P': 0x2029}
	if r, ok := names[text[1]]; ok {
		return r == want
	}
	digits := map[byte]int{'x': 2, 'u': 4, 'U': 8}[text[1]]
	x, err := strconv.ParseUint(text[2:2+digits], 16, 32)
	if utf16.IsSurrogate(rune(x)) {
		y, _ := strconv.ParseUint(text[8:12], 16, 32)
		return utf16.DecodeRune(rune(x), rune(y)) == want
	}
	return err == nil && rune(x) == want
}
