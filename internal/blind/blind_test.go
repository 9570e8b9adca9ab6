package blind

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// witness is what a target is told by, without failing itself.
type witness struct {
	testing.TB
	failed bool
	said   []string
}

func (w *witness) Failed() bool { return w.failed }

func (w *witness) Errorf(format string, args ...any) {
	w.failed = true
	w.Logf(format, args...)
}

func (w *witness) Logf(format string, args ...any) {
	w.said = append(w.said, fmt.Sprintf(format, args...))
}

// A fault that four letters in a row show is found by inputs that came far, and its
// input is kept as Go's engine keeps one; whether it is told or is a panic.
func TestFaultsAreFoundAndKept(t *testing.T) {
	for name, fault := range map[string]func(t testing.TB, text []byte){
		"told":    func(t testing.TB, text []byte) { t.Errorf("%q", text) },
		"a panic": func(testing.TB, []byte) { panic("broke down") },
	} {
		w := &witness{TB: t}
		r := run{f: w, dir: filepath.Join(t.TempDir(), "fuzz", "FuzzX")}
		r.body = func(t testing.TB, text []byte, _ byte) bool {
			if bytes.Contains(text, []byte("gearcog")) {
				fault(t, text)
			}
			return bytes.Contains(text, []byte("gear")) // one seed does
		}
		r.blindly(newMutator(7, []string{"a gear and a wheel", "one cog\n"}), time.Minute)
		if !w.failed || r.far == 0 || r.tried == 0 {
			t.Fatalf("%s: %d executions, %d far: %q", name, r.tried, r.far, w.said)
		}
		kept, err := readKept(r.dir)
		if err != nil || len(kept) != 1 || !strings.Contains(kept[0], "gearcog") {
			t.Errorf("%s: %q is kept, %v", name, kept, err)
		}
		if last := w.said[len(w.said)-1]; !strings.Contains(last, "which is kept as ") {
			t.Errorf("%s: %s", name, last)
		}
	}
}

// A target whose seeds all fail to come far is told, and no input is blamed for it.
func TestTargetsReachSomething(t *testing.T) {
	w := &witness{TB: t}
	r := run{f: w, dir: t.TempDir(), body: func(testing.TB, []byte, byte) bool { return false }}
	r.blindly(newMutator(7, []string{"a", "b"}), time.Minute)
	kept, err := readKept(r.dir)
	if !w.failed || r.tried > 0 || len(kept) > 0 || err != nil || !strings.Contains(strings.Join(w.said, ""), "no seed came far") {
		t.Errorf("%t, %d executions, %q is kept: %q", w.failed, r.tried, kept, w.said)
	}
}

// What is kept is read as Go reads it, whatever bytes it holds.
func TestKeptInputsAreRead(t *testing.T) {
	dir := t.TempDir()
	want := "a\x00\xff\"\\\n)é"
	path, err := input{[]byte(want), 0xf3}.write(dir)
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(path)
	if err != nil || !strings.HasPrefix(string(text), "go test fuzz v1\n[]byte(\"") || !strings.HasSuffix(string(text), "\nbyte('\\u00f3')\n") && !strings.HasSuffix(string(text), "\nbyte('ó')\n") {
		t.Errorf("%q, %v", text, err)
	}
	if kept, err := readKept(dir); err != nil || len(kept) != 1 || kept[0] != want {
		t.Errorf("%q, %v", kept, err)
	}
	if err := os.WriteFile(filepath.Join(dir, "odd"), []byte(header+"[]byte(\"a)\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := readKept(dir); err == nil {
		t.Error("a broken file is read")
	}
}

// The same seed gives the same inputs, none longer than it may be, and seeds stay.
func TestInputsComeAgain(t *testing.T) {
	seeds := []string{"pitch_mm: 3.65 ± 0.05\n", strings.Repeat("long ", mostText/5), ""}
	one, two := newMutator(3, seeds), newMutator(3, seeds)
	different := map[string]bool{}
	for range 5000 {
		a, b := one.next(), two.next()
		if !bytes.Equal(a, b) {
			t.Fatalf("%q, and %q", a, b)
		}
		if len(a) > mostText {
			t.Fatalf("%d bytes", len(a))
		}
		one.keep(a)
		two.keep(b)
		different[string(a)] = true
	}
	if len(one.pool) != mostPool || len(different) < 3000 {
		t.Errorf("a pool of %d, %d inputs", len(one.pool), len(different))
	}
	for i, seed := range seeds {
		if string(one.pool[i]) != seed {
			t.Errorf("the seed %q has become %q", seed, one.pool[i])
		}
	}
}
