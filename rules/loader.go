package rules

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"sync"
	"unicode/utf8"

	"example.org/cogcourt/rules/source"
)

// loader reads the files of one set after each other. What refers to another file
// waits for finish.
type loader struct {
	set          *Set
	ps           *source.Problems
	drawings     []Drawing
	rules        map[string]*Rule
	shipped      map[string]bool // ids of rules of sound files
	bases        []reference
	afters       []reference
	stops        []reference // rules that steps name
	adjusts      []pendingAdjust
	lets         int
	inTexts      int // expressions in texts, of the file that is being read
	cost         uint64
	overBudget   *Rule               // the first with which the cost is too high
	sound        bool                // of the file that is being read: see Config.Sound
	withExamples func() *source.Node // of a sound file, with its examples
	stopped      func() bool         // nobody waits for the set any more

	// Maps with an unknown entry: what seems to be missing there is more
	// probably misspelt, and is not reported as well.
	misspelt map[*source.Node]bool

	preparing *preparing        // nil but for Prepare
	prepared  preparedFiles     // see Config.Prepared
	recalled  map[string]string // of them those of the sound file that is being read
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
	if l.stopped() {
		return
	}
	l.recalled, l.inTexts = nil, 0
	if l.preparing != nil {
		l.preparing.begin(f)
	}
	if l.sound {
		whole := f
		f.Text = withoutExamples(f.Text)
		l.recalled = l.prepared[fileLine(f)]
		l.withExamples = sync.OnceValue(func() *source.Node {
			root, _ := FileLimits().Parse(whole.Name, whole.Text)
			return root
		})
	}
	root, err := f.Tree(), error(nil)
	if root == nil {
		root, err = FileLimits().Parse(f.Name, f.Text)
	}
	if err != nil {
		if found, ok := err.(source.Problems); ok {
			l.ps.Join(found)
			return
		}
		l.ps.Add(source.Pos{File: f.Name}, "", err.Error(), "").Code = source.Unreadable
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
		if l.stopped() {
			return
		}
		l.rule(pack, i, n)
	}
	for i, n := range root.Get("steps").ReadMaps("steps", l.ps, "id", "do") {
		l.step(pack, fmt.Sprintf("steps[%d]", i), n)
	}
	for i, n := range root.Get("sources").ReadMaps("sources", l.ps, "id", "what", "status") {
		l.citation(fmt.Sprintf("sources[%d]", i), n)
	}
	for i, n := range root.Get("adjust").ReadMaps("adjust", l.ps, "rule", "to", "reason") {
		l.adjust(fmt.Sprintf("adjust[%d]", i), n)
	}
}

// FileLimits are those of a rule file. They let 2,000 rules of a line each in, or 1,000 of
// a dozen lines, and a folder may hold many files.
func FileLimits() source.Limits {
	return source.Limits{Bytes: 1 << 20, Values: 60_000, Hint: "split it into several files"}
}

// What one file may hold. An expression takes thousands of times the memory of its
// text once it is compiled, so these are looked at before any is.
const (
	mostRules      = 2000
	mostLets       = 50 // of one rule
	mostAllLets    = 5000
	mostInText     = 50 // expressions of one text
	mostAllInTexts = 10_000
)

// bounded refuses a file with more rules or let-names than that.
func (l *loader) bounded(root *source.Node) bool {
	before, all := l.ps.Count(), 0
	rules := root.Get("rules")
	if rules == nil {
		return true
	}
	if len(rules.Items) > mostRules {
		text := fmt.Sprintf("has %d entries", len(rules.Items))
		rules.Items[mostRules].Refuse(l.ps, "rules", text, fmt.Sprintf("at most %d a file", mostRules)).Code = source.TooMany
	}
	for i, n := range rules.Items {
		lets := n.Get("let")
		if lets == nil {
			continue
		}
		if len(lets.Pairs) > mostLets {
			text, hint := fmt.Sprintf("has %d names", len(lets.Pairs)), fmt.Sprintf("at most %d a rule", mostLets)
			lets.Pairs[mostLets].Key.Refuse(l.ps, fmt.Sprintf("rules[%d].let", i), text, hint).Code = source.TooMany
		}
		if all += len(lets.Pairs); all > mostAllLets {
			text := fmt.Sprintf("the rules of this file have more than %d let-names together", mostAllLets)
			lets.Refuse(l.ps, fmt.Sprintf("rules[%d].let", i), text, "put some of the rules in another file").Code = source.TooMany
			break
		}
	}
	return l.ps.Count() == before
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
		n.Refuse(l.ps, path, key+" is missing", hint).Code = source.Missing
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
	if child.TightComment {
		l.remark(child, path+"."+key)
	}
	s, _ := child.ReadText(path+"."+key, l.ps)
	return s
}

// remark refuses a comment behind a plain text: what an author meant as the
// number of a bolt, #4, would be lost without a word. The place is the end of
// what was read.
func (l *loader) remark(n *source.Node, path string) {
	if n.Comment && n.Kind != source.Null {
		p := n.Refuse(l.ps, path, "a # begins a comment here and the rest of the line is lost",
			"put the text in quotes, or the comment on a line of its own")
		p.Pos, p.Code = n.At(utf8.RuneCountInString(n.Text)), source.Syntax
	}
}

// finish looks at what only the whole set can tell.
func (l *loader) finish() {
	ids := make([]string, len(l.set.citations))
	for i, s := range l.set.citations {
		ids[i] = s.ID
	}
	for _, b := range l.bases {
		if !slices.Contains(ids, b.id) {
			b.unknown(l.ps, fmt.Sprintf("no source is called %q", b.id), cmp.Or(l.ps.Suggest(b.id, ids), "add it under sources:"))
		}
	}
	l.applyAdjusts()
	l.orderSteps()
	l.knownStops()
	if l.cost > maxSetCost {
		text := fmt.Sprintf("the rules together could take %d steps and more, and %d are allowed", l.cost, maxSetCost)
		hint := "the bound is passed here, with " + l.overBudget.ID + "; no expression behind it was looked at"
		l.ps.Add(l.overBudget.Pos, "", text, hint).Code = source.Cost
	}
	if len(l.set.rules) == 0 && len(*l.ps) == 0 {
		hint := "a rule file ends in .yaml, .yml or .json and has rules: in it"
		l.ps.Add(source.Pos{}, "", "no rules were found", hint).Code = source.Empty
	}
}
