package compat

import (
	"testing"

	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/compat/internal/random"
)

// Of a figure without meaning it is no news that there is no spare click, and news
// of every other: no figure takes over what was said of an earlier one.
func TestOnlyNoSpareClickIsQuiet(t *testing.T) {
	quiet, news := 0, 0
	eachReport(t, 400, func(t *testing.T, d random.Draw, r Report) {
		for i, f := range figures.Object.Table().Fields() {
			_, lack := r.Figures.Value(f.Name)
			if lack.Quiet != (lack.Reason == "there is no spare click") {
				t.Errorf("%s (place %d): %q is quiet: %v", f.Name, i, lack.Reason, lack.Quiet)
			}
			switch {
			case lack.Quiet:
				quiet++
			case lack.Reason != "":
				news++
			}
		}
	})
	if quiet < fewer(20) || news < fewer(100) {
		t.Errorf("only %d quiet and %d other sentences were seen", quiet, news)
	}
}
