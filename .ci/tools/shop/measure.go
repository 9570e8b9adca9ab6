package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"slices"
	"sync"
	"sync/atomic"
	"syscall"
	"time"

	"example.org/cogcourt/compat/cart"
)

// work is how much is sent.
type work struct{ requests, clients int }

// cost is what came of it: processor time of this process, client and server together.
type cost struct {
	answered, swaps int
	request         time.Duration // of a request over loopback: client, server and handler
	handler         time.Duration // of the handler alone, called in place with the same carts
	check           time.Duration // of CheckCart and WriteTo alone
}

func (c cost) String() string {
	return fmt.Sprintf("%d answered and none failed, beside %d swaps; processor time each: over loopback %v, handler %v, CheckCart and writing %v (handler %.2f times)",
		c.answered, c.swaps, c.request, c.handler, c.check, float64(c.handler)/float64(c.check))
}

// spent is the processor time of this process so far.
func spent() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// carts are orders of a few parts of the store.
func carts(live *cart.Live, count int) [][]byte {
	_, parts := live.Now()
	all := parts.Parts()
	draw := rand.New(rand.NewPCG(8, 1))
	var out [][]byte
	for i := range count {
		text := fmt.Appendf(nil, `{"cart": "Order %d", "lines": [`, i)
		for k := range 1 + draw.IntN(4) {
			if k > 0 {
				text = append(text, ", "...)
			}
			text = fmt.Appendf(text, `{"id": %q}`, all[draw.IntN(len(all))].ID())
		}
		out = append(out, append(text, "]}"...))
	}
	return out
}

// measure sends carts over loopback beside swaps of prices, and then has the same carts
// judged in place. A request that fails ends it with an error.
func measure(ctx context.Context, live *cart.Live, s *store, w work) (cost, error) {
	texts := carts(live, 200)
	serve := handler(live)
	server := httptest.NewServer(serve)
	defer server.Close()
	var out cost
	begin := spent()
	answered, swaps, err := send(ctx, server.URL+"/cart", texts, w, func() error {
		if _, err := s.ExecContext(ctx, `UPDATE parts SET price = CAST(abs(random() % 200) AS TEXT) || '.50'`); err != nil {
			return err
		}
		return reprice(ctx, live, s)
	})
	if err != nil {
		return cost{}, err
	}
	out.answered, out.swaps, out.request = answered, swaps, (spent()-begin)/time.Duration(answered)
	var handled, checked []time.Duration
	for range 15 {
		begin = spent()
		for _, text := range texts {
			req := httptest.NewRequestWithContext(ctx, http.MethodPost, "/cart", bytes.NewReader(text))
			serve.ServeHTTP(&dropped{header: http.Header{}}, req)
		}
		handled = append(handled, spent()-begin)
		begin = spent()
		for _, text := range texts {
			report, err := live.CheckCart(ctx, "cart.json", text)
			if err != nil {
				return cost{}, err
			}
			_, _ = report.WriteTo(io.Discard)
		}
		checked = append(checked, spent()-begin)
	}
	slices.Sort(handled)
	slices.Sort(checked)
	out.handler, out.check = handled[len(handled)/2]/time.Duration(len(texts)), checked[len(checked)/2]/time.Duration(len(texts))
	return out, nil
}

// dropped is an answer that nobody reads.
type dropped struct{ header http.Header }

func (d *dropped) Header() http.Header            { return d.header }
func (d *dropped) Write(text []byte) (int, error) { return len(text), nil }
func (d *dropped) WriteHeader(int)                {}

// send has clients post carts until all are answered, while swap is called again and
// again, at least once.
func send(ctx context.Context, url string, texts [][]byte, w work, swap func() error) (answered, swaps int, err error) {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	var next, done atomic.Int64
	var all sync.WaitGroup
	client := &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: w.clients}}
	defer client.CloseIdleConnections()
	for range w.clients {
		all.Go(func() {
			for n := next.Add(1); n <= int64(w.requests) && ctx.Err() == nil; n = next.Add(1) {
				if err := post(ctx, client, url, texts[int(n)%len(texts)]); err != nil {
					cancel(err)
					return
				}
				done.Add(1)
			}
		})
	}
	for ctx.Err() == nil && (swaps == 0 || done.Load() < int64(w.requests)) {
		if err := swap(); err != nil {
			cancel(err)
			break
		}
		swaps++
		time.Sleep(20 * time.Millisecond) // a shop's prices stand for a while
	}
	all.Wait()
	return int(done.Load()), swaps, context.Cause(ctx)
}

// post sends one cart; any answer but a report is an error.
func post(ctx context.Context, client *http.Client, url string, text []byte) error {
	req, err := http.NewRequestWithContext(ctx, http.MethodPost, url, bytes.NewReader(text))
	if err != nil {
		return err
	}
	res, err := client.Do(req)
	if err != nil {
		return err
	}
	defer res.Body.Close()
	if _, err := io.Copy(io.Discard, res.Body); err != nil {
		return err
	}
	if res.StatusCode != http.StatusOK {
		return fmt.Errorf("a cart is answered by %s", res.Status)
	}
	return nil
}
