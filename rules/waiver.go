package rules

import (
	"fmt"

	"example.org/cogcourt/rules/source"
)

// Waiver lets one small change of a rule live that no example notices, for a
// reason.
type Waiver struct {
	In, Change, Reason string
	Pos                source.Pos
}

// Waivers gives the changes that the rule lets live. The slice is the rule's own.
func (r *Rule) Waivers() []Waiver { return r.waivers }

// waivers reads the mutants that may survive, each with its reason.
func (l *loader) waivers(path string, n *source.Node) []Waiver {
	var out []Waiver
	for i, item := range n.ReadMaps(path, l.ps, "in", "change", "reason") {
		at := fmt.Sprintf("%s[%d]", path, i)
		if l.keys(item, at, "in", "change", "reason") {
			out = append(out, Waiver{l.text(item, at, "in"), l.text(item, at, "change"), l.text(item, at, "reason"), item.Pos})
		}
	}
	return out
}
