package source

import (
	"strings"
	"testing"
)

func TestRescue(t *testing.T) {
	n, err := rescued(Pos{File: "x.yaml"}, func() (*Node, error) { panic("no") })
	if n != nil || err == nil || !strings.Contains(err.Error(), "x.yaml: the reader broke down: no (this is a mistake") {
		t.Error(n, err)
	}
}
