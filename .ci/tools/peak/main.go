// Command peak runs a program and says on the standard error how long it took,
// and the most memory that it held. Its exit status is that of the program.
//
//	peak sort large.txt > sorted.txt
package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"syscall"
	"time"
)

func main() {
	if len(os.Args) < 2 {
		fmt.Fprintln(os.Stderr, "peak: name a program to run")
		os.Exit(2)
	}
	cmd := exec.Command(os.Args[1], os.Args[2:]...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = os.Stdin, os.Stdout, os.Stderr
	start := time.Now()
	err := cmd.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		fmt.Fprintln(os.Stderr, "peak:", err)
		os.Exit(126)
	}
	// Linux counts the resident set in units of 1024 bytes.
	if usage, ok := cmd.ProcessState.SysUsage().(*syscall.Rusage); ok {
		fmt.Fprintf(os.Stderr, "%.1f s, at most %.0f MB\n", time.Since(start).Seconds(), float64(usage.Maxrss)/1024)
	}
	os.Exit(cmd.ProcessState.ExitCode())
}
