package source

import (
	"fmt"
	"strings"
	"testing"
)

// TestReadMaps has what authors write where a list of maps is wanted.
func TestReadMaps(t *testing.T) {
	const form = "- {name: ..., want: ...}"
	for _, c := range []struct{ file, text, gives, says string }{
		{"x.yaml", "l: [{name: a}, {name: b}]", "0a 1b", ""},
		{"x.yaml", "l: []", "", ""},
		{"x.yaml", "m: 1", "", ""},
		{"x.yaml", "l: none", "", "x.yaml:1:4: l: must be a list, is a text (write its entries on the lines below, each as " + form + ", or leave it out)"},
		{"x.yaml", "l: A chain", "", form},
		{"x.yaml", "l: 7", "", form},
		{"x.yaml", "l: {name: a}", "", "is a map (write its entries on the lines below, each as " + form},
		{"x.yaml", "l:", "", "l: has no value (write a list, or leave the entry out)"},
		{"x.yaml", "l: [{name: a}, A chain, 7, {name: b}]", "0a 3b", "x.yaml:1:16: l[1]: must be a map, is a text (write " + form + ")\nx.yaml:1:25: l[2]: must be a map"},
		{"x.yaml", "l:\n  - name:a", "", "write a blank behind the colon"},
		{"x.yaml", "l:\n  - - name: a", "", "a line that begins with - is an entry of a list; leave the - out"},
		{"x.json", `{"l": "none"}`, "", `must be a list, is a text (write [{"name": ..., "want": ...}], or leave the entry out)`},
		{"x.json", `{"l": ["none"]}`, "", `l[0]: must be a map, is a text (write {"name": ..., "want": ...})`},
	} {
		root, err := Parse(c.file, []byte(c.text))
		if err != nil {
			t.Fatal(c.text, err)
		}
		var ps Problems
		var given []string
		for i, n := range root.Get("l").ReadMaps("l", &ps, "name", "want") {
			given = append(given, fmt.Sprint(i, n.Get("name").Text))
		}
		if got := strings.Join(given, " "); got != c.gives {
			t.Errorf("%s: gives %s, want %s", c.text, got, c.gives)
		}
		if says := ps.Error(); !strings.Contains(says, c.says) || (says == "") != (c.says == "") {
			t.Errorf("%s: %s, want %s", c.text, says, c.says)
		}
		for range root.Get("l").ReadMaps("l", &ps) {
			break
		}
	}
}

// TestMapsHintLoads follows the hint: what it shows then loads.
func TestMapsHintLoads(t *testing.T) {
	var ps Problems
	root, err := Parse("x.yaml", []byte("l:\n  - {name: ..., want: ...}\n"))
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range root.Get("l").ReadMaps("l", &ps, "name", "want") {
		n.Keys("l[0]", &ps, "name", "want")
	}
	if len(ps) > 0 {
		t.Error(ps)
	}
}
