package compat

import (
	"os"
	"os/exec"
	"testing"
	"time"
)

// BenchmarkLoad loads the standard rules, and loads them to make one check of a
// whole bicycle, which compiles the rules that it needs.
func BenchmarkLoad(b *testing.B) {
	load := func(b *testing.B) *Checker {
		c, err := New(Config{})
		if err != nil {
			b.Fatal(err)
		}
		return c
	}
	m := lakeBike(b)
	b.Run("nothing", func(b *testing.B) {
		for b.Loop() {
			m.Name()
		}
	})
	b.Run("rules", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			load(b)
		}
	})
	b.Run("check", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			load(b).Check(m)
		}
	})
}

// BenchmarkFreshLoad measures the same once in a fresh process each, where no
// code and no memory is warm, in milliseconds of processor time, on both cores
// together: what the process spends beyond one that does nothing.
func BenchmarkFreshLoad(b *testing.B) {
	spent := map[string]time.Duration{}
	for b.Loop() {
		for _, work := range []string{"nothing", "rules", "check"} {
			child := exec.Command(os.Args[0], "-test.run=^$", "-test.bench=^BenchmarkLoad$/^"+work+"$", "-test.benchtime=1x")
			if out, err := child.CombinedOutput(); err != nil {
				b.Fatalf("%v: %s", err, out)
			}
			spent[work] += child.ProcessState.UserTime() + child.ProcessState.SystemTime()
		}
	}
	for _, work := range []string{"rules", "check"} {
		b.ReportMetric((spent[work]-spent["nothing"]).Seconds()*1000/float64(b.N), "cpu-ms/"+work)
	}
	b.ReportMetric(0, "ns/op")
}
