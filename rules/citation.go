package rules

import (
	"fmt"
	"slices"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// Citation is one entry of a pack's list of sources.
type Citation struct {
	ID     string
	What   string // author, title, year, as far as known
	Status string // read, read second-hand, from memory, computed
	Pos    source.Pos
}

func (l *loader) citation(path string, n *source.Node) {
	if !l.keys(n, path, "id", "what", "status") {
		return
	}
	s := Citation{Pos: n.Pos}
	s.ID = l.text(n, path, "id")
	s.What = l.text(n, path, "what")
	s.Status = l.text(n, path, "status")
	known := []string{"read", "read second-hand", "from memory", "computed"}
	if s.Status != "" && !slices.Contains(known, s.Status) {
		text := fmt.Sprintf("unknown status %q", s.Status)
		n.Get("status").Refuse(l.ps, path+".status", text, fact.Suggest(s.Status, known)).Code = source.NoSuchChoice
	}
	for _, other := range l.set.citations {
		if other.ID == s.ID {
			text := fmt.Sprintf("the source %s stands twice", s.ID)
			n.Refuse(l.ps, path, text, "the other one is at "+other.Pos.String()).Code = source.Twice
		}
	}
	l.set.citations = append(l.set.citations, s)
}

// reference is the id of a source or step that is looked up when every file is read.
type reference struct {
	pos, end source.Pos
	path     string
	id       string
}

// unknown reports an id that nothing goes by.
func (r reference) unknown(ps *source.Problems, text, hint string) {
	p := ps.Add(r.pos, r.path, text, hint)
	p.End, p.Code = r.end, source.UnknownID
}
