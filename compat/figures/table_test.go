package figures

import (
	"fmt"
	"strings"
	"testing"

	"example.org/cogcourt/rules/fact"
)

// A table takes as many figures as a set of them holds; of one with more the program says
// so as it starts.
func TestATableHasItsRoom(t *testing.T) {
	build := func(count int) (said string) {
		defer func() {
			if p := recover(); p != nil {
				said = fmt.Sprint(p)
			}
		}()
		list := make([]*figure, count)
		for i := range list {
			list[i] = &figure{Field: fact.Field{Name: fmt.Sprint("figure_", i)}}
		}
		placed(list...)
		return ""
	}
	if said := build(192); said != "" {
		t.Errorf("192 figures have room, and it says %q", said)
	}
	if said := build(193); !strings.Contains(said, "more than 192") {
		t.Errorf("of 193 figures it says %q", said)
	}
}
