package source

import (
	"strconv"
	"unicode/utf16"
)

// plain reads a scalar without quotes. Where it ends is known by its length.
func (c *rescan) plain() {
	for c.left > 0 && c.at < len(c.text) {
		if c.blank() || c.breaks() > 0 {
			c.fold(false)
			continue
		}
		c.copy()
	}
}

// single reads what is in single quotes, where a quote is written twice.
func (c *rescan) single() {
	for c.left > 0 && c.at < len(c.text) {
		switch {
		case c.peek(0) == '\'':
			c.emit('\'', 2)
		case c.blank() || c.breaks() > 0:
			c.fold(false)
		default:
			c.copy()
		}
	}
}

// double reads what is in double quotes.
func (c *rescan) double() {
	for c.left > 0 && c.at < len(c.text) {
		switch {
		case c.peek(0) == '\\':
			c.at++
			if size := c.breaks(); size > 0 {
				c.at += size
				c.fold(true)
				continue
			}
			c.at--
			r, size := c.escape()
			c.emit(r, size)
		case c.blank() || c.breaks() > 0:
			c.fold(false)
		default:
			c.copy()
		}
	}
}

// fold reads blanks and line breaks of a plain or quoted scalar. Blanks around
// a break fall away; a single break becomes a space, and of several all but the
// first stay. A break that is escaped has been read already and becomes nothing.
func (c *rescan) fold(escaped bool) {
	var blanks, breaks []glyph
	for c.blank() || c.breaks() > 0 {
		size := c.breaks()
		if size > 0 {
			breaks = append(breaks, glyph{'\n', int32(c.at), int32(c.at + size)})
			c.at += size
			continue
		}
		if len(breaks) == 0 {
			blanks = append(blanks, glyph{rune(c.peek(0)), int32(c.at), int32(c.at + 1)})
		}
		c.at++
	}
	switch {
	case escaped:
	case len(breaks) == 0:
		breaks = blanks
	case len(breaks) == 1:
		breaks[0].r = ' '
	default:
		breaks = breaks[1:]
	}
	for _, g := range breaks {
		c.put(g)
	}
}

// escape decodes the YAML escape that begins here, and tells its length.
func (c *rescan) escape() (rune, int) {
	switch e := c.peek(1); e {
	case '0':
		return 0, 2
	case 'a':
		return '\a', 2
	case 'b':
		return '\b', 2
	case 't', '\t':
		return '\t', 2
	case 'n':
		return '\n', 2
	case 'v':
		return '\v', 2
	case 'f':
		return '\f', 2
	case 'r':
		return '\r', 2
	case 'e':
		return 0x1b, 2
	case 'N':
		return 0x85, 2
	case '_':
		return 0xa0, 2
	case 'L':
		return 0x2028, 2
	case 'P':
		return 0x2029, 2
	case 'x':
		return c.hex(2, 2), 4
	case 'u':
		return c.hex(2, 4), 6
	case 'U':
		return c.hex(2, 8), 10
	default: // a quote, a blank, \ or /
		return rune(e), 2
	}
}

// hex reads count hexadecimal digits at a distance; -1 where there are none.
func (c *rescan) hex(d, count int) rune {
	if c.at+d+count > len(c.text) {
		return -1
	}
	x, err := strconv.ParseUint(c.text[c.at+d:c.at+d+count], 16, 32)
	if err != nil || x > 0x10ffff {
		return -1
	}
	return rune(x)
}

// json reads a JSON string. Characters beyond U+FFFF may be escaped as a pair.
func (c *rescan) json() {
	for c.left > 0 && c.at < len(c.text) {
		switch {
		case c.peek(0) != '\\':
			c.copy()
		case c.peek(1) != 'u':
			c.emit(c.escape())
		case utf16.IsSurrogate(c.hex(2, 4)):
			c.emit(utf16.DecodeRune(c.hex(2, 4), c.hex(8, 4)), 12)
		default:
			c.emit(c.hex(2, 4), 6)
		}
	}
}
