package rules_test

import (
	"strconv"
	"testing"

	"example.org/cogcourt/rules"
)

// What ValidID takes, a rule file takes, and nothing else.
func TestValidID(t *testing.T) {
	for id, want := range map[string]bool{
		"boats/rule": true, "a/b/c": true, "0-/-": true, "boats": false, "/rule": false, "boats/": false,
		"Boats/rule": false, "boats//rule": false, "boats/rule ": false, "böte/rule": false, "boats/rule\n": false,
	} {
		if got := rules.ValidID(id); got != want {
			t.Errorf("%q: %v", id, got)
		}
		if _, err := load(t, pack("id: "+strconv.Quote(id), tooLarge)); (err == nil) != want {
			t.Errorf("%q in a rule file: %v", id, err)
		}
	}
}
