package schemas

import (
	"bytes"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"example.org/cogcourt/catalog/demo"
)

// TestBriefLines holds the lines of --brief against their schemas, which refuse a line
// that lacks a key or has another one.
func TestBriefLines(t *testing.T) {
	for level, part := range map[string]string{"verdict": `"warns":["`, "findings": `"missing":["`} {
		s, text := schema(t, level), ""
		seen := map[string]bool{}
		for _, name := range demo.Mixes() {
			v, err := jsonschema.UnmarshalJSON(bytes.NewReader(tool(t, "", "check", "--format", "jsonl", "--brief", level, "demo:"+name)))
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			if err := s.Validate(v); err != nil {
				t.Errorf("%s of %s: %s", level, name, brief(err))
			}
			text += string(jsonText(t, v))
			holdsStrictly(t, level, name, v, seen)
		}
		if len(seen) < 14 || !strings.Contains(text, part) {
			t.Errorf("%s: %d keys were tried, and %s was among them or not", level, len(seen), part)
		}
	}
}
