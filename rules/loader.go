package rules

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"sync"
	"unicode/utf8"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// loader gathers one file set.
type loader struct {
	set     *Set
	ps      *source.Problems
	rules   map[string]*Rule
	shipped map[string]bool // ids of rules of sound files
	bases   []pendingBasis
	afters  []pendingBasis
	stops   []pendingBasis // rules that steps name
	adjusts []*Adjust
	lets    int
	cost    uint64
	over    *Rule               // the first with which the cost is too high
	sound   bool                // of the file that is being read: see Config.Sound
	whole   func() *source.Node // of a sound file, with its examples

	// Maps with an unknown entry: what seems to be missing there is more
	// probably misspelt, and is not reported as well.
	misspelt map[*source.Node]bool
}

// pendingBasis is a source id that is looked up when every file is read.
type pendingBasis struct {
	pos  source.Pos
	path string
	id   string
}

// IDPattern is the regular expression of a rule's id: group/name.
const IDPattern = `^[a-z0-9-]+(/[a-z0-9-]+)+$`

// ValidID says whether a rule can have this id.
func ValidID(id string) bool { return ruleID.MatchString(id) }

var (
	ruleID  = regexp.MustCompile(IDPattern)
	slug    = regexp.MustCompile(`^[a-z0-9-]+$`)
	letName = regexp.MustCompile(`^[a-z][a-z0-9_]*$`)
)

// file reads one rule file.
func (l *loader) file(f source.File) {
	text := f.Text
	if l.sound {
		text = withoutExamples(f.Text)
		l.whole = sync.OnceValue(func() *source.Node {
			root, _ := source.Parse(f.Name, f.Text)
			return root
		})
	}
	root, err := source.Parse(f.Name, text)
	if err != nil {
		if found, ok := err.(source.Problems); ok {
			l.ps.Join(found)
			return
		}
		l.ps.Add(source.Pos{File: f.Name}, "", err.Error(), "")
		return
	}
	if !l.keys(root, "", "pack", "edition", "note", "rules", "adjust", "sources", "steps") {
		return
	}
	pack := l.pack(root)
	if !l.bounded(root) {
		return
	}
	for i, n := range root.Get("rules").ReadMaps("rules", l.ps, "id", "title") {
		l.rule(pack, i, n)
	}
	for i, n := range root.Get("steps").ReadMaps("steps", l.ps, "id", "do") {
		l.step(pack, fmt.Sprintf("steps[%d]", i), n)
	}
	for i, n := range root.Get("sources").ReadMaps("sources", l.ps, "id", "what", "status") {
		l.source(fmt.Sprintf("sources[%d]", i), n)
	}
	for i, n := range root.Get("adjust").ReadMaps("adjust", l.ps, "rule", "to", "reason") {
		l.adjust(fmt.Sprintf("adjust[%d]", i), n)
	}
}

// What one file may hold. An expression takes thousands of times the memory of its
// text once it is compiled, so these are looked at before any is.
const (
	mostRules   = 2000
	mostLets    = 50 // of one rule
	mostAllLets = 5000
)

// bounded refuses a file with more rules or let-names than that.
func (l *loader) bounded(root *source.Node) bool {
	before, all := len(*l.ps), 0
	rules := root.Get("rules")
	if rules == nil {
		return true
	}
	if len(rules.Items) > mostRules {
		l.ps.Add(rules.Items[mostRules].Pos, "rules", fmt.Sprintf("has %d entries", len(rules.Items)),
			fmt.Sprintf("at most %d a file", mostRules))
	}
	for i, n := range rules.Items {
		lets := n.Get("let")
		if lets == nil {
			continue
		}
		if len(lets.Pairs) > mostLets {
			l.ps.Add(lets.Pairs[mostLets].Key.Pos, fmt.Sprintf("rules[%d].let", i), fmt.Sprintf("has %d names", len(lets.Pairs)),
				fmt.Sprintf("at most %d a rule", mostLets))
		}
		if all += len(lets.Pairs); all > mostAllLets {
			l.ps.Add(lets.Pos, fmt.Sprintf("rules[%d].let", i),
				fmt.Sprintf("the rules of this file have more than %d let-names together", mostAllLets),
				"put some of the rules in another file")
			break
		}
	}
	return len(*l.ps) == before
}

// pack reads the name and edition of the pack that a file belongs to.
func (l *loader) pack(root *source.Node) string {
	name, ok := root.Get("pack").ReadText("pack", l.ps)
	switch {
	case root.Get("pack") == nil:
		l.missing(root, "", "pack", "write the name of the pack, such as pack: my-shop")
	case ok && !slug.MatchString(name):
		l.ps.Add(root.Get("pack").Pos, "pack", fmt.Sprintf("%q is no name for a pack", name), "use a-z, 0-9 and -")
	}
	edition := 1
	if n := root.Get("edition"); n != nil {
		if edition, ok = n.ReadWhole("edition", l.ps); ok && edition < 1 {
			l.ps.Add(n.Pos, "edition", fmt.Sprintf("the edition is %d, and editions count from 1", edition), "")
		}
	}
	for _, p := range l.set.packs {
		if p.Pack == name {
			if p.Edition != edition {
				l.ps.Add(root.Pos, "edition", fmt.Sprintf("pack %s has edition %d in another file and %d here", name, p.Edition, edition), "")
			}
			return name
		}
	}
	l.set.packs = append(l.set.packs, Pack{name, edition})
	return name
}

func (l *loader) source(path string, n *source.Node) {
	if !l.keys(n, path, "id", "what", "status") {
		return
	}
	s := Source{Pos: n.Pos}
	s.ID = l.text(n, path, "id")
	s.What = l.text(n, path, "what")
	s.Status = l.text(n, path, "status")
	known := []string{"read", "read second-hand", "from memory", "computed"}
	if s.Status != "" && !slices.Contains(known, s.Status) {
		l.ps.Add(n.Get("status").Pos, path+".status", fmt.Sprintf("unknown status %q", s.Status), fact.Suggest(s.Status, known))
	}
	for _, other := range l.set.sources {
		if other.ID == s.ID {
			l.ps.Add(n.Pos, path, fmt.Sprintf("the source %s stands twice", s.ID), "the other one is at "+other.Pos.String())
		}
	}
	l.set.sources = append(l.set.sources, s)
}

// aside is the loader that reads what is read later: its faults are its own, for
// the load is over by then. Files that may have faults are read at once.
func (l *loader) aside() *loader {
	if !l.sound {
		return l
	}
	own := *l
	own.ps, own.misspelt = &source.Problems{}, map[*source.Node]bool{}
	return &own
}

// keys reports whether the node is a map that can be read on. Unknown entries
// are problems, and the known ones are read all the same.
func (l *loader) keys(n *source.Node, path string, allowed ...string) bool {
	before := len(*l.ps)
	if !n.Keys(path, l.ps, allowed...) {
		l.misspelt[n] = true
		l.hinted(n, before, allowed)
	}
	return n != nil && n.Kind == source.Map
}

// missing reports an entry that must be there.
func (l *loader) missing(n *source.Node, path, key, hint string) {
	if !l.misspelt[n] {
		l.ps.Add(n.Pos, path, key+" is missing", hint)
	}
}

// text reads an entry that must be there and must say something. A remark may
// stand behind it, but not what looks like the rest of the text.
func (l *loader) text(n *source.Node, path, key string) string {
	child := n.Get(key)
	if child == nil {
		l.missing(n, path, key, "")
		return ""
	}
	if child.Cut {
		l.remark(child, path+"."+key)
	}
	s, _ := child.ReadText(path+"."+key, l.ps)
	return s
}

// remark refuses a comment behind a plain text: what an author meant as the
// number of a bolt, #4, would be lost without a word. The place is the end of
// what was read.
func (l *loader) remark(n *source.Node, path string) {
	if n.Remark && n.Kind != source.Null {
		l.ps.Add(n.At(utf8.RuneCountInString(n.Text)), path, "a # begins a comment here and the rest of the line is lost", "put the text in quotes, or the comment on a line of its own")
	}
}

// finish looks at what only the whole set can tell.
func (l *loader) finish() {
	ids := make([]string, len(l.set.sources))
	for i, s := range l.set.sources {
		ids[i] = s.ID
	}
	for _, b := range l.bases {
		if !slices.Contains(ids, b.id) {
			l.ps.Add(b.pos, b.path, fmt.Sprintf("no source is called %q", b.id), cmp.Or(fact.Suggest(b.id, ids), "add it under sources:"))
		}
	}
	l.applyAdjusts()
	l.orderSteps()
	l.knownStops()
	if l.cost > maxSetCost {
		l.ps.Add(l.over.Pos, "", fmt.Sprintf("the rules together could take %d steps, and %d are allowed", l.cost, maxSetCost),
			"the bound is passed here, with "+l.over.ID)
	}
	if len(l.set.rules) == 0 && len(*l.ps) == 0 {
		l.ps.Add(source.Pos{}, "", "no rules were found", "a rule file ends in .yaml, .yml or .json and has rules: in it")
	}
}
