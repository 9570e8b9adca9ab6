package schemas

import (
	"strings"
	"testing"
)

// TestSpoiltCarts spoils each entry of the good carts and of their lines in turn:
// reader and schema refuse it alike. What is behind note: nobody reads.
func TestSpoiltCarts(t *testing.T) {
	tried := map[string]bool{}
	for _, d := range good(t) {
		if d.kind != "cart" {
			continue
		}
		cart, err := instance(d.name, d.text)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range spots(cart, "") {
			if strings.HasPrefix(s.path, ".bikes[") || strings.HasPrefix(s.path, ".note[") {
				continue // mixes have a test of their own
			}
			old := s.get()
			for _, v := range []any{nil, true, " ", map[string]any{}, map[string]any{"id": 1}, -1, 1.5, 10001} {
				if strings.HasSuffix(s.path, ".note") {
					break
				}
				s.set(v)
				refusedByBoth(t, d.name+s.path, cart)
			}
			s.set(old)
			if s.object == nil {
				continue
			}
			tried[s.key] = true
			delete(s.object, s.key)
			s.object[s.key+"x"] = old
			refusedByBoth(t, d.name+s.path+" misspelt", cart)
			delete(s.object, s.key+"x")
			s.object[s.key] = old
		}
	}
	if len(tried) != 9 {
		t.Errorf("the entries tried are %v", tried)
	}
}

func refusedByBoth(t *testing.T, what string, cart any) {
	t.Helper()
	v := judge(t, "cart", "cart.json", jsonText(t, cart))
	if len(v.faults) == 0 || v.schema == nil {
		t.Errorf("%s: the reader says %v, the schema %v", what, v.faults, v.schema)
	}
}
