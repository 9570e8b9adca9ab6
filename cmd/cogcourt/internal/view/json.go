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

// Value prints a value as JSON, indented.
func Value(w io.Writer, v any) error {
	line, err := Line(v)
	if err != nil {
		return err
	}
	return indented(w, line)
}

// Line gives a value as JSON on one line, with its line end. Signs of markup stay
// as they are; what would draw or hide on a terminal is escaped.
func Line(v any) ([]byte, error) {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	err := enc.Encode(v)
	return compat.EscapeJSON(out.Bytes()), err
}

// indented writes JSON with two spaces a level and a line end.
func indented(w io.Writer, text []byte) error {
	var out bytes.Buffer
	if err := json.Indent(&out, bytes.TrimSpace(text), "", "  "); err != nil {
		return err
	}
	out.WriteByte('\n')
	_, err := w.Write(out.Bytes())
	return err
}
