package main

import (
	"bytes"
	"context"
	"flag"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
)

// TestLoadedOnce holds that a process loads the same rules and parts once, and others
// apart from them.
func TestLoadedOnce(t *testing.T) {
	var all [8]*judges
	var group sync.WaitGroup
	for i := range all {
		group.Go(func() {
			fn := judgeFn{Settings: settings{NoUsual: true}}
			if err := fn.Setup(); err != nil {
				t.Error(err)
			}
			all[i] = fn.with
		})
	}
	group.Wait()
	for _, j := range all {
		if j == nil || j != all[0] {
			t.Error("rules and parts were loaded twice")
		}
	}
	other, err := settings{}.load()
	if err != nil || other == all[0] {
		t.Errorf("other settings give the same: %v", err)
	}
}

// TestFaultsAreTold holds that nothing runs by rules or parts with a fault, and that what
// is wrong is told by its place.
func TestFaultsAreTold(t *testing.T) {
	dir := t.TempDir()
	file := write(t, dir, "own.yaml", "pack: lake\nrules: [{id: a}]\n")
	input := write(t, dir, "mixes.jsonl", "{}\n")
	for name, c := range map[string]struct {
		o      options
		want   string
		status int
	}{
		"a rule":        {options{input: input, settings: settings{Rules: []string{dir}}}, "own.yaml:2:", exitLoad},
		"parts":         {options{input: input, settings: settings{Parts: []string{dir}}}, "own.yaml:", exitLoad},
		"no folder":     {options{input: input, settings: settings{Rules: []string{filepath.Join(dir, "none")}}}, "cannot be read", exitLoad},
		"a file":        {options{input: input, settings: settings{Parts: []string{file}}}, "is not a folder", exitLoad},
		"nothing in it": {options{input: input, settings: settings{Rules: []string{t.TempDir()}}}, "holds no data file", exitLoad},
		"no rules":      {options{input: input, settings: settings{NoStandard: true}}, "no rules were found", exitLoad},
		"no input":      {options{}, "--input", exitUsage},
		"no such input": {options{input: filepath.Join(dir, "none.jsonl")}, "none.jsonl", exitLoad},
	} {
		_, said, status := carried(t, c.o)
		if status != c.status || !strings.Contains(said, c.want) {
			t.Errorf("%s: status %d, said %q", name, status, said)
		}
	}
	text, said, status := carried(t, options{input: write(t, dir, "blank.jsonl", "\n\n")})
	if status != exitUnknown || !strings.Contains(said, "no line") || len(text) > 0 {
		t.Errorf("no lines: status %d, %q, %q", status, said, text)
	}
}

// TestFlags holds that each flag sets what it says.
func TestFlags(t *testing.T) {
	set := flag.NewFlagSet("cogbatch", flag.ContinueOnError)
	o := flags(set)
	err := set.Parse(strings.Fields("--input a --output b --rules c --rules d --parts e --no-standard --no-usual --full --shards 7"))
	s := o.settings
	if err != nil || o.input != "a" || o.output != "b" || o.shards != 7 || !slices.Equal(s.Rules, []string{"c", "d"}) || !slices.Equal(s.Parts, []string{"e"}) ||
		!s.NoStandard || !s.NoUsual || !s.Full {
		t.Errorf("%+v, %v", o, err)
	}
	var said bytes.Buffer
	if status := run(context.Background(), &options{input: "a", shards: 1}, ownRunner, &said); status != exitUsage {
		t.Errorf("without --output: status %d, %s", status, &said)
	}
}

// TestSummed holds which status the counts come to; no counts are no pass.
func TestSummed(t *testing.T) {
	for _, c := range []struct {
		counts map[string]int64
		want   int
	}{
		{nil, exitUnknown}, {map[string]int64{"pass": 2, "warn": 1}, exitOK}, {map[string]int64{"pass": 2, "unknown": 1}, exitUnknown},
		{map[string]int64{"fail": 1, "unknown": 1}, exitFail}, {map[string]int64{"fail": 1, badLines: 1}, exitLoad},
	} {
		var said bytes.Buffer
		if got := summed(c.counts, &said); got != c.want || said.Len() == 0 {
			t.Errorf("%v: status %d, said %q", c.counts, got, &said)
		}
	}
}
