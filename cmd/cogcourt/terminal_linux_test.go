//go:build linux

package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
	"unsafe"

	"example.org/cogcourt/cmd/cogcourt/internal/view"
)

// terminal opens a pseudo-terminal: what a person sees and types, and what the
// program has. It does not repeat what is typed.
func terminal(t *testing.T) (person, program *os.File) {
	t.Helper()
	person, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if err != nil {
		t.Skipf("there is no pseudo-terminal here: %v", err)
	}
	t.Cleanup(func() { person.Close() })
	control := func(f *os.File, request uintptr, arg unsafe.Pointer) {
		raw, err := f.SyscallConn()
		if err != nil {
			t.Fatal(err)
		}
		_ = raw.Control(func(fd uintptr) {
			if _, _, errno := syscall.Syscall(syscall.SYS_IOCTL, fd, request, uintptr(arg)); errno != 0 {
				t.Fatalf("ioctl %x: %v", request, errno)
			}
		})
	}
	var unlock, number int32
	control(person, syscall.TIOCSPTLCK, unsafe.Pointer(&unlock))
	control(person, syscall.TIOCGPTN, unsafe.Pointer(&number))
	program, err = os.OpenFile("/dev/pts/"+strconv.Itoa(int(number)), os.O_RDWR|syscall.O_NOCTTY, 0)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { program.Close() })
	var mode syscall.Termios
	control(program, syscall.TCGETS, unsafe.Pointer(&mode))
	mode.Lflag &^= syscall.ECHO
	mode.Oflag &^= syscall.OPOST
	control(program, syscall.TCSETS, unsafe.Pointer(&mode))
	return person, program
}

// conversation runs the command on a terminal, types a line at each prompt, and gives
// all that was shown.
func conversation(t *testing.T, typed []string, args ...string) (status int, shown string) {
	t.Helper()
	person, program := terminal(t)
	done := make(chan int, 1)
	go func() {
		status := run(args, stream{in: program, out: program, err: program, terminal: view.Terminal(program), typed: view.Terminal(program)})
		program.Close()
		done <- status
	}()
	read := make(chan string)
	go func() {
		defer close(read)
		buffer := make([]byte, 4096)
		for {
			n, err := person.Read(buffer)
			if n > 0 {
				read <- string(bytes.Clone(buffer[:n]))
			}
			if err != nil { // the program has closed its end
				return
			}
		}
	}()
	var all strings.Builder
	answered := 0
	for late := time.After(time.Minute); ; {
		select {
		case text, open := <-read:
			if !open {
				return <-done, all.String()
			}
			all.WriteString(text)
			if strings.Count(all.String(), "q to stop): ") > answered && answered < len(typed) {
				if _, err := person.WriteString(typed[answered] + "\n"); err != nil {
					t.Fatal(err)
				}
				answered++
			}
		case <-late:
			t.Fatalf("no end after %d answers:\n%s", answered, all.String())
		}
	}
}

// wants holds that texts were shown in this order.
func wants(t *testing.T, shown string, texts ...string) {
	t.Helper()
	rest := shown
	for _, text := range texts {
		_, after, found := strings.Cut(rest, text)
		if !found {
			t.Fatalf("%q is not shown, or not in this order:\n%s", text, shown)
		}
		rest = after
	}
}

// TestAskOnATerminal holds the conversation: a refusal names the answer and its place,
// a good answer shows what it changes, and the mix with it is written.
func TestAskOnATerminal(t *testing.T) {
	file := filepath.Join(t.TempDir(), "answered.yaml")
	status, shown := conversation(t, []string{"many", "99", "12"}, "ask", "--output", file, "demo:donated-undecided")
	wants(t, shown, "Question 1: ", "made_for_cogs", "How: ", "answer 1: ", "whole number", "answer 1: ", "16", "From unknown to pass.", "in "+file)
	if status != exitOK || strings.Contains(shown, "Question 2") {
		t.Errorf("status %d:\n%s", status, shown)
	}
	if status, out, _ := command1("", "check", file); status != exitOK || !strings.HasPrefix(out, "PASS") {
		t.Errorf("status %d: %s", status, out)
	}
	status, shown = conversation(t, nil, "ask", "--output", file, "demo:donated-undecided")
	if wants(t, shown, "is there already"); status != exitUsage {
		t.Errorf("status %d", status)
	}
}

// TestAskStops holds that nobody has to know, and may stop.
func TestAskStops(t *testing.T) {
	for _, typed := range []string{"", "?", "q"} {
		status, shown := conversation(t, []string{typed}, "ask", "demo:donated-undecided")
		wants(t, shown, "Question 1: ", "Open: ")
		if status != exitUnknown || strings.Contains(shown, "parts:") {
			t.Errorf("%q: status %d:\n%s", typed, status, shown)
		}
	}
}

// TestAskOfALine holds that a mix on the line is asked about, and printed with its
// answers.
func TestAskOfALine(t *testing.T) {
	status, shown := conversation(t, []string{"5.8", "q"}, "ask", "chain.speeds=10", "cassette.cogs_t=11,12,13,14,15,17,19,21,24,28,32")
	wants(t, shown, "chain.outer_width_mm", "Usual: 5.9", "From unknown to warn.", "No fault found, but: ", "parts:\n", "outer_width_mm: 5.8")
	if status != exitOK {
		t.Errorf("status %d:\n%s", status, shown)
	}
}

// TestAskIsLeft holds that a terminal whose input ends stops the questions.
func TestAskIsLeft(t *testing.T) {
	status, shown := conversation(t, []string{"\x04"}, "ask", "demo:donated-undecided")
	if wants(t, shown, "Question 1: "); status != exitUnknown {
		t.Errorf("status %d:\n%s", status, shown)
	}
}
