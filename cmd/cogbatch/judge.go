package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/apache/beam/sdks/v2/go/pkg/beam"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/io/filesystem"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/source"
)

// The counters: verdicts by their words, and lines that did not load.
const (
	counters = "cogbatch"
	badLines = "bad lines"
)

// judgeFn answers the lines of a shard, and writes its file. Its exported fields go to
// every worker.
type judgeFn struct {
	Settings settings
	Named    bool // the name of its file stands in front of a line
	Output   string
	Shards   int

	with *judges
}

// Setup loads rules and parts, or finds them loaded: the engine makes many of these in
// one process.
func (fn *judgeFn) Setup() (err error) {
	fn.with, err = fn.Settings.load()
	return err
}

// ProcessElement writes one shard anew. A worker that takes over from one that was lost
// writes the same lines to the same file.
func (fn *judgeFn) ProcessElement(ctx context.Context, shard int, lines func(*Line) bool) error {
	return written(ctx, shardName(fn.Output, shard, fn.Shards), func(out *bufio.Writer) {
		for line := (Line{}); lines(&line); line = (Line{}) {
			text, verdict := fn.answer(line)
			beam.NewCounter(counters, verdict).Inc(ctx, 1)
			_, _ = out.WriteString(text) // a fault of it stays until it is flushed
		}
	})
}

// written writes a file of whatever sort of file system its name is of.
func written(ctx context.Context, name string, write func(*bufio.Writer)) error {
	files, err := filesystem.New(ctx, name)
	if err != nil {
		return err
	}
	file, err := files.OpenWrite(ctx, name)
	if err != nil {
		return errors.Join(err, files.Close())
	}
	out := bufio.NewWriterSize(file, 256<<10)
	write(out)
	return errors.Join(out.Flush(), file.Close(), files.Close())
}

// answer answers a line in any case, and gives the name of its counter.
func (fn *judgeFn) answer(line Line) (text, counter string) {
	report, counter, err := fn.with.judge(line)
	if err != nil {
		counter, report = badLines, badLine(int(line.Number), err)
	}
	name := strconv.FormatInt(line.Number, 10)
	if fn.Named {
		name = line.File + "\t" + name
	}
	return name + "\t" + string(report) + "\n", counter
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
		return nil, "", source.Problems{{Code: source.TooLarge, Text: "the line is over " + source.Size(compat.MixLimits().Bytes)}}
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
	text, of := j.checker.AppendCheck(nil, m, j.extent, number)
	return text, of.String(), nil
}

// isCart tells a cart, whose entries would each be a fault of a mix, by those that
// only a cart has.
func isCart(text []byte) bool {
	root, err := compat.MixLimits().Parse("stdin.json", text)
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
