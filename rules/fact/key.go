package fact

import (
	"encoding/binary"
	"math"
)

// AppendKey appends bytes that are equal for two values where these are equal in
// everything that a rule or a figure can see, and only there. The value of an
// unstated fact is one byte.
func (v *Value) AppendKey(to []byte) []byte {
	if !v.Known {
		return append(to, 0)
	}
	mark := byte(1) | byte(v.Usual)<<4
	for i, on := range [...]bool{v.Assumed, v.Own, v.Spread() != nil} {
		if on {
			mark |= 2 << i
		}
	}
	to = append(to, mark)
	to = appendNumber(appendNumber(to, v.Num), v.Tol)
	if s := v.Spread(); s != nil {
		to = appendText(appendNumber(appendNumber(to, s.Least), s.Most), s.Source)
	}
	to = appendText(to, v.Text)
	to = appendNumbers(appendNumbers(to, v.List), v.Tols())
	to = binary.AppendUvarint(to, uint64(len(v.Words())))
	for _, w := range v.Words() {
		to = appendText(to, w)
	}
	return to
}

func appendNumber(to []byte, x float64) []byte {
	return binary.LittleEndian.AppendUint64(to, math.Float64bits(x+0)) // minus nought equals nought
}

func appendNumbers(to []byte, list []float64) []byte {
	to = binary.AppendUvarint(to, uint64(len(list)))
	for _, x := range list {
		to = appendNumber(to, x)
	}
	return to
}

func appendText(to []byte, s string) []byte {
	return append(binary.AppendUvarint(to, uint64(len(s))), s...)
}
