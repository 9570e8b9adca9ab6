package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime/debug"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/source"
)

// catalogue loads the part files that the flags name, or the demo.
func (o options) catalogue() (*catalog.Catalog, error) {
	if len(o.parts) == 0 {
		return catalog.Load(demo.Files())
	}
	return load(o.parts)
}

// load reads the part files of folders.
func load(names []string) (*catalog.Catalog, error) {
	dirs, err := folders(names)
	if err != nil {
		return nil, err
	}
	return catalog.Load(dirs...)
}

// checker compiles the rules that the flags name.
func (o options) checker() (*compat.Checker, error) {
	dirs, err := ruleFiles(o.rules)
	if err != nil {
		return nil, err
	}
	return compat.New(compat.Config{Rules: dirs, NoStandard: o.noStandard, NoUsual: o.noUsual})
}

// startPace lets the heap grow to five times what is in use before the collector
// works. A process that loads the demo and judges a mix keeps nearly all that it
// makes, some ten megabytes, and has the collector look at it three times else, for a
// fifth of its processor time. steadyPace is that of any program, for what goes on.
const (
	startPace  = 400
	steadyPace = 100
)

// pace sets the collector's pace where nobody else did.
func pace(percent int) {
	if _, set := os.LookupEnv("GOGC"); !set {
		debug.SetGCPercent(percent)
	}
}

// open gives what mixes are judged with; the error holds the faults of both.
func (o options) open() (*compat.Checker, *catalog.Catalog, error) {
	// Parts of somebody's own can be so many that five times their memory is too much.
	if len(o.parts) == 0 {
		pace(startPace)
	}
	c, faults := o.checker()
	cat, err := o.catalogue()
	return c, cat, together(faults, err)
}

// folder is a directory whose files are named by the path that the user gave.
type folder struct {
	files fs.FS
	dir   string
}

// Open refuses what is neither a file nor a folder before it is opened: opening
// a pipe would wait for somebody to write into it.
func (f folder) Open(name string) (fs.File, error) {
	info, err := fs.Stat(f.files, name)
	if err != nil {
		return nil, err
	}
	if !info.IsDir() && !info.Mode().IsRegular() {
		return nil, errors.New("it is not a regular file")
	}
	return f.files.Open(name)
}

// Path implements source.PathFS.
func (f folder) Path(name string) string { return filepath.Join(f.dir, filepath.FromSlash(name)) }

// folders opens directories. A file in place of one is a fault with a hint.
func folders(dirs []string) ([]fs.FS, error) {
	var ps source.Problems
	var out []fs.FS
	for _, dir := range dirs {
		info, err := os.Stat(dir)
		switch {
		case err != nil:
			ps.Add(source.Pos{File: dir}, "", "cannot be read: "+plain(err).Error(), "").Code = source.Unreadable
		case !info.IsDir():
			ps.Add(source.Pos{File: dir}, "", "is not a folder", "name the folder that the file is in: "+filepath.Dir(dir)).Code = source.Unreadable
		}
		out = append(out, folder{os.DirFS(dir), dir})
	}
	return out, ps.Err()
}

// fileText reads a regular file. It looks before it opens: opening a pipe would
// wait for somebody to write into it.
func fileText(name string, within source.Limits) ([]byte, error) {
	info, err := os.Stat(name)
	switch {
	case err != nil:
		return nil, unreadable(name, err)
	case info.IsDir():
		return nil, source.Problems{{Pos: source.Pos{File: name}, Code: source.Unreadable, Text: "is a folder",
			Hint: "name the mix files in it, such as " + filepath.Join(name, "bike.yaml")}}
	case !info.Mode().IsRegular():
		return nil, notRegular(name)
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, unreadable(name, err)
	}
	defer f.Close()
	if source.Waits(f) {
		return nil, notRegular(name)
	}
	text, err := within.Read(f)
	if err != nil {
		return nil, unreadable(name, err)
	}
	return text, nil
}

func notRegular(name string) error {
	return source.Problems{{Pos: source.Pos{File: name}, Code: source.Unreadable, Text: "is not a regular file",
		Hint: "write - and send it to the standard input"}}
}

func unreadable(name string, err error) error {
	return source.Problems{{Pos: source.Pos{File: name}, Code: source.Unreadable, Text: "cannot be read: " + plain(err).Error()}}
}

// plain takes the path out of an error, which the place says already.
func plain(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}
