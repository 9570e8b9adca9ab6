package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"sync/atomic"
	"time"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules"
)

// watched asks rules whose observer breaks down. The panic is the caller's, or an
// InternalError of a cart; an answer that came in spite of it is the right one.
func (r *run) watched(draw *rand.Rand) error {
	i := r.pick(draw)
	if r.w.questions[i].searches {
		return nil
	}
	var got []byte
	var err error
	if cause := caught(func() { got, err = r.w.questions[i].ask(r.observed, r.w.parts, nil) }); cause != nil {
		return r.expected(cause)
	}
	var internal *cart.InternalError
	if errors.As(err, &internal) {
		return r.expected(internal.Cause)
	}
	if err != nil {
		return err
	}
	return r.same(r.w.questions[i].name, got, r.w.alone[i])
}

// expected counts a panic that was planted; any other is a fault.
func (r *run) expected(cause any) error {
	if !own(cause) {
		return fmt.Errorf("a panic: %v", cause)
	}
	r.planted.Add(1)
	return nil
}

// timed asks rules whose clock breaks down in the middle of a rule: that finding is
// unknown and says so, and the report is neither complete nor a pass.
func (r *run) timed(draw *rand.Rand) error {
	names := demo.Mixes()
	text, _ := demo.Mix(names[draw.IntN(len(names))])
	m, err := compat.ReadMix("mix.yaml", text, r.w.parts)
	if err != nil {
		return err
	}
	report := r.clocked.Check(m)
	for _, f := range report.Findings() {
		if f.Error == "" {
			continue
		}
		r.planted.Add(1)
		if f.Verdict != rules.Unknown || report.Complete || report.Verdict == rules.Pass || report.Verdict == rules.Warn {
			return fmt.Errorf("%s broke down and is %s, the report %s", f.Rule, f.Verdict, report.Verdict)
		}
	}
	return nil
}

// written writes a report to an output that is full or breaks down behind so many bytes.
func (r *run) written(draw *rand.Rand) error {
	m, err := compat.ReadMix("mix.yaml", []byte(swappedMix), r.w.parts)
	if err != nil {
		return err
	}
	report := r.w.checker.Check(m)
	whole, err := report.MarshalJSON()
	if err != nil {
		return err
	}
	d := &disk{room: draw.IntN(2 * len(whole)), breaks: draw.IntN(2) == 0}
	room := d.room
	var n int64
	if cause := caught(func() { n, err = report.WriteTo(d) }); cause != nil {
		return r.expected(cause)
	}
	switch {
	case room >= len(whole) && (err != nil || n != int64(len(whole))):
		return fmt.Errorf("%d of %d bytes, %w", n, len(whole), err)
	case room < len(whole) && (!errors.Is(err, errPlanted) || n != int64(room)):
		return fmt.Errorf("%d bytes in a room for %d, %w", n, room, err)
	}
	r.planted.Add(int64(min(1, len(whole)/max(room, 1))))
	return nil
}

// cancelled ends a cart's check at any time: it gives an answer that is right, or the
// context's error alone and what it was given to append to.
func (r *run) cancelled(draw *rand.Rand) error {
	i := r.pickCart(draw)
	ctx, cancel := context.WithTimeout(context.Background(), time.Duration(draw.IntN(4000))*time.Microsecond)
	defer cancel()
	read, err := cart.Read("cart.yaml", r.w.questions[i].cart, r.w.parts)
	if err != nil {
		return err
	}
	got, _, err := read.AppendCheck(ctx, []byte("["), r.w.checker, r.w.parts)
	if err == nil {
		return r.same("a cart in a hurry", got[1:], r.w.alone[i])
	}
	if !errors.Is(err, context.DeadlineExceeded) || string(got) != "[" {
		return fmt.Errorf("%w, and %d bytes", err, len(got))
	}
	r.planted.Add(1)
	return nil
}

// swap swaps rules, parts and both, good candidates and bad ones, ten times a second.
func (r *run) swap(draw *rand.Rand) {
	for tick := time.NewTicker(100 * time.Millisecond); !r.stop.Load(); <-tick.C {
		r.gate.RLock()
		begin := time.Now()
		edition, before := draw.IntN(editions), r.w.live.Status()
		var err error
		good := true
		switch draw.IntN(8) {
		case 0, 1, 2:
			err = r.w.live.SwapParts(context.Background(), r.w.shelves[edition])
			r.longest.Store(max(r.longest.Load(), int64(time.Since(begin))))
		case 3, 4:
			err = r.w.live.SwapRules(context.Background(), r.w.rules[edition])
		default:
			good, err = r.swapFiles(draw, edition)
		}
		r.swaps.Add(1)
		after := r.w.live.Status()
		if (err == nil) != good {
			r.fault("a swap: good %t, %v", good, err)
		}
		if err != nil {
			r.refused.Add(1)
			if after.Hash != before.Hash || after.Taken != before.Taken {
				r.fault("a refused candidate is in use: %v", err)
			}
		}
		r.gate.RUnlock()
	}
}

// swapFiles offers a candidate of files: sound ones, from a slow disk too; an example that
// does not hold; a disk that fails or breaks down; a context that has ended.
func (r *run) swapFiles(draw *rand.Rand, edition int) (good bool, err error) {
	how := draw.IntN(6)
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	rules := trouble{FS: ruleFiles(edition, how != 1), calls: &atomic.Int64{}}
	shelf := trouble{FS: shelfFiles(edition), calls: &atomic.Int64{}}
	switch how {
	case 2:
		rules.slow, shelf.slow = 3*time.Millisecond, 3*time.Millisecond
	case 3:
		rules.at = 1 + draw.Int64N(2)
	case 4:
		shelf.at, shelf.breaks = 1+draw.Int64N(2), true
	case 5:
		cancel()
	}
	good = how == 0 || how == 2
	err = r.w.live.SwapContext(ctx, compat.Config{NoStandard: true, Rules: []fs.FS{rules}}, demo.Files(), shelf)
	var internal *cart.InternalError
	switch {
	case how == 4 && !(errors.As(err, &internal) && own(internal.Cause)):
		r.fault("a disk that breaks down gives %v", err)
	case how == 5 && !errors.Is(err, context.Canceled):
		r.fault("a context that has ended gives %v", err)
	}
	if !good {
		r.planted.Add(1)
	}
	return good, err
}
