package source

// block reads a text that | or > begins. The parent is the column of the block
// around it, from 0, or -1 at the top of the file.
func (c *rescan) block(parent int, literal bool) {
	b := blockScan{rescan: c, parent: parent, literal: literal}
	b.header()
	b.lines()
}

// blockScan holds what a block text needs while it is read.
type blockScan struct {
	*rescan
	parent  int
	literal bool
	keep    int // -1 drops the last line break, 1 keeps all at the end
	indent  int // the column at which its lines begin; 0 while it is unknown
	column  int // where c.at stands on its line
}

// header reads the indicators and the rest of their line.
func (b *blockScan) header() {
	b.at++
	for {
		switch c := b.peek(0); {
		case c == '+':
			b.keep = 1
		case c == '-':
			b.keep = -1
		case '1' <= c && c <= '9':
			b.indent = max(b.parent, 0) + int(c-'0')
		default:
			for b.at < len(b.text) && b.breaks() == 0 {
				b.at++
			}
			b.at += b.breaks()
			return
		}
		b.at++
	}
}

// margin reads indentation and empty lines and gives the breaks of these. The
// first time it finds the indentation of the text where none is written.
func (b *blockScan) margin() []glyph {
	var empty []glyph
	widest := 0
	for {
		for (b.indent == 0 || b.column < b.indent) && b.peek(0) == ' ' {
			b.at++
			b.column++
		}
		widest = max(widest, b.column)
		if b.breaks() == 0 {
			break
		}
		empty = append(empty, b.newline())
	}
	if b.indent == 0 {
		b.indent = max(widest, b.parent+1, 1)
	}
	return empty
}

// newline reads one line break.
func (b *blockScan) newline() glyph {
	size := b.breaks()
	g := glyph{'\n', int32(b.at), int32(b.at + size)}
	b.at += size
	b.column = 0
	return g
}

// lines reads the text. The break of a line is held back until the next line
// tells whether it is folded into a space; lines that begin with a blank are
// not folded.
func (b *blockScan) lines() {
	var last []glyph
	empty := b.margin()
	indented := false
	for b.column == b.indent && b.at < len(b.text) {
		blank := b.blank()
		if !b.literal && !indented && !blank && len(last) > 0 {
			if len(empty) == 0 {
				last[0].r = ' '
				b.puts(last)
			}
		} else {
			b.puts(last)
		}
		b.puts(empty)
		indented = blank
		for b.at < len(b.text) && b.breaks() == 0 {
			b.rescan.copy()
		}
		last = nil
		if b.breaks() > 0 {
			last = []glyph{b.newline()}
		}
		empty = b.margin()
	}
	if b.keep >= 0 {
		b.puts(last)
	}
	if b.keep > 0 {
		b.puts(empty)
	}
}

func (b *blockScan) puts(gs []glyph) {
	for _, g := range gs {
		b.put(g)
	}
}
