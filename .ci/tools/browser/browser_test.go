package browser

import (
	"context"
	_ "embed"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/tools/draw"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

//go:embed layout.js
var layout string

// How many mixes nobody put together, how many share a page, and of how many there is a
// sheet.
const (
	drawnMixes = 60
	aPage      = 10
	drawnSheet = 12
)

// root is the library's module.
const root = "../../.."

// built is the command, made once.
var built = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "pages")
	if err != nil {
		return "", err
	}
	command := filepath.Join(dir, "cogcourt")
	make := exec.Command("go", "build", "-o", command, "./cmd/cogcourt")
	make.Dir = root
	out, err := make.CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	return command, nil
})

func TestMain(m *testing.M) {
	status := m.Run()
	if command, err := built(); err == nil {
		os.RemoveAll(filepath.Dir(command))
	}
	os.Exit(status)
}

// pageOf makes a page with one run of the command and gives its file. Exit statuses are
// those of verdicts.
func pageOf(t *testing.T, name string, args ...string) string {
	t.Helper()
	command, err := built()
	if err != nil {
		t.Fatal(err)
	}
	run := exec.Command(command, args...)
	var wrong strings.Builder
	run.Stderr = &wrong
	out, err := run.Output()
	if wrong.Len() > 0 || len(out) == 0 {
		t.Fatalf("%s: %v %s", strings.Join(args, " "), err, wrong.String())
	}
	file := filepath.Join(t.TempDir(), name+".html")
	if err := os.WriteFile(file, out, 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// demoPages are the reports and sheets of the demo, and one of every other page, by name.
func demoPages(t *testing.T) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, name := range demo.Mixes() {
		out["report "+name] = pageOf(t, name, "check", "--format", "html", "demo:"+name)
		out["sheet "+name] = pageOf(t, name, "sheet", "--format", "html", "demo:"+name)
	}
	out["change"] = pageOf(t, "change", "compare", "--format", "html", "demo:fleet-three-faults", "demo:ferry-motor")
	out["fit"] = pageOf(t, "fit", "fit", "--format", "html", "demo:fleet-three-faults", "--kind", "cassette")
	out["rules"] = pageOf(t, "rules", "rules", "--format", "html")
	out["several"] = pageOf(t, "several", "check", "--format", "html", "demo:ferry-motor", "demo:donated-undecided")
	return out
}

// drawnPages are those of mixes that nobody put together: reports, several on a page,
// and sheets.
func drawnPages(t *testing.T) map[string]string {
	t.Helper()
	of := []interface{ Next() map[string]any }{draw.New(17, false), &made{Rand: rand.New(rand.NewPCG(5, 26))}}
	dir := t.TempDir()
	var files []string
	for i := range drawnMixes {
		text, err := json.Marshal(of[i%2].Next())
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(dir, fmt.Sprintf("mix%d.json", i))
		if err := os.WriteFile(file, text, 0o600); err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
	}
	out := map[string]string{}
	for i := 0; i < len(files); i += aPage {
		name := fmt.Sprintf("reports of drawn %d to %d", i+1, i+aPage)
		out[name] = pageOf(t, "reports", append([]string{"check", "--format", "html"}, files[i:i+aPage]...)...)
	}
	for i := range drawnSheet {
		out[fmt.Sprintf("sheet of drawn %d", i+1)] = pageOf(t, "sheet", "sheet", "--format", "html", files[i])
	}
	return out
}

// tab is a tab of the browser that notes what no page may do.
type tab struct {
	context.Context
	sync.Mutex
	requests, complaints []string
}

// newTab opens a browser for one test.
func newTab(t *testing.T) *tab {
	t.Helper()
	chromium, err := exec.LookPath("chromium")
	if err != nil {
		t.Fatal("no chromium: .ci/run installs Debian's, and without it nobody has looked at the pages")
	}
	options := append(slices.Clone(chromedp.DefaultExecAllocatorOptions[:]), chromedp.ExecPath(chromium), chromedp.NoSandbox)
	on, stop := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(stop)
	on, closeTab := chromedp.NewContext(on)
	t.Cleanup(closeTab)
	tab := &tab{Context: on}
	chromedp.ListenTarget(on, tab.hear)
	if err := chromedp.Run(on, network.Enable(), log.Enable(), runtime.Enable()); err != nil {
		t.Fatal(err)
	}
	return tab
}

// hear notes requests but that for the page, and what the console says.
func (tab *tab) hear(event any) {
	tab.Lock()
	defer tab.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		tab.requests = append(tab.requests, e.Request.URL)
	case *log.EventEntryAdded:
		tab.complaints = append(tab.complaints, e.Entry.Text)
	case *runtime.EventExceptionThrown:
		tab.complaints = append(tab.complaints, e.ExceptionDetails.Error())
	case *runtime.EventConsoleAPICalled:
		tab.complaints = append(tab.complaints, "the console was called: "+string(e.Type))
	}
}

// visit shows a page; it gives what was asked for beside it, and what the console said.
func (tab *tab) visit(t *testing.T, file string) (requests, complaints []string) {
	t.Helper()
	tab.Lock()
	tab.requests, tab.complaints = nil, nil
	tab.Unlock()
	tab.do(t, chromedp.Navigate("file://"+file))
	tab.Lock()
	defer tab.Unlock()
	if len(tab.requests) == 0 || tab.requests[0] != "file://"+file {
		t.Fatalf("%q were asked for, not %s", tab.requests, file)
	}
	return tab.requests[1:], tab.complaints
}

// open shows a page that asks for nothing.
func (tab *tab) open(t *testing.T, file string) {
	t.Helper()
	if requests, complaints := tab.visit(t, file); len(requests)+len(complaints) > 0 {
		t.Errorf("%s asked for %q, and the console has %q", filepath.Base(file), requests, complaints)
	}
}

func (tab *tab) do(t *testing.T, actions ...chromedp.Action) {
	t.Helper()
	if err := chromedp.Run(tab, actions...); err != nil {
		t.Fatal(err)
	}
}

// media shows the page so wide, in light or dark.
func (tab *tab) media(t *testing.T, width int64, scheme string) {
	t.Helper()
	feature := []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}
	tab.do(t, emulation.SetDeviceMetricsOverride(width, 900, 1, false), emulation.SetEmulatedMedia().WithFeatures(feature))
}

// No text lies over another, outside its drawing or beyond the page's width, and each can
// be read, whatever was drawn, on whatever is looked at.
func TestLayout(t *testing.T) {
	pages := demoPages(t)
	for name, file := range drawnPages(t) {
		pages[name] = file
	}
	tab, looked, drawn := newTab(t), 0, 0
	for name, file := range pages {
		tab.open(t, file)
		for _, width := range []int64{360, 800, 1100} {
			for _, scheme := range []string{"light", "dark"} {
				tab.media(t, width, scheme)
				var got struct {
					Texts, Drawings int
					Faults          []string
				}
				tab.do(t, chromedp.Evaluate(layout, &got))
				looked, drawn = looked+got.Texts, drawn+got.Drawings
				if got.Texts < 10 {
					t.Errorf("%s has %d texts", name, got.Texts)
				}
				if n := len(got.Faults); n > 0 {
					t.Errorf("%s at %d px, %s: %d faults, first %q", name, width, scheme, n, got.Faults[:min(n, 6)])
				}
			}
		}
	}
	if drawn < 6*2*drawnMixes {
		t.Errorf("the mixes are too tame: only %d drawings in all", drawn)
	}
	t.Logf("%d pages, %d texts, %d drawings", len(pages), looked, drawn)
}

// The layout's test finds what it looks for.
func TestLayoutFindsFaults(t *testing.T) {
	file := filepath.Join(t.TempDir(), "wrong.html")
	page := `<!DOCTYPE html><title>x</title>
<style>body{margin:0;font:16px sans-serif}.a{position:absolute;top:10px;left:10px}</style>
<p class="a">one over</p><p class="a">the other</p><p style="font-size:9px">small</p><div style="width:3000px;height:1px"></div>
<svg class="pic" width="100" height="50" viewBox="0 0 100 50" style="overflow:visible">
<text x="90" y="40" font-size="13">outside of it</text></svg>
<svg class="pic" width="100" height="50" viewBox="0 0 200 100"><text x="9" y="40" font-size="13">tiny</text></svg>
<img src="missing.png"><script>console.log("x")</script>`
	if err := os.WriteFile(file, []byte(page), 0o600); err != nil {
		t.Fatal(err)
	}
	tab := newTab(t)
	if requests, complaints := tab.visit(t, file); len(requests) != 1 || len(complaints) == 0 {
		t.Errorf("%q and %q were noticed of a picture and a script", requests, complaints)
	}
	tab.media(t, 360, "light")
	var got struct{ Faults []string }
	tab.do(t, chromedp.Evaluate(layout, &got))
	all := strings.Join(got.Faults, "\n")
	for _, want := range []string{"over each other: one over / the other", "9.0 px: small", "sideways",
		"outside its drawing", "6.5 px: tiny"} {
		if !strings.Contains(all, want) {
			t.Errorf("not found: %s in\n%s", want, all)
		}
	}
}
