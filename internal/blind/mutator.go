package blind

import (
	"bytes"
	"hash/crc32"
	"math/rand/v2"
	"slices"
	"strings"
)

const (
	mostText = 8 << 10 // bytes of an input: longer ones are cut
	mostPool = 3000    // inputs that are changed further
)

// mutator makes inputs of others.
type mutator struct {
	rnd   *rand.Rand
	words []string
	pool  [][]byte
	seeds int // the first ones of the pool, which stay
}

// keep takes an input to be changed further.
func (m *mutator) keep(text []byte) {
	if len(m.pool) < mostPool {
		m.pool = append(m.pool, text)
	} else if m.seeds < mostPool {
		m.pool[m.seeds+m.rnd.IntN(mostPool-m.seeds)] = text
	}
}

// next makes an input of its own memory. Every eighth one is made of a seed, so that
// what came far does not lead all others away from what people write.
func (m *mutator) next() []byte {
	from := len(m.pool)
	if m.rnd.IntN(8) == 0 {
		from = m.seeds
	}
	text := slices.Clone(m.pool[m.rnd.IntN(from)])
	for range 1 + m.rnd.IntN(4) {
		text = m.change(text)
	}
	return text[:min(len(text), mostText)]
}

// change makes one small change.
func (m *mutator) change(text []byte) []byte {
	at := m.rnd.IntN(len(text) + 1)
	end := min(at+1+m.rnd.IntN(8), len(text))
	switch m.rnd.IntN(9) {
	case 0:
		if at < len(text) {
			text[at] ^= 1 << m.rnd.IntN(8)
		}
		return text
	case 1:
		return slices.Insert(text, at, []byte(m.word())...)
	case 2:
		return slices.Delete(text, at, end)
	case 3:
		return slices.Insert(text, m.rnd.IntN(len(text)+1), slices.Clone(text[at:end])...)
	case 4, 5: // a word for another
		from, to := wordAround(text, at)
		return slices.Replace(text, from, to, []byte(m.word())...)
	case 6: // a line more, from anywhere
		from, _ := lineAround(text, at)
		return slices.Insert(text, from, m.line()...)
	case 7: // a line less, or for another
		from, to := lineAround(text, at)
		if m.rnd.IntN(2) == 0 {
			return slices.Replace(text, from, to, m.line()...)
		}
		return slices.Delete(text, from, to)
	}
	other := m.pool[m.rnd.IntN(len(m.pool))]
	return append(text[:at:at], other[m.rnd.IntN(len(other)+1):]...)
}

// word is any word that was met, or an oddity.
func (m *mutator) word() string { return m.words[m.rnd.IntN(len(m.words))] }

// line is any line of any input, with its end.
func (m *mutator) line() []byte {
	other := m.pool[m.rnd.IntN(len(m.pool))]
	from, to := lineAround(other, m.rnd.IntN(len(other)+1))
	return slices.Clone(other[from:to])
}

// lineAround gives where the line of a place begins, and where the next one does.
func lineAround(text []byte, at int) (from, to int) {
	from = bytes.LastIndexByte(text[:at], '\n') + 1
	if n := bytes.IndexByte(text[at:], '\n'); n >= 0 {
		return from, at + n + 1
	}
	return from, len(text)
}

// wordAround gives where the word of a place begins and ends.
func wordAround(text []byte, at int) (from, to int) {
	from, to = at, at
	for from > 0 && inWord(text[from-1]) {
		from--
	}
	for to < len(text) && inWord(text[to]) {
		to++
	}
	return from, to
}

// inWord tells what names and numbers are made of.
func inWord(b byte) bool {
	return b == '_' || b == '.' || '0' <= b && b <= '9' || 'a' <= b && b <= 'z' || 'A' <= b && b <= 'Z'
}

// wordsOf lists the words of a text.
func wordsOf(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return r >= 0x80 || !inWord(byte(r)) })
}

// oddities are what readers, numbers and terminals trip over.
var oddities = []string{
	"{", "}", "[", "]", "(", ")", ":", ": ", ",", "\n", "\r\n", "\r", "\t", "  ", "- ", "#", " # ", "'", "\"", "\\", "\\u0000",
	"\\ud800", "\\u202e", "\\x1b", "|", ">", "&a ", "*a", "<<: ", "!!str ", "---\n", "...\n", "%",
	"0", "-0", "1", "-1", "1e3", "1e400", "1e-400", "0.1", "3.65", "± 0.05", " ± ", "+/-", "9007199254740993", "2147483648",
	"-9223372036854775808", "0x1f", "1_000", ".5", "1.", "NaN", ".nan", ".inf", "007", "3,65", "3.65 mm", "12t",
	"true", "false", "null", "~", "yes", "\x00", "\x1b[31m", "\x7f", "\u0085", "\u009b", "\u200b", "\u202e", "\u2028", "\ufeff",
	"\u00a0", "\u00ad", "\U000e0041", "\xff", "é", "日", "<script>", "&amp;",
	" && ", " || ", " == ", " != ", " < ", " >= ", " ? ", " + ", " / ", " % ", "!", "[0]", "[-1]", ".all(x, ", ".exists(x, ",
	"stated(", "known(", "near(", "size(", "abs(", "{{", "}}", ":.1}", "${",
}

// sumOf tells two inputs apart.
func sumOf(text []byte) uint32 { return crc32.ChecksumIEEE(text) }
