package stock

import (
	"cmp"
	"context"
	"os"
	"runtime"
	"slices"
	"strconv"
	"syscall"
	"testing"
	"time"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/fit"
)

// spent is the processor time of this process.
func spent() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		panic(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// timed is the processor time that a function takes.
func timed(f func()) time.Duration {
	before := spent()
	f()
	return spent() - before
}

// setting is a numeric setting of the environment.
func setting(name string, otherwise int) int {
	if n, err := strconv.Atoi(os.Getenv(name)); err == nil {
		return n
	}
	return otherwise
}

// bare gives a bicycle of the demo without the kinds that are to be chosen, and without
// what was measured on it.
func bare(b testing.TB, i int) compat.Mix {
	parts, err := catalog.Load(demo.Files())
	if err != nil {
		b.Fatal(err)
	}
	names := []string{"ferry-motor", "fleet-three-faults", "club-nine-spacer", "club-two-ring"}
	text, _ := demo.Mix(names[i%len(names)])
	m, err := compat.ReadMix("demo.yaml", text, parts)
	if err != nil {
		b.Fatal(err)
	}
	out, err := compat.NewMix(m.Name(), compat.ScopeCart)
	if err != nil {
		b.Fatal(err)
	}
	for _, kind := range []string{"frame", "wheel", "cockpit"} {
		if p, ok := m.Part(kind); ok {
			out = out.With(p)
		}
	}
	return out
}

// distinct counts the parts that state something different.
func distinct(parts []catalog.Part) int {
	met := map[string]bool{}
	for _, p := range parts {
		met[string(p.Record().AppendKey(nil))] = true
	}
	return len(met)
}

func median(list []time.Duration) time.Duration {
	list = slices.Clone(list)
	slices.Sort(list)
	return list[len(list)/2]
}

// bench is what the measurements share.
type bench struct {
	*testing.B
	checker *compat.Checker
	each    int
}

// made is a catalogue and its index.
type made struct {
	catalog *catalog.Catalog
	index   *fit.Index
	took    time.Duration // to make the index
	bytes   uint64        // that it keeps
}

func (b bench) made(seed uint64, each int, price Pricing) made {
	parts, err := Make(Options{Seed: seed, Each: each, Kinds: Kinds(), Price: price})
	if err != nil {
		b.Fatal(err)
	}
	var out made
	if out.catalog, err = catalog.Of(parts...); err != nil {
		b.Fatal(err)
	}
	before := held()
	out.took = timed(func() { out.index = fit.NewIndex(b.checker, out.catalog) })
	out.bytes = held() - min(before, held())
	return out
}

// held is the memory in use.
func held() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// checkAll is the time of Check on every part of a kind.
func (b bench) checkAll(m compat.Mix, c *catalog.Catalog, kind string, most int) time.Duration {
	parts := c.OfKind(kind)
	parts = parts[:min(most, len(parts))]
	return timed(func() {
		for _, p := range parts {
			b.checker.Check(m.Refit(p))
		}
	})
}

func (b bench) fit(ix *fit.Index, q fit.Query) (fit.Answer, time.Duration) {
	var answer fit.Answer
	var err error
	took := timed(func() { answer, err = ix.Fit(context.Background(), q) })
	if err != nil {
		b.Fatal(err)
	}
	return answer, took
}

// BenchmarkSearch measures the search against Check on every part: N articles of a kind
// (10,000 as it is), SEEDS questions (5; the bounds are for 30). Each number is a
// share: of the time that Check takes on all N articles of one kind, by the processor.
func BenchmarkSearch(tb *testing.B) {
	c, err := compat.New(compat.Config{})
	if err != nil {
		tb.Fatal(err)
	}
	b := bench{tb, c, setting("N", 10_000)}
	seeds := setting("SEEDS", 5)
	for range tb.N {
		var eight, one, checks []time.Duration
		var indexed []time.Duration
		cut, found, bytes, classes := 0, 0, uint64(0), 0
		for seed := range seeds {
			of := b.made(uint64(seed), b.each, Usual)
			m := bare(tb, seed)
			classes += distinct(of.catalog.OfKind("cassette"))
			indexed, bytes = append(indexed, of.took), max(bytes, of.bytes)
			answer, took := b.fit(of.index, fit.Query{Mix: m, Kinds: Kinds(), Limit: 10})
			eight = append(eight, took)
			found += len(answer.Choices)
			if answer.Cut {
				cut++
			}
			whole := m
			if len(answer.Choices) > 0 {
				whole = answer.Choices[0].Mix()
			}
			_, took = b.fit(of.index, fit.Query{Mix: whole, Kinds: []string{"cassette"}, Limit: 10})
			one = append(one, took)
			checks = append(checks, b.checkAll(whole, of.catalog, "cassette", b.each))
		}
		check := median(checks)
		share := func(name string, d time.Duration) { tb.ReportMetric(float64(d)/float64(check), name) }
		share("one/check", median(one))
		share("eight/check", median(eight))
		share("eight-worst/check", slices.MaxFunc(eight, cmp.Compare[time.Duration]))
		share("index/check", median(indexed))
		tb.ReportMetric(float64(bytes)/float64(8*b.each), "B/part")
		tb.ReportMetric(float64(found)/float64(seeds), "choices")
		tb.ReportMetric(float64(cut)/float64(seeds), "cut")
		tb.ReportMetric(check.Seconds()*1000, "check-ms")
		tb.ReportMetric(median(one).Seconds()*1000, "one-ms")
		tb.ReportMetric(median(eight).Seconds()*1000, "eight-ms")
		tb.ReportMetric(float64(classes)/float64(seeds), "classes")
	}
}

// BenchmarkAudit measures the audit of N articles of each of the eight kinds (1,000 as it
// is), as a share of the time that Check takes on 10,000 pairs of them.
func BenchmarkAudit(tb *testing.B) {
	c, err := compat.New(compat.Config{})
	if err != nil {
		tb.Fatal(err)
	}
	b := bench{tb, c, setting("N", 1000)}
	of := b.made(1, b.each, Usual)
	one, other := of.catalog.OfKind("cassette"), of.catalog.OfKind("chain")
	for range tb.N {
		var audit fit.Audit
		took := timed(func() { audit, err = of.index.Audit(context.Background()) })
		if err != nil {
			tb.Fatal(err)
		}
		pairs := 0
		for _, p := range audit.Pairs {
			pairs += p.Pass + p.Warn + p.Open + p.Fail + p.Silent
		}
		check := timed(func() {
			for i := range 10_000 {
				m, err := compat.NewMix("pair", compat.ScopeCart, one[i%len(one)], other[i*7%len(other)])
				if err != nil {
					tb.Fatal(err)
				}
				c.Check(m)
			}
		})
		tb.ReportMetric(float64(took)/float64(check), "audit/10,000-checks")
		tb.ReportMetric(float64(pairs), "pairs")
		tb.ReportMetric(took.Seconds(), "audit-s")
	}
}
