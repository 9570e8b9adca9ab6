package source

import (
	"fmt"
	"strings"
	"testing"
)

// TestLimits holds the limits of a door against texts at both sides of them, in each
// format and by each reader.
func TestLimits(t *testing.T) {
	small := Limits{Bytes: 1 << 10, Values: 20, Hint: "leave some out"}
	values := func(n int) string { return "[" + strings.TrimSuffix(strings.Repeat("1,", n), ",") + "]" }
	long := func(n int) string { return `"` + strings.Repeat("x", n-2) + `"` }
	for _, c := range []struct {
		file, text, want string
	}{
		{"x.yaml", values(15), "<nil>"},
		{"x.yaml", values(30), "x.yaml: has more than 20 values (leave some out)"},
		{"x.yaml", strings.Repeat("- 1\n", 19), "<nil>"},
		{"x.yaml", strings.Repeat("- 1\n", 21), "x.yaml: has more than 20 values (leave some out)"},
		{"x.json", values(17), "<nil>"},
		{"x.json", values(30), "x.json:1:40: has more than 20 values (leave some out)"},
		{"x.yaml", long(1 << 10), "<nil>"},
		{"x.yaml", long(1<<10 + 1), "x.yaml: is longer than 1024 bytes (at most 1 KiB; leave some out)"},
		{"x.json", long(1 << 10), "<nil>"},
		{"x.json", long(1<<10 + 1), "x.json: is longer than 1024 bytes (at most 1 KiB; leave some out)"},
	} {
		_, err := small.Parse(c.file, []byte(c.text))
		m := small.Borrow()
		_, lent := m.Parse(c.file, []byte(c.text))
		m.Free()
		_, again := m.Parse(c.file, []byte(c.text)) // memory that served keeps its limits
		m.Free()
		for _, err := range []error{err, lent, again} {
			if got := fmt.Sprint(err); got != c.want {
				t.Errorf("%.30q: %s, want %s", c.text, got, c.want)
			}
		}
	}
	m := small.Borrow()
	defer m.Free()
	if _, err := m.ParseLine("x", 7, []byte(values(30))); fmt.Sprint(err) != "x:7:40: has more than 20 values (leave some out)" {
		t.Error(err)
	}
	if text, err := small.Read(strings.NewReader(long(1 << 12))); err != nil || len(text) != 1<<10+1 {
		t.Errorf("%d bytes were read, %v", len(text), err)
	}
}

// TestNoLimitIsWider holds that no door is wider than the widest, and what one leaves open.
func TestNoLimitIsWider(t *testing.T) {
	for _, m := range []Limits{{}, {Bytes: 100 << 20, Values: 1 << 40}} {
		if w := m.whole(); w.Bytes != MaxBytes || w.Values != maxValues || w.Hint != "split it into several files" {
			t.Errorf("%+v is %+v", m, w)
		}
	}
	for n, want := range map[int]string{8 << 20: "8 MiB", 256 << 10: "256 KiB", 1000: "1000 bytes"} {
		if got := Size(n); got != want {
			t.Errorf("%d is %s, want %s", n, got, want)
		}
	}
}
