package view

import (
	"bytes"
	"encoding/json"
	"io"

	"example.org/cogcourt/compat"
)

// JSON prints reports, indented: one object where only one mix was asked for,
// else an array.
func JSON(w io.Writer, reports []compat.Report, single bool) error {
	var all bytes.Buffer
	if !single {
		all.WriteByte('[')
	}
	for i, r := range reports {
		if i > 0 {
			all.WriteByte(',')
		}
		b, err := r.MarshalJSON()
		if err != nil {
			return err
		}
		all.Write(b)
	}
	if !single {
		all.WriteByte(']')
	}
	if all.Len() == 0 { // the one mix did not load: nothing is printed
		return nil
	}
	return indented(w, all.Bytes())
}

// indented writes JSON with two spaces a level and a line end.
func indented(w io.Writer, text []byte) error {
	var out bytes.Buffer
	if err := json.Indent(&out, text, "", "  "); err != nil {
		return err
	}
	out.WriteByte('\n')
	_, err := w.Write(out.Bytes())
	return err
}
