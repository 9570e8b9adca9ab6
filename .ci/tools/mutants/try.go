package main

import (
	"cmp"
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
	"time"
)

// quick is how long the tests of a package's first process may take together, beside its
// start. Each further one may take twice as long, so that what nobody notices costs few
// starts, and what is plain is noticed soon.
const quick = 500 * time.Millisecond

// trials lays out the tests that meet a change: the first process of each package, then
// the second of each; of those the one of its own package first.
func (m mutant) trials(tests []*test) []trial {
	meet := map[*program][]*test{}
	var order []*program
	for _, t := range tests {
		if !t.meets[m.id] {
			continue
		}
		if meet[t.of] == nil {
			order = append(order, t.of)
		}
		meet[t.of] = append(meet[t.of], t)
	}
	slices.SortStableFunc(order, func(a, b *program) int { return m.far(a) - m.far(b) })
	var out []trial
	for _, p := range order {
		out = append(out, together(meet[p])...)
	}
	slices.SortStableFunc(out, func(a, b trial) int { return cmp.Compare(a.most, b.most) })
	return out
}

// together shares tests of one package out among processes, those first that cost least for what
// they notice.
func together(tests []*test) []trial {
	slices.SortStableFunc(tests, func(a, b *test) int { return cmp.Compare(a.dear(), b.dear()) })
	var out []trial
	now := trial{most: quick}
	for _, t := range tests {
		whole := t.name == "" || len(now.tests) > 0 && now.tests[0].name == ""
		if len(now.tests) > 0 && (whole || now.takes+t.takes > now.most) {
			out, now = append(out, now), trial{most: 2 * now.most}
		}
		for now.most < t.takes {
			now.most *= 2
		}
		now.of, now.tests, now.takes = t.of, append(now.tests, t), now.takes+t.takes
		now.patience = 5*time.Second + 8*(now.takes+t.of.starts)
	}
	return append(out, now)
}

// far is 0 for tests of the change's own package, else 1.
func (m mutant) far(p *program) int { return 1 - boolean(path.Dir(m.file) == p.name) }

// What becomes of a change that no test notices.
const (
	unnoticed = "SURVIVES"
	unmet     = "UNMET" // no test comes to where it makes a difference
	slow      = "SLOW"  // some tests were not asked
	isKnown   = "KNOWN" // to survive, and not tried
)

// tried makes a change and names the package whose tests fail, or what became of it. A
// test that does not meet a change cannot notice it.
func (m mutant) tried(tests []*test, full bool, most time.Duration) string {
	begun := time.Now()
	trials := m.trials(tests)
	became := unnoticed
	if len(trials) == 0 {
		became = unmet
	}
	if full {
		trials = append(trials, wholes(tests)...)
	}
	for _, t := range trials {
		if most > 0 && time.Since(begun) > most {
			return slow
		}
		if said, ok := t.holds("COGCOURT_MUTANT=" + strconv.Itoa(m.id)); !ok {
			t.learns(said)
			return t.of.name
		}
	}
	return became
}

// wholes are all tests of all packages, not the quick ones alone.
func wholes(tests []*test) []trial {
	var out []trial
	for _, t := range tests {
		if !slices.ContainsFunc(out, func(o trial) bool { return o.of == t.of }) {
			out = append(out, trial{of: t.of, full: true, patience: anHour})
		}
	}
	return out
}

// tally counts what came of the changes.
type tally struct {
	known     map[string]string // why one survives
	survivors []mutant
	unmet     int
	files     map[string][2]int // tried, survived
}

// try makes the changes and prints what comes of each.
func (t *tally) try(sample []mutant, made func(mutant) string) {
	for _, m := range sample {
		begun := time.Now()
		by := made(m)
		t.add(m, by)
		fmt.Printf("%-16s %5.1f s %s\n", by, time.Since(begun).Seconds(), m)
		if t.known[m.key()] != "" && !slices.Contains([]string{unnoticed, unmet, slow, isKnown}, by) {
			fmt.Println("known.txt says that it survives:", m.key())
		}
	}
}

func (t *tally) add(m mutant, by string) {
	count := t.files[m.file]
	count[0]++
	switch by {
	case unmet:
		t.unmet++
		fallthrough
	case unnoticed, slow, isKnown:
		count[1]++
		t.survivors = append(t.survivors, m)
	}
	t.files[m.file] = count
}

// String tells the share, the files, and what survived.
func (t *tally) String() string {
	var b strings.Builder
	tried := 0
	var names []string
	for name, of := range t.files {
		tried += of[0]
		names = append(names, name)
	}
	left := len(t.survivors)
	fmt.Fprintf(&b, "%d changes, %d noticed, %.1f %%; ", tried, tried-left, 100*float64(tried-left)/float64(max(tried, 1)))
	var open, because []string
	for _, m := range t.survivors {
		if why := t.known[m.key()]; why != "" {
			because = append(because, fmt.Sprintf("%s\n       known, because: %s\n", m, why))
			continue
		}
		open = append(open, fmt.Sprintf("%s\n       in %s: %s\n", m, m.in, m.text))
	}
	fmt.Fprintf(&b, "%d survive, %d of them known, %d met by no test\n", left, len(because), t.unmet)
	slices.Sort(names)
	for _, name := range names {
		fmt.Fprintf(&b, "  %-32s %3d tried, %2d survive\n", name, t.files[name][0], t.files[name][1])
	}
	b.WriteString(strings.Join(open, "") + strings.Join(because, ""))
	return b.String()
}

func boolean(is bool) int {
	if is {
		return 1
	}
	return 0
}
