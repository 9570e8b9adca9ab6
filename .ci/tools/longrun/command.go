package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"time"
)

// manyLines is how many mixes the command is given at once.
const manyLines = 200

// lines are mixes, one a line.
func lines() string {
	var b strings.Builder
	for i := range manyLines {
		fmt.Fprintf(&b, `{"chain": {"speeds": %d, "outer_width_mm": %.2f}, "cassette": {"cogs_t": [11, 13, %d], "pitch_mm": 4.34}}`+"\n", 8+i%5, 5.2+float64(i%20)/10, 15+i%30)
	}
	return b.String()
}

// build builds the command into a folder.
func build(dir string) (string, error) {
	program := dir + "/cogcourt"
	c := exec.Command("go", "build", "-o", program, "example.org/cogcourt/cmd/cogcourt")
	if out, err := c.CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	return program, nil
}

// command has the command judge lines, again and again, into an output that takes all,
// into one that is full, and into a pipe whose reader goes away.
func (r *run) command() {
	r.gate.RLock()
	want, err := r.allLines()
	r.gate.RUnlock()
	if err != nil {
		r.fault("the command: %v", err)
		return
	}
	for !r.stop.Load() {
		for _, trial := range []func() error{
			func() error {
				got, err := r.allLines()
				if err != nil {
					return err
				}
				return r.same("the command's lines", got, want)
			}, r.fullDisk, r.closedPipe,
		} {
			r.gate.RLock()
			if err := trial(); err != nil {
				r.fault("the command: %v", err)
			}
			r.gate.RUnlock()
		}
		time.Sleep(200 * time.Millisecond)
	}
}

// judging is the command at work on the lines. It ends within half a minute, however busy
// the machine is.
func (r *run) judging(ctx context.Context) (c *exec.Cmd, wrong *bytes.Buffer) {
	c = exec.CommandContext(ctx, r.program, "check", "--format", "jsonl", "-")
	wrong = &bytes.Buffer{}
	c.Stdin, c.Stderr = strings.NewReader(lines()), wrong
	return c, wrong
}

const patience = 30 * time.Second

// allLines gives what the command says of all lines, and counts those without an answer.
func (r *run) allLines() ([]byte, error) {
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	c, wrong := r.judging(ctx)
	var out bytes.Buffer
	c.Stdout = &out
	var ended *exec.ExitError
	if err := c.Run(); err != nil && !(errors.As(err, &ended) && (ended.ExitCode() == 1 || ended.ExitCode() == 4)) {
		return nil, fmt.Errorf("%w: %s", err, wrong)
	}
	if n := bytes.Count(out.Bytes(), []byte("\n")); n != manyLines {
		r.lost.Add(int64(manyLines - n))
		return nil, fmt.Errorf("%d lines of %d have an answer", n, manyLines)
	}
	return out.Bytes(), nil
}

// fullDisk writes to a disk that is full: the status is that of what did not load, and
// the command says why.
func (r *run) fullDisk() error {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	defer full.Close()
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	c, wrong := r.judging(ctx)
	c.Stdout = full
	_ = c.Run() // it fails, as the status says
	if c.ProcessState.ExitCode() != 3 || !strings.Contains(wrong.String(), "could not be written") {
		return fmt.Errorf("a full disk: %s: %s", c.ProcessState, wrong)
	}
	r.planted.Add(1)
	return nil
}

// closedPipe reads the begin of the answer and goes away: the command ends soon, by the
// signal or with the status of what did not load, and tells no stack.
func (r *run) closedPipe() error {
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	c, wrong := r.judging(ctx)
	out, err := c.StdoutPipe()
	if err != nil {
		return err
	}
	if err := c.Start(); err != nil {
		return err
	}
	if _, err := out.Read(make([]byte, 10)); err != nil {
		return err
	}
	out.Close()
	_ = c.Wait() // it fails, as the status says
	status, _ := c.ProcessState.Sys().(syscall.WaitStatus)
	byPipe := status.Signaled() && status.Signal() == syscall.SIGPIPE || status.ExitStatus() == 3
	if ctx.Err() != nil || !byPipe || strings.Contains(wrong.String(), "goroutine ") {
		return fmt.Errorf("a closed pipe: %s: %s", c.ProcessState, wrong)
	}
	r.planted.Add(1)
	return nil
}
