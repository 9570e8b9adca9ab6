package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// ask puts the questions that would decide a mix: one by one to a person, else the
// next one alone.
func ask(o options, s stream) int {
	mixes := asks(o.args)
	if len(mixes) != 1 {
		return usage(s, "ask", "name one mix: a file, - for standard input, demo:NAME, or its parts as in "+oneLine)
	}
	person := s.terminal && s.typed && o.format == "text" && mixes[0].file != "-"
	if fault := o.outputFault(person); fault != "" {
		return usage(s, "ask", fault)
	}
	c, cat, err := o.open()
	if err != nil {
		return complain(s, err)
	}
	m, root, err := mixes[0].readTree(s.in, cat)
	if err != nil {
		return complain(s, err)
	}
	r := c.Check(m)
	switch {
	case o.format == "json":
		return asJSON(s, compat.Asked{Report: r}, askStatus(r))
	case !person:
		nextQuestion(s.out, r)
		return askStatus(r)
	}
	a := asker{checker: c, parts: cat, report: r, root: root, in: bufio.NewReader(s.in), out: s.out}
	a.all()
	return a.end(o.output, s)
}

// outputFault says why the answers cannot be written where they are wanted.
func (o options) outputFault(person bool) string {
	if o.output == "" {
		return ""
	}
	if !person {
		return "--output takes the answers that a person gives, on a terminal and as text"
	}
	if _, err := os.Lstat(o.output); !errors.Is(err, fs.ErrNotExist) {
		return o.output + " is there already; name a new file for the mix with its answers"
	}
	return ""
}

// askStatus is the exit status: whether something is open.
func askStatus(r compat.Report) int {
	if r.Verdict == rules.Unknown {
		return exitUnknown
	}
	return exitOK
}

// nextQuestion prints what a mix comes to, and what to find out next.
func nextQuestion(w io.Writer, r compat.Report) {
	if questions := r.Ask(); len(questions) > 0 && r.Verdict != rules.Fail {
		view.Question(w, 0, questions[0], r)
		return
	}
	view.Answer(w, r)
}

// asker puts questions to a person.
type asker struct {
	checker *compat.Checker
	parts   *catalog.Catalog
	report  compat.Report // with the answers so far
	root    *source.Node  // the mix with them
	in      *bufio.Reader
	out     io.Writer

	number  int      // of questions that were put
	passed  []string // facts that the person does not know
	answers int
}

// all puts questions until nothing that could be known would change anything, or the
// person stops. A mix that fails is decided.
func (a *asker) all() {
	for a.report.Verdict != rules.Fail {
		questions := slices.DeleteFunc(a.report.Ask(), func(q compat.Question) bool { return slices.Contains(a.passed, q.Name) })
		if len(questions) == 0 {
			return
		}
		a.number++
		view.Question(a.out, a.number, questions[0], a.report)
		if !a.put(questions[0]) {
			return
		}
	}
}

// put reads answers to one question until one will do; it is false where the person
// stops.
func (a *asker) put(q compat.Question) bool {
	for {
		fmt.Fprint(a.out, "Answer (? for don't know, q to stop): ")
		line, err := a.in.ReadString('\n')
		switch word := strings.TrimSpace(line); {
		case err != nil && word == "":
			fmt.Fprintln(a.out)
			return false
		case word == "q":
			return false
		case word == "" || word == "?":
			a.passed = append(a.passed, q.Name)
			fmt.Fprintln(a.out)
			return true
		default:
			if a.take(q, word) {
				return true
			}
		}
	}
}

// take takes an answer into the mix, or says what is wrong with it.
func (a *asker) take(q compat.Question, word string) bool {
	kind, field, _ := strings.Cut(q.Name, ".")
	arg := argument{whole: q.Name + "=" + word, kind: kind, field: field, dotted: true, value: word,
		place: source.Pos{File: fmt.Sprintf("answer %d", a.number)}}
	t := treeMaker{words: a.checker.Rules().Vocabulary()}
	n, ok := t.value(arg)
	faults := t.ps
	if ok {
		root := withAnswer(a.root, arg, n)
		m := compat.ReadMixNode(root, a.parts, &faults)
		if len(faults) == 0 {
			before := a.report
			a.report, a.root, a.answers = a.checker.Check(m), root, a.answers+1
			a.passed = append(a.passed, q.Name) // an answer that settles nothing is not asked for again
			view.Changed(a.out, before, a.report)
			return true
		}
	}
	for _, p := range faults {
		fmt.Fprintln(a.out, view.Clean(p.String()))
	}
	return false
}

// withAnswer gives the tree of a mix with one more fact; the tree itself stays.
func withAnswer(root *source.Node, a argument, value *source.Node) *source.Node {
	if a.kind == "bench" {
		bench := root.Get("bench")
		if bench == nil || bench.Kind != source.Map {
			bench = mapAt(a.place)
		}
		return replaced(root, "bench", replaced(bench, a.field, value))
	}
	parts := root.Get("parts")
	part := parts.Get(a.kind)
	if part.Kind != source.Map { // an id alone
		over := mapAt(part.Pos)
		put(over, "id", part)
		part = over
	}
	return replaced(root, "parts", replaced(parts, a.kind, replaced(part, a.field, value)))
}

// replaced gives a copy of a map with one entry put in, or in the place of the old one.
func replaced(in *source.Node, key string, value *source.Node) *source.Node {
	out := *in
	out.Pairs = slices.Clone(in.Pairs)
	for i, p := range out.Pairs {
		if p.Key.Text == key {
			out.Pairs[i].Value = value
			return &out
		}
	}
	put(&out, key, value)
	return &out
}

// end says what the mix comes to, and writes it with its answers.
func (a *asker) end(output string, s stream) int {
	view.Answer(a.out, a.report)
	if a.answers == 0 {
		return askStatus(a.report)
	}
	text := mixText(a.root)
	if output == "" {
		fmt.Fprintf(a.out, "\nThe mix with what you answered; --output FILE writes it into a file:\n\n%s", text)
		return askStatus(a.report)
	}
	if err := writeNew(output, text); err != nil {
		_ = complain(s, unreadable(output, err))
		return exitLoad
	}
	fmt.Fprintf(a.out, "\nThe mix with what you answered is in %s.\n", view.Clean(output))
	return askStatus(a.report)
}

// writeNew writes a file that is not there yet.
func writeNew(name, text string) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = io.WriteString(f, text)
	return errors.Join(err, f.Close())
}

// mixText writes the tree of a mix as YAML: a line for each part.
func mixText(root *source.Node) string {
	var b strings.Builder
	for _, p := range root.Pairs {
		if p.Value.Kind != source.Map || len(p.Value.Pairs) == 0 {
			fmt.Fprintf(&b, "%s: %s\n", p.Key.Text, written(p.Value))
			continue
		}
		fmt.Fprintf(&b, "%s:\n", p.Key.Text)
		for _, line := range entries(p.Value) {
			fmt.Fprintf(&b, "  %s\n", line)
		}
	}
	return b.String()
}
