package cart_test

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"time"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules/source"
)

// What the shop's server allows: no cart of people is as large, and none takes
// as long.
const (
	mostBody = 1 << 20
	mostTime = 5 * time.Second
)

// shop answers a cart with its report: POST a cart file as JSON.
func shop(live *cart.Live) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		ctx, cancel := context.WithTimeout(req.Context(), mostTime)
		defer cancel()
		body, err := io.ReadAll(http.MaxBytesReader(w, req.Body, mostBody))
		if err != nil {
			refuse(w, err)
			return
		}
		report, err := live.CheckCart(ctx, "cart.json", body)
		if err != nil {
			refuse(w, err)
			return
		}
		w.Header().Set("Content-Type", "application/json")
		w.Header().Set("X-Content-Type-Options", "nosniff")
		if _, err := report.WriteTo(w); err != nil {
			refuse(w, err)
		}
	})
}

// refuse answers an error by its sort. What broke down inside is for the log, not
// for the customer.
func refuse(w http.ResponseWriter, err error) {
	var large *http.MaxBytesError
	var internal *cart.InternalError
	var input source.Problems
	switch {
	case errors.As(err, &large):
		http.Error(w, "the cart is too large", http.StatusRequestEntityTooLarge)
	case errors.Is(err, context.DeadlineExceeded), errors.Is(err, context.Canceled):
		http.Error(w, "the cart took too long", http.StatusServiceUnavailable)
	case errors.As(err, &internal):
		http.Error(w, "something broke down here", http.StatusInternalServerError)
	case errors.As(err, &input):
		http.Error(w, input.Error(), http.StatusUnprocessableEntity)
	default:
		http.Error(w, "the cart could not be read", http.StatusBadRequest)
	}
}

// posted is a cart as a web page sends it.
const posted = `{"cart": "Order 1208", "bikes": [{"mix": "Ferry 7", "parts": {"cassette": "reedbed-12-10-51", "chain": "lantern-chain-12"}}],
  "lines": [{"sku": "SD-1251"}, {"sku": "WC-2012", "quantity": 2}, {"sku": "BELL-3", "name": "A brass bell"}]}`

func TestShopServer(t *testing.T) {
	live, err := cart.NewLive(compat.Config{}, demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name, body string
		status     int
		want       string
	}{
		{"a cart", posted, http.StatusOK, live.Status().Hash},
		{"a faulty cart", `{"lines": [{"id": 9}]}`, http.StatusUnprocessableEntity, "cart.json:1:19: lines[0].id"},
		{"no JSON", `lines: []`, http.StatusUnprocessableEntity, "cart.json:1:1"},
		{"nothing", ``, http.StatusUnprocessableEntity, "cart.json"},
		{"too much", `{"cart": "` + strings.Repeat("x", mostBody) + `"}`, http.StatusRequestEntityTooLarge, "too large"},
		{"too deep", strings.Repeat(`{"lines":[`, 200), http.StatusUnprocessableEntity, "cart.json"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			w := httptest.NewRecorder()
			shop(live).ServeHTTP(w, httptest.NewRequest(http.MethodPost, "/cart", strings.NewReader(test.body)))
			if w.Code != test.status || !strings.Contains(w.Body.String(), test.want) {
				t.Errorf("%d %s", w.Code, w.Body)
			}
		})
	}
}

// A customer who has gone away is not served to the end; neither is one whose
// cart is sent too slowly.
func TestShopServerStops(t *testing.T) {
	live, err := cart.NewLive(compat.Config{}, demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	gone, cancel := context.WithCancel(context.Background())
	cancel()
	w := httptest.NewRecorder()
	shop(live).ServeHTTP(w, httptest.NewRequest(http.MethodPost, "/cart", strings.NewReader(posted)).WithContext(gone))
	if w.Code != http.StatusServiceUnavailable {
		t.Errorf("%d %s", w.Code, w.Body)
	}
	w = httptest.NewRecorder()
	broken := io.MultiReader(strings.NewReader(`{"lines": [`), failing{})
	shop(live).ServeHTTP(w, httptest.NewRequest(http.MethodPost, "/cart", broken))
	if w.Code != http.StatusBadRequest {
		t.Errorf("%d %s", w.Code, w.Body)
	}
	w = httptest.NewRecorder()
	if refuse(w, &cart.InternalError{Doing: "x", Cause: "a secret"}); w.Code != http.StatusInternalServerError || strings.Contains(w.Body.String(), "secret") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}

// failing is a connection that was cut.
type failing struct{}

func (failing) Read([]byte) (int, error) { return 0, errors.New("cut off") }

// Rules are swapped while carts come in: every answer is whole, of one set of
// rules, and good candidates come into use while bad ones never do.
func TestShopServerWhileRulesAreSwapped(t *testing.T) {
	config := func(limit int, want string) compat.Config {
		return compat.Config{NoStandard: true, Rules: []fs.FS{shopRule(limit, want)}}
	}
	live, err := cart.NewLive(config(31, "pass"), demo.Files())
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(shop(live))
	defer server.Close()
	stop := make(chan struct{})
	var all sync.WaitGroup
	for range 4 {
		all.Go(func() { customer(t, server.URL, stop) })
	}
	hashes := map[string]bool{}
	for limit := range 30 {
		good := limit%3 > 0
		want := "fail"
		if good {
			want = "pass"
		}
		if err := live.Swap(config(32+limit, want), demo.Files()); (err == nil) != good {
			t.Errorf("limit %d: %v", 32+limit, err)
		}
		hashes[live.Status().Hash] = true
	}
	close(stop)
	all.Wait()
	if s := live.Status(); s.Taken != 21 || s.Refused != 10 || len(hashes) != 21 {
		t.Errorf("%+v, %d hashes", s, len(hashes))
	}
}

// customer sends carts until told to stop, and looks at each answer: the limit
// that its text names is that of the edition which the report names.
func customer(t *testing.T, url string, stop chan struct{}) {
	basket := `{"lines": [{"id": "reedbed-12-10-51"}, {"sku": "WC-1251"}]}`
	for {
		select {
		case <-stop:
			return
		default:
		}
		res, err := http.Post(url+"/cart", "application/json", strings.NewReader(basket))
		if err != nil {
			t.Error(err)
			return
		}
		var got struct {
			Rules struct {
				Packs []struct{ Edition int }
				Hash  string
			}
			Bikes []struct {
				Report struct {
					Rules    struct{ Hash string }
					Findings []struct{ Text string }
				}
			}
		}
		err = json.NewDecoder(res.Body).Decode(&got)
		res.Body.Close()
		if err != nil || res.StatusCode != http.StatusOK || len(got.Bikes) != 1 {
			t.Errorf("%d %v", res.StatusCode, err)
			return
		}
		bike := got.Bikes[0].Report
		want := fmt.Sprintf("51 teeth are over %d.", got.Rules.Packs[0].Edition)
		if got.Rules.Packs[0].Edition < 51 && (len(bike.Findings) != 1 || bike.Findings[0].Text != want) || bike.Rules.Hash != got.Rules.Hash {
			t.Errorf("edition %d: %+v", got.Rules.Packs[0].Edition, bike)
			return
		}
	}
}
