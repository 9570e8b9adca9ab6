package cart

import (
	"context"
	"errors"
	"io/fs"
	"sync"
	"time"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/fit"
	"example.org/cogcourt/rules/source"
)

// swap tries a candidate that is made of what is in use, nil for nothing, and takes it.
func (l *Live) swap(ctx context.Context, candidate func(now *inUse) (*inUse, error)) (err error) {
	begin := time.Now()
	if err := l.wait(ctx); err != nil {
		return err
	}
	defer func() { <-l.turn }()
	before := l.now.Load()
	next, err := l.try(ctx, before, candidate)
	at, late := l.time()
	if err == nil {
		err = late
	}
	if ctx.Err() == nil || err == nil || !errors.Is(err, ctx.Err()) {
		l.settle(next, err, at)
	}
	if l.observe != nil {
		l.observe(swapped(next, err, time.Since(begin)))
	}
	return err
}

// wait waits until no other candidate is tried.
func (l *Live) wait(ctx context.Context) error {
	l.begun.Do(func() { l.turn = make(chan struct{}, 1) })
	select {
	case l.turn <- struct{}{}:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// settle takes a candidate, or notes why it was refused.
func (l *Live) settle(next *inUse, err error, at time.Time) {
	l.counts.Lock()
	defer l.counts.Unlock()
	if err != nil {
		l.refused++
		l.fault, l.faultyAt = err, at
		return
	}
	next.at = at
	l.taken++
	l.now.Store(next)
}

// swapped is what an observer is told.
func swapped(next *inUse, err error, took time.Duration) compat.Event {
	e := compat.Event{Did: compat.DidSwap, Took: took, Err: err}
	if err == nil {
		e.Name, e.Hash, e.Parts = next.parts.Name(), next.checker.RuleSet().Hash, next.parts.Len()
	}
	return e
}

// try makes a candidate and proves its rules, unless they are those in use.
func (l *Live) try(ctx context.Context, now *inUse, candidate func(*inUse) (*inUse, error)) (next *inUse, err error) {
	defer rescue("trying a candidate", &err)
	next, err = candidate(now)
	switch {
	case err != nil:
		return nil, err
	case next.checker == nil || next.checker.Rules() == nil || next.parts == nil:
		return nil, errNothing
	}
	if !next.ready {
		err = readied(ctx, now, next.checker)
	}
	if stopped := ctx.Err(); stopped != nil {
		return nil, stopped
	}
	if err != nil {
		return nil, err
	}
	checker, parts := next.checker, next.parts
	next.index = sync.OnceValue(func() *fit.Index { return fit.NewIndex(checker, parts) })
	return next, nil
}

// load makes a candidate of files. Of rules that are in use already it keeps the checker,
// unless the new one tells the day by another clock or tells somebody else.
func (l *Live) load(ctx context.Context, now *inUse, cfg compat.Config, parts []fs.FS) (*inUse, error) {
	keep := now != nil && cfg.Clock == nil && cfg.Observe == nil
	if cfg.Clock == nil {
		cfg.Clock = l.clock // nil is time.Now there as well
	}
	if cfg.Observe == nil {
		cfg.Observe = l.observe
	}
	checker, ruleFault := compat.NewContext(ctx, cfg)
	if ruleFault == nil {
		if keep && checker.Alike(now.checker) {
			checker = now.checker
		} else {
			ruleFault = readied(ctx, now, checker)
		}
	}
	shelf, partFault := l.shelf(ctx, parts)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if ruleFault != nil {
		ruleFault = ofRules(ruleFault)
	}
	if err := errors.Join(ruleFault, partFault); err != nil {
		return nil, err
	}
	return &inUse{checker: checker, parts: shelf, ready: true}, nil
}

// shelf loads the parts of a candidate.
func (l *Live) shelf(ctx context.Context, parts []fs.FS) (*catalog.Catalog, error) {
	begin := time.Now()
	shelf, err := catalog.LoadContext(ctx, parts...)
	if l.observe != nil {
		e := compat.Event{Did: compat.DidLoad, Took: time.Since(begin), Err: err}
		if err == nil {
			e.Name, e.Parts = shelf.Name(), shelf.Len()
		}
		l.observe(e)
	}
	return shelf, err
}

// readied proves rules by their examples. Those of the files in use are proven: of
// another checker of them only what it compiles is made ready, as proving does by the way.
func readied(ctx context.Context, now *inUse, c *compat.Checker) error {
	switch {
	case now != nil && c == now.checker:
		return nil
	case now != nil && c.Alike(now.checker):
		return c.Warm(ctx)
	}
	wrong, _, err := c.Rules().ProveContext(ctx)
	if err != nil {
		return err
	}
	if err := wrongExamples(wrong).Err(); err != nil {
		return ofRules(err)
	}
	return nil
}

// ofRules marks an error as one of rules.
func ofRules(err error) error {
	var ps source.Problems
	if !errors.As(err, &ps) {
		ps.Add(source.Pos{}, "", err.Error(), "").Code = source.Invalid
	}
	return &RuleError{Problems: ps}
}

// errNothing is what a candidate is refused with that has no rules or no parts.
var errNothing = errors.New("there are no rules or no parts to take into use: " +
	"make them by compat.New and catalog.Load, and look at their error")
