package main

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"os"
	"runtime"
	"sync"
	"time"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/source"
)

// A chunk is handed to a core as a whole: enough lines that handing it over costs
// nothing, few enough that all chunks together stay small: an answer has some 25 kB.
const (
	chunkLines = 16
	chunkBytes = 256 << 10
)

// batch judges mixes and prints one line for each.
type batch struct {
	checker *compat.Checker
	parts   *catalog.Catalog
	extent  compat.Extent
	out     io.Writer
	err     io.Writer
	notice  *progress
	tally   tally
	spare   sync.Pool // of *[]byte: memory for the answers to a chunk
}

// tally counts what came of the lines.
type tally struct {
	lines, bad int
	status     int // exit status: what did not load beats a fail, and a fail an unknown
}

// add takes over the counts of some more lines.
func (t *tally) add(more tally) {
	t.lines += more.lines
	t.bad += more.bad
	t.status = graver(t.status, more.status)
}

// checkLines judges the named mixes and prints one object a line. Standard input
// holds one mix a line.
func checkLines(o options, s stream, c *compat.Checker, parts *catalog.Catalog) int {
	pace(steadyPace) // what a line leaves behind is not kept, and five times the rest is too much
	b := batch{checker: c, parts: parts, extent: o.extent(), out: s.out, err: s.err}
	if f, ok := s.err.(*os.File); ok && view.Terminal(f) {
		b.notice = &progress{to: f, now: time.Now}
	}
	for _, of := range asks(o.args) {
		var err error
		if of.file == "-" {
			err = b.lines(s.in)
		} else {
			err = b.file(of, s)
		}
		if err != nil { // nobody reads any more; run says so
			return exitLoad
		}
	}
	return b.tally.status
}

// file judges one named mix.
func (b *batch) file(of asked, s stream) error {
	m, err := of.read(s.in, b.parts)
	if err != nil {
		b.tally.add(tally{status: complain(s, err)})
		return nil
	}
	line, status := b.report(nil, m, 0)
	b.tally.add(tally{status: status})
	_, err = b.out.Write(line)
	return err
}

// report judges a mix and appends its line; number is that of the line of a stream, 0 of
// a file.
func (b *batch) report(to []byte, m compat.Mix, number int) (out []byte, status int) {
	out, verdict := b.checker.AppendCheck(to, m, b.extent, number)
	return append(out, '\n'), verdictStatus(verdict)
}

// lines judges the mixes of a stream, on all cores and in order. The memory that
// it takes is bounded: no more chunks are read than are in the making.
func (b *batch) lines(in io.Reader) error {
	workers := runtime.GOMAXPROCS(0)
	jobs, order := make(chan *chunk), make(chan *chunk, 2*workers)
	quit := make(chan struct{})
	defer close(quit)
	go func() {
		defer close(order)
		defer close(jobs)
		r := lineReader{in: bufio.NewReaderSize(in, 64<<10)}
		for c := r.chunk(); c != nil; c = r.chunk() {
			select {
			case order <- c:
				jobs <- c // a worker is always there in the end
			case <-quit:
				return
			}
		}
	}()
	for range workers {
		go func() {
			for c := range jobs {
				b.judge(c)
				close(c.done)
			}
		}()
	}
	defer b.notice.clear()
	for c := range order {
		<-c.done
		b.tally.add(c.tally)
		b.notice.clear()
		if _, err := b.err.Write(c.err.Bytes()); err != nil {
			b.err = io.Discard // the lines say the same
		}
		if _, err := b.out.Write(c.out); err != nil {
			return err
		}
		b.spare.Put(&c.out)
		b.notice.show(b.tally)
	}
	return nil
}

// judge makes the answers to a chunk.
func (b *batch) judge(c *chunk) {
	if spare, ok := b.spare.Get().(*[]byte); ok {
		c.out = (*spare)[:0]
	}
	for i, text := range c.lines {
		if c.faults[i] == nil && len(bytes.TrimSpace(text)) == 0 {
			continue
		}
		c.tally.lines++
		err := c.faults[i]
		if err == nil {
			err = b.line(c, c.first+i, text)
		}
		if err != nil {
			c.bad(c.first+i, err)
		}
	}
}

// line judges one line. What breaks down over it is the fault of this line alone.
func (b *batch) line(c *chunk, number int, text []byte) (err error) {
	defer func() {
		if cause := recover(); cause != nil {
			err = fmt.Errorf("internal error: %v", cause)
		}
	}()
	m, err := compat.ReadMixLine("stdin", number, text, b.parts)
	if err != nil && isCart(number, text) {
		return otherSort(source.Pos{File: "stdin", Line: number, Col: 1}, "is a cart, not a mix", "cogcourt cart judges one cart a file")
	}
	if err != nil {
		return err
	}
	out, status := b.report(c.out, m, number)
	c.out, c.tally.status = out, graver(c.tally.status, status)
	return nil
}

// isCart tells a cart that stands on a line, whose entries would each be a fault of a mix.
func isCart(number int, text []byte) bool {
	memory := compat.MixLimits().Borrow()
	defer memory.Free()
	root, err := memory.ParseLine("stdin", number, text)
	return err == nil && sortOf(root) == "cart"
}
