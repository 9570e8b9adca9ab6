package main

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/source"
)

// unnamed is what a mix on the line is called where it does not say.
const unnamed = "unnamed"

// lineTree makes of arguments the tree that a mix file of the same content has, each
// node at the place of its argument. What is no entry of a mix is a problem; what an
// entry may hold is for the reader of mixes to say.
func lineTree(line []argument) (*source.Node, source.Problems) {
	t := treeMaker{heads: map[string]*source.Node{}}
	var vocabulary *rules.Vocabulary
	if v, err := compat.Vocabulary(); err == nil {
		vocabulary = v
	}
	t.words = vocabulary
	root := mapAt(line[0].place)
	t.parts = mapAt(line[0].place)
	for _, a := range line {
		t.add(root, a)
	}
	if root.Get("mix") == nil {
		put(root, "mix", text(unnamed, root.Pos))
	}
	if len(t.parts.Pairs) == 0 && len(t.ps) == 0 {
		t.refuse(line[0], source.Missing, "the mix on the line has no parts",
			"write kind=id or kind.field=value, such as chain.speeds=9")
	}
	t.shorten()
	put(root, "parts", t.parts)
	return root, t.ps
}

// treeMaker makes the tree of a mix on the line.
type treeMaker struct {
	parts *source.Node
	heads map[string]*source.Node // the parts, and what stands beside them, by name
	words *rules.Vocabulary
	ps    source.Problems
}

func (t *treeMaker) refuse(a argument, code source.Code, text, hint string) {
	t.ps.Add(a.place, "", text, hint).Code = code
}

// add puts one argument into the tree.
func (t *treeMaker) add(root *source.Node, a argument) {
	_, isKind := catalog.KindIndex(a.kind)
	switch {
	case !utf8.ValidString(a.whole):
		t.refuse(a, source.Character, "is a text that is not UTF-8", "")
	case a.name() == "mix" || a.name() == "scope":
		t.entry(root, a, a.kind)
	case isKind:
		t.entry(t.head(t.parts, a), a, a.field)
	case a.kind == "bench" && a.dotted:
		t.entry(t.head(root, a), a, a.field)
	case t.ps.Full(): // a hint costs time, and nobody reads this one
		t.refuse(a, source.NoSuchChoice, "there is no kind", "")
	default:
		text, hint := t.noName(a)
		t.refuse(a, source.NoSuchChoice, text, hint)
	}
}

// head gives the map of a part or of the bench.
func (t *treeMaker) head(in *source.Node, a argument) *source.Node {
	n, there := t.heads[a.kind]
	if !there {
		n = mapAt(a.place)
		t.heads[a.kind] = n
		put(in, a.kind, n)
	}
	return n
}

// entry puts a value into a map, once.
func (t *treeMaker) entry(in *source.Node, a argument, key string) {
	value, ok := t.value(a)
	switch {
	case key == "":
		t.refuse(a, source.Missing, "names no field", "write "+a.kind+".FIELD=VALUE; cogcourt words "+a.kind+" lists the fields")
	case !ok:
	case in.Get(key) != nil:
		hint := "leave one out; the other is " + in.Get(key).Pos.File
		if key == "id" {
			hint += "; several usual classes stand in one argument, with a comma between them"
		}
		t.refuse(a, source.Contradicts, "says the same twice", hint)
	default:
		put(in, key, value)
	}
}

// shorten makes a part that is an id alone what files write for it.
func (t *treeMaker) shorten() {
	for i, p := range t.parts.Pairs {
		if id := p.Value.Get("id"); id != nil && id.Kind == source.Text && len(p.Value.Pairs) == 1 {
			t.parts.Pairs[i].Value = id
		}
	}
}

// value reads what stands behind the =: names and ids as they are, all else as YAML
// reads it. A list needs no brackets.
func (t *treeMaker) value(a argument) (*source.Node, bool) {
	if strings.TrimSpace(a.value) == "" {
		t.refuse(a, source.Missing, "nothing stands behind the =", "is a variable of the shell not set?")
		return nil, false
	}
	switch {
	case a.field == "id" && a.name() != "mix" && a.name() != "scope":
		return t.ids(a)
	case a.name() == "mix" || a.name() == "scope" || slices.Contains([]string{"name", "maker", "sku"}, a.field):
		return text(a.value, a.place), true
	}
	written := strings.TrimSpace(a.value)
	if t.listed(a) && !strings.HasPrefix(written, "[") {
		written = "[" + written + "]"
	}
	n, err := compat.MixLimits().Parse("argument", []byte(written))
	if err != nil {
		for _, p := range err.(source.Problems) { // the only error that Parse gives
			t.refuse(a, p.Code, p.Text, p.Hint)
		}
		return nil, false
	}
	if n.TightComment {
		t.refuse(a, source.Syntax, "a # begins a remark, and the rest of the argument is lost", "take it out")
		return nil, false
	}
	return moved(n, a.place), true
}

// listed says whether the field of an argument holds a list.
func (t *treeMaker) listed(a argument) bool {
	if t.words == nil {
		return false
	}
	ref, ok := t.words.Find(a.kind + "." + a.field)
	return ok && slices.Contains([]fact.Type{fact.Fractions, fact.Wholes, fact.Names}, ref.Field().Type)
}

// ids reads the id of a part, or those of several classes.
func (t *treeMaker) ids(a argument) (*source.Node, bool) {
	list := &source.Node{Kind: source.List, Pos: a.place}
	for _, id := range strings.Split(strings.Trim(a.value, "[] "), ",") {
		if id = strings.TrimSpace(id); id == "" {
			t.refuse(a, source.BadName, "an id between the commas is empty", "write "+a.kind+"=id,id")
			return nil, false
		}
		list.Items = append(list.Items, text(id, a.place))
	}
	if len(list.Items) == 1 {
		return list.Items[0], true
	}
	return list, true
}

// moved gives a tree whose every place is one argument: columns of what was put into
// brackets would be those of nobody's text.
func moved(n *source.Node, to source.Pos) *source.Node {
	m := &source.Node{Kind: n.Kind, Pos: to, Text: n.Text, Plain: n.Plain, Comment: n.Comment, TightComment: n.TightComment}
	for _, item := range n.Items {
		m.Items = append(m.Items, moved(item, to))
	}
	for _, p := range n.Pairs {
		m.Pairs = append(m.Pairs, source.Pair{Key: moved(p.Key, to), Value: moved(p.Value, to)})
	}
	return m
}

func mapAt(place source.Pos) *source.Node { return &source.Node{Kind: source.Map, Pos: place} }

func text(s string, place source.Pos) *source.Node {
	return &source.Node{Kind: source.Text, Pos: place, Text: s}
}

func put(in *source.Node, key string, value *source.Node) {
	in.Pairs = append(in.Pairs, source.Pair{Key: text(key, value.Pos), Value: value})
}

// noName says what an argument can have been meant for whose name is none.
func (t *treeMaker) noName(a argument) (wrong, hint string) {
	switch {
	case a.kind == "":
		return "nothing stands in front of the =", "write kind=id or kind.field=value"
	case a.kind == "bench":
		return "bench holds several values", "write bench.FIELD=VALUE; cogcourt words bench lists the fields"
	case a.dotted && (a.kind == "mix" || a.kind == "scope"):
		return fmt.Sprintf("%s has no fields", a.kind), "write " + a.kind + "=" + a.value
	}
	if !a.dotted {
		if fields := t.fieldsNamed(a.kind); len(fields) > 0 {
			return fmt.Sprintf("%q is a field, not a kind", a.kind), "write " + strings.Join(fields, "= or ") + "="
		}
	}
	hint = catalog.SuggestKind(a.kind)
	beside := []string{"mix", "scope", "bench"}
	if near := fact.Nearest(a.kind, append(catalog.KindNames(), beside...)); slices.Contains(beside, near) {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	return fmt.Sprintf("there is no kind %q", a.kind), hint
}

// fieldsNamed lists the fields of parts and bench with a name.
func (t *treeMaker) fieldsNamed(name string) []string {
	var out []string
	for _, o := range append(catalog.Kinds(), t.bench()...) {
		if _, ok := o.Table().Index(name); ok {
			out = append(out, o.Name()+"."+name)
		}
	}
	return out
}

func (t *treeMaker) bench() []*rules.Object {
	if t.words != nil {
		if i, ok := t.words.Index("bench"); ok {
			return t.words.Objects()[i : i+1]
		}
	}
	return nil
}
