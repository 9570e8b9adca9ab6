package rules

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"slices"
	"sync"
	"time"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
	"example.org/cogcourt/rules/source"
)

// maxSetCost bounds all conditions and let-names of strangers' files together, in
// the engine's cost units: about ten milliseconds for one check at the very worst.
const maxSetCost = 100_000

// Config says what to load.
type Config struct {
	Vocabulary *Vocabulary
	Files      []fs.FS // every .yaml, .yml and .json file below each root is a rule file

	// Sound are files that were loaded by Files before, in a test of their
	// own, and that are part of the program. What a verdict depends on is
	// compiled when the rule is first applied, texts, steps and examples when
	// first asked for, which takes most of the time out of a load. A rule that
	// does not compile then is an error of that rule, never a pass. They come
	// before Files.
	Sound []fs.FS

	// Prepared is what Prepare made of the sound files. Their expressions are then
	// neither parsed nor checked, where the bytes of the file, the vocabulary and the
	// engine are those that it was made of; where not, it goes for nothing. It is
	// trusted as the program itself is.
	Prepared string

	// Derive completes the records of an example: given facts in, given and
	// computed facts out. Nil leaves them as they are.
	Derive func([]*Record) []*Record

	// Again works out anew what hangs on facts that have moved within their
	// tolerances: it is given complete records in which the records that hold
	// these facts have been exchanged, and gives new ones to use, which keeps
	// none of them. Only the wanted facts will be read. Nil leaves computed facts
	// as they are.
	Again func(records []*Record, moved, wanted []Ref, use func([]*Record))

	// Behind gives the stated facts that a fact hangs on: of a computed one those
	// that it is worked out from, of a stated one itself. Nil stands for no
	// computed facts.
	Behind func(Ref) []Ref

	// Ways tells how computed facts go with stated ones. Nil declares nothing.
	Ways Ways

	// Mark gives the bits by which computed records say which stated facts each of their
	// fields was worked out with; see Object.FillComputed. Nil stands for records that
	// do not say.
	Mark func(Ref) fact.Marks

	// Others gives what facts that are known by a count alone may be beside what
	// stands in the records, which are complete. Nil stands for nothing else.
	Others func(records []*Record) []Other

	// Drawings are those that draw: of a rule may name. Without any it names none.
	Drawings []Drawing

	// Clock tells the day that adjustments are held against. Nil is time.Now.
	Clock func() time.Time
}

// Set is a compiled set of rules. It is immutable and safe for use by many
// goroutines.
type Set struct {
	vocabulary *Vocabulary
	rules      []*Rule
	steps      []*Step
	packs      []Pack
	citations  []Citation
	hash       string
	frames     *expr.Frames
	derive     func([]*Record) []*Record
	again      again
	behind     func(Ref) []Ref
	ways       Ways
	mark       func(Ref) fact.Marks
	can        func() []fact.Marks // which of these each rule can read, by its place
	others     func([]*Record) []Other
	leans      *sync.Pool // of *leaning
	hidings    *sync.Pool // of *hiding
	results    *sync.Pool // of *Result
	clock      func() time.Time
}

// Load reads, checks and compiles rule files. A file set loads whole or not at
// all: the error is source.Problems and holds every fault of every file.
func Load(cfg Config) (*Set, error) { return load(context.Background(), cfg, nil) }

// LoadContext is Load that ends with ctx's error alone once ctx is done, which is looked
// at between two rules.
func LoadContext(ctx context.Context, cfg Config) (*Set, error) { return load(ctx, cfg, nil) }

// load is LoadContext, and hands what it compiles over where it is being prepared.
func load(ctx context.Context, cfg Config, preparing *preparing) (*Set, error) {
	var ps source.Problems
	l := loader{
		set: &Set{vocabulary: cfg.Vocabulary, derive: cfg.Derive, again: cfg.Again, behind: cfg.Behind, ways: cfg.Ways,
			mark: cfg.Mark, others: cfg.Others, clock: cfg.Clock, leans: &sync.Pool{New: newLeaning}},
		ps: &ps, drawings: cfg.Drawings,
		rules: map[string]*Rule{}, shipped: map[string]bool{},

		misspelt:  map[*source.Node]bool{},
		preparing: preparing,
		stopped:   func() bool { return ctx.Err() != nil },
	}
	if len(cfg.Sound) > 0 {
		l.prepared = readPrepared(cfg.Prepared, cfg.Vocabulary.lang)
	}
	l.set.hidings = &sync.Pool{New: l.set.newHiding}
	l.set.results = &sync.Pool{New: l.set.newResult}
	l.set.can = sync.OnceValue(l.set.canRead)
	if l.set.clock == nil {
		l.set.clock = time.Now
	}
	if l.set.again == nil {
		l.set.again = func(records []*Record, _, _ []Ref, use func([]*Record)) { use(records) }
	}
	if l.set.behind == nil {
		l.set.behind = func(ref Ref) []Ref { return []Ref{ref} }
	}
	if l.set.mark == nil {
		l.set.mark = func(Ref) fact.Marks { return fact.EveryMark }
	}
	if l.set.ways == nil {
		l.set.ways = func(Ref, Ref) (int8, bool) { return 0, false }
	}
	sum := sha256.New()
	for i, fsys := range slices.Concat(cfg.Sound, cfg.Files) {
		if l.stopped() {
			break
		}
		for _, f := range FileLimits().ReadFiles(fsys, &ps) {
			fmt.Fprintf(sum, "%d:", len(f.Text))
			sum.Write(f.Text)
			l.sound = i < len(cfg.Sound)
			l.file(f)
		}
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	l.finish()
	if err := ps.Err(); err != nil {
		return nil, err
	}
	l.set.hash = "sha256:" + hex.EncodeToString(sum.Sum(nil))
	l.set.frames = expr.NewFrames(cfg.Vocabulary.lang, l.lets)
	return l.set, nil
}

// Rules gives the rules in file order. The slice is the set's own.
func (s *Set) Rules() []*Rule { return s.rules }

// Rule finds a rule by its id.
func (s *Set) Rule(id string) (*Rule, bool) {
	for _, r := range s.rules {
		if r.ID == id {
			return r, true
		}
	}
	return nil, false
}

// Packs gives the packs in the order in which they were met.
func (s *Set) Packs() []Pack { return s.packs }

// Citations gives what the packs list under sources:, which their rules rest on.
func (s *Set) Citations() []Citation { return s.citations }

// Hash names the set by its contents: equal files, equal hash.
func (s *Set) Hash() string { return s.hash }

// Vocabulary gives what the rules may speak of.
func (s *Set) Vocabulary() *Vocabulary { return s.vocabulary }

// inForce says whether an adjustment still holds today.
func (s *Set) inForce(a *Adjust) bool {
	return s.clock().UTC().Before(a.Until.AddDate(0, 0, 1))
}

// Only gives the same set with those rules alone whose id is wanted.
func (s *Set) Only(wanted func(id string) bool) *Set {
	out := *s
	out.rules = nil
	for _, r := range s.rules {
		if wanted(r.ID) {
			out.rules = append(out.rules, r)
		}
	}
	return &out
}
