package main

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"github.com/google/licensecheck"
)

// folders are where the go.mod files lie, by what they are for.
var folders = []struct{ use, path string }{{"library", "."}, {"pipeline", "cmd/cogbatch"}, {tools, ".ci/tools"}}

// tools is the use of modules that no program of ours is made of.
const tools = "tools"

// permissive licences ask for their text to be kept, and for no more.
var permissive = []string{"0BSD", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "BSL-1.0", "CC0-1.0", "ISC", "MIT", "MIT-0", "Unlicense", "Zlib", publicDomain}

// weak copyleft asks for changes to its own files to be given away.
var weak = []string{"MPL-2.0", "MPL-2.0-no-copyleft-exception"}

// mostly is how much of a licence file must be text that is known, in percent: the rest
// are names of authors, and headings.
const mostly = 75

// required is a module with its licences, and what requires it.
type required struct {
	path, version string
	licences      []string // sorted; none where no text is known
	uses          []string // in the order of folders
}

// all reads the licences of every module that is required below a folder.
func all(root string) ([]required, error) {
	byVersion := map[string]*required{}
	for _, f := range folders {
		mods, err := download(filepath.Join(root, f.path))
		if err != nil {
			return nil, err
		}
		for _, m := range mods {
			r := byVersion[m.Path+"@"+m.Version]
			if r == nil {
				found, err := licencesIn(m.Path, m.Dir)
				if err != nil {
					return nil, err
				}
				r = &required{path: m.Path, version: m.Version, licences: found}
				byVersion[m.Path+"@"+m.Version] = r
			}
			r.uses = append(r.uses, f.use)
		}
	}
	var out []required
	for _, r := range byVersion {
		out = append(out, *r)
	}
	slices.SortFunc(out, func(a, b required) int { return cmp.Or(cmp.Compare(a.path, b.path), cmp.Compare(a.version, b.version)) })
	return out, nil
}

// module is what the go command says of one in its cache.
type module struct{ Path, Version, Dir, Error string }

// download has the go command fetch what a go.mod requires, where it is not there yet, and
// gives where it lies. What is replaced by a folder of this repository is left out by it.
func download(dir string) ([]module, error) {
	c := exec.Command("go", "mod", "download", "-json")
	c.Dir = dir
	var wrong bytes.Buffer
	c.Stderr = &wrong
	out, err := c.Output()
	if err != nil {
		return nil, fmt.Errorf("%s: go mod download: %w: %s%s", dir, err, wrong.String(), out)
	}
	var mods []module
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var m module
		switch err := d.Decode(&m); {
		case errors.Is(err, io.EOF):
			return mods, nil
		case err != nil:
			return nil, err
		case m.Error != "":
			return nil, fmt.Errorf("%s: %s", m.Path, m.Error)
		}
		mods = append(mods, m)
	}
}

// licenceFile tells the files that hold a licence by their names.
var licenceFile = regexp.MustCompile(`(?i)^(un)?(licen[cs]e|copying)([-._].*)?$`)

// licencesIn reads the licence files at the top of a module, which lies in dir.
func licencesIn(module, dir string) ([]string, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	var out []string
	for _, e := range entries {
		if e.IsDir() || !licenceFile.MatchString(e.Name()) || filepath.Ext(e.Name()) == ".go" {
			continue
		}
		text, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			return nil, err
		}
		found, known := readByHand(module, e.Name(), text)
		if !known {
			found = licencesOf(text)
		}
		out = append(out, found...)
	}
	slices.Sort(out)
	return slices.Compact(out), nil
}

// licencesOf tells the licences of a text by their short names of SPDX; unknown is one of
// them where too little of the text is that of a licence.
func licencesOf(text []byte) []string {
	cov := licensecheck.Scan(text)
	if cov.Percent < mostly {
		return []string{unknown}
	}
	var out []string
	for _, m := range cov.Match {
		out = append(out, m.ID)
	}
	return out
}

// unknown stands for a licence that nobody here has read.
const unknown = "unknown"

// table prints a line a module.
func table(list []required) string {
	var b strings.Builder
	for _, r := range list {
		fmt.Fprintf(&b, "%s %s: %s (%s)\n", r.path, r.version, cmp.Or(strings.Join(r.licences, " and "), "none"), strings.Join(r.uses, ", "))
	}
	return b.String()
}

// faultsOf says which modules may not be used as they are.
func faultsOf(list []required) []string {
	var out []string
	for _, r := range list {
		if len(r.licences) == 0 {
			out = append(out, fmt.Sprintf("%s %s has no licence file", r.path, r.version))
		}
		inTools := !slices.ContainsFunc(r.uses, func(use string) bool { return use != tools })
		for _, l := range r.licences {
			switch {
			case slices.Contains(permissive, l), inTools && slices.Contains(weak, l):
			case slices.Contains(weak, l):
				out = append(out, fmt.Sprintf("%s %s is under %s, weak copyleft, which is allowed in .ci/tools alone, and is used in %s",
					r.path, r.version, l, strings.Join(r.uses, ", ")))
			default:
				out = append(out, fmt.Sprintf("%s %s is under %s, which is not allowed", r.path, r.version, l))
			}
		}
	}
	return out
}
