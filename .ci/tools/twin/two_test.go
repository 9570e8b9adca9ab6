package twin_test

import (
	"slices"
	"sync"
	"testing"
	"time"

	"example.org/cogcourt/tools/twin"
)

// BenchmarkTwoGoroutines asks what a second goroutine gains: how much sooner two
// finish the same number of checks than one does, for the checker and for the
// hand-written twin. Each round times both, in turn, so that what else the
// machine does falls on both; the medians count. share is the checker's gain as
// a part of the twin's.
func BenchmarkTwoGoroutines(b *testing.B) {
	c, m := checker(b), known(b)
	hand := twin.New()
	work := []func(){func() { c.Check(m) }, func() { byHand(hand, m) }}
	gains := make([][]float64, len(work))
	for b.Loop() {
		for i, f := range work {
			alone := inGoroutines(1, 1000, f)
			gains[i] = append(gains[i], float64(alone)/float64(inGoroutines(2, 500, f)))
		}
	}
	shares := make([]float64, len(gains[0]))
	for i := range shares {
		shares[i] = gains[0][i] / gains[1][i]
	}
	for name, list := range map[string][]float64{"gain-check": gains[0], "gain-twin": gains[1], "share": shares} {
		slices.Sort(list)
		b.ReportMetric(list[len(list)/2], name)
	}
}

// inGoroutines times n goroutines that each call f so many times.
func inGoroutines(n, times int, f func()) time.Duration {
	start := time.Now()
	var wg sync.WaitGroup
	for range n {
		wg.Go(func() {
			for range times {
				f()
			}
		})
	}
	wg.Wait()
	return time.Since(start)
}

// mostOfTwin is how much a check may cost, as a multiple of the same by hand.
const mostOfTwin = 1.6

// TestCheckCostsLittleMore times both in turn, so that what else the machine does
// falls on both; the median of the rounds counts.
func TestCheckCostsLittleMore(t *testing.T) {
	if testing.Short() {
		t.Skip("times a second of checks")
	}
	c, m, hand := checker(t), known(t), twin.New()
	c.Check(m)
	var ratios []float64
	for range 41 {
		took := inGoroutines(1, 1000, func() { c.Check(m) })
		ratios = append(ratios, float64(took)/float64(inGoroutines(1, 1000, func() { byHand(hand, m) })))
	}
	slices.Sort(ratios)
	if got := ratios[len(ratios)/2]; got > mostOfTwin {
		t.Errorf("a check takes %.2f times what it takes by hand, at most %.1f are wanted", got, mostOfTwin)
	} else {
		t.Logf("%.2f times", got)
	}
}
