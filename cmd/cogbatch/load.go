package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/demo"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/source"
)

// settings say what lines are judged by.
type settings struct {
	Rules, Parts              []string
	NoStandard, NoUsual, Full bool
}

// judges is what lines are judged by, loaded. It is immutable.
type judges struct {
	checker *compat.Checker
	parts   *catalog.Catalog
	extent  compat.Extent
}

// loads are what this process has loaded, by their settings: once, however many steps
// of a pipeline, bundles and goroutines ask.
var loads sync.Map // of a text to a func() (*judges, error)

// load gives what lines are judged by. The error holds all faults of rules and parts.
func (s settings) load() (*judges, error) {
	once, _ := loads.LoadOrStore(fmt.Sprintf("%q %q %t %t %t", s.Rules, s.Parts, s.NoStandard, s.NoUsual, s.Full), sync.OnceValues(s.read))
	return once.(func() (*judges, error))()
}

// read reads rules and parts.
func (s settings) read() (*judges, error) {
	rules, err := folders(s.Rules)
	if err != nil {
		return nil, err
	}
	parts, err := folders(s.Parts)
	if err != nil {
		return nil, err
	}
	if len(parts) == 0 {
		parts = []fs.FS{demo.Files()}
	}
	j := &judges{extent: compat.ExtentBrief}
	if s.Full {
		j.extent = compat.ExtentFull
	}
	var noRules, noParts error
	j.checker, noRules = compat.New(compat.Config{Rules: rules, NoStandard: s.NoStandard, NoUsual: s.NoUsual})
	j.parts, noParts = catalog.Load(parts...)
	var all source.Problems
	for _, err := range []error{noRules, noParts} {
		var ps source.Problems
		if err != nil && !errors.As(err, &ps) {
			return nil, err
		}
		all = append(all, ps...)
	}
	if noRules == nil && len(j.checker.Rules().Rules()) == 0 {
		all.Add(source.Pos{}, "", "no rules were found", "a rule file ends in .yaml, .yml or .json and has rules: in it").Code = source.Empty
	}
	if err := all.Err(); err != nil {
		return nil, err
	}
	return j, nil
}

// folder is a directory whose files are named by the path that the user gave.
type folder struct {
	fs.FS
	dir string
}

// Path implements source.PathFS.
func (f folder) Path(name string) string { return filepath.Join(f.dir, filepath.FromSlash(name)) }

// folders opens directories. One without any data file is refused: with a slip in
// its name lines would be judged by the rest alone, and nobody would see it.
func folders(dirs []string) ([]fs.FS, error) {
	var ps source.Problems
	var out []fs.FS
	for _, dir := range dirs {
		info, err := os.Stat(dir)
		switch {
		case err != nil:
			ps.Add(source.Pos{File: dir}, "", "cannot be read: "+err.Error(), "").Code = source.Unreadable
			continue
		case !info.IsDir():
			ps.Add(source.Pos{File: dir}, "", "is not a folder", "name the folder that the file is in: "+filepath.Dir(dir)).Code = source.Unreadable
			continue
		}
		f := folder{os.DirFS(dir), dir}
		before := ps.Count()
		if len(source.ReadFiles(f, &ps)) == 0 && ps.Count() == before {
			ps.Add(source.Pos{File: dir}, "", "holds no data file", "data files end in .yaml, .yml or .json").Code = source.Empty
		}
		out = append(out, f)
	}
	return out, ps.Err()
}
