package schemas

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules/source"
)

// demoCatalog is what the ids of mixes are looked up in.
var demoCatalog = sync.OnceValues(func() (*catalog.Catalog, error) { return catalog.Load(demo.Files()) })

// load reads a file of a kind as cogcourt does and gives its faults, none for a
// good one. A rule file may refer to the sources of the shipped rules.
func load(t testing.TB, kind, file string, text []byte) source.Problems {
	t.Helper()
	var err error
	switch kind {
	case "parts":
		_, err = catalog.ReadFile(file, text)
	case "mix", "cart":
		from, broken := demoCatalog()
		if broken != nil {
			t.Fatal(broken)
		}
		if kind == "cart" {
			_, err = cart.Read(file, text, from)
		} else {
			_, err = compat.ReadMix(file, text, from)
		}
	case "rules":
		sources, broken := os.ReadFile(filepath.Join(root, "rules/standard/sources.yaml"))
		if broken != nil {
			t.Fatal(broken)
		}
		// A file of sources alone is good beside one with rules.
		set := fstest.MapFS{filepath.Base(file): {Data: text}, "zz-rule.yaml": {Data: []byte(anyRule)}}
		switch {
		case strings.Contains(string(text), "stopped_by"):
			besideRules(t, set)
		case filepath.Base(file) != "sources.yaml":
			set["zz-sources.yaml"] = &fstest.MapFile{Data: sources}
		}
		_, err = compat.New(compat.Config{NoStandard: true, Rules: []fs.FS{set}})
	default:
		t.Fatalf("no kind %q", kind)
	}
	var ps source.Problems
	if err != nil && !errors.As(err, &ps) {
		t.Fatalf("%s: %v", file, err)
	}
	return ps
}

const anyRule = `pack: zz
rules:
  - {id: zz/any, title: t, why: w, warn_if: chain.speeds > 9, say: s, remedy: r, basis: {practice: p}}
`

// verdict is what loader and schema say of one file.
type verdict struct {
	faults []fault // of the loader
	schema error   // of the schema, or why it is no YAML or JSON at all
}

func judge(t testing.TB, kind, file string, text []byte) verdict {
	t.Helper()
	var v verdict
	for _, p := range load(t, kind, file, text) {
		v.faults = append(v.faults, fault{p.Path, p.Text})
	}
	inst, err := instance(file, text)
	if err != nil {
		v.schema = err
		return v
	}
	v.schema = schema(t, kind).Validate(inst)
	return v
}

// disagree says what is wrong with a verdict: the schema refuses what loads, or
// accepts what is refused for a reason that it could tell.
func (v verdict) disagree() string {
	switch {
	case len(v.faults) == 0 && v.schema != nil:
		return "it loads, and the schema refuses it: " + brief(v.schema)
	case len(v.faults) > 0 && v.schema == nil:
		for _, f := range v.faults {
			if why(f) == "" {
				return "the schema accepts it, and the loader says: " + f.text + " (if no schema can tell that, put it into the table of reasons)"
			}
		}
	}
	return ""
}

// besideRules puts the shipped rules beside a file of steps, which names some of them.
func besideRules(t testing.TB, set fstest.MapFS) {
	files, err := filepath.Glob(filepath.Join(root, "rules/standard/*.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		if name := filepath.Base(file); set[name] == nil && !strings.HasPrefix(name, "sheet") {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			set[name] = &fstest.MapFile{Data: text}
		}
	}
}
