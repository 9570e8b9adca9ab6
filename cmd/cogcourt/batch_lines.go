package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/source"
)

// chunk is some lines of a stream and, once it is done, the answers.
type chunk struct {
	first  int      // the number of the first line, from 1
	lines  [][]byte // without their ends
	faults []error  // why a line could not be read at all; nil for most

	done  chan struct{}
	out   []byte
	err   bytes.Buffer
	tally tally
}

// bad answers a line that could not be judged: on both streams, with its number.
func (c *chunk) bad(number int, err error) {
	c.tally.bad++
	c.tally.status = exitLoad
	ps := slices.Clone(view.ProblemsOf(err))
	texts := make([]string, len(ps))
	for i, p := range ps {
		p.Pos.File, p.Pos.Line = "stdin", number
		p.Pos.Col = max(p.Pos.Col, 1)
		ps[i] = p
		fmt.Fprintln(&c.err, view.Clean(p.String()))
		column := p.Pos.Col
		p.Pos = source.Pos{}
		texts[i] = fmt.Sprintf("column %d: %s", column, p)
	}
	line := struct {
		Line     int             `json:"line"`
		Error    string          `json:"error"`
		Problems source.Problems `json:"problems"`
	}{number, strings.Join(texts, "; "), ps}
	text, _ := view.Line(line) // numbers and texts cannot fail to be written
	c.out = append(c.out, text...)
}

// lineReader takes a stream apart.
type lineReader struct {
	in   *bufio.Reader
	read int // lines so far
	over bool
}

// chunk reads some lines, nil at the end. Where the sender pauses, it gives what
// has come so far: whoever sends one mix and waits gets its answer.
func (r *lineReader) chunk() *chunk {
	c := &chunk{first: r.read + 1, done: make(chan struct{})}
	size := 0
	for !r.over && len(c.lines) < chunkLines && size < chunkBytes {
		if len(c.lines) > 0 && r.in.Buffered() == 0 {
			break
		}
		text, err := r.line()
		if text == nil && err == nil {
			break
		}
		// A second mark is left for the reader of the line to refuse, which drops one itself.
		if r.read++; r.read == 1 && !bytes.HasPrefix(text, []byte("\ufeff\ufeff")) {
			text = bytes.TrimPrefix(text, []byte("\ufeff"))
		}
		size += len(text)
		c.lines, c.faults = append(c.lines, text), append(c.faults, err)
	}
	if len(c.lines) == 0 {
		return nil
	}
	return c
}

// lineFault is why a line could not be read at all.
func lineFault(code source.Code, text string) error { return source.Problems{{Code: code, Text: text}} }

// line reads one line; nil without an error is the end. One that is too long is
// read to its end and costs no more memory than one that is not.
func (r *lineReader) line() ([]byte, error) {
	mostLine := compat.MixLimits().Bytes
	text, long := []byte{}, false
	for {
		piece, err := r.in.ReadSlice('\n')
		if long = long || len(text)+len(piece) > mostLine; long {
			text = nil
		} else {
			text = append(text, piece...)
		}
		if errors.Is(err, bufio.ErrBufferFull) {
			continue
		}
		r.over = err != nil
		switch {
		case r.over && err != io.EOF:
			return nil, lineFault(source.Unreadable, "cannot be read: "+plain(err).Error())
		case long:
			return nil, lineFault(source.TooLarge, "the line is over "+source.Size(mostLine))
		case r.over && len(text) == 0:
			return nil, nil
		}
		return bytes.TrimSuffix(text, []byte("\n")), nil
	}
}

// progress shows on a terminal how far a batch has come. A nil one shows nothing.
type progress struct {
	to    io.Writer
	now   func() time.Time
	start time.Time
	last  time.Time
	shown int // columns that it takes up now
}

// showEvery is how often the eye wants to be told.
const showEvery = 200 * time.Millisecond

// show writes the counts over the last ones.
func (p *progress) show(t tally) {
	if p == nil {
		return
	}
	now := p.now()
	if p.start.IsZero() {
		p.start = now
	}
	if now.Sub(p.last) < showEvery {
		return
	}
	p.last = now
	text := fmt.Sprintf("%d mixes judged, %d bad lines", t.lines-t.bad, t.bad)
	if took := now.Sub(p.start).Seconds(); took > 1 {
		text += fmt.Sprintf(", %.0f a second", float64(t.lines)/took)
	}
	p.clear()
	p.shown = len(text)
	fmt.Fprint(p.to, text)
}

// clear takes away what it shows, so that other text can stand there.
func (p *progress) clear() {
	if p == nil || p.shown == 0 {
		return
	}
	fmt.Fprint(p.to, "\r"+strings.Repeat(" ", p.shown)+"\r")
	p.shown = 0
}
