// Package wire writes the JSON of reports, changes, carts and sheets: one way to
// encode, for all of them.
//
//	text, err := wire.Encode(reportJSON{Findings: wire.Some(findings)})
//
// It knows none of their shapes.
package wire

import (
	"bytes"
	"encoding/json"
	"io"
	"sync"
)

// Encode writes JSON without turning < and > of texts into escapes; what would
// draw or hide is escaped.
func Encode(v any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return nil, err
	}
	return Escape(bytes.TrimRight(b.Bytes(), "\n")), nil
}

// Some turns a nil list into an empty one, for JSON that has no null.
func Some[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

// spare is memory for WriteTo.
var spare = sync.Pool{New: func() any { return new([]byte) }}

// WriteTo writes what a document appends, in one piece.
func WriteTo(w io.Writer, document func(dst []byte) []byte) (int64, error) {
	text := spare.Get().(*[]byte)
	defer spare.Put(text)
	*text = document((*text)[:0])
	n, err := w.Write(*text)
	return int64(n), err
}
