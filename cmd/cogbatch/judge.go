package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/apache/beam/sdks/v2/go/pkg/beam"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/source"
)

// The counters: verdicts by their words, and lines that did not load.
const (
	counters = "cogbatch"
	badLines = "bad lines"
)

// judgeFn answers lines. Its exported fields go to every worker.
type judgeFn struct {
	Settings settings
	Named    bool // the name of its file stands in front of a line

	with *judges
}

// Setup loads rules and parts, or finds them loaded: the engine makes many of these in
// one process.
func (fn *judgeFn) Setup() (err error) {
	fn.with, err = fn.Settings.load()
	return err
}

// ProcessElement answers one line, in any case.
func (fn *judgeFn) ProcessElement(ctx context.Context, line Line, emit func(string)) error {
	text, verdict, err := fn.with.judge(line)
	if err != nil {
		verdict = badLines
		text = badLine(int(line.Number), err)
	}
	beam.NewCounter(counters, verdict).Inc(ctx, 1)
	name := strconv.FormatInt(line.Number, 10)
	if fn.Named {
		name = line.File + "\t" + name
	}
	emit(name + "\t" + string(text))
	return nil
}

// judge gives the report on a line and its verdict. What breaks down over a line is the
// fault of this line alone.
func (j *judges) judge(line Line) (text []byte, verdict string, err error) {
	defer func() {
		if cause := recover(); cause != nil {
			err = fmt.Errorf("internal error: %v", cause)
		}
	}()
	if line.Long {
		return nil, "", source.Problems{{Code: source.TooLarge, Text: fmt.Sprintf("the line is over %d MiB", source.MaxBytes>>20)}}
	}
	number := int(line.Number)
	m, err := compat.ReadMixLine("stdin", number, line.Text, j.parts)
	if err != nil {
		if isCart(line.Text) {
			err = source.Problems{{Pos: source.Pos{Line: number, Col: 1}, Code: source.WrongKind,
				Text: "is a cart, not a mix", Hint: "cogcourt cart judges one cart a file"}}
		}
		return nil, "", err
	}
	r := j.checker.Check(m)
	if j.full {
		text, err = r.MarshalJSON()
	} else {
		text, err = r.Brief()
	}
	return text, r.Verdict.String(), err
}

// isCart tells a cart, whose entries would each be a fault of a mix, by those that
// only a cart has.
func isCart(text []byte) bool {
	root, err := source.Parse("stdin.json", text)
	if err != nil || root.Get("mix") != nil || root.Get("parts") != nil {
		return false
	}
	return root.Get("cart") != nil || root.Get("bikes") != nil || root.Get("lines") != nil
}

// badLine is the answer to a line that could not be judged, as the command gives it.
func badLine(number int, err error) []byte {
	var ps source.Problems
	if !errors.As(err, &ps) {
		ps = source.Problems{{Code: source.Internal, Text: err.Error()}}
	}
	ps = slices.Clone(ps)
	texts := make([]string, len(ps))
	for i, p := range ps {
		p.Pos.File, p.Pos.Line, p.Pos.Col = "stdin", number, max(p.Pos.Col, 1)
		ps[i] = p
		column := p.Pos.Col
		p.Pos = source.Pos{}
		texts[i] = fmt.Sprintf("column %d: %s", column, p)
	}
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	// Numbers and texts cannot fail to be written.
	_ = enc.Encode(struct {
		Line     int             `json:"line"`
		Error    string          `json:"error"`
		Problems source.Problems `json:"problems"`
	}{number, strings.Join(texts, "; "), ps})
	return compat.EscapeJSON(bytes.TrimSuffix(out.Bytes(), []byte("\n")))
}
