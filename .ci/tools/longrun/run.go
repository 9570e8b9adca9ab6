package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"runtime"
	"runtime/pprof"
	"sync"
	"sync/atomic"
	"time"

	"example.org/cogcourt/compat"
)

// run is everything that is done at once, and what came of it.
type run struct {
	w        *world
	observed *compat.Checker // of the standard rules, with an observer that breaks down
	clocked  *compat.Checker // of adjusted rules, with a clock that breaks down
	program  string          // the command; empty for none
	profiles string          // the folder for profiles of the heap; empty for none

	gate sync.RWMutex // held for writing while the heap is measured; whatever works holds it for reading
	stop atomic.Bool

	done     []atomic.Int64 // of each of kinds
	planted  atomic.Int64   // faults that came where they were planted
	mixed    atomic.Int64   // answers that are not byte for byte those worked out alone
	lost     atomic.Int64   // lines without an answer
	swaps    atomic.Int64
	refused  atomic.Int64
	longest  atomic.Int64 // nanoseconds that a swap of parts took, which costs nothing but the wait
	guard    sync.Mutex
	faults   []string
	heap     []uint64
	leftOver int // goroutines more than before
}

// kind is something that readers do.
type kind struct {
	name string
	one  func(draw *rand.Rand) error
}

// kinds are all of them.
func (r *run) kinds() []kind {
	return []kind{
		{"answers of shared rules", r.shared}, {"answers of what is in use", r.inUse}, {"carts by Live", r.liveCart},
		{"observers that break down", r.watched}, {"clocks that break down", r.timed}, {"outputs that fail", r.written}, {"contexts that end", r.cancelled},
	}
}

// fault keeps the first twenty faults of the library.
func (r *run) fault(format string, args ...any) {
	r.guard.Lock()
	defer r.guard.Unlock()
	if len(r.faults) < 20 {
		r.faults = append(r.faults, fmt.Sprintf(format, args...))
	}
}

// newRun makes what is shared.
func newRun(program string) (*run, error) {
	r := &run{program: program}
	r.done = make([]atomic.Int64, len(r.kinds()))
	var err error
	if r.w, err = newWorld(); err != nil {
		return nil, err
	}
	armed := &atomic.Bool{} // not while it is made
	tell := observer()
	r.observed, err = compat.New(compat.Config{Observe: func(e compat.Event) {
		if armed.Load() {
			tell(e)
		}
	}})
	if err != nil {
		return nil, err
	}
	armed.Store(true)
	r.clocked, err = adjusted()
	return r, err
}

// goOn lets readers, one swapper and the command work for so long.
func (r *run) goOn(length time.Duration, readers int) {
	before := runtime.NumGoroutine()
	var all sync.WaitGroup
	for i := range readers {
		all.Go(func() { r.read(rand.New(rand.NewPCG(uint64(i), 5))) })
	}
	all.Go(func() { r.swap(rand.New(rand.NewPCG(99, 5))) })
	if r.program != "" {
		all.Go(r.command)
	}
	const pieces = 10
	for range pieces {
		time.Sleep(length / pieces)
		size, err := r.measure()
		if err != nil {
			r.fault("the heap: %v", err)
		}
		r.heap = append(r.heap, size)
	}
	r.stop.Store(true)
	all.Wait()
	for range 100 { // what ends by itself has a second for it
		if r.leftOver = runtime.NumGoroutine() - before; r.leftOver <= 0 {
			break
		}
		time.Sleep(10 * time.Millisecond)
	}
}

// read does one thing after the other.
func (r *run) read(draw *rand.Rand) {
	kinds := r.kinds()
	for !r.stop.Load() {
		k := draw.IntN(len(kinds))
		r.gate.RLock()
		if cause := caught(func() {
			if err := kinds[k].one(draw); err != nil {
				r.fault("%s: %v", kinds[k].name, err)
			}
		}); cause != nil {
			r.fault("%s: a panic: %v", kinds[k].name, cause)
		}
		r.gate.RUnlock()
		r.done[k].Add(1)
	}
}

// measure gives the heap that is in use while nobody works, and Live holds what it began
// with: what a swap took from files is held beside that, and is no growth.
func (r *run) measure() (uint64, error) {
	r.gate.Lock()
	defer r.gate.Unlock()
	err := errors.Join(r.w.live.SwapRules(context.Background(), r.w.rules[0]), r.w.live.SwapParts(context.Background(), r.w.shelves[0]))
	for range 3 {
		runtime.GC()
	}
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc, errors.Join(err, r.profile())
}

// profile writes what holds the heap into the folder of profiles, a file a tenth.
func (r *run) profile() error {
	if r.profiles == "" {
		return nil
	}
	f, err := os.Create(fmt.Sprintf("%s/heap%d.pprof", r.profiles, len(r.heap)))
	if err != nil {
		return err
	}
	return errors.Join(pprof.Lookup("heap").WriteTo(f, 0), f.Close())
}

// same holds an answer against the one that was worked out alone.
func (r *run) same(what string, got, want []byte) error {
	if bytes.Equal(got, want) {
		return nil
	}
	r.mixed.Add(1)
	return fmt.Errorf("%s: it is\n%.400s\nand alone it was\n%.400s", what, got, want)
}

// pick draws a question.
func (r *run) pick(draw *rand.Rand) int { return draw.IntN(len(r.w.questions)) }

// shared asks the rules and parts that all readers share.
func (r *run) shared(draw *rand.Rand) error {
	i := r.pick(draw)
	got, err := r.w.questions[i].ask(r.w.checker, r.w.parts, r.w.index)
	if err != nil {
		return err
	}
	return r.same(r.w.questions[i].name, got, r.w.alone[i])
}

// inUse asks the rules and parts that are in use, while they are swapped.
func (r *run) inUse(draw *rand.Rand) error {
	c, parts := r.w.live.Now()
	s, err := stateOf(c, parts)
	if err != nil {
		return err
	}
	i := r.pick(draw)
	if r.w.questions[i].searches {
		return nil
	}
	got, err := r.w.questions[i].ask(c, parts, nil)
	if err != nil {
		return err
	}
	return r.same(r.w.questions[i].name, got, r.w.byState[s][i])
}

// liveCart has Live judge a cart: the answer is that of one state as a whole.
func (r *run) liveCart(draw *rand.Rand) error {
	i := r.pickCart(draw)
	q := r.w.questions[i]
	got, _, err := r.w.live.AppendCheckCart(context.Background(), nil, "cart.yaml", q.cart)
	if err != nil {
		return err
	}
	for _, answers := range r.w.byState {
		if bytes.Equal(got, answers[i]) {
			return nil
		}
	}
	return r.same(q.name, got, r.w.byState[state{}][i])
}

// pickCart draws a question that is a cart.
func (r *run) pickCart(draw *rand.Rand) int {
	for {
		if i := r.pick(draw); r.w.questions[i].cart != nil {
			return i
		}
	}
}
