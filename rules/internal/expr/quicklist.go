package expr

import (
	"slices"
	"unicode/utf8"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/types"
)

// length counts the entries of a list, or the characters of a text.
func (q quickener) length(e ast.Expr) func(*Frame) (float64, bool) {
	if q.tree.GetType(e.ID()).IsExactType(cel.StringType) {
		text := q.text(e)
		if text == nil {
			return nil
		}
		return func(f *Frame) (float64, bool) { s, ok := text(f); return float64(utf8.RuneCountInString(s)), ok }
	}
	if !isWords(q.tree.GetType(e.ID())) {
		return q.ofList(e, count)
	}
	words := q.words(e)
	if words == nil {
		return nil
	}
	return func(f *Frame) (float64, bool) { list, ok := words(f); return float64(len(list)), ok }
}

// words reads lists of names.
func (q quickener) words(e ast.Expr) func(*Frame) ([]string, bool) {
	if r, ok := q.read(e); ok {
		return func(f *Frame) ([]string, bool) {
			rec := f.records[r.Object]
			if rec == nil {
				return nil, false
			}
			v := &rec.Values[r.Field]
			return v.Words(), v.Known
		}
	}
	if l := q.letOf(e); l != nil {
		return func(f *Frame) ([]string, bool) { v := f.let(l); return v.words, v.ok }
	}
	if list, ok := texts(e); ok {
		return func(*Frame) ([]string, bool) { return list, true }
	}
	return nil
}

// list reads lists of numbers.
func (q quickener) list(e ast.Expr) func(*Frame) ([]float64, bool) {
	if t := q.tree.GetType(e.ID()); t.Kind() != types.ListKind || isWords(t) {
		return nil
	}
	if r, ok := q.read(e); ok {
		return func(f *Frame) ([]float64, bool) {
			rec := f.records[r.Object]
			if rec == nil {
				return nil, false
			}
			v := &rec.Values[r.Field]
			return v.List, v.Known
		}
	}
	if l := q.letOf(e); l != nil {
		return func(f *Frame) ([]float64, bool) { v := f.let(l); return v.list, v.ok }
	}
	return nil
}

// inWords is membership in a list of texts.
func (q quickener) inWords(item, list ast.Expr) func(*Frame) (value, ok bool) {
	if !isWords(q.tree.GetType(list.ID())) {
		return nil
	}
	text, words := q.text(item), q.words(list)
	if text == nil || words == nil {
		return nil
	}
	return func(f *Frame) (bool, bool) {
		s, okS := text(f)
		in, okIn := words(f)
		return slices.Contains(in, s), okS && okIn
	}
}

// texts reads a list of texts written in the expression.
func texts(e ast.Expr) ([]string, bool) {
	if e.Kind() != ast.ListKind {
		return nil, false
	}
	var out []string
	for _, el := range e.AsList().Elements() {
		if el.Kind() != ast.LiteralKind {
			return nil, false
		}
		s, ok := el.AsLiteral().(types.String)
		if !ok {
			return nil, false
		}
		out = append(out, string(s))
	}
	return out, true
}
