package schemas

import (
	"bytes"
	"testing"

	"example.org/cogcourt/catalog/demo"
	"github.com/santhosh-tekuri/jsonschema/v6"
)

// TestOutlines holds what is drawn of every mix against its schema, and the schema to
// refuse what lacks a key or has one too many.
func TestOutlines(t *testing.T) {
	seen := map[string]bool{}
	for _, name := range demo.Mixes() {
		v, err := jsonschema.UnmarshalJSON(bytes.NewReader(tool(t, "", "check", "--format", "outline", "demo:"+name)))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if err := schema(t, "outline").Validate(v); err != nil {
			t.Errorf("%s: %s", name, brief(err))
		}
		holdsStrictly(t, "outline", name, v, seen)
	}
	if len(seen) < 60 {
		t.Errorf("only %d keys were tried", len(seen))
	}
}
