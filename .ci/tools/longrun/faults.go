package main

import (
	"errors"
	"fmt"
	"io/fs"
	"sync/atomic"
	"testing/fstest"
	"time"

	"example.org/cogcourt/compat"
)

// errPlanted is what every fault that is put in says or holds.
var errPlanted = errors.New("a planted fault")

// caught runs something in which a fault may be planted, and gives what it panicked with.
func caught(do func()) (cause any) {
	defer func() { cause = recover() }()
	do()
	return nil
}

// own says whether a panic is one that was planted.
func own(cause any) bool {
	err, ok := cause.(error)
	return ok && errors.Is(err, errPlanted)
}

// every counts calls from any goroutine, and is true of each n-th.
type every struct {
	n     int64
	calls atomic.Int64
}

func (e *every) now() bool { return e.calls.Add(1)%e.n == 0 }

// observer is told of events. Of some it is slow to take note, at some it panics.
func observer() func(compat.Event) {
	slow, breaks := &every{n: 31}, &every{n: 7}
	return func(compat.Event) {
		if slow.now() {
			time.Sleep(2 * time.Millisecond)
		}
		if breaks.now() {
			panic(errPlanted)
		}
	}
}

// clock breaks down now and then while a rule asks for the day.
func clock() func() time.Time {
	breaks := &every{n: 3}
	return func() time.Time {
		if breaks.now() {
			panic(errPlanted)
		}
		return time.Date(2026, 6, 15, 12, 0, 0, 0, time.UTC)
	}
}

// adjusted are the standard rules with adjustments, which ask a clock that breaks down.
func adjusted() (*compat.Checker, error) {
	const text = "pack: longrun\nadjust:\n" +
		"  - {rule: chain/length, to: warn, reason: A test., by: The test, until: 2031-12-31}\n" +
		"  - {rule: index/residual, to: pass, reason: A test., by: The test, until: 2031-12-31}\n"
	return compat.New(compat.Config{Clock: clock(), Rules: []fs.FS{fstest.MapFS{"a.yaml": {Data: []byte(text)}}}})
}

// disk is an output that takes so many bytes; then it is full, or breaks down.
type disk struct {
	room   int
	breaks bool
}

// Write takes what there is room for.
func (d *disk) Write(b []byte) (int, error) {
	if len(b) <= d.room {
		d.room -= len(b)
		return len(b), nil
	}
	if d.breaks {
		panic(errPlanted)
	}
	n := d.room
	d.room = 0
	return n, errPlanted
}

// trouble is a file system that is slow, or fails or breaks down at its n-th opening or
// listing of a folder.
type trouble struct {
	fs.FS
	slow   time.Duration
	at     int64 // 0 for never
	breaks bool
	calls  *atomic.Int64
}

// Open waits, fails or breaks down, or opens the file.
func (t trouble) Open(name string) (fs.File, error) {
	if err := t.meet(name); err != nil {
		return nil, err
	}
	return t.FS.Open(name)
}

// ReadDir does the same before it lists a folder.
func (t trouble) ReadDir(name string) ([]fs.DirEntry, error) {
	if err := t.meet(name); err != nil {
		return nil, err
	}
	return fs.ReadDir(t.FS, name)
}

func (t trouble) meet(name string) error {
	time.Sleep(t.slow)
	if t.calls.Add(1) != t.at {
		return nil
	}
	if t.breaks {
		panic(errPlanted)
	}
	return &fs.PathError{Op: "open", Path: name, Err: fmt.Errorf("the disk: %w", errPlanted)}
}
