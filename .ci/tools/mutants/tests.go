package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// program is the tests of a package, built once.
type program struct {
	file, folder string
	name         string        // the package's, from the module's root
	starts       time.Duration // what it takes to run none of them
}

// test is one top-level test, example or fuzz target. One without a name is all of its
// package, for those that hold in company alone.
type test struct {
	of    *program
	name  string
	takes time.Duration // beside the start, with nothing changed
	meets map[int]bool  // the changes that make a difference on the spot while it runs

	noticed int // changes so far
}

// dear is by what tests are put in order: one that has noticed much comes earlier.
func (t *test) dear() time.Duration { return t.takes / time.Duration(1+t.noticed) }

// laidOut are the tests of how the code is written, which see the copy and nothing of a
// change.
var laidOut = regexp.MustCompile("^Test(FilesAreShort|LinesAreShort|FunctionsAreShort|ExportedNamesAreDocumented|NothingRunsByItself|" +
	"PackageVariablesNeverChange|ImportsFollowTheArrows|DevelopersShowTheArrows|NoForeignTypeIsShown|ProblemsHaveCodes|" +
	"Document.*|ReadmeGoRuns|ReadmeNamesTheWeight|TextsAreReadBack|Modules.*)$")

// An hour is long enough for any test with nothing changed.
const anHour = time.Hour

// built builds the tests of a package and runs each alone, to find out which changes it
// meets.
func built(root, name string, only *regexp.Regexp) ([]*test, error) {
	p := &program{file: filepath.Join(root, strings.ReplaceAll(name, "/", "-")+".test"), folder: filepath.Join(root, name), name: name}
	build := exec.Command("go", "test", "-c", "-trimpath", "-o", p.file, "./"+name) // so that a second run need not compile
	build.Dir = root
	if said, err := build.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("the tests of %s do not build: %w\n%s", name, err, said)
	}
	none := &test{of: p, name: "$none"}
	if said, ok := none.alone(); !ok {
		return nil, fmt.Errorf("the tests of %s do not start:\n%s", name, said)
	}
	p.starts, none.takes = none.takes, 0
	list, err := p.named()
	if err != nil {
		return nil, err
	}
	var out []*test
	var shy []string
	for _, n := range list {
		if !only.MatchString(n) {
			continue
		}
		t := &test{of: p, name: n}
		if _, ok := t.alone(); !ok {
			shy = append(shy, n)
			continue
		}
		out = append(out, t)
	}
	if shy != nil {
		whole := &test{of: p}
		if said, ok := whole.alone(); !ok {
			return nil, fmt.Errorf("the tests of %s fail with nothing changed:\n%s", name, said)
		}
		fmt.Printf("# %s: only in company hold %s\n", name, strings.Join(shy, ", "))
		out = append(out, whole)
	}
	return out, nil
}

// named lists the tests that can notice a change.
func (p *program) named() ([]string, error) {
	c := exec.Command(p.file, "-test.list", "^(Test|Example|Fuzz)")
	c.Dir = p.folder
	said, err := c.Output()
	if err != nil {
		return nil, fmt.Errorf("the tests of %s: %w", p.name, err)
	}
	var out []string
	for n := range strings.FieldsSeq(string(said)) {
		if !laidOut.MatchString(n) {
			out = append(out, n)
		}
	}
	return out, nil
}

// alone runs a test with nothing changed, and finds out what it meets and takes.
func (t *test) alone() (said string, ok bool) {
	reached := t.of.file + ".reached"
	begun := time.Now()
	said, ok = trial{of: t.of, tests: []*test{t}, patience: anHour}.holds("COGCOURT_MUTANT_REACH=" + reached)
	t.takes = max(0, time.Since(begun)-t.of.starts)
	text, err := os.ReadFile(reached)
	if os.IsNotExist(err) { // it meets none
		return said, ok
	}
	if err != nil {
		return err.Error(), false
	}
	t.meets = map[int]bool{}
	for word := range strings.FieldsSeq(string(text)) {
		id, err := strconv.Atoi(word)
		if err != nil {
			return err.Error(), false
		}
		t.meets[id] = true
	}
	if err := os.Remove(reached); err != nil {
		return err.Error(), false
	}
	return said, ok
}

// trial is some tests of one package in one process.
type trial struct {
	of       *program
	tests    []*test       // all where one of them has no name
	full     bool          // not the quick ones alone
	takes    time.Duration // beside the start
	most     time.Duration // that it may take
	patience time.Duration // until it counts as hanging
}

// holds runs the tests with something in the environment. What hangs or takes all memory
// does not hold: a change can make a loop that never ends.
func (t trial) holds(env string) (said string, ok bool) {
	in, cancel := context.WithTimeout(context.Background(), t.patience)
	defer cancel()
	args := []string{"-c", `ulimit -v 8000000; exec "$@"`, "sh", t.of.file,
		"-test.failfast", "-test.timeout", "2h", "-test.skip", laidOut.String()}
	if !t.full {
		args = append(args, "-test.short")
	}
	names := make([]string, len(t.tests))
	for i, one := range t.tests {
		names[i] = regexp.QuoteMeta(one.name)
	}
	if len(names) > 0 && names[0] != "" {
		args = append(args, "-test.run", "^("+strings.Join(names, "|")+")$")
	}
	c := exec.CommandContext(in, "sh", args...)
	c.Dir, c.Env = t.of.folder, append(os.Environ(), "GOGC=400", env)
	c.WaitDelay = time.Second
	out, err := c.CombinedOutput()
	if len(out) > 3000 {
		out = out[len(out)-3000:]
	}
	return string(out), err == nil
}

// failed is how a test binary names a top-level test that fails.
var failed = regexp.MustCompile(`(?m)^--- FAIL: (\w+)`)

// learns counts a change for the test that noticed it.
func (t trial) learns(said string) {
	if found := failed.FindStringSubmatch(said); found != nil {
		for _, one := range t.tests {
			one.noticed += boolean(one.name == found[1])
		}
	}
}
