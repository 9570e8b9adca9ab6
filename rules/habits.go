package rules

import (
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
// says more than the names that are known. The problems from a place on are those
// of the map.
func (l *loader) hinted(n *source.Node, from int, allowed []string) {
	for i := from; i < len(*l.ps); i++ {
		p := &(*l.ps)[i]
		at := slices.IndexFunc(n.Pairs, func(pair source.Pair) bool { return pair.Key.Pos == p.Pos })
		if p.Code != source.UnknownEntry || at < 0 {
			continue
		}
		hint := entryHabits[n.Pairs[at].Key.Text]
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
