package picture_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.org/cogcourt/compat/picture"
	"example.org/cogcourt/rules"
)

var (
	tokenLine = regexp.MustCompile(`--([a-z-]+): (#[0-9a-f]{6});`)
	tokenUse  = regexp.MustCompile(`var\(--([a-z-]+)\)`)
	classLine = regexp.MustCompile(`\.([a-z][a-z-]*)`)
	classUse  = regexp.MustCompile(`class="([^"]*)"`)
)

// tokens reads the colours of each medium.
func tokens(t *testing.T) map[string]map[string]string {
	t.Helper()
	rest := picture.Style()
	out := map[string]map[string]string{}
	for _, medium := range []string{"light", "dark", "print"} {
		_, block, ok := strings.Cut(rest, ":root {")
		if !ok {
			t.Fatalf("no colours for %s", medium)
		}
		block, rest, _ = strings.Cut(block, "}")
		out[medium] = map[string]string{}
		for _, m := range tokenLine.FindAllStringSubmatch(block, -1) {
			out[medium][m[1]] = m[2]
		}
	}
	return out
}

// luminance is that of WCAG 2 (read): linear parts of red, green and blue, weighed.
func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		n, err := strconv.ParseUint(hex[1+2*i:3+2*i], 16, 8)
		if err != nil {
			t.Fatal(err)
		}
		c := float64(n) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum
}

// contrast is that of two colours, 1 to 21.
func contrast(t *testing.T, a, b string) float64 {
	x, y := luminance(t, a), luminance(t, b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// TestContrast holds every text 4.5 from what it lies on, and every line and mark 3.
func TestContrast(t *testing.T) {
	if got := contrast(t, "#000000", "#ffffff"); math.Abs(got-21) > 1e-9 {
		t.Fatalf("black on white is %v", got)
	}
	if got := contrast(t, "#777777", "#ffffff"); math.Abs(got-4.48) > 0.005 { // the grey that just fails
		t.Fatalf("#777 on white is %v", got)
	}
	texts := map[string][]string{"paper": {"ink", "soft", "warn", "chain", "pass", "fail", "unknown"}}
	marks := map[string][]string{
		"paper":     {"pass", "warn", "fail", "unknown", "chain", "steel", "soft", "ink"},
		"band-pass": {"pass", "warn", "unknown", "soft", "chain"}, // and their edges
		"band-warn": {"warn", "fail", "chain"},
		"body":      {"steel", "chain", "ink", "soft"},
		"plate":     {"chain"},
	}
	for medium, colours := range tokens(t) {
		hold := func(least float64, pairs map[string][]string) {
			for on, names := range pairs {
				for _, name := range names {
					if colours[on] == "" || colours[name] == "" {
						t.Fatalf("%s: no colour %s or %s", medium, on, name)
					}
					if got := contrast(t, colours[name], colours[on]); got < least {
						t.Errorf("%s: %s on %s is %.2f, %.1f is wanted", medium, name, on, got, least)
					}
				}
			}
		}
		hold(4.5, texts)
		hold(3, marks)
	}
}

// TestStyleIsWhole holds that the media name the same colours, that each is used and
// there, and that the drawings use the classes that are styled, all of them.
func TestStyleIsWhole(t *testing.T) {
	all := tokens(t)
	used := map[string]bool{}
	for _, m := range tokenUse.FindAllStringSubmatch(picture.Style(), -1) {
		used[m[1]] = true
	}
	for medium, colours := range all {
		for name := range used {
			if colours[name] == "" {
				t.Errorf("%s: the colour %s is used and not there", medium, name)
			}
		}
		for name := range colours {
			if !used[name] {
				t.Errorf("%s: nothing has the colour %s", medium, name)
			}
		}
	}
	styled, met := map[string]bool{}, map[string]bool{}
	for line := range strings.Lines(picture.Style()) {
		if selector, _, ok := strings.Cut(line, "{"); ok && !strings.Contains(line, "@media") {
			for _, m := range classLine.FindAllStringSubmatch(selector, -1) {
				styled[m[1]] = true
			}
		}
	}
	own := regexp.MustCompile(`(fill|stroke|style)="`)
	look := func(svg string) {
		for _, m := range classUse.FindAllStringSubmatch(svg, -1) {
			for _, class := range strings.Fields(m[1]) {
				met[class] = true
			}
		}
		if own.MatchString(svg) {
			t.Errorf("a drawing has a colour of its own: %.300s", svg)
		}
	}
	for _, v := range []rules.Verdict{rules.Unknown, rules.Pass, rules.Warn, rules.Fail} {
		look(picture.Mark(v))
	}
	for _, o := range outlines(t) {
		for _, p := range everything(o) {
			look(p.SVG)
		}
	}
	for class := range met {
		if !styled[class] {
			t.Errorf("no style says what %s looks like", class)
		}
	}
	for class := range styled {
		if !met[class] {
			t.Errorf("nothing is of the class %s", class)
		}
	}
}

// TestMarksDiffer holds that the signs of verdicts are told apart by their form.
func TestMarksDiffer(t *testing.T) {
	seen := map[string]rules.Verdict{}
	form := regexp.MustCompile(` d="[^"]*"`)
	for _, v := range []rules.Verdict{rules.Unknown, rules.Pass, rules.Warn, rules.Fail} {
		mark := picture.Mark(v)
		parsed(t, mark)
		key := strings.Join(form.FindAllString(mark, -1), "")
		if other, is := seen[key]; is {
			t.Errorf("%v looks like %v", v, other)
		}
		seen[key] = v
	}
}
