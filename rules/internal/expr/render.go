package expr

import (
	"bytes"
	"math"
	"strconv"

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
func (p *Program) Render(f *Frame, decimals int) string {
	return string(p.AppendRender(nil, f, decimals))
}

// AppendRender is Render behind what stands in dst.
func (p *Program) AppendRender(dst []byte, f *Frame, decimals int) (out []byte) {
	defer func() {
		if recover() != nil {
			out = append(dst, NotComputed...)
		}
	}()
	switch {
	case p.quick.num != nil:
		if x, ok := p.quick.num(f); ok {
			return p.appendNumber(dst, x, p.typ, decimals)
		}
	case p.quick.said != nil:
		if out, ok := p.quick.said(dst, f); ok {
			return out
		}
	case p.quick.text != nil:
		if s, ok := p.quick.text(f); ok {
			return append(dst, s...)
		}
	case p.quick.list != nil:
		if list, ok := p.quick.list(f); ok {
			return p.appendNumbers(dst, list, decimals)
		}
	case p.quick.words != nil:
		if list, ok := p.quick.words(f); ok {
			return appendWords(dst, list)
		}
	}
	if p.lacks(f) != nil {
		return append(dst, NotStated...)
	}
	return p.appendValue(dst, p.exec(f), decimals)
}

func (p *Program) appendValue(dst []byte, v ref.Val, decimals int) []byte {
	switch x := v.(type) {
	case *types.Unknown:
		return append(dst, NotStated...)
	case *types.Err:
		return append(dst, NotComputed...)
	case types.Bool:
		if x {
			return append(dst, "yes"...)
		}
		return append(dst, "no"...)
	case types.String:
		return append(dst, x...)
	}
	if n, ok := unboxNumber(v); ok {
		return p.appendNumber(dst, n, p.typ, decimals)
	}
	if list, ok := unboxWords(v); ok && isWords(p.typ) {
		return appendWords(dst, list)
	}
	xs, ok := unboxList(v)
	if !ok {
		return append(dst, NotComputed...)
	}
	return p.appendNumbers(dst, xs, decimals)
}

func (p *Program) appendNumbers(dst []byte, list []float64, decimals int) []byte {
	for i, n := range list {
		if i > 0 {
			dst = append(dst, ", "...)
		}
		dst = p.appendNumber(dst, n, p.typ.Parameters()[0], decimals)
	}
	return dst
}

func appendWords(dst []byte, list []string) []byte {
	for i, w := range list {
		if i > 0 {
			dst = append(dst, ", "...)
		}
		dst = append(dst, w...)
	}
	return dst
}

func (p *Program) appendNumber(dst []byte, x float64, kind *cel.Type, decimals int) []byte {
	if kind.IsExactType(cel.IntType) {
		decimals = 0
	}
	return AppendDecimal(dst, x, decimals)
}

// Decimal prints a number with so many decimals, or the Shortest way. Zero has
// no sign.
func Decimal(x float64, decimals int) string { return string(AppendDecimal(nil, x, decimals)) }

// AppendDecimal is Decimal behind what stands in dst.
func AppendDecimal(dst []byte, x float64, decimals int) []byte {
	places := decimals
	if decimals == Shortest {
		places = 2
	}
	// Half away from zero on the decimal that a reader sees: 2.675 is 2.68,
	// although the nearest float64 lies below it.
	scale := math.Pow10(places)
	nudge := math.Copysign(min(math.Abs(x*scale)*1e-12, 1e-6), x)
	whole := math.Round(x*scale + nudge)
	if math.Abs(whole) < 1e15 { // so it is exact, and further from any other than rounding reaches
		return appendPlaces(dst, int64(whole), places, decimals == Shortest)
	}
	if r := whole / scale; math.Abs(r) < 1e15 {
		x = r
	}
	start := len(dst)
	dst = strconv.AppendFloat(dst, x, 'f', places, 64)
	if decimals == Shortest && bytes.IndexByte(dst[start:], '.') >= 0 {
		dst = dst[:start+len(bytes.TrimRight(bytes.TrimRight(dst[start:], "0"), "."))]
	}
	return dst
}

// appendPlaces appends a whole number with its last digits behind the point, without the
// zeros at the end where short.
func appendPlaces(dst []byte, n int64, places int, short bool) []byte {
	if n < 0 {
		dst, n = append(dst, '-'), -n
	}
	unit := int64(1)
	for range places {
		unit *= 10
	}
	dst = strconv.AppendInt(dst, n/unit, 10)
	rest := n % unit
	if places == 0 || short && rest == 0 {
		return dst
	}
	dst = append(dst, '.')
	for unit /= 10; unit > 0 && !(short && rest == 0); unit /= 10 {
		dst = append(dst, byte('0'+rest/unit))
		rest %= unit
	}
	return dst
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
	if p.lacks(f) != nil {
		return 0, false
	}
	return unboxNumber(p.exec(f))
}

// IsText says whether an expression gives a text.
func (p *Program) IsText() bool { return p.typ == cel.StringType }

// IsFlag says whether an expression gives true or false.
func (p *Program) IsFlag() bool { return p.typ == cel.BoolType }

// Text evaluates an expression that gives a text.
func (p *Program) Text(f *Frame) (text string, ok bool) {
	defer func() {
		if recover() != nil {
			text, ok = "", false
		}
	}()
	if p.quick.text != nil {
		if text, ok := p.quick.text(f); ok {
			return text, true
		}
	}
	if p.lacks(f) != nil {
		return "", false
	}
	s, ok := p.exec(f).(types.String)
	return string(s), ok
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
