package schemas

import (
	"bytes"
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v3"
)

// instance reads a file as an editor's schema checker would: JSON as it is, YAML
// by its core schema, in which a day is a text.
func instance(file string, text []byte) (any, error) {
	if filepath.Ext(file) == ".json" {
		return jsonschema.UnmarshalJSON(bytes.NewReader(text))
	}
	var doc yaml.Node
	if err := yaml.Unmarshal(text, &doc); err != nil {
		return nil, err
	}
	if doc.Kind != yaml.DocumentNode {
		return nil, fmt.Errorf("%s: no document", file)
	}
	value, err := plainValue(doc.Content[0])
	if err != nil {
		return nil, err
	}
	return roundTrip(value)
}

// plainValue is a node as Go values, with days left as texts.
func plainValue(n *yaml.Node) (any, error) {
	switch n.Kind {
	case yaml.SequenceNode:
		list := []any{}
		for _, item := range n.Content {
			v, err := plainValue(item)
			if err != nil {
				return nil, err
			}
			list = append(list, v)
		}
		return list, nil
	case yaml.MappingNode:
		object := map[string]any{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			v, err := plainValue(n.Content[i+1])
			if err != nil {
				return nil, err
			}
			object[n.Content[i].Value] = v
		}
		return object, nil
	}
	if n.ShortTag() == "!!timestamp" {
		return n.Value, nil
	}
	var v any
	err := n.Decode(&v)
	return v, err
}

// roundTrip turns Go values into what the validator reads.
func roundTrip(v any) (any, error) {
	text, err := json.Marshal(v)
	if err != nil {
		return nil, err
	}
	return jsonschema.UnmarshalJSON(bytes.NewReader(text))
}

// jsonText writes a value for the loader to read.
func jsonText(t testing.TB, v any) []byte {
	t.Helper()
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// brief is the first complaint of the validator, for messages.
func brief(err error) string {
	if err == nil {
		return ""
	}
	lines := strings.Split(err.Error(), "\n")
	return strings.Join(lines[:min(len(lines), 6)], "\n")
}

// TestInstance holds what the conversion must not blur.
func TestInstance(t *testing.T) {
	v, err := instance("a.yaml", []byte("{day: 2027-03-31, number: 3, text: \"3\", yes: yes, flag: True, none: , list: [1.50]}"))
	if err != nil {
		t.Fatal(err)
	}
	if got := string(bytes.TrimSpace(jsonText(t, v))); got != `{"day":"2027-03-31","flag":true,"list":[1.5],"none":null,"number":3,"text":"3","yes":"yes"}` {
		t.Error(got)
	}
}
