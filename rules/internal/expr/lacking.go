package expr

import (
	"cmp"
	"slices"
	"sync"

	"github.com/google/cel-go/common/ast"
	"github.com/google/cel-go/common/operators"
)

// standing is what can be said of an expression without the engine.
type standing uint8

const (
	unsure   standing = iota // the engine must be asked: there may be an error
	definite                 // its closure answers
	open                     // it hangs on facts that are not there
)

// lacking finds out how an expression stands and adds to the frame's lacks what it is
// open for: the facts whose Unknowns the engine would gather.
type lacking func(*Frame) standing

// lacks gives the facts that a condition is open for, until the next call; nil where the
// engine must be asked. Most rules that a mix leaves open lack a fact plainly, and
// the engine takes as long for one of them as closures for ten.
func (p *Program) lacks(f *Frame) []Read {
	find := p.lacking()
	f.lacks = f.lacks[:0]
	if find == nil || find(f) != open {
		return nil
	}
	slices.SortFunc(f.lacks, func(a, b Read) int { return cmp.Or(cmp.Compare(a.Object, b.Object), cmp.Compare(a.Field, b.Field)) })
	f.lacks = slices.Compact(f.lacks)
	return f.lacks
}

// lackings makes the finder of an expression when it is first asked for.
func (q quickener) lackings(e ast.Expr) func() lacking {
	return sync.OnceValue(func() lacking { return q.lacking(e) })
}

// lacking builds the finder of an expression; nil where only the engine can tell.
func (q quickener) lacking(e ast.Expr) lacking {
	if r, ok := q.read(e); ok {
		return func(f *Frame) standing { return f.standing(r) }
	}
	if q.loopOf(e) >= 0 {
		return func(*Frame) standing { return definite }
	}
	if l := q.letOf(e); l != nil {
		return func(f *Frame) standing { return f.standingOf(l) }
	}
	switch e.Kind() {
	case ast.LiteralKind:
		return func(*Frame) standing { return definite }
	case ast.ListKind:
		return q.lackingAny(e.AsList().Elements(), func(*Frame) bool { return true })
	case ast.CallKind:
		return q.lackingCall(e)
	case ast.ComprehensionKind:
		return q.lackingLoop(e)
	}
	return nil
}

// standing is that of a fact.
func (f *Frame) standing(r Read) standing {
	switch rec := f.records[r.Object]; {
	case rec == nil:
		f.lacks = append(f.lacks, Read{r.Object, -1})
		return open
	case !rec.Values[r.Field].Known:
		f.lacks = append(f.lacks, r)
		return open
	}
	return definite
}

// standingOf is that of a let-name.
func (f *Frame) standingOf(l *Let) standing {
	if f.let(l).ok {
		return definite
	}
	if find := l.prog.lacking(); find != nil && find(f) == open {
		return open
	}
	return unsure
}

func (q quickener) lackingCall(e ast.Expr) lacking {
	c, answers := e.AsCall(), q.build(e).answers()
	args := c.Args()
	switch name := c.FunctionName(); name {
	case operators.Index:
		return nil
	case operators.LogicalAnd, operators.LogicalOr:
		return q.lackingJoin(args, answers)
	case operators.Conditional:
		return q.lackingChoice(args, answers)
	case "stated":
		return func(*Frame) standing { return definite }
	}
	if c.IsMemberFunction() {
		args = append([]ast.Expr{c.Target()}, args...)
	}
	return q.lackingAny(args, answers)
}

// lackingAny is of what is open where any of its parts is, and none wrong.
func (q quickener) lackingAny(parts []ast.Expr, answers func(*Frame) bool) lacking {
	finders := make([]lacking, len(parts))
	for i, part := range parts {
		if finders[i] = q.lacking(part); finders[i] == nil {
			return nil
		}
	}
	return func(f *Frame) standing {
		out := definite
		for _, find := range finders {
			switch find(f) {
			case unsure:
				return unsure
			case open:
				out = open
			}
		}
		if out == definite && !answers(f) {
			return unsure
		}
		return out
	}
}

// lackingJoin is of && and ||, which one term may settle whatever the others lack.
func (q quickener) lackingJoin(terms []ast.Expr, answers func(*Frame) bool) lacking {
	for _, term := range terms {
		if q.truth(term) == nil { // it may settle what the closures leave
			return nil
		}
	}
	any := q.lackingAny(terms, func(*Frame) bool { return false })
	if any == nil {
		return nil
	}
	return func(f *Frame) standing {
		if answers(f) {
			return definite
		}
		return any(f)
	}
}

// lackingChoice is of a ? b : c, of which one is not looked at.
func (q quickener) lackingChoice(args []ast.Expr, answers func(*Frame) bool) lacking {
	truth, cond, yes, no := q.truth(args[0]), q.lacking(args[0]), q.lacking(args[1]), q.lacking(args[2])
	if truth == nil || cond == nil || yes == nil || no == nil {
		return nil
	}
	return func(f *Frame) standing {
		if answers(f) {
			return definite
		}
		holds, ok := truth(f)
		switch {
		case !ok:
			return cond(f)
		case holds:
			return yes(f)
		}
		return no(f)
	}
}

// answers says whether the closure is definite.
func (q quick) answers() func(*Frame) bool {
	switch {
	case q.num != nil:
		return func(f *Frame) bool { _, ok := q.num(f); return ok }
	case q.truth != nil:
		return func(f *Frame) bool { _, ok := q.truth(f); return ok }
	case q.text != nil:
		return func(f *Frame) bool { _, ok := q.text(f); return ok }
	case q.list != nil:
		return func(f *Frame) bool { _, ok := q.list(f); return ok }
	case q.words != nil:
		return func(f *Frame) bool { _, ok := q.words(f); return ok }
	}
	return func(*Frame) bool { return false }
}
