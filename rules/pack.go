package rules

import (
	"fmt"

	"example.org/cogcourt/rules/source"
)

// Pack names one pack of rules.
type Pack struct {
	Pack    string // its name
	Edition int    // it counts up when the pack changes
}

// pack reads the name and edition of the pack that a file belongs to.
func (l *loader) pack(root *source.Node) string {
	name, ok := root.Get("pack").ReadText("pack", l.ps)
	switch {
	case root.Get("pack") == nil:
		l.missing(root, "", "pack", "write the name of the pack, such as pack: my-shop")
	case ok && !slug.MatchString(name):
		text := fmt.Sprintf("%q is no name for a pack", name)
		root.Get("pack").Refuse(l.ps, "pack", text, "use a-z, 0-9 and -").Code = source.BadName
	}
	edition := 1
	if n := root.Get("edition"); n != nil {
		if edition, ok = n.ReadWhole("edition", l.ps); ok && edition < 1 {
			text := fmt.Sprintf("the edition is %d, and editions count from 1", edition)
			n.Refuse(l.ps, "edition", text, "").Code = source.OutOfRange
		}
	}
	for _, p := range l.set.packs {
		if p.Pack == name {
			if p.Edition != edition {
				text := fmt.Sprintf("pack %s has edition %d in another file and %d here", name, p.Edition, edition)
				root.Refuse(l.ps, "edition", text, "").Code = source.Contradicts
			}
			return name
		}
	}
	l.set.packs = append(l.set.packs, Pack{name, edition})
	return name
}
