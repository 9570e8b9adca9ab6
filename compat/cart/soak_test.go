package cart_test

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
)

// soakTime is how long the soak runs: COGCOURT_SOAK, such as 30s, or a moment.
func soakTime(t *testing.T) time.Duration {
	text := os.Getenv("COGCOURT_SOAK")
	if text == "" {
		return time.Duration(fewer(10)+5) * 100 * time.Millisecond
	}
	d, err := time.ParseDuration(text)
	if err != nil {
		t.Fatalf("COGCOURT_SOAK: %v", err)
	}
	return d
}

// soakCandidate is the n-th candidate: three rules whose texts name n, and a
// catalogue whose name and cassette do. One in ten is bad in one of three ways.
// The standard rules are left out: compiled with race detection they take longer
// than the tenth of a second from one swap to the next.
func soakCandidate(n int) (cfg compat.Config, parts fs.FS, good bool) {
	rule := func(id string) string {
		return fmt.Sprintf("  - {id: soak/%s, title: Soaked, why: A rule for a test., warn_if: size(cassette.cogs_t) > 0, say: edition %d, remedy: None., basis: {practice: none},\n"+
			"     examples: [{name: any, given: {cassette: {cogs_t: [11, 12]}}, want: warn}]}\n", id, n)
	}
	rules := fmt.Sprintf("pack: soak\nedition: %d\nrules:\n%s%s%s", n, rule("one"), rule("two"), rule("three"))
	shelf := fmt.Sprintf("catalog: edition %d\nparts:\n  - {kind: cassette, id: soaked, name: edition %d, cogs_t: [11, 13, 15], pitch_mm: 4.34}\n", n, n)
	if n%10 == 3 {
		switch n / 10 % 3 {
		case 0:
			rules = strings.Replace(rules, "want: warn", "want: fail", 1)
		case 1:
			rules = strings.Replace(rules, "cassette.cogs_t", "cassette.cogs", 1)
		default:
			shelf = strings.Replace(shelf, "kind: cassette", "kind: casette", 1)
		}
	}
	cfg = compat.Config{NoStandard: true, Rules: []fs.FS{filesOf(map[string]string{"soak.yaml": rules})}}
	return cfg, filesOf(map[string]string{"shelf.yaml": shelf}), n%10 != 3
}

// soak is what readers and the swapper share.
type soak struct {
	live    *cart.Live
	gate    sync.RWMutex // held for writing while the heap is measured
	stop    atomic.Bool
	reports atomic.Int64
	mixed   atomic.Int64

	guard sync.Mutex
	last  [16]named // the last editions, as their first report named them
}

// named is an edition of the rules and its hash.
type named struct {
	edition int
	hash    string
}

// sameHash says whether all reports of an edition name one hash.
func (s *soak) sameHash(n named) bool {
	s.guard.Lock()
	defer s.guard.Unlock()
	known := &s.last[n.edition%len(s.last)]
	if known.edition != n.edition {
		*known = n
	}
	return *known == n
}

// Eight readers judge while rules and parts are swapped ten times a second, one
// candidate in ten being bad: no report is of two candidates, nothing is ever
// decided by a bad one, and the heap does not grow.
func TestSoak(t *testing.T) {
	length := soakTime(t)
	cfg, parts, _ := soakCandidate(1)
	live, err := cart.NewLive(cfg, parts)
	if err != nil {
		t.Fatal(err)
	}
	s := &soak{live: live}
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() { s.read(t) })
	}
	tick := time.NewTicker(100 * time.Millisecond)
	defer tick.Stop()
	var first uint64
	start, swaps := time.Now(), 0
	for n := 2; time.Since(start) < length; n++ {
		s.swap(t, n)
		if swaps++; first == 0 && time.Since(start) > length/5 {
			first = s.heap()
		}
		<-tick.C
	}
	last := s.heap()
	s.stop.Store(true)
	all.Wait()
	drift := 100 * (float64(last) - float64(first)) / float64(first)
	status := live.Status()
	t.Logf("%s: %d reports, %d swaps (%.1f a second) of which %d refused, %d reports of two sets, heap %.2f to %.2f MB (%+.2f percent)",
		length, s.reports.Load(), swaps, float64(swaps)/time.Since(start).Seconds(), status.Refused, s.mixed.Load(), float64(first)/1e6, float64(last)/1e6, drift)
	if s.reports.Load() == 0 || s.mixed.Load() > 0 || status.Refused == 0 || status.Taken != swaps+1-status.Refused {
		t.Errorf("%+v", status)
	}
	if length >= 20*time.Second && drift > 2 {
		t.Errorf("the heap has grown by %.2f percent", drift)
	}
}

// swap offers the n-th candidate.
func (s *soak) swap(t *testing.T, n int) {
	before := s.live.Status().Hash
	cfg, parts, good := soakCandidate(n)
	if err := s.live.Swap(cfg, parts); (err == nil) != good {
		t.Errorf("candidate %d: %v", n, err)
	}
	if after := s.live.Status().Hash; !good && after != before {
		t.Errorf("the bad candidate %d is in use", n)
	}
}

// read judges until told to stop.
func (s *soak) read(t *testing.T) {
	for !s.stop.Load() {
		s.gate.RLock()
		if fault := s.one(); fault != "" {
			s.mixed.Add(1)
			t.Error(fault)
		}
		s.reports.Add(1)
		s.gate.RUnlock()
		time.Sleep(200 * time.Microsecond) // a server waits for customers; the swapper needs its turn
	}
}

// one makes one report and says what in it is of another candidate than the rest.
func (s *soak) one() string {
	c, parts := s.live.Now()
	m, err := compat.ReadMix("m.json", []byte(`{"mix": "M", "parts": {"cassette": "soaked", "rear_derailleur": {"max_cog_t": 28}}}`), parts)
	if err != nil {
		return err.Error()
	}
	r := c.Check(m)
	text, err := json.Marshal(r)
	if err != nil {
		return err.Error()
	}
	set := r.RuleSet()
	packs, hash := set.Packs, set.Hash
	edition := fmt.Sprintf("edition %d", packs[0].Edition)
	said := 0
	for _, f := range r.Findings() {
		if strings.HasPrefix(f.Rule, "soak/") && strings.HasPrefix(f.Text, edition) {
			said++
		}
	}
	cassette, _ := m.Part("cassette")
	if !s.sameHash(named{packs[0].Edition, hash}) || said != 3 || cassette.Name() != edition || strings.Count(string(text), edition) < 5 || strings.Count(string(text), "edition ") != strings.Count(string(text), edition) {
		return fmt.Sprintf("%s, the cassette is %s, hash %s: %s", edition, cassette.Name(), hash, text)
	}
	return ""
}

// heap measures what is in use, with no report in the making.
func (s *soak) heap() uint64 {
	s.gate.Lock()
	defer s.gate.Unlock()
	var m runtime.MemStats
	for range 3 {
		runtime.GC()
	}
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}
