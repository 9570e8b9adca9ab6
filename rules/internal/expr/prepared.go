package expr

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"
)

// A checked tree is written in one line, each node in front of those below it,
// so that it can be kept beside the text that it was made of:
//
//	c2:bool _>_ >ff 2 s1:double pitch_mm i0:cassette cassette l3:double 3.5
//
// A node is a letter, the engine's number of it, and its type; then an i its name,
// an l its value, an s the field of the node that follows, a c (with a target, an m)
// the function, its overloads joined by commas and how many arguments follow, a v how
// many entries follow, and an f the names of a loop and of its result before the
// five nodes of the loop. Places are not kept: who needs them has something to
// report, and parses.

// written gives the line of a checked tree. It fails for what the language does
// not have.
func written(tree *ast.AST) (string, error) {
	w := treeWriter{tree: tree}
	w.node(tree.Expr())
	return strings.Join(w.words, " "), w.err
}

type treeWriter struct {
	tree  *ast.AST
	words []string
	err   error
}

func (w *treeWriter) put(words ...string) { w.words = append(w.words, words...) }

// head writes the letter, number and type of a node.
func (w *treeWriter) head(letter string, e ast.Expr) {
	t, ok := w.tree.TypeMap()[e.ID()]
	if !ok {
		w.fail(e)
		return
	}
	w.put(letter + strconv.FormatInt(e.ID(), 10) + ":" + t.String())
}

func (w *treeWriter) fail(e ast.Expr) {
	if w.err == nil {
		w.err = fmt.Errorf("node %d of an expression cannot be kept", e.ID())
	}
}

func (w *treeWriter) node(e ast.Expr) {
	refers := w.tree.ReferenceMap()[e.ID()]
	if refers != nil && (refers.Value != nil || (e.Kind() == ast.IdentKind) != (refers.Name != "")) {
		w.fail(e)
	}
	switch e.Kind() {
	case ast.IdentKind:
		w.head("i", e)
		w.put(e.AsIdent())
		if refers == nil || refers.Name != e.AsIdent() {
			w.fail(e)
		}
	case ast.LiteralKind:
		w.head("l", e)
		w.literal(e)
	case ast.SelectKind:
		if e.AsSelect().IsTestOnly() {
			w.fail(e)
		}
		w.head("s", e)
		w.put(e.AsSelect().FieldName())
		w.node(e.AsSelect().Operand())
	case ast.CallKind:
		w.call(e, refers)
	case ast.ListKind:
		if len(e.AsList().OptionalIndices()) > 0 {
			w.fail(e)
		}
		w.head("v", e)
		w.put(strconv.Itoa(e.AsList().Size()))
		for _, el := range e.AsList().Elements() {
			w.node(el)
		}
	case ast.ComprehensionKind:
		c := e.AsComprehension()
		if c.HasIterVar2() {
			w.fail(e)
		}
		w.head("f", e)
		w.put(c.IterVar(), c.AccuVar())
		for _, part := range loopParts(c) {
			w.node(part)
		}
	default:
		w.fail(e)
	}
}

func loopParts(c ast.ComprehensionExpr) []ast.Expr {
	return []ast.Expr{c.IterRange(), c.AccuInit(), c.LoopCondition(), c.LoopStep(), c.Result()}
}

func (w *treeWriter) literal(e ast.Expr) {
	switch v := e.AsLiteral().(type) {
	case types.Bool:
		w.put(strconv.FormatBool(bool(v)))
	case types.Int:
		w.put(strconv.FormatInt(int64(v), 10))
	case types.Double:
		w.put(strconv.FormatFloat(float64(v), 'g', -1, 64))
	case types.String:
		w.put(strconv.Quote(string(v)))
	default:
		w.fail(e)
	}
}

func (w *treeWriter) call(e ast.Expr, refers *ast.ReferenceInfo) {
	c := e.AsCall()
	if refers == nil || len(refers.OverloadIDs) == 0 {
		w.fail(e)
		return
	}
	letter := "c"
	if c.IsMemberFunction() {
		letter = "m"
	}
	w.head(letter, e)
	w.put(c.FunctionName(), strings.Join(refers.OverloadIDs, ","), strconv.Itoa(len(c.Args())))
	if c.IsMemberFunction() {
		w.node(c.Target())
	}
	for _, a := range c.Args() {
		w.node(a)
	}
}

// treeReader reads a line of written. What does not fit the scope it is read for
// ends it: no names, and no facts of another type, are taken on trust.
type treeReader struct {
	scope *Scope
	rest  string
	loops []string // names of the loops around, and of their results
	types map[int64]*types.Type
	refs  map[int64]*ast.ReferenceInfo
	bad   bool
}

// read gives the tree of a line, or nil.
func (s *Scope) read(line string) *ast.AST {
	r := treeReader{scope: s, rest: line, types: map[int64]*types.Type{}, refs: map[int64]*ast.ReferenceInfo{}}
	e := r.node()
	if r.bad || r.rest != "" {
		return nil
	}
	return ast.NewCheckedAST(ast.NewAST(e, ast.NewSourceInfo(nil)), r.types, r.refs)
}

// word takes the next word off the line.
func (r *treeReader) word() string {
	word := r.rest
	if quoted, err := strconv.QuotedPrefix(r.rest); err == nil {
		word = quoted
	} else if end := strings.IndexByte(r.rest, ' '); end >= 0 {
		word = r.rest[:end]
	}
	r.rest = strings.TrimPrefix(r.rest[len(word):], " ")
	r.bad = r.bad || word == ""
	return word
}

// count takes a number of nodes that follow: each takes some characters at least.
func (r *treeReader) count() int {
	n, err := strconv.Atoi(r.word())
	if err != nil || n < 0 || n > len(r.rest) {
		r.bad = true
		return 0
	}
	return n
}

func (r *treeReader) node() ast.Expr {
	letter, id, t := r.head()
	if r.bad {
		return factory.NewUnspecifiedExpr(id)
	}
	switch letter {
	case 'i':
		return r.name(id, t)
	case 'l':
		return factory.NewLiteral(id, r.literal(t))
	case 's':
		field := r.word()
		e := factory.NewSelect(id, r.node(), field)
		read, ok := readOf(r.scope.lang, e)
		r.bad = r.bad || !ok || !t.IsExactType(celType(r.scope.lang.Field(read).Type))
		return e
	case 'c', 'm':
		return r.call(letter == 'm', id)
	case 'v':
		return factory.NewList(id, r.nodes(r.count()), nil)
	case 'f':
		return r.loop(id)
	}
	r.bad = true
	return factory.NewUnspecifiedExpr(id)
}

// head takes the letter, number and type of a node.
func (r *treeReader) head() (letter byte, id int64, t *types.Type) {
	head, kind, _ := strings.Cut(r.word(), ":")
	if len(head) < 2 || r.bad {
		r.bad = true
		return 0, 0, nil
	}
	id, err := strconv.ParseInt(head[1:], 10, 64)
	t = r.scope.lang.typeOf(kind)
	r.bad = r.bad || err != nil || t == nil
	r.types[id] = t
	return head[0], id, t
}

// typeOf finds a type by the engine's name of it, nil where there is none.
func (l *Language) typeOf(name string) *types.Type {
	switch name {
	case "bool":
		return cel.BoolType
	case "int":
		return cel.IntType
	case "double":
		return cel.DoubleType
	case "string":
		return cel.StringType
	}
	if inner, ok := strings.CutPrefix(name, "list("); ok && strings.HasSuffix(inner, ")") {
		if t := l.typeOf(inner[:len(inner)-1]); t != nil {
			return cel.ListType(t)
		}
		return nil
	}
	if _, ok := l.index[name]; ok {
		return cel.ObjectType(name)
	}
	return nil
}

// name reads a name: of an object, of a let-name of the same type, or of a loop around.
func (r *treeReader) name(id int64, t *types.Type) ast.Expr {
	name := r.word()
	_, object := r.scope.lang.index[name]
	known := object && t.Kind() == types.StructKind && t.TypeName() == name
	if l := r.scope.lets[name]; l != nil {
		known = t.IsExactType(l.prog.typ)
	}
	for _, loop := range r.loops {
		known = known || loop == name
	}
	r.bad = r.bad || !known
	r.refs[id] = ast.NewIdentReference(name, nil)
	return factory.NewIdent(id, name)
}

// literal reads a value of a type.
func (r *treeReader) literal(t *types.Type) (v ref.Val) {
	word := r.word()
	var err error
	switch {
	case t.IsExactType(cel.BoolType):
		var b bool
		b, err = strconv.ParseBool(word)
		v = types.Bool(b)
	case t.IsExactType(cel.IntType):
		var n int64
		n, err = strconv.ParseInt(word, 10, 64)
		v = types.Int(n)
	case t.IsExactType(cel.DoubleType):
		var x float64
		x, err = strconv.ParseFloat(word, 64)
		v = types.Double(x)
	default:
		var text string
		text, err = strconv.Unquote(word)
		v = types.String(text)
		r.bad = r.bad || !t.IsExactType(cel.StringType)
	}
	r.bad = r.bad || err != nil
	return v
}

func (r *treeReader) call(member bool, id int64) ast.Expr {
	name, overloads, n := r.word(), strings.Split(r.word(), ","), r.count()
	r.refs[id] = ast.NewFunctionReference(overloads...)
	if member {
		target := r.node()
		return factory.NewMemberCall(id, name, target, r.nodes(n)...)
	}
	return factory.NewCall(id, name, r.nodes(n)...)
}

func (r *treeReader) nodes(n int) []ast.Expr {
	out := make([]ast.Expr, 0, n)
	for len(out) < n && !r.bad {
		out = append(out, r.node())
	}
	return out
}

func (r *treeReader) loop(id int64) ast.Expr {
	each, result := r.word(), r.word()
	over := r.node()
	r.loops = append(r.loops, each, result)
	parts := r.nodes(4)
	r.loops = r.loops[:len(r.loops)-2]
	if r.bad {
		return factory.NewUnspecifiedExpr(id)
	}
	return factory.NewComprehension(id, over, each, result, parts[0], parts[1], parts[2], parts[3])
}
