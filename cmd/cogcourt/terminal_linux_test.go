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

// ends are those of a pseudo-terminal: what a person sees and types, and what the
// program has.
type ends struct{ person, program *os.File }

// terminal opens a pseudo-terminal, which does not repeat what is typed.
func terminal(t *testing.T) ends {
	t.Helper()
	person, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if err != nil {
		t.Skipf("there is no pseudo-terminal here: %v", err)
	}
	t.Cleanup(func() { person.Close() })
	var unlock, number int32
	control(t, person, syscall.TIOCSPTLCK, unsafe.Pointer(&unlock))
	control(t, person, syscall.TIOCGPTN, unsafe.Pointer(&number))
	program, err := os.OpenFile("/dev/pts/"+strconv.Itoa(int(number)), os.O_RDWR|syscall.O_NOCTTY, 0)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { program.Close() })
	var mode syscall.Termios
	control(t, program, syscall.TCGETS, unsafe.Pointer(&mode))
	mode.Lflag &^= syscall.ECHO
	mode.Oflag &^= syscall.OPOST
	control(t, program, syscall.TCSETS, unsafe.Pointer(&mode))
	return ends{person, program}
}

// control asks a terminal for something, or sets it.
func control(t *testing.T, f *os.File, request uintptr, arg unsafe.Pointer) {
	t.Helper()
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

// conversation runs the command on a terminal, types a line at each prompt, and gives
// all that was shown.
func conversation(t *testing.T, typed []string, args ...string) (status int, shown string) {
	t.Helper()
	return converse(t, terminal(t), typed, args...)
}

// overAndOut is sent behind all that the program shows, and is the only sign that all of
// it has come: a terminal that is closed may drop what nobody has read yet.
const overAndOut = "\x1e\x04"

// converse does so on a terminal that is there.
func converse(t *testing.T, on ends, typed []string, args ...string) (status int, shown string) {
	t.Helper()
	person, program := on.person, on.program
	done := make(chan int, 1)
	go func() {
		status := run(args, stream{in: program, out: program, err: program,
			terminal: view.Terminal(program), screen: view.SizeOf(program), typed: view.Terminal(program)})
		if _, err := program.WriteString(overAndOut); err != nil {
			program.Close() // so that nobody waits for it
		}
		done <- status
	}()
	read := make(chan string)
	go func() {
		buffer := make([]byte, 4096)
		for {
			n, err := person.Read(buffer)
			if n > 0 {
				read <- string(bytes.Clone(buffer[:n]))
			}
			if err != nil { // the end of the test has closed it
				return
			}
		}
	}()
	var all strings.Builder
	answered := 0
	for late := time.After(time.Minute); ; {
		select {
		case text := <-read:
			all.WriteString(text)
			if before, over := strings.CutSuffix(all.String(), overAndOut); over {
				return <-done, before
			}
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

// onRows runs a line on a terminal of so many rows of 80 columns, and gives the lines that
// it shows.
func onRows(t *testing.T, rows uint16, args ...string) []string {
	t.Helper()
	on := terminal(t)
	size := [4]uint16{rows, 80, 0, 0}
	control(t, on.program, syscall.TIOCSWINSZ, unsafe.Pointer(&size))
	if got := view.SizeOf(on.program); got != (view.Size{Rows: int(rows), Columns: 80}) {
		t.Fatalf("the terminal has %v", got)
	}
	_, shown := converse(t, on, nil, args...)
	return strings.Split(strings.TrimRight(shown, "\n"), "\n")
}

// TestVerdictEndsALongReport holds that a report that is longer than the terminal has
// its verdict as the very last line, and one that is not has it at its head alone. How
// long the terminal is it says itself: variables of the environment are no source.
func TestVerdictEndsALongReport(t *testing.T) {
	t.Setenv("NO_COLOR", "1")
	for _, c := range []struct {
		line, lines, end string
		rows             uint16
	}{
		{"check demo:fleet-three-faults", "200", "FAIL     Ferry fleet, bicycle 12: 3 faults, 2 things to order.", 24},
		{"check demo:ferry-motor", "200", "WARN     Ferry fleet, bicycle 7: 2 warnings, 1 thing to order.", 24},
		{"check demo:donated-undecided", "200", "UNKNOWN  Touring club, from the donation box: 1 open point, 1 fact to measure.", 20},
		{"check --explain demo:club-two-ring", "200", "PASS     Touring club, the blue ten: no fault found in 56 checks.", 24},
		{"cart demo:order", "200", "FAIL     Order 1207: 2 bicycles, warn and fail.", 24},
		{"compare demo:ferry-motor demo:club-two-ring", "200", "PASS     Touring club, the blue ten: 0 worse, 15 new, 1 better, 27 gone.", 20},
		{"check demo:ferry-motor demo:club-two-ring", "200", "in all   2 mixes judged: 0 fail, 0 unknown, 1 warn, 1 pass.", 24},
		{"check demo:fleet-three-faults", "1", "", 60},
		{"check demo:donated-undecided", "1", "", 24},
	} {
		t.Setenv("LINES", c.lines)
		lines := onRows(t, c.rows, strings.Fields(c.line)...)
		end := lines[len(lines)-1]
		if again := strings.HasPrefix(end, strings.Fields(lines[0])[0]+" "); end != c.end && c.end != "" || c.end == "" && again {
			t.Errorf("%s on %d rows ends with %q, want %q", c.line, c.rows, end, c.end)
		}
		if c.end == "" && len(lines) >= int(c.rows) {
			t.Errorf("%s has %d lines for %d rows", c.line, len(lines), c.rows)
		}
	}
}
