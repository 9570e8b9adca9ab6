package main

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"slices"
	"strings"

	"golang.org/x/tools/go/packages"
)

// mutant is one change of the code.
type mutant struct {
	id   int
	file string // from the module's root
	line int
	was  string
	now  string
	in   string // the function, or what is declared
	text string // of the line
	nth  int    // of the equal changes there, from 1
}

func (m mutant) String() string {
	return fmt.Sprintf("%5d  %s:%d  %s -> %s", m.id, m.file, m.line, m.was, m.now)
}

// edit puts text in the place of what stands between two offsets of a file.
type edit struct {
	from, to int
	text     string
}

// writer finds what can be changed in a file, and writes down how.
type writer struct {
	pkg     *packages.Package
	file    *ast.File
	name    string
	text    []byte
	next    int
	edits   []edit
	mutants []mutant
	fixed   map[ast.Node]bool // constants, of which nothing may be changed
}

func (w *writer) offset(p token.Pos) int { return w.pkg.Fset.Position(p).Offset }

func (w *writer) said(n ast.Node) string {
	text := string(w.text[w.offset(n.Pos()):w.offset(n.End())])
	text = strings.Join(strings.Fields(text), " ")
	if len(text) > 70 {
		text = text[:67] + "..."
	}
	return text
}

// change takes a number for a change and writes down what it is.
func (w *writer) change(n ast.Node, now string) int {
	id := w.next
	w.next++
	at := w.pkg.Fset.Position(n.Pos())
	m := mutant{id, w.name, at.Line, w.said(n), now, w.declared(n), w.lineAt(at.Offset), 1}
	for _, o := range w.mutants {
		m.nth += boolean(o.line == m.line && o.was == m.was && o.now == m.now)
	}
	w.mutants = append(w.mutants, m)
	return id
}

// declared says in what a node stands.
func (w *writer) declared(n ast.Node) string {
	for _, d := range w.file.Decls {
		if n.Pos() < d.Pos() || n.End() > d.End() {
			continue
		}
		f, ok := d.(*ast.FuncDecl)
		if !ok {
			return "var"
		}
		if f.Recv == nil {
			return "func " + f.Name.Name
		}
		return "func (" + w.said(f.Recv.List[0].Type) + ") " + f.Name.Name
	}
	return ""
}

// lineAt is the line around an offset.
func (w *writer) lineAt(offset int) string {
	from := bytes.LastIndexByte(w.text[:offset], '\n') + 1
	line, _, _ := bytes.Cut(w.text[from:], []byte("\n"))
	return string(bytes.TrimSpace(line))
}

// around writes before and behind a node.
func (w *writer) around(n ast.Node, before, behind string) {
	w.edits = append(w.edits, edit{w.offset(n.Pos()), w.offset(n.Pos()), before}, edit{w.offset(n.End()), w.offset(n.End()), behind})
}

// instead writes over an operator.
func (w *writer) instead(at token.Pos, length int, text string) {
	w.edits = append(w.edits, edit{w.offset(at), w.offset(at) + length, text})
}

// typeOf is what an expression is once it is used; nil for what has no value.
func (w *writer) typeOf(e ast.Expr) types.Type { return w.pkg.TypesInfo.Types[e].Type }

func (w *writer) constant(e ast.Expr) bool { return w.pkg.TypesInfo.Types[e].Value != nil }

// alike says whether two operands go into one function of one type.
func (w *writer) alike(x, y ast.Expr) bool {
	if w.constant(x) && w.constant(y) {
		return false
	}
	return w.constant(x) || w.constant(y) || types.Identical(w.typeOf(x), w.typeOf(y))
}

func is(t types.Type, info types.BasicInfo) bool {
	basic, ok := t.Underlying().(*types.Basic)
	return ok && basic.Info()&info != 0 && basic.Kind() != types.UntypedNil
}

// The functions that make a change, and what it is called.
var (
	compared = map[token.Token][2]string{
		token.LSS: {"mutantLess", "<="}, token.LEQ: {"mutantLessOr", "<"},
		token.GTR: {"mutantMore", ">="}, token.GEQ: {"mutantMoreOr", ">"},
		token.EQL: {"mutantSame", "!="}, token.NEQ: {"mutantOther", "=="},
	}
	reckoned = map[token.Token][2]string{
		token.ADD: {"mutantPlus", "-"}, token.SUB: {"mutantMinus", "+"},
		token.MUL: {"mutantTimes", "/"}, token.QUO: {"mutantOver", "*"},
	}
)

// visit looks at one node; false where nothing below it may be changed.
func (w *writer) visit(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.GenDecl:
		return n.Tok == token.VAR
	case *ast.ArrayType, *ast.CaseClause:
		return w.clause(n)
	case *ast.BinaryExpr:
		if w.fixed[n] = w.asksForRoom(n); w.fixed[n] {
			return false
		}
		w.binary(n)
	case *ast.IfStmt:
		if !w.asksForRoom(n.Cond) {
			w.condition(n.Cond)
		}
	case *ast.BasicLit:
		w.number(n)
	case *ast.Ident:
		w.flag(n)
	case *ast.CallExpr:
		w.roomOf(n)
		w.least(n)
	case *ast.BlockStmt:
		w.statements(n.List)
	case *ast.KeyValueExpr:
		if w.constant(n.Key) {
			w.fixed[n.Key] = true
		}
	}
	return !w.fixed[n]
}

// clause looks at the statements of a clause; its cases and the lengths of arrays stay.
func (w *writer) clause(n ast.Node) bool {
	c, ok := n.(*ast.CaseClause)
	if !ok {
		return false
	}
	for _, e := range c.List {
		if w.constant(e) {
			w.fixed[e] = true
		}
	}
	w.statements(c.Body)
	return true
}

func (w *writer) binary(n *ast.BinaryExpr) {
	if w.constant(n) {
		w.fixed[n] = true
		return
	}
	if n.Op == token.LAND || n.Op == token.LOR {
		other := map[token.Token]string{token.LAND: "||", token.LOR: "&&"}[n.Op]
		id := w.change(n, w.said(n.X)+" "+other+" "+w.said(n.Y))
		on := fmt.Sprintf(" != mutantOn(%d)", id)
		w.around(n, "((", ")"+on+")")
		w.around(n.X, "(", ")"+on)
		w.around(n.Y, "(", ")"+on)
		return
	}
	of, isCompared := compared[n.Op]
	ordered := is(w.typeOf(n.X), types.IsNumeric|types.IsString)
	if n.Op == token.EQL || n.Op == token.NEQ {
		const plain = types.IsNumeric | types.IsString | types.IsBoolean
		ordered = is(w.typeOf(n.X), plain) && is(w.typeOf(n.Y), plain)
	}
	if !isCompared {
		if of = reckoned[n.Op]; of[0] == "" {
			return
		}
		ordered = is(w.typeOf(n.X), types.IsInteger|types.IsFloat)
	}
	if !ordered || !w.alike(n.X, n.Y) || shifts(n.X) || shifts(n.Y) {
		return
	}
	id := w.change(n, w.said(n.X)+" "+of[1]+" "+w.said(n.Y))
	w.around(n, fmt.Sprintf("%s(%d, ", of[0], id), ")")
	w.instead(n.OpPos, len(n.Op.String()), ",")
}

// shifts says whether an operand is a shift: what is shifted takes its type from where
// the whole stands, which no function can give it.
func shifts(e ast.Expr) bool {
	n, ok := ast.Unparen(e).(*ast.BinaryExpr)
	return ok && (n.Op == token.SHL || n.Op == token.SHR)
}

func (w *writer) condition(e ast.Expr) {
	if w.constant(e) {
		return
	}
	always, never := w.change(e, "true"), w.change(e, "false")
	w.around(e, fmt.Sprintf("mutantWhen(%d, %d, ", always, never), ")")
}

func (w *writer) number(n *ast.BasicLit) {
	basic, ok := w.typeOf(n).(*types.Basic)
	switch {
	case !ok:
	case basic.Kind() == types.Float64:
		w.around(n, fmt.Sprintf("mutantReal(%d, ", w.change(n, "a tenth more")), ")")
	case basic.Kind() == types.Int:
		w.around(n, fmt.Sprintf("mutantWhole(%d, ", w.change(n, "one more")), ")")
	}
}

func (w *writer) flag(n *ast.Ident) {
	if n.Name != "true" && n.Name != "false" {
		return
	}
	if basic, ok := w.typeOf(n).(*types.Basic); ok && basic.Kind() == types.Bool {
		w.around(n, fmt.Sprintf("mutantFlag(%d, ", w.change(n, "turned")), ")")
	}
}

func (w *writer) least(n *ast.CallExpr) {
	name, ok := n.Fun.(*ast.Ident)
	if !ok || len(n.Args) != 2 || w.constant(n) || !w.alike(n.Args[0], n.Args[1]) {
		return
	}
	of := map[string][2]string{"min": {"mutantLeast", "max"}, "max": {"mutantMost", "min"}}[name.Name]
	if _, builtin := w.pkg.TypesInfo.Uses[name].(*types.Builtin); !builtin || of[0] == "" {
		return
	}
	id := w.change(n, of[1])
	w.instead(name.Pos(), len(name.Name), of[0])
	w.instead(n.Lparen, 1, fmt.Sprintf("(%d, ", id))
}

// How much memory is taken at a time, and whether it serves again, is in no answer: what
// says nothing else stays as it is.

// roomOf keeps the number of places that are taken beforehand.
func (w *writer) roomOf(n *ast.CallExpr) {
	switch w.said(n.Fun) {
	case "make":
		if t := w.typeOf(n.Args[0]); len(n.Args) == 3 {
			w.fixed[n.Args[2]] = true
		} else if _, isMap := t.Underlying().(*types.Map); isMap && len(n.Args) == 2 {
			w.fixed[n.Args[1]] = true
		}
	case "slices.Grow":
		w.fixed[n.Args[1]] = true
	}
}

// asksForRoom says whether an expression asks how much memory there is.
func (w *writer) asksForRoom(e ast.Expr) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		if call, ok := n.(*ast.CallExpr); ok && w.said(call.Fun) == "cap" {
			found = true
		}
		return !found
	})
	return found
}

// givesBack says whether a call does no more than give memory to a pool.
func (w *writer) givesBack(call *ast.CallExpr) bool {
	f, ok := call.Fun.(*ast.SelectorExpr)
	if !ok || f.Sel.Name != "Put" {
		return false
	}
	of := w.typeOf(f.X)
	if p, ok := of.(*types.Pointer); ok {
		of = p.Elem()
	}
	return of.String() == "sync.Pool"
}

// statements leaves out what can be left out.
func (w *writer) statements(list []ast.Stmt) {
	for _, s := range list {
		switch s := s.(type) {
		case *ast.ExprStmt:
			if call, ok := s.X.(*ast.CallExpr); !ok || w.said(call.Fun) == "panic" || w.givesBack(call) {
				continue
			}
		case *ast.AssignStmt:
			if s.Tok == token.DEFINE {
				continue
			}
		case *ast.IncDecStmt:
		default:
			continue
		}
		w.around(s, fmt.Sprintf("if !mutantOn(%d) { ", w.change(s, "left out")), " }")
	}
}

// mutate gives a file with all its changes in it.
func (w *writer) mutate() []byte {
	w.fixed = map[ast.Node]bool{}
	ast.Inspect(w.file, func(n ast.Node) bool { return n != nil && !w.fixed[n] && w.visit(n) })
	return applied(w.text, w.edits)
}

// applied makes the edits. Of those at one place, what closes comes before what opens,
// inner ones close first and outer ones open first.
func applied(text []byte, edits []edit) []byte {
	type piece struct {
		at, order int
		edit      edit
	}
	pieces := make([]piece, len(edits))
	for i, e := range edits {
		order := i // outer nodes are visited first, so they open first
		if e.from == e.to && closes(e.text) {
			order = -1 - i // and close last
		}
		pieces[i] = piece{e.from, order, e}
	}
	slices.SortStableFunc(pieces, func(a, b piece) int {
		if a.at != b.at {
			return a.at - b.at
		}
		return a.order - b.order
	})
	var out []byte
	at := 0
	for _, p := range pieces {
		out = append(out, text[at:p.edit.from]...)
		out = append(out, p.edit.text...)
		at = p.edit.to
	}
	return append(out, text[at:]...)
}

// closes says whether a text stands behind a node.
func closes(text string) bool { return text[0] == ')' || text[0] == ' ' }
