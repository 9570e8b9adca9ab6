package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
)

// batchTools compiles the standard rules once for the tests below.
var batchTools = sync.OnceValues(func() (*compat.Checker, *catalog.Catalog) {
	c, err := options{}.checker()
	if err != nil {
		panic(err)
	}
	parts, err := options{}.catalogue()
	if err != nil {
		panic(err)
	}
	return c, parts
})

// batched judges the mixes of a stream, one a line.
func batched(in io.Reader, out, errs io.Writer) int {
	c, parts := batchTools()
	return checkLines(options{args: []string{"-"}}, stream{in: in, out: out, err: errs}, c, parts)
}

func batchedText(in string) (status int, out, errs string) {
	var o, e bytes.Buffer
	status = batched(strings.NewReader(in), &o, &e)
	return status, o.String(), e.String()
}

// The n-th line of a test's stream: most are good, some are blank or bad.
func batchLine(n int) string {
	switch n % 11 {
	case 3:
		return ""
	case 5:
		return `{"cassette": "no-such"}`
	case 7:
		return "rubbish"
	}
	return fmt.Sprintf(`{"mix": "Line %d", "parts": {"cassette": {"cogs_t": [11, 13, %d]}, "rear_derailleur": {"max_cog_t": 34}}}`, n, 14+n%47)
}

// Every line has its answer, in order, as a command of its own would give it.
func TestBatchAnswersInOrder(t *testing.T) {
	const lines = 1500
	var in strings.Builder
	for n := 1; n <= lines; n++ {
		in.WriteString(batchLine(n) + "\n")
	}
	status, out, errs := batchedText(in.String())
	if status != exitLoad {
		t.Errorf("status %d", status)
	}
	answers := strings.Split(strings.TrimSuffix(out, "\n"), "\n")
	bad := 0
	for n := 1; n <= lines; n++ {
		line := batchLine(n)
		if line == "" {
			continue
		}
		var got struct {
			Mix   string
			Line  int
			Error string
		}
		if err := json.Unmarshal([]byte(answers[0]), &got); err != nil {
			t.Fatalf("line %d: %v", n, err)
		}
		if !strings.Contains(line, "Line") {
			bad++
			if got.Line != n || got.Error == "" || !strings.Contains(errs, fmt.Sprintf("stdin:%d:", n)) {
				t.Fatalf("line %d: %s", n, answers[0])
			}
		} else if want := fmt.Sprintf("Line %d", n); got.Mix != want {
			t.Fatalf("line %d: the answer is for %q", n, got.Mix)
		} else if n%10 == 0 {
			if _, alone, _ := batchedText(line); alone != answers[0]+"\n" {
				t.Fatalf("line %d: got %s, alone %s", n, answers[0], alone)
			}
		}
		answers = answers[1:]
	}
	if len(answers) != 0 || strings.Count(errs, "\n") != bad {
		t.Errorf("%d answers too many, %d complaints for %d bad lines", len(answers), strings.Count(errs, "\n"), bad)
	}
}

// Cut into shards anywhere between two lines, a stream gives the same bytes.
func TestBatchInShards(t *testing.T) {
	var lines []string
	for n := 1; len(lines) < 600; n++ {
		if line := batchLine(n); strings.Contains(line, "Line") {
			lines = append(lines, line+"\n")
		}
	}
	_, whole, _ := batchedText(strings.Join(lines, ""))
	shards := ""
	for from, size := 0, 1; from < len(lines); from, size = from+size, size*3%101 {
		_, out, _ := batchedText(strings.Join(lines[from:min(from+size, len(lines))], ""))
		shards += out
	}
	if shards != whole {
		t.Error("the bytes differ")
	}
}

// The gravest status of all lines counts, whatever its place.
func TestBatchStatus(t *testing.T) {
	pass := `{"cassette": {"cogs_t": [11, 13, 30]}, "rear_derailleur": {"max_cog_t": 34}}`
	fail := strings.Replace(pass, "34", "20", 1)
	unknown := strings.Replace(pass, `"max_cog_t": 34`, `"actuation": "cable"`, 1)
	for in, want := range map[string]int{
		"": exitOK, "\n\n": exitOK, pass: exitOK, fail: exitFail, unknown: exitUnknown, "x": exitLoad,
		pass + "\n" + unknown: exitUnknown, unknown + "\n" + fail: exitFail, fail + "\n" + unknown + "\n": exitFail,
		"x\n" + fail: exitLoad, fail + "\r\nx\r\n": exitLoad, "\ufeff" + pass: exitOK, "\ufeff\ufeff" + pass: exitLoad,
	} {
		if got, _, errs := batchedText(in); got != want {
			t.Errorf("%q: status %d, want %d: %s", in, got, want, errs)
		}
	}
}

// A line is one value of JSON, whole: what stands behind it is refused at its
// column, and every place in a message is one of that line.
func TestBatchLinesAreStrict(t *testing.T) {
	const first = `{"cassette": "reedbed-11-11-32"}`
	bare := `{"cassette":"reedbed-11-11-32"}` // 31 characters
	whole := `{"mix":"ä","parts":{}}`
	more := "more text behind the end of the value"
	for _, test := range []struct{ line, want string }{
		{bare + `,"scope":"bike"`, "32: "},
		{bare + `,"bench":{"chain_pitches":110}`, "32: "},
		{bare + `,"note":"x"`, "32: "},
		{bare + `}`, "32: "},
		{bare + ` ` + bare, "33: " + more},
		{"  " + bare + `,"note":"x"`, "34: "},
		{whole + `,"scope":"bike"`, "23: "},
		{whole + ` x`, "24: " + more},
		{`{"cassette":"a","cassette":"b"}`, `17: "cassette" stands twice, first at stdin:2:2`},
		{`{"mix":"a","parts":{},"parts":{}}`, `23: "parts" stands twice, first at stdin:2:12`},
		{`{"mix":"a","parts":{"hub":"a","hub":"b"}}`, `31: parts: "hub" stands twice, first at stdin:2:21`},
		{" " + `{"cassette":"no-such"}`, `14: parts.cassette: no part is called`},
		{"\ufeff" + bare, "1: a byte order mark"},
		{"\ufeff" + whole, "1: a byte order mark"},
		{`{"cassette":"reedbed-11-11-32"`, "1: the { that opens here is not closed"},
	} {
		status, out, errs := batchedText(first + "\n" + test.line + "\n" + first)
		answers := strings.Split(strings.TrimSpace(out), "\n")
		if len(answers) != 3 || status != exitLoad {
			t.Fatalf("%s: status %d, %d answers", test.line, status, len(answers))
		}
		var got struct {
			Line  int
			Error string
		}
		if err := json.Unmarshal([]byte(answers[1]), &got); err != nil || got.Line != 2 {
			t.Fatalf("%s: %v, line %d", test.line, err, got.Line)
		}
		if !strings.HasPrefix(got.Error, "column "+test.want) {
			t.Errorf("%s: %s, want column %s", test.line, got.Error, test.want)
		}
		if !strings.HasPrefix(errs, "stdin:2:"+test.want) {
			t.Errorf("%s: %s, want stdin:2:%s", test.line, errs, test.want)
		}
	}
}

// Whoever sends one mix and waits has the answer before sending the next.
func TestBatchAnswersAtOnce(t *testing.T) {
	in, send := io.Pipe()
	receive, out := io.Pipe()
	done := make(chan int)
	go func() { done <- batched(in, out, io.Discard) }()
	answers := json.NewDecoder(receive)
	for n := range 5 {
		fmt.Fprintf(send, `{"mix": "Question %d", "parts": {}}`+"\n", n)
		var got struct{ Mix string }
		if err := answers.Decode(&got); err != nil || got.Mix != fmt.Sprintf("Question %d", n) {
			t.Fatalf("question %d: %v, %q", n, err, got.Mix)
		}
	}
	send.Close()
	if got := <-done; got != exitUnknown {
		t.Errorf("status %d", got)
	}
}

// endless sends one line for ever and counts what was taken.
type endless struct {
	line  []byte
	taken atomic.Int64
}

func (e *endless) Read(b []byte) (int, error) {
	n := 0
	for n < len(b) {
		n += copy(b[n:], e.line[(int(e.taken.Load())+n)%len(e.line):])
	}
	e.taken.Add(int64(n))
	return n, nil
}

// stuck takes so many bytes and then waits to be told how to go on.
type stuck struct {
	left int
	full chan struct{}
	stop chan error
}

func (s *stuck) Write(b []byte) (int, error) {
	if s.left -= len(b); s.left > 0 {
		return len(b), nil
	}
	close(s.full)
	return 0, <-s.stop
}

// Of an endless stream no more is read than the answers that wait to be taken;
// and when nobody takes them any more, it ends.
func TestBatchIsBounded(t *testing.T) {
	in := &endless{line: []byte(`{"mix": "Again", "parts": {"cassette": {"cogs_t": [11, 13, 30]}}}` + "\n")}
	out := &stuck{left: 100_000, full: make(chan struct{}), stop: make(chan error)}
	var errs bytes.Buffer
	done := make(chan int)
	go func() {
		done <- run([]string{"check", "--format", "jsonl", "-"}, stream{in: in, out: out, err: &errs})
	}()
	<-out.full
	before := int64(-1)
	for now := in.taken.Load(); now != before; now = in.taken.Load() {
		before = now
		time.Sleep(50 * time.Millisecond)
	}
	if before > 4<<20 {
		t.Errorf("%d bytes are read ahead", before)
	}
	out.stop <- errors.New("nobody listens")
	if status := <-done; status != exitLoad || !strings.Contains(errs.String(), "could not be written: nobody listens") {
		t.Errorf("status %d: %s", status, errs.String())
	}
}

// A line that is too long is named and skipped, as is a stream that breaks off.
func TestBatchOddStreams(t *testing.T) {
	good := `{"mix": "Good", "parts": {"cassette": {"cogs_t": [11, 13, 30]}, "rear_derailleur": {"max_cog_t": 34}}}`
	long := `{"mix": "` + strings.Repeat("x", compat.MixLimits().Bytes) + `"}`
	for _, test := range []struct {
		name string
		in   io.Reader
		want []string
	}{
		{"too long", strings.NewReader(good + "\n" + long + "\n" + good), []string{"Good", "2: the line is over 1 MiB", "Good"}},
		{"too long at the end", strings.NewReader(long), []string{"1: the line is over 1 MiB"}},
		{"just not too long", strings.NewReader(strings.Repeat(" ", compat.MixLimits().Bytes-len(good)) + good), []string{"Good"}},
		{"breaks off", io.MultiReader(strings.NewReader(good+"\n"+good[:20]), broken{}), []string{"Good", "2: cannot be read: cut off"}},
		{"no end of line", strings.NewReader(good), []string{"Good"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			var out bytes.Buffer
			batched(test.in, &out, io.Discard)
			lines := strings.Split(strings.TrimSpace(out.String()), "\n")
			if len(lines) != len(test.want) {
				t.Fatalf("%d answers: %.300s", len(lines), out.String())
			}
			for i, line := range lines {
				number, text, bad := strings.Cut(test.want[i], ": ")
				if bad && !strings.HasPrefix(line, `{"line":`+number+`,"error":"column 1: `+text) || !bad && !strings.Contains(line, `"mix":"Good"`) {
					t.Errorf("answer %d: %.200s", i+1, line)
				}
			}
		})
	}
}

type broken struct{}

func (broken) Read([]byte) (int, error) { return 0, errors.New("cut off") }

// Files give one line each.
func TestBatchOfFiles(t *testing.T) {
	var args []string
	for _, name := range demo.Mixes() {
		args = append(args, "demo:"+name)
	}
	status, out, errs := command1("", append([]string{"check", "--format", "jsonl"}, args...)...)
	if lines := strings.Count(out, "\n"); status != exitFail || lines != len(args) || errs != "" {
		t.Errorf("status %d, %d lines of %d: %s", status, lines, len(args), errs)
	}
	if strings.Contains(out, `"verdict":"pass","adjusted"`) {
		t.Error("a finding that passes is shown without --full")
	}
	_, full, _ := command1("", append([]string{"check", "--format", "jsonl", "--full"}, args...)...)
	if !strings.Contains(full, `"verdict":"pass","adjusted"`) {
		t.Error("--full shows no finding that passes")
	}
}

// How far a batch has come is shown now and then, on a terminal only, and makes
// room for what else is said.
func TestProgress(t *testing.T) {
	now := time.Date(2031, 5, 1, 12, 0, 0, 0, time.UTC)
	var out strings.Builder
	p := &progress{to: &out, now: func() time.Time { return now }}
	p.show(tally{lines: 10})
	p.show(tally{lines: 20}) // too soon
	now = now.Add(2 * time.Second)
	p.show(tally{lines: 5000, bad: 2})
	p.clear()
	p.clear()
	first, second := "10 mixes judged, 0 bad lines", "4998 mixes judged, 2 bad lines, 2500 a second"
	blank := func(s string) string { return "\r" + strings.Repeat(" ", len(s)) + "\r" }
	if want := first + blank(first) + second + blank(second); out.String() != want {
		t.Errorf("got  %q\nwant %q", out.String(), want)
	}
	var none *progress
	none.show(tally{lines: 1})
	none.clear()
}
