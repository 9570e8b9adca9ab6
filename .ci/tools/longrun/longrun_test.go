package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"
	"testing/fstest"
	"time"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
)

// A few seconds of all at once come out well; and the same run tells it when answers are
// others than they must be.
func TestEverythingAtOnce(t *testing.T) {
	program, err := build(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	r, err := newRun(program)
	if err != nil {
		t.Fatal(err)
	}
	o := options{length: 5 * time.Second, readers: 4}
	var out bytes.Buffer
	r.profiles = t.TempDir()
	r.goOn(o.length, o.readers)
	if files, err := os.ReadDir(r.profiles); err != nil || len(files) != len(r.heap) {
		t.Errorf("%d profiles of %d tenths: %v", len(files), len(r.heap), err)
	}
	if well := r.tell(&out, o); !well || r.swaps.Load() == 0 || r.refused.Load() == 0 || r.planted.Load() == 0 {
		t.Fatal(out.String())
	}
	t.Log(out.String())

	r.program, o.length = "", 500*time.Millisecond
	for i := range r.w.alone {
		r.w.alone[i] = append([]byte("x"), r.w.alone[i]...)
	}
	out.Reset()
	r.stop.Store(false)
	r.goOn(o.length, o.readers)
	if well := r.tell(&out, o); well || r.mixed.Load() == 0 || !strings.Contains(out.String(), "FAULT answers of shared rules: ") {
		t.Errorf("%d are mixed: %s", r.mixed.Load(), out.String())
	}
}

// What keeps a run from being well is told by itself.
func TestFaultsAreTold(t *testing.T) {
	w := &world{}
	var err error
	if w.rules[0], err = rulesOf(0); err != nil {
		t.Fatal(err)
	}
	if w.shelves[0], err = shelfOf(0); err != nil {
		t.Fatal(err)
	}
	if w.live, err = liveOf(w); err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		change func(r *run)
		o      options
		well   bool
	}{
		"nothing":                 {func(*run) {}, options{length: time.Hour, quiet: true}, true},
		"a heap that grows":       {func(r *run) { r.heap[1] = 103 }, options{length: time.Hour}, false},
		"which a short run tells": {func(r *run) { r.heap[1] = 103 }, options{length: time.Second}, true},
		"a goroutine":             {func(r *run) { r.leftOver = 1 }, options{length: time.Second}, false},
		"a swap that waits":       {func(r *run) { r.longest.Store(int64(2 * time.Second)) }, options{quiet: true}, false},
		"on a busy machine":       {func(r *run) { r.longest.Store(int64(2 * time.Second)) }, options{}, true},
		"what was not done":       {func(r *run) { r.done[3].Store(0) }, options{}, false},
		"a foreign panic":         {func(r *run) { r.fault("%v", r.expected("nil dereference")) }, options{}, false},
	} {
		r := &run{w: w, heap: []uint64{100, 101}, done: make([]atomic.Int64, len((&run{}).kinds()))}
		for k := range r.done {
			r.done[k].Store(1)
		}
		c.change(r)
		var out bytes.Buffer
		if well := r.tell(&out, c.o); well != c.well {
			t.Errorf("%s: %t: %s", name, well, out.String())
		}
	}
}

// The heap is measured of one state: with what a swap took from files in use it is what
// it was before, and what is held beyond that is told.
func TestHeapIsOfOneState(t *testing.T) {
	r, err := newRun("")
	if err != nil {
		t.Fatal(err)
	}
	size := func() float64 {
		size, err := r.measure()
		if err != nil {
			t.Fatal(err)
		}
		return float64(size)
	}
	before, at := size(), r.w.live.Status().Hash
	if err := r.w.live.Swap(compat.Config{NoStandard: true, Rules: []fs.FS{ruleFiles(1, true)}}, demo.Files(), shelfFiles(1)); err != nil {
		t.Fatal(err)
	}
	if r.w.live.Status().Hash == at {
		t.Fatal("the swap took nothing")
	}
	if after := size(); r.w.live.Status().Hash != at || after > before*(1+mostDrift/200) {
		t.Errorf("%.0f bytes became %.0f", before, after)
	}
	held := make([]byte, 2<<20)
	if after := size(); after < before+float64(len(held)) {
		t.Errorf("%.0f bytes with %d more are %.0f", before, len(held), after)
	}
	runtime.KeepAlive(held)
}

// The planted faults are what they say.
func TestPlantedFaults(t *testing.T) {
	d := &disk{room: 3}
	if n, err := d.Write([]byte("abcde")); n != 3 || !errors.Is(err, errPlanted) {
		t.Errorf("%d, %v", n, err)
	}
	if cause := caught(func() { _, _ = (&disk{breaks: true}).Write([]byte("a")) }); !own(cause) || own("else") || own(nil) {
		t.Errorf("%v", cause)
	}
	files := fstest.MapFS{"a": {Data: []byte("a")}, "b": {Data: []byte("b")}}
	for at, want := range map[int64]string{0: "<nil> <nil>", 1: "open a: the disk: a planted fault <nil>", 2: "<nil> open b: the disk: a planted fault"} {
		disk := trouble{FS: files, at: at, calls: &atomic.Int64{}}
		_, first := fs.ReadFile(disk, "a")
		_, second := fs.ReadFile(disk, "b")
		if got := fmt.Sprint(first, " ", second); got != want {
			t.Errorf("at %d: %s", at, got)
		}
	}
	if cause := caught(func() { _, _ = fs.ReadDir(trouble{FS: files, at: 1, breaks: true, calls: &atomic.Int64{}}, ".") }); !own(cause) {
		t.Errorf("%v", cause)
	}
}
