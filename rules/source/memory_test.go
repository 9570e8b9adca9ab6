package source

import (
	"fmt"
	"testing"
)

// Memory that serves again gives the same trees, whatever was read into it before: small
// texts, one of several chunks, faulty ones and YAML.
func TestMemoryServesAgain(t *testing.T) {
	large := "["
	for i := range 3 * chunkNodes {
		large += fmt.Sprintf(`{"a": %d}, `, i)
	}
	texts := map[string]string{"a.json": plainJSON(), "b.json": large + "0]", "c.json": large, "d.json": `{"a": 1, "a": 2}`, "e.json": goodJSON, "f.yaml": goodYAML, "g.json": `[1]`}
	for range 3 {
		for name, text := range texts {
			want, wantErr := Parse(name, []byte(text))
			m := Borrow()
			for range 2 { // two trees at once
				got, err := m.Parse(name, []byte(text))
				if differs := sameAnswer(got, want, err, wantErr); differs != "" {
					t.Fatalf("%s: %s", name, differs)
				}
			}
			line, err := m.ParseLine(name, 3, []byte(`{"x": [1, 2]}`))
			if err != nil || line.Get("x").Items[1].Pos != (Pos{name, 3, 11}) {
				t.Fatalf("%s: %v, %v", name, line, err)
			}
			m.Free()
		}
	}
	for range 100 {
		for i, n := range chunks.Get().(*chunk) {
			if n.Kind != Null || n.from != nil || n.Items != nil || n.Text != "" {
				t.Fatalf("node %d was not cleared: %v", i, n)
			}
		}
	}
}

// sameAnswer says where two readings of a text differ.
func sameAnswer(got, want *Node, err, wantErr error) string {
	if fmt.Sprint(err) != fmt.Sprint(wantErr) {
		return fmt.Sprintf("%v, and not %v", err, wantErr)
	}
	if err != nil {
		return ""
	}
	return sameTree(got, want)
}
