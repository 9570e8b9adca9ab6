package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"strings"
	"sync"

	"github.com/apache/beam/sdks/v2/go/pkg/beam"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/io/fileio"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/register"

	"example.org/cogcourt/compat"
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
	register.DoFn3x1[context.Context, fileio.ReadableFile, func(int, Line), error](&readFn{})
	register.DoFn3x1[context.Context, int, func(*Line) bool, error](&judgeFn{})
	register.Emitter2[int, Line]()
	register.Iter1[Line]()
})

// judged makes the pipeline: files to lines, lines dealt out to shards, each shard judged
// and written by one worker, so that reports, which are thirty times as long as their
// lines, go nowhere but into their file.
// The engine's own text reader deals a file out in pieces, and no piece knows how many
// lines lie before it. So a file is read from its begin, by one worker, which numbers its
// lines and does nothing else; what takes time comes behind.
func judged(s beam.Scope, o *options) {
	named := strings.ContainsAny(o.input, "*?[")
	files := fileio.ReadMatches(s, fileio.MatchFiles(s, o.input, fileio.MatchEmptyDisallow()))
	lines := beam.ParDo(s, &readFn{Shards: o.shards}, files)
	beam.ParDo0(s, &judgeFn{Settings: o.settings, Named: named, Output: o.output, Shards: o.shards}, beam.GroupByKey(s, lines))
}

// shardName is the file of one shard, counted from 0.
func shardName(output string, shard, shards int) string {
	return fmt.Sprintf("%s-%05d-of-%05d", output, shard, shards)
}

// readFn numbers the lines of a file, and deals them out. Blank ones count, and are left
// out.
type readFn struct{ Shards int }

// ProcessElement reads one file. What cannot be read to its end is an error of the whole:
// a report less is not a report.
func (fn *readFn) ProcessElement(ctx context.Context, file fileio.ReadableFile, emit func(int, Line)) error {
	in, err := file.Open(ctx)
	if err != nil {
		return err
	}
	first := int(crc32.ChecksumIEEE([]byte(file.Metadata.Path)) >> 1) // short files do not all begin with one shard
	return errors.Join(numbered(file.Metadata.Path, in, func(l Line) { emit((first+int(l.Number))%fn.Shards, l) }), in.Close())
}

// numbered reads lines. One that is too long is read to its end and costs no more memory
// than one that is not.
func numbered(file string, in io.Reader, emit func(Line)) error {
	r, longest := bufio.NewReaderSize(in, 64<<10), compat.MixLimits().Bytes
	for number, more := int64(1), true; more; number++ {
		line := Line{File: file, Number: number}
		for {
			piece, err := r.ReadSlice('\n')
			if line.Long = line.Long || len(line.Text)+len(piece) > longest; line.Long {
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
		// A second mark is left for the reader of the line to refuse, which drops one itself.
		if number == 1 && !bytes.HasPrefix(line.Text, []byte("\ufeff\ufeff")) {
			line.Text = bytes.TrimPrefix(line.Text, []byte("\ufeff"))
		}
		if line.Long || len(bytes.TrimSpace(line.Text)) > 0 {
			emit(line)
		}
	}
	return nil
}
