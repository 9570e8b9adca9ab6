package report

import (
	"bytes"
	"encoding/json"
	"fmt"

	"example.org/cogcourt/compat/internal/wire"
)

// MarshalJSON writes what was read in the same bytes.
func (r Report) MarshalJSON() ([]byte, error) {
	type plain Report
	return wire.Encode(plain(r))
}

// MarshalJSON writes what was read in the same bytes.
func (c Change) MarshalJSON() ([]byte, error) {
	type plain Change
	return wire.Encode(plain(c))
}

// MarshalJSON writes what was read in the same bytes.
func (s Sheet) MarshalJSON() ([]byte, error) {
	type plain Sheet
	return wire.Encode(plain(s))
}

// MarshalJSON writes what was read in the same bytes.
func (c Cart) MarshalJSON() ([]byte, error) {
	type plain Cart
	return wire.Encode(plain(c))
}

// Figures are the figures that have a value, in the order of a report.
type Figures []Figure

// Figure is a figure with its value: a number, flag or text, or a list.
type Figure struct {
	Name  string
	Value any
}

// MarshalJSON writes an object in the given order.
func (f Figures) MarshalJSON() ([]byte, error) {
	out := []byte{'{'}
	for i, v := range f {
		if i > 0 {
			out = append(out, ',')
		}
		value, err := wire.Encode(v.Value)
		if err != nil {
			return nil, err
		}
		out = append(append(wire.AppendString(out, v.Name), ':'), value...)
	}
	return append(out, '}'), nil
}

// UnmarshalJSON reads an object and keeps its order.
func (f *Figures) UnmarshalJSON(text []byte) error {
	*f = Figures{}
	d := json.NewDecoder(bytes.NewReader(text))
	if t, err := d.Token(); err != nil || t != json.Delim('{') {
		return fmt.Errorf("figures are an object, not %.20s", text)
	}
	for d.More() {
		name, err := d.Token()
		if err != nil {
			return err
		}
		var value any
		if err := d.Decode(&value); err != nil {
			return err
		}
		*f = append(*f, Figure{name.(string), value})
	}
	return nil
}

// AppendJSON appends the JSON of a set's name and count.
func (s RuleSet) AppendJSON(dst []byte) []byte {
	dst = wire.AppendList(append(dst, `{"packs":`...), s.Packs, func(dst []byte, p Pack) []byte {
		dst = wire.AppendString(append(dst, `{"pack":`...), p.Pack)
		return append(wire.AppendFloat(append(dst, `,"edition":`...), float64(p.Edition)), '}')
	})
	dst = wire.AppendString(append(dst, `,"hash":`...), s.Hash)
	return append(wire.AppendFloat(append(dst, `,"count":`...), float64(s.Count)), '}')
}
