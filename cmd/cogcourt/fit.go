package main

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/fit"
	"example.org/cogcourt/rules"
)

// fitParts prints the parts of some kinds that go on a mix.
func fitParts(o options, s stream) int {
	kinds, fault := kindsOf(o.kinds)
	switch {
	case fault != "":
		return usage(s, "fit", fault)
	case len(kinds) == 0 && o.why == "":
		return usage(s, "fit", "name what to choose: --kind cassette, once for each kind; known are "+strings.Join(catalog.KindNames(), ", "))
	}
	q, work, status := o.searching("fit", s)
	if status >= 0 {
		return status
	}
	if o.why != "" {
		if o.format == "html" {
			return usage(s, "fit", "--why prints text or JSON; leave --format html out")
		}
		return work.why("fit", o, s)
	}
	q.Kinds, q.Warnings = kinds, fit.Last
	done := work.progress(s)
	answer, err := work.index.Fit(context.Background(), q)
	if err == nil && len(answer.Choices) == 0 && !answer.Cut {
		q.Undecided = true // is it only that something is not known?
		answer, err = work.index.Fit(context.Background(), q)
	}
	if done(); err != nil {
		return complain(s, err)
	}
	status = found(answer.Choices, answer.Cut)
	if o.format == "json" {
		return asJSON(s, answer, status)
	}
	if o.format == "html" {
		return page(s, view.FitHTML(s.out, answer, work.reports(answer.Choices), work.parts.Currency()), status)
	}
	view.Fit(s.out, answer, work.parts.Currency())
	return status
}

// swap prints the smallest exchange of parts that mends a mix.
func swap(o options, s stream) int {
	kinds, fault := kindsOf(o.kinds)
	if fault != "" {
		return usage(s, "swap", fault)
	}
	q, work, status := o.searching("swap", s)
	if status >= 0 {
		return status
	}
	if o.why != "" {
		return work.why("swap", o, s)
	}
	for _, kind := range kinds {
		if _, ok := q.Mix.Part(kind); !ok {
			return usage(s, "swap", "the mix has no "+kind+" to exchange; cogcourt fit finds one for it")
		}
	}
	q.Kinds = kinds
	if q.Limit == 0 {
		q.Limit = swapsShown
	}
	done := work.progress(s)
	mending, err := work.index.SwapBy(context.Background(), q, o.most)
	if err == nil && len(mending.Fails) > 0 && len(mending.Swaps) == 0 && !mending.Cut {
		q.Undecided = true
		var more fit.Mending
		if more, err = work.index.SwapBy(context.Background(), q, o.most); len(more.Swaps) > 0 {
			mending = more
		}
	}
	if done(); err != nil {
		return complain(s, err)
	}
	status = found(mending.Swaps, mending.Cut && !mending.None)
	now := work.checker.Check(q.Mix).Verdict
	if len(mending.Fails) == 0 {
		status = verdictStatus(now)
	}
	if o.format == "json" {
		return asJSON(s, mending, status)
	}
	view.Mending(s.out, mending, q.Mix, work.parts.Currency())
	if now == rules.Unknown {
		fmt.Fprintln(s.out, "It is not decided: cogcourt ask tells what to find out.")
	}
	return status
}

// swapsShown is how many exchanges are shown: each takes a few lines.
const swapsShown = 5

// found is the exit status of a search: whether it found something, and more than what
// is undecided; a search that was cut short has not proven that there is nothing.
func found(choices []fit.Choice, cut bool) int {
	switch {
	case len(choices) == 0 && !cut:
		return exitFail
	case !slices.ContainsFunc(choices, func(c fit.Choice) bool { return c.Verdict() != rules.Unknown }):
		return exitUnknown
	}
	return exitOK
}

// work is what a search is made with.
type work struct {
	checker *compat.Checker
	parts   *catalog.Catalog // to choose from
	index   *fit.Index
	mix     compat.Mix
}

// searching reads what a search is about. The last result is the exit status where there
// is nothing more to do, else -1.
func (o options) searching(name string, s stream) (fit.Query, work, int) {
	q := fit.Query{Limit: o.limit}
	mixes := asks(o.args)
	if len(mixes) != 1 {
		return q, work{}, usage(s, name, "name one mix: a file, - for standard input, demo:NAME, or its parts as in "+oneLine)
	}
	var fault string
	if q.Spend, fault = cents(o.budget); fault != "" {
		return q, work{}, usage(s, name, fault)
	}
	if o.limit < 0 || o.most < 0 {
		return q, work{}, usage(s, name, "--limit and --most are counts, from 1")
	}
	c, cat, err := o.open()
	var w work
	if err == nil {
		w.checker, w.parts = c, cat
		if len(o.have) > 0 {
			w.parts, err = load(o.have)
		}
	}
	if err != nil {
		return q, w, complain(s, err)
	}
	if q.Mix, err = mixes[0].read(s.in, cat); err != nil {
		return q, w, complain(s, err)
	}
	w.mix = q.Mix
	w.index = fit.NewIndex(c, w.parts)
	return q, w, -1
}

// kindsOf makes sure that these are kinds, each once.
func kindsOf(words []string) ([]string, string) {
	for i, kind := range words {
		if _, ok := catalog.Kind(kind); !ok {
			return nil, fmt.Sprintf("there is no kind %q; %s", kind, catalog.SuggestKind(kind))
		}
		if slices.Contains(words[:i], kind) {
			return nil, fmt.Sprintf("--kind %s stands twice", kind)
		}
	}
	return words, ""
}

// cents reads the bound of --budget.
func cents(text string) (int64, string) {
	if text == "" {
		return 0, ""
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || !(x > 0 && x < 1e9) {
		return 0, fmt.Sprintf("--budget %s is no sum of money; write it as 150 or 149.90", text)
	}
	return int64(x*100 + 0.5), ""
}

// why tells why a part goes on the mix, or does not.
func (w work) why(command string, o options, s stream) int {
	part, ok := partOf(w.parts, o.why)
	if !ok {
		return usage(s, command, noPart(w.parts, o.why))
	}
	reach := map[string]bool{}
	for _, r := range w.checker.Rules().Rules() {
		reach[r.ID] = slices.Contains(w.checker.Reach(r), part.Kind())
	}
	m := w.mix.Refit(part)
	if own, has := w.mix.Part(part.Kind()); has && own == part {
		m = w.mix
	}
	r := w.checker.Check(m)
	if o.format == "json" {
		return asJSON(s, r, verdictStatus(view.WorstOf(r, reach)))
	}
	view.Why(s.out, part, r, reach)
	return verdictStatus(view.WorstOf(r, reach))
}

// reports judges the mix with each choice, for what is drawn of it.
func (w work) reports(choices []fit.Choice) []compat.Report {
	out := make([]compat.Report, len(choices))
	for i, c := range choices {
		out[i] = w.checker.Check(c.Mix())
	}
	return out
}

// patience is how long a search may take before a person is told that it goes on.
const patience = time.Second

// progress tells a person that a search goes on, every second from the first on. The
// function that it gives ends that and wipes the line.
func (w work) progress(s stream) (done func()) {
	if !s.terminal || s.format != "text" {
		return func() {}
	}
	end, ended := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(ended)
		tick := time.NewTicker(patience)
		defer tick.Stop()
		for seconds := 1; ; seconds++ {
			select {
			case <-end:
				if seconds > 1 {
					fmt.Fprint(s.err, "\r\x1b[K")
				}
				return
			case <-tick.C:
				fmt.Fprintf(s.err, "\rsearching among %d parts, %d s", w.parts.Len(), seconds)
			}
		}
	}()
	return func() { close(end); <-ended }
}

// auditParts prints what in the catalogue goes with what.
func auditParts(o options, s stream) int {
	c, cat, err := o.open()
	if err != nil {
		return complain(s, err)
	}
	w := work{checker: c, parts: cat, index: fit.NewIndex(c, cat)}
	done := w.progress(s)
	audit, err := w.index.Audit(context.Background())
	if done(); err != nil {
		return complain(s, err)
	}
	if o.format == "json" {
		return asJSON(s, audit, exitOK)
	}
	view.Audit(s.out, audit)
	return exitOK
}
