package wire

import (
	"math"
	"strconv"
	"unicode/utf16"
	"unicode/utf8"
)

// The appending functions write what Encode writes of the same value, without
// looking at its type: a report has hundreds of values, and nearly all are texts.

// plain marks the bytes that stand in a text of JSON as they are and by themselves.
var plain = func() (out [256]bool) {
	for b := ' '; b < firstUnseen; b++ {
		out[b] = b != '"' && b != '\\'
	}
	return out
}()

// eight gives the first eight bytes of a text in one word.
func eight[T string | []byte](text T) uint64 {
	_ = text[7]
	return uint64(text[0]) | uint64(text[1])<<8 | uint64(text[2])<<16 | uint64(text[3])<<24 |
		uint64(text[4])<<32 | uint64(text[5])<<40 | uint64(text[6])<<48 | uint64(text[7])<<56
}

// allPlain says whether all eight bytes of a word are plain. A byte that is not leaves
// its highest bit set: by itself, by one more, by a blank less, or by one less than what
// tells it from a quote or from a backslash. Only a byte that is not plain borrows from
// the next, or carries into it.
func allPlain(x uint64) bool {
	const ones = 0x0101010101010101
	return (x|(x+ones*(0x80-firstUnseen))|(x-ones*' ')|((x^ones*'"')-ones)|((x^ones*'\\')-ones))&(ones*0x80) == 0
}

// AppendString appends a text with its quotes.
func AppendString[T string | []byte](dst []byte, text T) []byte {
	dst = append(dst, '"')
	copied := 0
	for i := 0; i < len(text); {
		if i+8 <= len(text) && allPlain(eight(text[i:])) {
			i += 8
			continue
		}
		if plain[text[i]] { // nearly all of it
			i++
			continue
		}
		r, size := rune(text[i]), 1
		if r >= utf8.RuneSelf {
			if r, size = decode(text[i:]); !hidden(r, size) {
				i += size
				continue
			}
		}
		dst = appendEscape(append(dst, text[copied:i]...), r, size)
		i += size
		copied = i
	}
	return append(append(dst, text[copied:]...), '"')
}

// decode reads the first character of a text.
func decode[T string | []byte](text T) (rune, int) {
	var few [utf8.UTFMax]byte
	return utf8.DecodeRune(few[:copy(few[:], text)])
}

// hidden says whether a character beyond ASCII is written as an escape: what draws or
// hides, the two ends of lines that scripts do not take in a text, and what is none.
func hidden(r rune, size int) bool {
	return r == '\u2028' || r == '\u2029' || r == utf8.RuneError && size == 1 || unseen(r)
}

const hexDigits = "0123456789abcdef"

// appendEscape appends one character as an escape.
func appendEscape(dst []byte, r rune, size int) []byte {
	switch r {
	case '"', '\\':
		return append(dst, '\\', byte(r))
	case '\b':
		return append(dst, '\\', 'b')
	case '\f':
		return append(dst, '\\', 'f')
	case '\n':
		return append(dst, '\\', 'n')
	case '\r':
		return append(dst, '\\', 'r')
	case '\t':
		return append(dst, '\\', 't')
	}
	var units [2]uint16
	for _, u := range utf16.AppendRune(units[:0], r) {
		dst = append(dst, '\\', 'u', hexDigits[u>>12], hexDigits[u>>8&15], hexDigits[u>>4&15], hexDigits[u&15])
	}
	return dst
}

// AppendFloat appends a number. What is no number, which nothing that is written
// holds, is null: JSON has no word for it.
func AppendFloat(dst []byte, x float64) []byte {
	switch size := math.Abs(x); {
	case math.IsNaN(x) || math.IsInf(x, 0):
		return append(dst, "null"...)
	case size < 1e15 && x == math.Trunc(x) && (x != 0 || !math.Signbit(x)):
		return strconv.AppendInt(dst, int64(x), 10)
	case size >= 1e-6 && size < 1e9 && math.RoundToEven(x*millionths)/millionths == x:
		return appendMillionths(dst, int64(math.RoundToEven(x*millionths)))
	case size >= 1e-6 && size < 1e21:
		return strconv.AppendFloat(dst, x, 'f', -1, 64)
	case size == 0: // below nothing
		return append(dst, "-0"...)
	}
	dst = strconv.AppendFloat(dst, x, 'e', -1, 64)
	if n := len(dst); dst[n-4] == 'e' && dst[n-3] == '-' && dst[n-2] == '0' { // e-09 is e-9
		dst = append(dst[:n-2], dst[n-1])
	}
	return dst
}

// millionths are what nearly all numbers of a report are whole counts of: they are
// rounded to six decimals.
const millionths = 1_000_000

// appendMillionths appends a count of them as a decimal. Below 1e15, decimals of fifteen
// digits, no two of them stand for one float64; so where the count divided gives the
// number again, it is the shortest decimal that does, without its zeros at the end.
func appendMillionths(dst []byte, n int64) []byte {
	if n < 0 {
		dst, n = append(dst, '-'), -n
	}
	dst = strconv.AppendInt(dst, n/millionths, 10)
	rest := n % millionths
	if rest == 0 {
		return dst
	}
	dst = append(dst, '.')
	for unit := int64(millionths / 10); rest > 0; unit /= 10 {
		dst = append(dst, byte('0'+rest/unit))
		rest %= unit
	}
	return dst
}

// AppendList appends a list, each entry by its own function; never null.
func AppendList[T any](dst []byte, list []T, one func([]byte, T) []byte) []byte {
	dst = append(dst, '[')
	for i, x := range list {
		if i > 0 {
			dst = append(dst, ',')
		}
		dst = one(dst, x)
	}
	return append(dst, ']')
}

// AppendStrings appends a list of texts; never null.
func AppendStrings(dst []byte, list []string) []byte {
	return AppendList(dst, list, AppendString[string])
}

// AppendFloats appends a list of numbers; never null.
func AppendFloats(dst []byte, list []float64) []byte { return AppendList(dst, list, AppendFloat) }

// AppendAny appends a value of any type; null where it has no JSON.
func AppendAny(dst []byte, v any) []byte {
	switch v := v.(type) {
	case float64:
		return AppendFloat(dst, v)
	case bool:
		return strconv.AppendBool(dst, v)
	case string:
		return AppendString(dst, v)
	case []float64:
		return AppendFloats(dst, v)
	case []string:
		return AppendStrings(dst, v)
	}
	text, err := Encode(v)
	if err != nil {
		return append(dst, "null"...)
	}
	return append(dst, text...)
}
