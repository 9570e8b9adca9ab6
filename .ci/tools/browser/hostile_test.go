package browser

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// Names that try to be more stay text in a browser: a page has no more elements than
// with harmless names, shows each, and asks for nothing.
func TestHostileNames(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(root, "testdata", "hostile", "names.txt"))
	if err != nil {
		t.Fatal(err)
	}
	names := strings.Split(strings.TrimSuffix(string(text), "\n"), "\n")[1:]
	if len(names) < 80 {
		t.Fatalf("only %d names", len(names))
	}
	harmless := make([]string, len(names))
	for i := range names {
		harmless[i] = fmt.Sprintf("Bicycle %d", i)
	}
	tab := newTab(t)
	count := func(names []string) (elements int, shown string) {
		tab.open(t, pageNamed(t, names))
		tab.do(t, chromedp.Evaluate(`document.querySelectorAll("*").length`, &elements),
			chromedp.Evaluate(`[...document.querySelectorAll("h1")].map(e => e.textContent).join("\n")`, &shown))
		return elements, shown
	}
	want, _ := count(harmless)
	got, shown := count(names)
	if got != want || want < 80*10 {
		t.Errorf("%d elements, %d with harmless names", got, want)
	}
	for _, name := range names {
		if !strings.Contains(shown, name) {
			t.Errorf("%q is not shown as it is", name)
		}
	}
}

// pageNamed is a page of mixes with these names, which their chains have as well.
func pageNamed(t *testing.T, names []string) string {
	t.Helper()
	dir := t.TempDir()
	args := []string{"check", "--format", "html"}
	for i, name := range names {
		mix, err := json.Marshal(map[string]any{"mix": name, "parts": map[string]any{
			"chain": map[string]any{"name": name, "speeds": 9}, "cassette": map[string]any{"cogs_t": []int{11, 13, 15}, "pitch_mm": 4.34},
		}})
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(dir, fmt.Sprintf("%d.json", i))
		if err := os.WriteFile(file, mix, 0o600); err != nil {
			t.Fatal(err)
		}
		args = append(args, file)
	}
	return pageOf(t, "named", args...)
}
