package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"testing/fstest"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/compat/fit"
)

// editions is how many there are of the rules and of the parts that are swapped.
const editions = 2

// state is what is in use: which edition of the rules, and which of the parts.
type state struct{ rules, parts int }

// world is what everything is asked of, and what it must answer: each answer was worked
// out alone, by a checker and a catalogue that nobody else had.
type world struct {
	checker   *compat.Checker // of the standard rules, which all share
	parts     *catalog.Catalog
	index     *fit.Index
	questions []question
	alone     [][]byte // what the shared ones answer each question

	rules   [editions]*compat.Checker
	shelves [editions]*catalog.Catalog
	live    *cart.Live
	byState map[state][][]byte // what Live answers each question
}

// question is asked of rules and parts. Those that search have an index.
type question struct {
	name     string
	cart     []byte // of a cart its file, which Live reads as well
	searches bool   // by an index
	ask      func(c *compat.Checker, parts *catalog.Catalog, ix *fit.Index) ([]byte, error)
}

// ruleFiles is an edition of the rules that are swapped, good or with an example that
// does not hold.
func ruleFiles(edition int, good bool) fs.FS {
	want := "warn"
	if !good {
		want = "fail"
	}
	rules := fmt.Sprintf("pack: longrun\nedition: %d\nrules:\n", edition+1)
	for _, of := range [][2]string{{"cassette", "cogs_t"}, {"crankset", "rings_t"}} {
		kind, field := of[0], of[1]
		rules += fmt.Sprintf("  - {id: longrun/%s, title: Met, why: A rule for a test., warn_if: size(%s.%s) > 0, say: edition %d, remedy: None., basis: {practice: none},\n"+
			"     examples: [{name: any, given: {%s: {%s: [30, 46]}}, want: %s}]}\n", kind, kind, field, edition, kind, field, want)
	}
	return fstest.MapFS{"r.yaml": {Data: []byte(rules)}}
}

// shelfFiles is an edition of the parts that are swapped, beside the demo's.
func shelfFiles(edition int) fs.FS {
	return fstest.MapFS{"p.yaml": {Data: fmt.Appendf(nil,
		"parts:\n  - {kind: cassette, id: swapped, name: edition %d, sku: SWAPPED, cogs_t: [11, 13, 15, 17, 20, 23, 26, 30, 34], pitch_mm: 4.34}\n", edition)}}
}

// rulesOf compiles an edition of the rules, anew each time.
func rulesOf(edition int) (*compat.Checker, error) {
	return compat.New(compat.Config{NoStandard: true, Rules: []fs.FS{ruleFiles(edition, true)}})
}

func shelfOf(edition int) (*catalog.Catalog, error) {
	return catalog.Load(demo.Files(), shelfFiles(edition))
}

// newWorld makes everything, and works out alone what must be answered.
func newWorld() (*world, error) {
	w := &world{questions: questions(), byState: map[state][][]byte{}}
	own, err := compat.New(compat.Config{})
	if err != nil {
		return nil, err
	}
	shelf, err := shelfOf(0)
	if err != nil {
		return nil, err
	}
	if w.alone, err = answersAlone(w.questions, own, shelf); err != nil {
		return nil, err
	}
	for r := range editions {
		for p := range editions {
			if err := w.answer(state{r, p}); err != nil {
				return nil, err
			}
		}
		if w.rules[r], err = rulesOf(r); err != nil {
			return nil, err
		}
		if w.shelves[r], err = shelfOf(r); err != nil {
			return nil, err
		}
	}
	if w.checker, err = compat.New(compat.Config{}); err != nil {
		return nil, err
	}
	if w.parts, err = shelfOf(0); err != nil {
		return nil, err
	}
	w.index = fit.NewIndex(w.checker, w.parts)
	w.live, err = liveOf(w)
	return w, err
}

// answer works out what Live must answer in a state.
func (w *world) answer(s state) error {
	own, err := rulesOf(s.rules)
	if err != nil {
		return err
	}
	shelf, err := shelfOf(s.parts)
	if err != nil {
		return err
	}
	w.byState[s], err = answersAlone(w.questions, own, shelf)
	return err
}

// liveOf takes the first editions into use.
func liveOf(w *world) (*cart.Live, error) {
	return cart.LiveOf(context.Background(), w.rules[0], w.shelves[0])
}

// answersAlone asks one question after the other of rules and parts that nobody else has.
func answersAlone(list []question, c *compat.Checker, parts *catalog.Catalog) ([][]byte, error) {
	ix := fit.NewIndex(c, parts)
	var out [][]byte
	for _, q := range list {
		text, err := q.ask(c, parts, ix)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", q.name, err)
		}
		out = append(out, text)
	}
	return out, nil
}

// stateOf tells which editions are in use by what they say themselves.
func stateOf(c *compat.Checker, parts *catalog.Catalog) (state, error) {
	packs := c.RuleSet().Packs
	p, found := parts.Part("swapped")
	if len(packs) != 1 || !found {
		return state{}, errors.New("neither edition is in use")
	}
	s := state{rules: packs[0].Edition - 1}
	_, err := fmt.Sscanf(p.Name(), "edition %d", &s.parts)
	return s, err
}
