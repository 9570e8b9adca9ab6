package picture_test

import (
	"encoding/xml"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/cogcourt/compat/picture"
)

// update writes the README's pictures; .ci/update runs it, and then look at git diff.
var update = flag.Bool("update", false, "write the README's pictures anew")

// TestReadmePictures holds the pictures that the README shows to what is drawn, and that
// the README shows them, each with its sentence for who cannot see it.
func TestReadmePictures(t *testing.T) {
	const root = "../.."
	readme, err := os.ReadFile(filepath.Join(root, "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	shown := 0
	for _, p := range picture.All(demoOutline(t, "ferry-motor"), picture.Options{}) {
		if !p.Wide && p.Name != "error" {
			continue
		}
		shown++
		path := "testdata/pictures/" + p.Name + ".svg"
		if !strings.Contains(string(readme), "]("+path+")") {
			t.Errorf("the README does not show %s", path)
		}
		got := alone(p.SVG)
		if err := xml.Unmarshal([]byte(got), new(struct{})); err != nil {
			t.Errorf("%s is no XML: %v", path, err)
		}
		if *update {
			if err := os.WriteFile(filepath.Join(root, path), []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(filepath.Join(root, path))
		if err != nil || got != string(want) {
			t.Errorf("%s is another one (%v); .ci/update writes it anew", path, err)
		}
	}
	if shown != 2 {
		t.Errorf("%d pictures are for the README", shown)
	}
}

// alone makes a drawing a file of its own, with its style in it and the paper under it.
func alone(svg string) string {
	head, rest, _ := strings.Cut(svg, ">")
	return strings.Replace(head, "<svg", `<svg xmlns="http://www.w3.org/2000/svg"`, 1) + "><style>" +
		strings.ReplaceAll(picture.Style(), ">", "&gt;") + "svg { background: var(--paper); }\n</style>" + rest + "\n"
}
