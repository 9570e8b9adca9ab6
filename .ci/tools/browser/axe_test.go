package browser

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// The version of axe-core that judges, and the sum of its package. It is under the
// MPL-2.0, used by this test and part of nothing.
const (
	axeVersion  = "4.10.3"
	axeSum      = "0f2b4d7dcdf7d1219df8d1959ad68e565f51d14c3f0d88bb71cd59abeb956292"
	axePatience = time.Minute // for the network
)

// axe fetches the script from npm's registry. Without npm or a network the test is left
// out, and says so; another file than the one that was pinned fails.
func axe(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	in, cancel := context.WithTimeout(context.Background(), axePatience)
	defer cancel()
	fetch := exec.CommandContext(in, "npm", "pack", "--silent", "axe-core@"+axeVersion)
	fetch.Dir = dir
	said, err := fetch.CombinedOutput()
	if err != nil {
		t.Skipf("LEFT OUT: nobody asked axe-core whether everybody can read the pages, for npm did not fetch it: %v %.300s", err, said)
	}
	packed, err := os.ReadFile(filepath.Join(dir, "axe-core-"+axeVersion+".tgz"))
	if err != nil {
		t.Fatal(err)
	}
	if sum := sha256.Sum256(packed); hex.EncodeToString(sum[:]) != axeSum {
		t.Fatalf("axe-core %s has the sum %x, not the one that was pinned", axeVersion, sum)
	}
	unpacked, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	for files := tar.NewReader(unpacked); ; {
		head, err := files.Next()
		if errors.Is(err, io.EOF) {
			t.Fatal("the package has no axe.min.js")
		}
		if err != nil {
			t.Fatal(err)
		}
		if head.Name == "package/axe.min.js" {
			script, err := io.ReadAll(files)
			if err != nil {
				t.Fatal(err)
			}
			return string(script)
		}
	}
}

// violation is a rule of axe-core that a page breaks, and where.
type violation struct {
	ID, Impact, Help string
	Nodes            []struct{ HTML string }
}

// Who cannot see a page, sees little or uses no mouse can read it as well, as far as a
// program can tell.
func TestEverybodyCanRead(t *testing.T) {
	script := axe(t)
	pages := demoPages(t)
	tab := newTab(t)
	tab.do(t, page.SetBypassCSP(true)) // the page's own policy lets no script in, and is right
	for name, file := range pages {
		tab.open(t, file)
		tab.do(t, chromedp.Evaluate(script, nil))
		for width, scheme := range map[int64]string{360: "dark", 1100: "light"} {
			tab.media(t, width, scheme)
			var got struct {
				Violations []violation
				Passes     int
			}
			tab.do(t, chromedp.Evaluate(`axe.run({resultTypes: ["violations"]}).then(r => ({violations: r.violations, passes: r.passes.length}))`,
				&got, func(p *runtime.EvaluateParams) *runtime.EvaluateParams { return p.WithAwaitPromise(true) }))
			if got.Passes < 10 {
				t.Errorf("%s: only %d rules were asked", name, got.Passes)
			}
			for _, v := range got.Violations {
				t.Errorf("%s at %d px, %s: %s (%s): %s", name, width, scheme, v.Help, v.Impact, strings.TrimSpace(v.Nodes[0].HTML))
			}
		}
	}
}
