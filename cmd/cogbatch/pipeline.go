package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"io"
	"strings"
	"sync"

	"github.com/apache/beam/sdks/v2/go/pkg/beam"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/io/fileio"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/io/textio"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/register"

	"example.org/cogcourt/rules/source"
)

// Line is one line of a file.
type Line struct {
	File   string
	Number int64 // in the file, from 1
	Text   []byte
	Long   bool // it has more bytes than a line may have, and no text here
}

// registered makes the steps known to the engine, which looks them up by their names on
// every worker.
var registered = sync.OnceFunc(func() {
	register.DoFn3x1[context.Context, fileio.ReadableFile, func(Line), error](&readFn{})
	register.DoFn3x1[context.Context, Line, func(string), error](&judgeFn{})
	register.Emitter1[Line]()
	register.Emitter1[string]()
})

// judged makes the pipeline: files to lines, lines to answers, answers to one file.
// The engine's own text reader deals a file out in pieces, and no piece knows how many
// lines lie before it. So a file is read from its begin, by one worker, which numbers its
// lines and does nothing else; what takes time is shared out line by line behind it.
func judged(s beam.Scope, o *options) {
	named := strings.ContainsAny(o.input, "*?[")
	files := fileio.ReadMatches(s, fileio.MatchFiles(s, o.input, fileio.MatchEmptyDisallow()))
	lines := beam.Reshuffle(s, beam.ParDo(s, &readFn{}, files))
	textio.Write(s, o.output, beam.ParDo(s, &judgeFn{Settings: o.settings, Named: named}, lines))
}

// readFn numbers the lines of a file. Blank ones count, and are left out.
type readFn struct{}

// ProcessElement reads one file. What cannot be read to its end is an error of the whole:
// a report less is not a report.
func (*readFn) ProcessElement(ctx context.Context, file fileio.ReadableFile, emit func(Line)) error {
	in, err := file.Open(ctx)
	if err != nil {
		return err
	}
	return errors.Join(numbered(file.Metadata.Path, in, emit), in.Close())
}

// numbered reads lines. One that is too long is read to its end and costs no more memory
// than one that is not.
func numbered(file string, in io.Reader, emit func(Line)) error {
	r := bufio.NewReaderSize(in, 64<<10)
	for number, more := int64(1), true; more; number++ {
		line := Line{File: file, Number: number}
		for {
			piece, err := r.ReadSlice('\n')
			if line.Long = line.Long || len(line.Text)+len(piece) > source.MaxBytes; line.Long {
				line.Text = nil
			} else {
				line.Text = append(line.Text, piece...)
			}
			if errors.Is(err, bufio.ErrBufferFull) {
				continue
			}
			if err != nil && err != io.EOF {
				return err
			}
			more = err == nil
			break
		}
		line.Text = bytes.TrimSuffix(line.Text, []byte("\n"))
		if number == 1 {
			line.Text = bytes.TrimPrefix(line.Text, []byte("\ufeff"))
		}
		if line.Long || len(bytes.TrimSpace(line.Text)) > 0 {
			emit(line)
		}
	}
	return nil
}
