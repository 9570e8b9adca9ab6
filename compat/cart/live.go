package cart

import (
	"context"
	"errors"
	"io/fs"
	"sync"
	"sync/atomic"
	"time"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/fit"
	"example.org/cogcourt/rules/source"
)

// Live holds the rules and the parts that a server uses, and lets others take
// their place while it serves. Both change together, in one step: whoever asks
// gets all of the old or all of the new. It is safe for many goroutines.
type Live struct {
	clock func() time.Time
	now   atomic.Pointer[inUse]
	swap  sync.Mutex // one candidate is tried at a time

	counts   sync.Mutex // guards what follows, for a moment only
	taken    int
	refused  int
	fault    error
	faultyAt time.Time
}

// inUse is one taken candidate; it never changes.
type inUse struct {
	checker *compat.Checker
	parts   *catalog.Catalog
	index   func() *fit.Index // of the parts, made when it is first asked for
	at      time.Time
}

// LiveStatus says what a Live holds and how that came about.
type LiveStatus struct {
	Hash     string    // of the rules, as reports name it
	Rules    int       // how many there are
	Catalog  string    // the name of the parts' catalogue
	Parts    int       // how many there are
	LoadedAt time.Time // by the clock of the compat.Config

	Taken   int // candidates, the first one included
	Refused int

	LastProblem   error     // why the last refused candidate was; nil before the first
	LastProblemAt time.Time // the zero time before the first
}

// NewLive takes a first candidate: rules and folders of part files. It fails as
// Swap does. The Clock of cfg tells when candidates were taken, and the day to
// later ones that have none of their own.
func NewLive(cfg compat.Config, parts ...fs.FS) (*Live, error) {
	l := &Live{clock: cfg.Clock}
	if err := l.Swap(cfg, parts...); err != nil {
		return nil, err
	}
	return l, nil
}

// Swap takes a candidate when its rules compile, every example of theirs gives
// what it says, and its parts load; else it names every fault, and what was in
// use stays in use. The error is a *RuleError, source.Problems of the parts, both
// joined, or an *InternalError. What a linter would remark on does not matter.
// Checks go on meanwhile; those that have begun end with the rules they began
// with.
func (l *Live) Swap(cfg compat.Config, parts ...fs.FS) error {
	l.swap.Lock()
	defer l.swap.Unlock()
	if cfg.Clock == nil {
		cfg.Clock = l.clock // nil is time.Now there as well
	}
	candidate, err := try(cfg, parts)
	at, late := l.time()
	if err == nil {
		err = late
	}
	l.counts.Lock()
	defer l.counts.Unlock()
	if err != nil {
		l.refused++
		l.fault, l.faultyAt = err, at
		return err
	}
	candidate.at = at
	l.taken++
	l.now.Store(candidate)
	return nil
}

// time asks the clock, which is not this package's code.
func (l *Live) time() (now time.Time, err error) {
	defer rescue("asking for the time", &err)
	if l.clock == nil {
		return time.Now(), nil
	}
	return l.clock(), nil
}

// try loads and proves a candidate.
func try(cfg compat.Config, parts []fs.FS) (candidate *inUse, err error) {
	defer rescue("trying a candidate", &err)
	checker, ruleFault := compat.New(cfg)
	if ruleFault == nil {
		ruleFault = proven(checker)
	}
	if ruleFault != nil {
		ruleFault = ofRules(ruleFault)
	}
	shelf, partFault := catalog.Load(parts...)
	if err := errors.Join(ruleFault, partFault); err != nil {
		return nil, err
	}
	index := sync.OnceValue(func() *fit.Index { return fit.NewIndex(checker, shelf) })
	return &inUse{checker: checker, parts: shelf, index: index}, nil
}

// ofRules marks an error as one of rules.
func ofRules(err error) error {
	var ps source.Problems
	if !errors.As(err, &ps) {
		ps.Add(source.Pos{}, "", err.Error(), "").Code = source.Invalid
	}
	return &RuleError{Problems: ps}
}

// proven runs the examples.
func proven(c *compat.Checker) error {
	wrong, _ := c.Rules().Prove()
	return wrongExamples(wrong).Err()
}

// Now gives the rules and parts in use. Keep both for one piece of work, so that
// it is done with rules and parts of one candidate. The zero Live has no rules and
// no parts.
func (l *Live) Now() (*compat.Checker, *catalog.Catalog) {
	now := l.now.Load()
	if now == nil {
		return &compat.Checker{}, &catalog.Catalog{}
	}
	return now.checker, now.parts
}

// Status says what is in use, since when, and what went wrong last.
func (l *Live) Status() LiveStatus {
	l.counts.Lock()
	defer l.counts.Unlock()
	status := LiveStatus{Taken: l.taken, Refused: l.refused, LastProblem: l.fault, LastProblemAt: l.faultyAt}
	if now := l.now.Load(); now != nil {
		set := now.checker.RuleSet()
		status.Hash, status.Rules, status.LoadedAt = set.Hash, set.Count, now.at
		status.Catalog, status.Parts = now.parts.Name(), now.parts.Len()
	}
	return status
}

// errEmpty is what a Live says that has taken no candidate.
var errEmpty = errors.New("no rules and no parts are in use: make a Live by NewLive, or Swap them in")

// CheckCart reads a cart file and judges it, with the rules and the parts that
// are in use when it begins. It fails as Read and Cart.Check do, and where nothing
// is in use.
func (l *Live) CheckCart(ctx context.Context, file string, text []byte) (Report, error) {
	return l.CheckCartWith(ctx, file, text, Options{})
}

// CheckCartWith is CheckCart with options. The index that Mend needs is made once for
// the parts in use, unless the options have one.
func (l *Live) CheckCartWith(ctx context.Context, file string, text []byte, o Options) (report Report, err error) {
	defer rescue("checking a cart", &err)
	now := l.now.Load()
	if now == nil {
		return Report{}, errEmpty
	}
	cart, err := Read(file, text, now.parts)
	if err != nil {
		return Report{}, err
	}
	if o.Mend && o.Index == nil {
		o.Index = now.index()
	}
	return cart.CheckWith(ctx, now.checker, now.parts, o)
}
