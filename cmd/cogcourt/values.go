package main

import (
	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
)

// values prints over which values of one fact a mix passes, warns, fails or stays open.
func values(o options, s stream) int {
	mixes, name, fault := mixAndFact(o.args)
	if fault != "" {
		return usage(s, "values", fault)
	}
	c, cat, err := o.open()
	if err != nil {
		return complain(s, err)
	}
	m, err := mixes.read(s.in, cat)
	if err != nil {
		return complain(s, err)
	}
	spans, err := c.Values(m, name)
	if err != nil {
		_ = complain(s, err)
		return exitUsage
	}
	valued := compat.Valued{Mix: m, Fact: name, Spans: spans}
	if o.format == "json" {
		return asJSON(s, valued, exitOK)
	}
	view.Values(s.out, valued, c.Rules().Vocabulary())
	return exitOK
}

// mixAndFact takes arguments apart: the last without a = is the fact, and all others
// are the mix.
func mixAndFact(args []string) (mix asked, name, fault string) {
	const wanted = "name one mix and one fact, such as demo:cart-chain-cassette chain.outer_width_mm"
	at := -1
	for i, arg := range args {
		if !assigns(arg) {
			at = i
		}
	}
	if at < 0 {
		return asked{}, "", wanted
	}
	rest := append(append([]string{}, args[:at]...), args[at+1:]...)
	mixes := asks(rest)
	if len(mixes) != 1 {
		return asked{}, "", wanted
	}
	return mixes[0], args[at], ""
}
