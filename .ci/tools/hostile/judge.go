package hostile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// What a run may cost beyond a plain check of a mix. Honest work that is asked for may cost
// so much more: a catalogue by its bytes, sound rules by the terms of their expressions.
const (
	mostCPU     = 100 * time.Millisecond
	mostMB      = 64
	cpuPerByte  = 900 * time.Nanosecond
	mbPerMB     = 280
	cpuPerTerm  = 50 * time.Microsecond
	termsPerMB  = 300
	plainOnFast = 40 * time.Millisecond // of a plain check; a machine that takes longer is given more in proportion
)

// Bounds are what a case may cost.
type Bounds struct {
	CPU time.Duration
	MB  float64
}

// boundsOf gives those of a case, beside a plain check.
func boundsOf(c Case, plain Outcome) Bounds {
	slow := max(1, float64(plain.CPU)/float64(plainOnFast))
	extra := float64(mostCPU + time.Duration(c.Bytes)*cpuPerByte + time.Duration(c.Terms)*cpuPerTerm)
	return Bounds{plain.CPU + time.Duration(extra*slow), plain.MB + mostMB + float64(c.Bytes)/(1<<20)*mbPerMB + float64(c.Terms)/termsPerMB}
}

// Dear says what of a run cost too much. A loaded machine makes every run dearer, so
// that one is asked for again before this counts.
func (o Outcome) Dear(b Bounds) []string {
	var out []string
	if o.Hung {
		out = append(out, fmt.Sprintf("hangs: no end after %s", longest))
	}
	if o.CPU > b.CPU {
		out = append(out, fmt.Sprintf("takes %s of processor time, at most %s", o.CPU, b.CPU))
	}
	if o.MB > b.MB {
		out = append(out, fmt.Sprintf("holds %.0f MB, at most %.0f", o.MB, b.MB))
	}
	return out
}

// Faults says what else is wrong with a run, which no repetition mends.
func (o Outcome) Faults(c Case) []string {
	var out []string
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if o.Hung {
		return nil
	}
	if !slices.Contains(c.Want, o.Status) {
		add("ends with status %d, want %d: %.300q", o.Status, c.Want, o.Stderr)
	}
	if strings.Contains(o.Stderr, "goroutine ") || strings.Contains(o.Stderr, "internal error") || strings.Contains(o.Stderr,
		"broke down") {
		add("breaks down: %.300q", o.Stderr)
	}
	if o.Status == refused && o.Stderr == "" {
		add("is refused without a word")
	}
	if c.At != "" && !at(o.Stderr, c.At) {
		add("no fault is told at %s: %.300q", c.At, o.Stderr)
	}
	if c.Within != "" && !within(o.Stderr, c.Within) {
		add("no fault is told at %s or behind it on the line: %.300q", c.Within, o.Stderr)
	}
	if c.Says != "" && !regexp.MustCompile(c.Says).MatchString(o.Stderr) {
		add("nothing says %s: %.300q", c.Says, o.Stderr)
	}
	hides := raw
	if c.Form == JSON || c.Form == Lines {
		hides = rawInJSON
	}
	for _, text := range []string{o.Stdout, o.Stderr} {
		if i := strings.IndexFunc(text, hides); i >= 0 {
			add("prints %q raw: %.80q", text[i:i+min(4, len(text)-i)], text[max(0, i-20):])
		}
		if !utf8.ValidString(text) {
			add("prints what is not UTF-8: %.80q", text)
		}
	}
	if fault := o.form(c.Form); fault != "" {
		add("%s", fault)
	}
	return out
}

// at says whether a fault is told at a place.
func at(stderr, place string) bool {
	return slices.ContainsFunc(strings.Split(stderr, "\n"), func(line string) bool { return strings.HasPrefix(line, place+": ") })
}

// within says whether a fault is told on the line of a place, there or behind it.
func within(stderr, place string) bool {
	cut := strings.LastIndexByte(place, ':')
	from, err := strconv.Atoi(place[cut+1:])
	return err == nil && slices.ContainsFunc(strings.Split(stderr, "\n"), func(line string) bool {
		rest, found := strings.CutPrefix(line, place[:cut+1])
		column, _, _ := strings.Cut(rest, ":")
		n, err := strconv.Atoi(column)
		return found && err == nil && n >= from
	})
}

// raw tells what draws, moves, turns round or hides text where it is shown.
func raw(r rune) bool {
	return r != '\n' && (unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Co, unicode.Cs) || r == '\u3164')
}

// rawInJSON is raw for JSON, whose strings stay true but for what does something where it
// is shown.
func rawInJSON(r rune) bool {
	return r != '\n' && (unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp))
}

// active is what a page must not hold: it has no script, and asks for nothing.
var active = regexp.MustCompile(`(?i)<script|<iframe|<img|<object|<embed|<link|<base|<form|\son[a-z]+\s*=\s*["']|javascript:[^<]*["']>`)

// form says what is wrong with the form of the output.
func (o Outcome) form(f Form) string {
	switch f {
	case Text, Page:
		if o.Status == refused && o.Stdout != "" {
			return fmt.Sprintf("prints something although it did not load: %.80q", o.Stdout)
		}
		if found := active.FindString(o.Stdout); f == Page && found != "" {
			return fmt.Sprintf("the page holds %q", found)
		}
	case JSON:
		if !json.Valid([]byte(o.Stdout)) {
			return fmt.Sprintf("is no JSON: %.80q", o.Stdout)
		}
		if o.Status == refused && !strings.Contains(o.Stdout, `"problems"`) {
			return fmt.Sprintf("the JSON does not name the faults: %.80q", o.Stdout)
		}
	case Lines:
		dec := json.NewDecoder(bytes.NewReader([]byte(o.Stdout)))
		for {
			var v map[string]any
			if err := dec.Decode(&v); err == io.EOF {
				return ""
			} else if err != nil {
				return fmt.Sprintf("a line is no JSON: %v in %.80q", err, o.Stdout)
			}
		}
	}
	return ""
}
