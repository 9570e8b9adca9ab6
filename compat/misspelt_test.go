package compat_test

import (
	"fmt"
	"strings"
	"testing"

	"example.org/cogcourt/compat"
)

// TestNothingMisspeltIsOrdered holds that a slip of a known name comes into no mix,
// and so into no list of what to order; spelt in any way that is in use, the known
// word itself is ordered.
func TestNothingMisspeltIsOrdered(t *testing.T) {
	c, err := compat.New(compat.Config{})
	if err != nil {
		t.Fatal(err)
	}
	mix := func(body string) string {
		return fmt.Sprintf("mix: A wheel\nparts:\n  cassette: {cogs_t: [11, 13], freehub: %s}\n  hub: {freehub: spline-8-deep}\n", body)
	}
	for _, slip := range []string{"splin-9", "spline9", "sprine-23", "[spline-9, splin-23]", "drivr-10", "lug3"} {
		_, err := compat.ReadMix("wheel.yaml", []byte(mix(slip)), nil)
		if err == nil || !strings.Contains(err.Error(), "did you mean") {
			t.Errorf("%s: %v", slip, err)
		}
	}
	for spelling, ordered := range map[string]string{"9-spline": "spline-9", "spline-23": "spline-23"} {
		m, err := compat.ReadMix("wheel.yaml", []byte(mix(spelling)), nil)
		if err != nil {
			t.Fatal(err)
		}
		var needs []string
		for _, n := range c.Check(m).Needs() {
			needs = append(needs, n.What)
		}
		if all := strings.Join(needs, "; "); !strings.Contains(all, ordered) || spelling != ordered && strings.Contains(all, spelling) {
			t.Errorf("%s: ordered is %q", spelling, all)
		}
	}
}
