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
)

// Live holds the rules and the parts that a server uses, and lets others take
// their place while it serves, both together or either alone, in one step: whoever
// asks gets all of the old or all of the new. It is safe for many goroutines.
type Live struct {
	clock   func() time.Time
	observe func(compat.Event)
	now     atomic.Pointer[inUse]
	turn    chan struct{} // holds something while a candidate is tried: one at a time
	begun   sync.Once     // makes turn

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
	ready   bool              // the rules were proven while it was made
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
// later ones that have none of their own; so its Observe is told of later ones.
func NewLive(cfg compat.Config, parts ...fs.FS) (*Live, error) {
	return NewLiveContext(context.Background(), cfg, parts...)
}

// NewLiveContext is NewLive that ends as SwapContext does.
func NewLiveContext(ctx context.Context, cfg compat.Config, parts ...fs.FS) (*Live, error) {
	l := &Live{clock: cfg.Clock, observe: cfg.Observe}
	if err := l.SwapContext(ctx, cfg, parts...); err != nil {
		return nil, err
	}
	return l, nil
}

// LiveOf takes a checker and a catalogue that are there already, such as one of parts
// from a database (catalog.From), or one that several shops share, each with rules of its
// own: nothing is copied. It fails as SwapRules does. Candidates were taken by time.Now;
// the checker's observer is told of what is done.
func LiveOf(ctx context.Context, with *compat.Checker, from *catalog.Catalog) (*Live, error) {
	l := &Live{observe: with.Observer()}
	if err := l.swap(ctx, func(*inUse) (*inUse, error) { return &inUse{checker: with, parts: from}, nil }); err != nil {
		return nil, err
	}
	return l, nil
}

// Swap takes a candidate when its rules compile, every example of theirs gives
// what it says, and its parts load; else it names every fault, and what was in
// use stays in use. The error is a *RuleError, source.Problems of the parts, both
// joined, or an *InternalError. What a linter would remark on does not matter.
// Checks go on meanwhile; those that have begun end with the rules they began
// with. Where the files of the rules are those in use, these stay, with all that is
// compiled of them, and are not proven again.
func (l *Live) Swap(cfg compat.Config, parts ...fs.FS) error {
	return l.SwapContext(context.Background(), cfg, parts...)
}

// SwapContext is Swap that ends with ctx's error alone once ctx is done, which is looked
// at between two parts and between two rules, and while another candidate is tried. A
// candidate that was stopped is neither taken nor refused.
func (l *Live) SwapContext(ctx context.Context, cfg compat.Config, parts ...fs.FS) error {
	return l.swap(ctx, func(now *inUse) (*inUse, error) { return l.load(ctx, now, cfg, parts) })
}

// SwapParts takes other parts, and keeps the rules. It costs nothing beside the making
// of the catalogue: see catalog.Catalog.With. It fails where nothing is in use yet, and
// with ctx's error.
func (l *Live) SwapParts(ctx context.Context, from *catalog.Catalog) error {
	return l.swap(ctx, func(now *inUse) (*inUse, error) {
		if now == nil {
			return nil, errEmpty
		}
		return &inUse{checker: now.checker, parts: from}, nil
	})
}

// SwapRules takes other rules, and keeps the parts. Rules that are not those in use are
// proven by their examples first, as Swap does, and fail as there; it fails where nothing
// is in use yet, and with ctx's error.
func (l *Live) SwapRules(ctx context.Context, with *compat.Checker) error {
	return l.swap(ctx, func(now *inUse) (*inUse, error) {
		if now == nil {
			return nil, errEmpty
		}
		return &inUse{checker: with, parts: now.parts}, nil
	})
}

// time asks the clock, which is not this package's code.
func (l *Live) time() (now time.Time, err error) {
	defer rescue("asking for the time", &err)
	if l.clock == nil {
		return time.Now(), nil
	}
	return l.clock(), nil
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
	now, cart, err := l.read(ctx, file, text)
	if err != nil {
		return Report{}, err
	}
	if o.Mend && o.Index == nil {
		o.Index = now.index()
	}
	return cart.CheckWith(ctx, now.checker, now.parts, o)
}

// read reads a cart file by what is in use.
func (l *Live) read(ctx context.Context, file string, text []byte) (*inUse, Cart, error) {
	now := l.now.Load()
	if now == nil {
		return nil, Cart{}, errEmpty
	}
	if err := ctx.Err(); err != nil {
		return nil, Cart{}, err
	}
	begin := time.Now()
	cart, err := Read(file, text, now.parts)
	if err != nil {
		tell(now.checker, file, begin, ended{err: err})
	}
	return now, cart, err
}
