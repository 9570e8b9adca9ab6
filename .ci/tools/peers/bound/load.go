package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"reflect"
	"slices"
	"testing/fstest"

	"gopkg.in/yaml.v3"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
)

// The parts of a large shop, and how many of them stand in one file.
const (
	manyParts  = 10_000
	partsAFile = 2000
)

// partFile is one file of parts, all of one kind, and the struct that holds it.
type partFile struct {
	text []byte
	of   reflect.Type
}

// loadWork is a catalogue of many parts, as JSON: the demo's own over and over,
// under ids of their own.
func loadWork() ([]work, error) {
	files, err := partFiles()
	if err != nil {
		return nil, err
	}
	shelf := fstest.MapFS{}
	size := 0
	for i, f := range files {
		shelf[fmt.Sprintf("parts-%04d.json", i)] = &fstest.MapFile{Data: f.text}
		size += len(f.text)
	}
	w := work{name: "a part of 10,000", count: manyParts}
	w.ours = func() (int, error) {
		c, err := catalog.Load(shelf)
		if err == nil && c.Len() != manyParts {
			err = fmt.Errorf("%d parts", c.Len())
		}
		return size, err
	}
	w.bound = func() (int, error) {
		for _, f := range files {
			if err := json.Unmarshal(f.text, reflect.New(f.of).Interface()); err != nil {
				return 0, err
			}
		}
		return size, nil
	}
	_, first := w.ours()
	_, second := w.bound()
	return []work{w}, errors.Join(first, second)
}

// partFiles makes the files, one kind after the other.
func partFiles() ([]partFile, error) {
	items, err := demoItems()
	if err != nil {
		return nil, err
	}
	byKind := map[string][]map[string]any{}
	for i := range manyParts {
		item := maps.Clone(items[i%len(items)])
		item["id"] = fmt.Sprintf("%s-%d", item["id"], i)
		kind := item["kind"].(string)
		byKind[kind] = append(byKind[kind], item)
	}
	var out []partFile
	for _, kind := range slices.Sorted(maps.Keys(byKind)) {
		of := structFor(byKind[kind])
		for chunk := range slices.Chunk(byKind[kind], partsAFile) {
			text, err := json.Marshal(map[string]any{"parts": chunk})
			if err != nil {
				return nil, err
			}
			out = append(out, partFile{text, of})
		}
	}
	return out, nil
}

// demoItems reads the demo's parts as they are written.
func demoItems() ([]map[string]any, error) {
	var out []map[string]any
	err := fs.WalkDir(demo.Files(), ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(demo.Files(), path)
		if err != nil {
			return err
		}
		var file struct{ Parts []map[string]any }
		err = yaml.Unmarshal(text, &file)
		out = append(out, file.Parts...)
		return err
	})
	return out, err
}

// structFor is the struct of a file of such parts, as one who knows the kind would
// write it: what stands there in two forms is any.
func structFor(items []map[string]any) reflect.Type {
	types := map[string]reflect.Type{}
	for _, item := range items {
		for name, v := range item {
			of := formOf(v)
			if other, there := types[name]; there && other != of {
				of = reflect.TypeFor[any]()
			}
			types[name] = of
		}
	}
	var fields []reflect.StructField
	for _, name := range slices.Sorted(maps.Keys(types)) {
		fields = append(fields, field(name, types[name], ""))
	}
	return reflect.StructOf([]reflect.StructField{field("parts", reflect.SliceOf(reflect.StructOf(fields)), "")})
}

// formOf is the Go type of a value of a file.
func formOf(v any) reflect.Type {
	switch v := v.(type) {
	case string:
		return reflect.TypeFor[string]()
	case bool:
		return reflect.TypeFor[bool]()
	case int, float64:
		return reflect.TypeFor[float64]()
	case []any:
		if len(v) > 0 {
			return reflect.SliceOf(formOf(v[0]))
		}
	}
	return reflect.TypeFor[any]()
}
