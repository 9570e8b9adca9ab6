package view

import (
	"bytes"
	"encoding/json"
	"io"

	"example.org/cogcourt/compat"
)

// Indented prints a value as JSON with two spaces a level and a line end.
func Indented(w io.Writer, v any) error {
	line, err := Line(v)
	if err != nil {
		return err
	}
	var out bytes.Buffer
	if err := json.Indent(&out, line, "", "  "); err != nil {
		return err
	}
	_, err = w.Write(out.Bytes())
	return err
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
