package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"reflect"

	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/tools/draw"
)

// lines and carts are how many documents one round goes over.
const (
	lines = 1000
	carts = 400
)

// document is one line or cart: what comes in, and what goes out.
type document struct {
	in  []byte
	out any // to be encoded
}

// judge makes the answer to a document, in memory that it may write over.
type judge func(in, to []byte) ([]byte, error)

// over makes work of documents. That both give the same bytes is seen to first, or
// the bound would be of something else.
func over(name string, docs []document, ours judge, decode func(in []byte) error) (work, error) {
	enc := newEncoder()
	var to []byte
	for _, d := range docs {
		got, err := ours(d.in, to[:0])
		if err != nil {
			return work{}, err
		}
		to = got
		if want, err := enc.encode(d.out); err != nil || !bytes.Equal(got, want) {
			return work{}, fmt.Errorf("%s: the bytes differ (%v):\n%s\n%s", name, err, got, want)
		}
	}
	return work{
		name: name, count: len(docs),
		ours: func() (n int, err error) {
			for _, d := range docs {
				if to, err = ours(d.in, to[:0]); err != nil {
					return n, err
				}
				n += len(to)
			}
			return n, nil
		},
		bound: func() (n int, err error) {
			for _, d := range docs {
				if err := decode(d.in); err != nil {
					return n, err
				}
				out, err := enc.encode(d.out)
				if err != nil {
					return n, err
				}
				n += len(out)
			}
			return n, nil
		},
	}, nil
}

// lineWork is a mix a line: mixes whose parts state all that they are judged by,
// and mixes in which usual values stand in for some of it.
func lineWork() ([]work, error) {
	listed, err := draw.NewListed(1)
	if err != nil {
		return nil, err
	}
	checker, err := compat.New(compat.Config{})
	if err != nil {
		return nil, err
	}
	ours := func(in, to []byte) ([]byte, error) {
		m, err := compat.ReadMixLine("stdin", 1, in, listed.Parts())
		if err != nil {
			return nil, err
		}
		out, _ := checker.AppendCheck(to, m, compat.ExtentBrief, 0)
		return out, nil
	}
	var stated, usual []document
	for len(stated) < lines || len(usual) < lines {
		in, err := json.Marshal(listed.Next())
		if err != nil {
			return nil, err
		}
		out, err := ours(in, nil)
		if err != nil {
			return nil, err
		}
		r, err := known(out)
		if err != nil {
			return nil, err
		}
		if to := &stated; len(*to) < lines && len(r.Usual) == 0 {
			*to = append(*to, document{in, &r})
		} else if to := &usual; len(*to) < lines && len(r.Usual) > 0 {
			*to = append(*to, document{in, &r})
		}
	}
	a, err := over("a line, all stated", stated, ours, decodeLine)
	if err != nil {
		return nil, err
	}
	b, err := over("a line, some usual", usual, ours, decodeLine)
	return []work{a, b}, err
}

// decodeLine reads a mix, or the map of parts alone, as whoever knows its kinds would.
func decodeLine(in []byte) error {
	if !bytes.Contains(in, []byte(`"mix":`)) {
		return json.Unmarshal(in, reflect.New(partsType).Interface())
	}
	m := ready()
	if bytes.HasPrefix(in, []byte(`{"bench":`)) {
		m.Bench = reflect.New(benchType).Interface()
	}
	return json.Unmarshal(in, &m)
}

// cartWork is a cart as a shop's server gets it.
func cartWork() ([]work, error) {
	listed, err := draw.NewListed(2)
	if err != nil {
		return nil, err
	}
	live, err := cart.NewLive(compat.Config{}, demo.Files())
	if err != nil {
		return nil, err
	}
	ours := func(in, to []byte) ([]byte, error) {
		out, _, err := live.AppendCheckCart(context.Background(), to, "cart.json", in)
		return out, err
	}
	var docs []document
	for range carts {
		in, err := json.Marshal(listed.Cart())
		if err != nil {
			return nil, err
		}
		text, err := ours(in, nil)
		if err != nil {
			return nil, err
		}
		out, err := knownCart(text)
		if err != nil {
			return nil, err
		}
		docs = append(docs, document{in, &out})
	}
	w, err := over("a cart", docs, ours, func(in []byte) error {
		return json.Unmarshal(in, &cartIn{Bikes: []mixIn{ready(), ready(), ready()}[:0]})
	})
	return []work{w}, err
}

// knownCart reads a cart's report back; its figures need structs of their own.
func knownCart(text []byte) (cartOut, error) {
	var raw struct {
		Bikes []struct{ Report json.RawMessage }
	}
	out := cartOut{}
	if err := json.Unmarshal(text, &raw); err != nil {
		return out, err
	}
	if err := json.Unmarshal(text, &out); err != nil {
		return out, err
	}
	for i := range out.Bikes {
		r, err := known(raw.Bikes[i].Report)
		if err != nil {
			return out, err
		}
		out.Bikes[i].Report = r
	}
	return out, nil
}
