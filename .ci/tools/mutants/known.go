package main

import (
	_ "embed"
	"fmt"
	"strings"
)

// What is known to survive, and why. Entries lie apart by an empty line:
//
//	rules/evaluate.go  func (*arena) room
//	    m.names = make([]string, 0, max(64, n))
//	    64 -> one more
//	    Room for names; an append makes more where it is too little.
//
// File and function, the line that the change stands on, the change, and the reason. Of
// equal changes of one line the second is written with (2) behind it. No entry hangs on
// a number, so that it holds as code moves.
//
//go:embed known.txt
var knownText string

// known gives the reasons by where and what a change is.
func known(text string) (map[string]string, error) {
	out := map[string]string{}
	for block := range strings.SplitSeq(strings.TrimSpace(text), "\n\n") {
		lines := strings.Split(strings.TrimSpace(block), "\n")
		if strings.HasPrefix(lines[0], "#") {
			continue
		}
		if len(lines) < 4 {
			return nil, fmt.Errorf("known.txt: an entry is place, line, change and reason: %q", lines[0])
		}
		for i := range lines {
			lines[i] = strings.TrimSpace(lines[i])
		}
		key := strings.Join(lines[:3], "\n")
		if out[key] != "" {
			return nil, fmt.Errorf("known.txt: %q stands twice", key)
		}
		out[key] = strings.Join(lines[3:], " ")
	}
	return out, nil
}

// key is how a change is called in known.txt.
func (m mutant) key() string {
	key := m.file + "  " + m.in + "\n" + m.text + "\n" + m.was + " -> " + m.now
	if m.nth > 1 {
		key += fmt.Sprintf(" (%d)", m.nth)
	}
	return key
}

// stale names the entries that no change answers to any more.
func stale(known map[string]string, all []mutant) []string {
	there := map[string]bool{}
	for _, m := range all {
		there[m.key()] = true
	}
	var out []string
	for key := range known {
		if !there[key] {
			out = append(out, strings.ReplaceAll(key, "\n", " | "))
		}
	}
	return out
}
