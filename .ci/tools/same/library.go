package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
)

// library is all that this program asks of the library. Beside another state of
// it only this file has to change, and tables.go of draw.
type library struct {
	checker *compat.Checker
	parts   *catalog.Catalog
}

func newLibrary(parts *catalog.Catalog) (library, error) {
	c, err := compat.New(compat.Config{})
	return library{c, parts}, err
}

// report judges a mix file.
func (l library) report(text []byte) ([]byte, error) {
	m, err := compat.ReadMix("mix.json", text, l.parts)
	if err != nil {
		return nil, err
	}
	return json.Marshal(l.checker.Check(m))
}

// sheet makes the setup sheet of a mix file.
func (l library) sheet(text []byte) ([]byte, error) {
	m, err := compat.ReadMix("mix.json", text, l.parts)
	if err != nil {
		return nil, err
	}
	return json.Marshal(l.checker.Sheet(m))
}

// cart judges a cart file, in both ways.
func (l library) cart(text []byte) ([]byte, error) {
	order, err := cart.Read("cart.json", text, l.parts)
	if err != nil {
		return nil, err
	}
	report, err := order.Check(context.Background(), l.checker, l.parts)
	if err != nil {
		return nil, err
	}
	text, err = json.Marshal(report)
	if err != nil {
		return nil, err
	}
	once, _, err := order.AppendCheck(context.Background(), nil, l.checker, l.parts)
	if err == nil && !bytes.Equal(once, text) {
		err = errors.New("a cart that is judged and written in one has other bytes")
	}
	return text, err
}
