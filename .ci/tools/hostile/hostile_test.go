package hostile

import (
	"errors"
	"flag"
	"fmt"
	"hash/fnv"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

var (
	all  = flag.Bool("all", false, "run every input and not a third of each family")
	seed = flag.Uint64("seed", 1, "of what is drawn")
	only = flag.String("only", "", "run the inputs of whose family and name this is a part")
)

// role is the environment by which this program starts itself anew, as something else.
const role = "HOSTILE_ROLE"

func TestMain(m *testing.M) {
	switch os.Getenv(role) {
	case "launcher":
		os.Unsetenv(role)
		if err := Launch(os.Stdin, os.Stdout); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	case "child":
		os.Exit(child(os.Args[1]))
	}
	os.Exit(m.Run())
}

// built makes the command once.
func built(t *testing.T) string {
	t.Helper()
	bin := filepath.Join(shared(t), "cogcourt")
	build := exec.Command("go", "build", "-o", bin, "./cmd/cogcourt")
	build.Dir = "../../.."
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return bin
}

// shared is a folder that other users may look into.
func shared(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.Chmod(filepath.Dir(dir), 0o755); err != nil {
		t.Fatal(err)
	}
	return dir
}

// launcher starts one, until the test ends.
func launcher(t *testing.T, bin string) *Launcher {
	t.Helper()
	l, err := StartLauncher(bin, shared(t), role+"=launcher")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := l.Close(); err != nil {
			t.Error(err)
		}
	})
	return l
}

// plainly measures a plain check: the least of some.
func plainly(t *testing.T, l *Launcher) Outcome {
	t.Helper()
	var least Outcome
	for i := range 5 {
		o, err := l.Run(Case{Args: []string{"check", "demo:ferry-motor"}})
		if err != nil || o.Status != fine {
			t.Fatalf("%v: %+v", err, o)
		}
		if i == 0 || o.CPU < least.CPU {
			o.MB = max(o.MB, least.MB)
			least = o
		}
	}
	return least
}

// chosen are the inputs of this run.
func chosen() []Case {
	var out []Case
	nth := map[string]int{}
	for _, c := range All(*seed) {
		nth[c.Family]++
		if strings.Contains(c.Family+" "+c.Name, *only) && (*all || *only != "" || nth[c.Family]%3 == 0) {
			out = append(out, c)
		}
	}
	return out
}

// TestHostile runs the inputs.
func TestHostile(t *testing.T) {
	bin := built(t)
	cases := make(chan Case)
	var wait sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		l := launcher(t, bin)
		plain := plainly(t, l)
		wait.Go(func() {
			for c := range cases {
				hold(t, l, c, plain)
			}
		})
	}
	count := 0
	for _, c := range chosen() {
		cases <- c
		count++
	}
	close(cases)
	wait.Wait()
	t.Logf("%d inputs", count)
}

// hold runs one input and reports what is wrong.
func hold(t *testing.T, l *Launcher, c Case, plain Outcome) {
	faults, o, err := attempt(l, c, boundsOf(c, plain))
	if err != nil {
		t.Errorf("%s: %s: %v", c.Family, c.Name, err)
		return
	}
	if testing.Verbose() {
		t.Logf("%s: %s: status %d, %s, %.0f MB", c.Family, c.Name, o.Status, o.CPU.Round(time.Millisecond), o.MB)
	}
	for _, fault := range faults {
		t.Errorf("%s: %s: %s", c.Family, c.Name, fault)
	}
}

// attempt runs an input up to three times, as long as it costs too much: a loaded machine
// makes a run dear, and never makes one cheap.
func attempt(l *Launcher, c Case, b Bounds, env ...string) (faults []string, o Outcome, err error) {
	for range 3 {
		if o, err = l.Run(c, env...); err != nil {
			return nil, o, err
		}
		faults = o.Dear(b)
		if len(faults) == 0 {
			break
		}
	}
	return append(faults, o.Faults(c)...), o, nil
}

// TestSameSeedSameInputs holds that a run can be had again, that each input has a status
// that is right, and that there are enough.
func TestSameSeedSameInputs(t *testing.T) {
	sums := func(seed uint64) []string {
		var out []string
		for _, c := range All(seed) {
			if len(c.Want) == 0 {
				t.Errorf("%s: %s has no status that is right", c.Family, c.Name)
			}
			c.Build = nil
			sum := fnv.New64a()
			fmt.Fprint(sum, c)
			out = append(out, fmt.Sprintf("%s: %s: %x", c.Family, c.Name, sum.Sum64()))
		}
		return out
	}
	first, second, other := sums(1), sums(1), sums(2)
	if len(first) < 1200 || !slices.Equal(first, second) {
		t.Errorf("%d and %d inputs, which are to be the same", len(first), len(second))
	}
	differ := 0
	for i := range min(len(first), len(other)) {
		if first[i] != other[i] {
			differ++
		}
	}
	if differ < 200 {
		t.Errorf("another seed changes only %d inputs", differ)
	}
}

// child is a program with one fault, for the harness to find.
func child(fault string) int {
	switch fault {
	case "escape":
		fmt.Print("a\x1b[31mb\n")
	case "direction":
		fmt.Print("a\u202eb\n")
	case "bytes":
		fmt.Print("a\xffb\n")
	case "slow":
		var used syscall.Rusage
		for time.Duration(used.Utime.Nano()+used.Stime.Nano()) < 300*time.Millisecond {
			_ = syscall.Getrusage(syscall.RUSAGE_SELF, &used)
		}
	case "large":
		memory := make([]byte, 100<<20)
		for i := 0; i < len(memory); i += 1 << 10 {
			memory[i] = 1
		}
		runtime.KeepAlive(memory)
	case "hangs":
		time.Sleep(time.Minute)
	case "status":
		fmt.Fprintln(os.Stderr, "m.yaml:1:4: bad")
		return fails
	case "place":
		fmt.Fprintln(os.Stderr, "m.yaml:1:5: bad")
		return refused
	case "before":
		fmt.Fprintln(os.Stderr, "m.yaml:1:3: bad")
		return refused
	case "word":
		fmt.Fprintln(os.Stderr, "m.yaml:1:4: good")
		return refused
	case "half":
		fmt.Println("PASS")
		fmt.Fprintln(os.Stderr, "m.yaml:1:4: bad")
		return refused
	case "silent":
		return refused
	case "panic":
		fmt.Fprintln(os.Stderr, "panic: broken\n\ngoroutine 1 [running]:")
		return misused
	case "json":
		fmt.Print(`{"a": `)
	case "line":
		fmt.Print("{\"a\": 1}\n{\"a\": \n")
	case "page":
		fmt.Print("<p>x</p><script>alert(1)</script>")
	}
	return fine
}

// TestHarnessTells holds that each fault of a program is found, and none where there is
// none.
func TestHarnessTells(t *testing.T) {
	l := launcher(t, os.Args[0])
	refusal := Case{Want: []int{refused}, At: "m.yaml:1:4", Says: "bad"}
	sound := Case{Want: []int{fine}}
	bounds := Bounds{CPU: 100 * time.Millisecond, MB: 64}
	for _, test := range []struct {
		fault string
		of    Case
		want  string
	}{
		{"none", sound, ""}, {"escape", sound, "raw"}, {"direction", sound, "raw"}, {"bytes", sound, "not UTF-8"},
		{"slow", sound, "processor time"}, {"large", sound, "MB, at most 64"}, {"status", refusal, "status 1, want [3]"},
		{"place", refusal, "no fault is told at m.yaml:1:4"}, {"before", Case{Want: []int{refused}, Within: "m.yaml:1:4"}, "or behind it"},
		{"place", Case{Want: []int{refused}, Within: "m.yaml:1:4"}, ""}, {"word", refusal, "nothing says bad"}, {"half", refusal,
			"although it did not load"},
		{"silent", Case{Want: []int{refused}}, "without a word"}, {"panic", Case{Want: []int{misused}}, "breaks down"},
		{"json", Case{Want: []int{fine}, Form: JSON}, "no JSON"}, {"line", Case{Want: []int{fine}, Form: Lines}, "no JSON"},
		{"page", Case{Want: []int{fine}, Form: Page}, "<script"},
	} {
		test.of.Args = []string{test.fault}
		faults, o, err := attempt(l, test.of, bounds, role+"=child")
		if err != nil {
			t.Fatal(err)
		}
		told := slices.ContainsFunc(faults, func(f string) bool { return strings.Contains(f, test.want) })
		if test.want == "" && len(faults) > 0 || test.want != "" && (!told || len(faults) > 1) {
			t.Errorf("%s: told are %q, want %q: %+v", test.fault, faults, test.want, o)
		}
	}
}

// TestHarnessTellsWhatHangs holds the same of a program that does not end, once.
func TestHarnessTellsWhatHangs(t *testing.T) {
	if testing.Short() {
		t.Skip("takes as long as a run may hang")
	}
	l := launcher(t, os.Args[0])
	o, err := l.Run(Case{Args: []string{"hangs"}}, role+"=child")
	if err != nil || !o.Hung {
		t.Errorf("%v: %+v", errors.Join(err), o)
	}
	if told := o.Dear(Bounds{CPU: time.Second, MB: 64}); len(told) != 1 || !strings.Contains(told[0], "hangs") {
		t.Errorf("told are %q", told)
	}
}
