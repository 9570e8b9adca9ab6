// Command vulns asks Go's database of vulnerabilities about what the three modules of this
// repository are made of, and call.
//
//	go run ./vulns [library pipeline tools]
//
// Status 0: none is known of what is called, or the database was not reached, which the
// output then says in these words, together with what was read by hand instead (read.txt).
// Status 1: some is known. Status 2: something else went wrong.
package main

import (
	"bytes"
	_ "embed"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// folders are where the modules lie, by what they are for.
var folders = map[string]string{"library": ".", "pipeline": "cmd/cogbatch", "tools": ".ci/tools"}

// read is what somebody read of the library's modules, a line each: module, version, day,
// and what there was to read.
//
//go:embed read.txt
var read string

func main() {
	uses := os.Args[1:]
	if len(uses) == 0 {
		uses = []string{"library", "pipeline", "tools"}
	}
	for _, use := range uses {
		if _, ok := folders[use]; !ok {
			fmt.Fprintf(os.Stderr, "there is no module %q: library, pipeline or tools\n", use)
			os.Exit(2)
		}
	}
	os.Exit(scan(uses))
}

// scan asks about one module after the other, until the database is not reached.
func scan(uses []string) int {
	dir, err := os.MkdirTemp("", "vulns")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 2
	}
	defer os.RemoveAll(dir)
	program := filepath.Join(dir, "scanner")
	if out, err := exec.Command("go", "build", "-o", program, "golang.org/x/vuln/cmd/govulncheck").CombinedOutput(); err != nil {
		fmt.Fprintf(os.Stderr, "%v: %s", err, out)
		return 2
	}
	worst := 0
	for _, use := range uses {
		c := exec.Command(program, "./...")
		c.Dir = filepath.Join("..", "..", folders[use])
		var out, wrong bytes.Buffer
		c.Stdout, c.Stderr = &out, &wrong
		status, err := statusOf(c.Run())
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			return 2
		}
		a := answerOf(status, out.String(), wrong.String())
		fmt.Printf("%s: %s\n", use, a.text)
		if a.unreached {
			fmt.Printf("What was read by hand instead, which is no search:\n%s", read)
			return worst
		}
		worst = max(worst, a.status)
	}
	return worst
}

// statusOf gives the status with which a program ended; an error where it did not begin.
func statusOf(err error) (int, error) {
	var ended *exec.ExitError
	if errors.As(err, &ended) {
		return ended.ExitCode(), nil
	}
	return 0, err
}

// answer is what the scanner's run comes to.
type answer struct {
	text      string
	status    int
	unreached bool
}

// answerOf tells the ends of the scanner apart: only its own word that it found nothing,
// beside a status of 0, says so.
func answerOf(status int, out, wrong string) answer {
	const found = 3 // the scanner's status where it found something
	switch {
	case strings.Contains(wrong, "fetching vulnerabilities"):
		return answer{text: "the database was not reached, and nothing is known of this module: " + strings.TrimSpace(wrong), unreached: true}
	case status == found:
		return answer{text: "some is known:\n" + strings.TrimSpace(out), status: 1}
	case status == 0 && strings.Contains(out, "No vulnerabilities found."):
		return answer{text: "none is known of what is called"}
	}
	return answer{text: fmt.Sprintf("the scanner ended with status %d: %s%s", status, out, wrong), status: 2}
}
