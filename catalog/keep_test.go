package catalog

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
)

// A catalogue keeps nothing of the text of its files: that of a small one is not as large
// as a remark in it.
func TestFilesAreNotKept(t *testing.T) {
	const remark = 6 << 20
	note := strings.Repeat("x", remark)
	files := map[string]string{
		"all.json": `{"catalog": "Small", "currency": "EUR", "note": "%s", "parts": [{"kind": "cassette", "id": "a", "name": "A", "maker": "M", "sku": "S",
			"price": 4.50, "basis": "measured", "cogs_t": [11, 13, 15], "freehub": ["own-body", "spline-9"], "index_family": "own-family"}]}`,
		"usual.json": `{"note": "%s", "parts": [{"kind": "chain", "id": "b", "name": "B", "basis": "usual", "speeds": 12,
			"outer_width_mm": {"usual": 5.2, "least": 5.1, "most": 5.3, "source": "my-own-page"}}]}`,
	}
	for name, text := range files {
		whole := []byte(fmt.Sprintf(text, note))
		before := heap()
		c, err := ReadFile(name, whole)
		if err != nil {
			t.Fatal(err)
		}
		if kept := heap() - before; kept > remark/2 {
			t.Errorf("%s: %d bytes are kept", name, kept)
		}
		runtime.KeepAlive(whole)
		runtime.KeepAlive(c)
	}
}

// heap is what is in use.
func heap() int64 {
	var m runtime.MemStats
	runtime.GC()
	runtime.GC()
	runtime.ReadMemStats(&m)
	return int64(m.HeapAlloc)
}
