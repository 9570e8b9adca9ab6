package rules

import (
	"fmt"
	"slices"
	"strings"

	"example.org/cogcourt/rules/source"
)

const noSwitch = "a rule cannot be switched off; adjust: changes what it gives until a day"

// entryHabits are entries that people write who know other rule files, and what to
// write in their place.
var entryHabits = map[string]string{
	"severity": "write fail_if: or warn_if:, or both", "level": "write fail_if: or warn_if:, or both",
	"condition": "write fail_if: or warn_if:", "expr": "write fail_if: or warn_if:",
	"if":      "write fail_if: or warn_if:, or when: for where the rule applies",
	"message": "write say:", "msg": "write say:", "text": "write say:", "name": "write title:", "description": "write why:",
	"fix": "write remedy:", "tests": "write examples:",
	"enabled": noSwitch, "disabled": noSwitch,
}

// hinted gives the unknown entries of a map their hint, where there is one that
// says more than the names that are known.
func (l *loader) hinted(from int, allowed []string) {
	for i := from; i < len(*l.ps); i++ {
		p := &(*l.ps)[i]
		key, ok := strings.CutPrefix(p.Text, "unknown entry ")
		if !ok {
			continue
		}
		hint := entryHabits[strings.Trim(key, `"`)]
		_, entry, found := strings.Cut(hint, "write ")
		known := func(a string) bool { return strings.HasPrefix(entry, a+":") }
		if hint != "" && (!found || slices.ContainsFunc(allowed, known)) {
			p.Hint = hint
		}
		if p.Hint == "" {
			p.Hint = "known are " + strings.Join(allowed, ", ")
		}
	}
}

// maps reads a list of maps. What is no list gets the begin of one as a hint.
func (l *loader) maps(path string, n *source.Node, first string) []*source.Node {
	if n != nil && (n.Kind == source.Map || n.Kind == source.Text) {
		l.ps.Add(n.Pos, path, fmt.Sprintf("must be a list, is %s", n.Kind), fmt.Sprintf("begin each entry with a -, such as - {%s: ...}", first))
		return nil
	}
	return n.ReadList(path, l.ps)
}
