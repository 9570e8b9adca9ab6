package expr

import (
	"math"
	"strconv"
	"strings"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/types"
	"github.com/google/cel-go/common/types/ref"
)

// Shortest asks Render for at most two decimals, without trailing zeros.
const Shortest = -1

// What stands in a text for a value that lacks facts, and for one that cannot be
// worked out.
const (
	NotStated   = "(not stated)"
	NotComputed = "(not computed)"
)

// Render evaluates an expression for a text. Numbers have the given decimals,
// whole numbers none; an unstated fact is said to be so. A text is still shown
// where a function of the language breaks down over one of its values.
func (p *Program) Render(f *Frame, decimals int) (text string) {
	defer func() {
		if recover() != nil {
			text = NotComputed
		}
	}()
	switch {
	case p.quick.num != nil:
		if x, ok := p.quick.num(f); ok {
			return p.number(x, p.typ, decimals)
		}
	case p.quick.text != nil:
		if s, ok := p.quick.text(f); ok {
			return s
		}
	case p.quick.words != nil:
		if list, ok := p.quick.words(f); ok {
			return strings.Join(list, ", ")
		}
	}
	return p.renderValue(p.exec(f), decimals)
}

func (p *Program) renderValue(v ref.Val, decimals int) string {
	switch x := v.(type) {
	case *types.Unknown:
		return NotStated
	case *types.Err:
		return NotComputed
	case types.Bool:
		if x {
			return "yes"
		}
		return "no"
	case types.String:
		return string(x)
	}
	if n, ok := unboxNumber(v); ok {
		return p.number(n, p.typ, decimals)
	}
	if list, ok := unboxWords(v); ok && isWords(p.typ) {
		return strings.Join(list, ", ")
	}
	xs, ok := unboxList(v)
	if !ok {
		return NotComputed
	}
	parts := make([]string, len(xs))
	for i, n := range xs {
		parts[i] = p.number(n, p.typ.Parameters()[0], decimals)
	}
	return strings.Join(parts, ", ")
}

func (p *Program) number(x float64, kind *cel.Type, decimals int) string {
	if kind.IsExactType(cel.IntType) {
		decimals = 0
	}
	return Decimal(x, decimals)
}

// Decimal prints a number with so many decimals, or the Shortest way. Zero has
// no sign.
func Decimal(x float64, decimals int) string {
	places := decimals
	if decimals == Shortest {
		places = 2
	}
	// Half away from zero on the decimal that a reader sees: 2.675 is 2.68,
	// although the nearest float64 lies below it.
	scale := math.Pow10(places)
	nudge := math.Copysign(min(math.Abs(x*scale)*1e-12, 1e-6), x)
	if r := math.Round(x*scale+nudge) / scale; math.Abs(r) < 1e15 {
		x = r
	}
	s := strconv.FormatFloat(x, 'f', places, 64)
	if decimals == Shortest && strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return s
}

// Type says what an expression gives, in an author's words.
func (p *Program) Type() string { return typeWords(p.typ) }

// Number evaluates an expression that gives a number. A nil program gives none.
func (p *Program) Number(f *Frame) (x float64, ok bool) {
	if p == nil {
		return 0, false
	}
	defer func() {
		if recover() != nil {
			x, ok = 0, false
		}
	}()
	if p.quick.num != nil {
		if x, ok := p.quick.num(f); ok {
			return x, true
		}
	}
	return unboxNumber(p.exec(f))
}

// Holds says whether a condition is true, and not merely undecided. A nil
// program holds for nothing.
func (p *Program) Holds(f *Frame) bool { return p != nil && p.Decide(f).State == True }

// Lacks gives the facts without which an expression has no value.
func (p *Program) Lacks(f *Frame) []Read {
	if u, ok := p.exec(f).(*types.Unknown); ok {
		return p.lang.reads(u.IDs())
	}
	return nil
}
