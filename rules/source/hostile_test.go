package source

import (
	"errors"
	"fmt"
	"regexp"
	"runtime"
	"strings"
	"testing"
)

// hostile are texts that ask too much, or that other readers understand in
// another way than they look, with the problem that each gives.
func hostile() map[string]string {
	r := strings.Repeat
	bomb := "a: &a [x, x, x, x, x, x, x, x, x]\n"
	for c := 'b'; c < 'k'; c++ {
		bomb += fmt.Sprintf("%c: &%c [%s]\n", c, c, strings.TrimSuffix(r(fmt.Sprintf("*%c, ", c-1), 9), ", "))
	}
	return map[string]string{
		bomb:                            `1:4: a: anchors are not allowed`,
		"a: &a [*a]":                    `aliases are not allowed: \*a`,
		"&a a: *a":                      `1:1: anchors are not allowed`,
		"<<:\n? -":                      `1:1: merge keys are not allowed`,
		"? {a: 1}\n: 2":                 `1:3: a list or map cannot be a name`,
		"a: !!binary x":                 `a: tags are not allowed`,
		"?  1}  ::1} 1} {":              `^$`,
		"!!map\na: 1":                   `1:1: tags are not allowed`,
		"- !!python/object:os.system x": `tags are not allowed`,
		"a: .nan":                       `is no finite number`,
		"a: 1e999":                      `too large a number`,
		"a: 1\n--- \nb: 2":              `2:1: a second document`,
		"a: 1\n---\n: : : [":            `3:1`,
		"a: x\u2028b: 3":                `1:5: line separator U\+2028`,
		"a: \u202egnp.exe":              `1:4: invisible character U\+202E`,
		"a\u200b: 1":                    `1:2: invisible character U\+200B`,
		"a: \ufeff1":                    `1:4: invisible character U\+FEFF`,
		"a: \x1b[31m":                   `1:4: control character U\+001B`,
		"a: \u009b31m":                  `1:4: control character U\+009B`,
		"a: \U000e0041":                 `1:4: invisible character U\+E0041`,
		"a: \xed\xa0\x80":               `1:4: byte 0xED is not UTF-8`,
		"\xff\xfea\x00":                 `is UTF-16`,
		r("[", 100_000):                 `more than 32 deep`,
		r("[", 40) + r("]", 40):         `1:33: (\[0\]){32}: lies more than 32 deep`,
		r("{a: ", 9_000):                `is not closed`,
		r("- ", 100_000):                `indented by more than 256`,
		r("? ", 100_000):                `indented by more than 256`,
		r("- ", 9_000) + "a\n" + r(" # c\n#d\n", 100_000) + "- b\n": `indented by more than 256`,
		r("- ", 60) + "a":                       `1:65: (\[0\]){32}: lies more than 32 deep`,
		"[" + r("a,", maxValues) + "]":          `more than 500000 values`,
		r("- a\n", maxValues+1):                 `more than 500000 values`,
		"{" + keys(maxValues*2/3, "k%d,") + "}": `more than 500000 values`,
		"[" + r("{}, ", 200_000) + "]":          `^$`,
		r("# c\n\n", maxValues+1):               `more than 500000 values`,
		r("x", MaxBytes+1):                      `at most 8 MiB`,
		r("é", MaxBytes/2):                      `^$`,
		r("k", 2000) + ": 1":                    `1:1: a name of more than 1024`,
		"a: \"" + r("x", 1<<20):                 `1:4: the quote that opens here`,
		r("a: 1\n", 100_000):                    `stands twice`,
		r("\xff", 100_000):                      `not UTF-8`,
		"[" + r("1_0,", 100_000) + "]":          `not written as a plain number`,
		"{" + r("a: &a b,", 50_000) + "}":       `anchors are not allowed`,
		"a: " + r("9", 1<<20):                   `too large a number`,
		"a: 0." + r("0", 1<<20) + "1":           `too small a number`,
	}
}

// longOnes says which texts -short leaves out: those that only show the limits of
// size, and take most of the time.
func longOnes(text string) bool { return testing.Short() && len(text) > 200_000 }

// TestHostile reads them without a safety net, and collects no more problems
// than somebody might read.
func TestHostile(t *testing.T) {
	for text, want := range hostile() {
		if longOnes(text) {
			continue
		}
		_, err := Limits{}.parse("x.yaml", []byte(text), nil)
		got := fmt.Sprint(err)
		if err == nil {
			got = ""
		}
		var ps Problems
		if errors.As(err, &ps); len(ps) > MaxProblems+1 {
			t.Errorf("%.40q: %d problems", text, len(ps))
		}
		if !regexp.MustCompile(want).MatchString(got) {
			t.Errorf("%.40q: %.300s, want %s", text, got, want)
		}
	}
}

func TestHostileJSON(t *testing.T) {
	r := strings.Repeat
	for text, want := range map[string]string{
		r("[", 100_000):                              `1:33: (\[0\]){32}: lies more than 32 deep`,
		r(`{"a":`, 100_000):                          `lies more than 32 deep`,
		"[" + r("1,", maxValues) + "1]":              `more than 500000 values`,
		`{"a": 1e999}`:                               `a: is too large a number`,
		`{"a": -0.0}`:                                `^$`,
		"{\"a\": \"\u2028\"}":                        `1:8: line separator U\+2028`,
		`{"a": "\ud83d\ude00\/"}`:                    `^$`,
		`{"a": "\ude00\ud83d"}`:                      `1:8: a: half of a surrogate pair`,
		"[" + r(`"\ud800",`, 100_000) + "1]":         `half of a surrogate pair`,
		"{" + r(`"a":1,`, 100_000) + `"b":1}`:        `stands twice`,
		`{"a":1}` + r(" ", 1<<20) + "x":              `more text behind the end`,
		":":                                          `1:1: nothing stands in front of this :`,
		"[1,,2]":                                     `1:4: nothing stands in front of this ,`,
		"\ufeff{\"a\":1}":                            `^$`,
		`{"` + r("k", 2000) + `": "` + "\x7f" + `"}`: `control character U\+007F`,
	} {
		if longOnes(text) {
			continue
		}
		_, err := Limits{}.parse("x.json", []byte(text), nil)
		got := fmt.Sprint(err)
		if err == nil {
			got = ""
		}
		if !regexp.MustCompile(want).MatchString(got) {
			t.Errorf("%.40q: %.300s, want %s", text, got, want)
		}
	}
}

// TestCatalogueFits reads a catalogue of the size that the limits are made for.
func TestCatalogueFits(t *testing.T) {
	var b strings.Builder
	b.WriteString("title: all\nparts:\n")
	for i := range fewer(10_000) {
		fmt.Fprintf(&b, "  - id: part-%d\n    cogs_t: [11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 32, 36]\n    pitch_mm: 3.65 ± 0.02\n", i)
		fmt.Fprintf(&b, "    rings_t: [30, 46]\n    speeds: 12\n    assist_rated: true\n    actuation: cable\n    freehub: wide\n    offset_mm: -1.5\n    usual_mm: 1.85\n")
		fmt.Fprintf(&b, "    kind: cassette\n")
	}
	if err := readSample("all.yaml", []byte(b.String())); err != nil {
		t.Error(err)
	}
}

// TestCostIsLinear counts the bytes that reading allocates, which do not hang
// on the machine, for texts that are twice as long: never much more than twice
// as many. A cost that grows with the square would be four times as high.
func TestCostIsLinear(t *testing.T) {
	r := strings.Repeat
	for name, text := range map[string]func(n int) (file, text string){
		"list":       func(n int) (string, string) { return "x.yaml", r("- a\n", n) },
		"flow":       func(n int) (string, string) { return "x.yaml", "[" + r("a, ", n) + "]" },
		"long line":  func(n int) (string, string) { return "x.yaml", "{" + keys(n, "k%d: é, ") + "}" },
		"map":        func(n int) (string, string) { return "x.yaml", keys(n, "k%d: é\n") },
		"same keys":  func(n int) (string, string) { return "x.yaml", r("k: é\n", n) },
		"odd":        func(n int) (string, string) { return "x.yaml", r("- 0777\n", n) },
		"folded":     func(n int) (string, string) { return "x.yaml", "a: " + r("b\n  ", n) + "# c" },
		"lines":      func(n int) (string, string) { return "x.yaml", r("- b\n  c # d\n", n) },
		"comments":   func(n int) (string, string) { return "x.yaml", r("# c\n\n", n) + "a: 1" },
		"broken":     func(n int) (string, string) { return "x.yaml", r("- abc\n", n) + "b: 1" },
		"unclosed":   func(n int) (string, string) { return "x.yaml", "a: \"" + r("b\n", n) },
		"json":       func(n int) (string, string) { return "x.json", "[" + r("1,", n) + "1]" },
		"json map":   func(n int) (string, string) { return "x.json", "{" + keys(n, `"k%d": "é",`) + `"k": 1}` },
		"json short": func(n int) (string, string) { return "x.json", r("[1, ", 9) + r("1,\n", n) },
	} {
		small, large := allocated(text(4_000)), allocated(text(8_000))
		if large > 3*small+1<<16 {
			t.Errorf("%s: %d bytes, twice as long %d", name, small, large)
		}
	}
}

func keys(n int, format string) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, format, i)
	}
	return b.String()
}

// allocated counts the bytes allocated by reading a text and asking for places.
func allocated(file, text string) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	root, _ := Limits{}.parse(file, []byte(text), nil)
	for _, p := range pairsOf(root) {
		p.Value.At(0)
	}
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}

func pairsOf(n *Node) []Pair {
	if n == nil {
		return nil
	}
	return n.Pairs
}
