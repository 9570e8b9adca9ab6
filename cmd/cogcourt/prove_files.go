package main

import (
	"io/fs"
	"os"
	"path/filepath"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// oneFile is a folder of which one file alone is seen.
type oneFile struct {
	folder
	name string
}

// ReadDir implements fs.ReadDirFS.
func (f oneFile) ReadDir(dir string) ([]fs.DirEntry, error) {
	info, err := fs.Stat(f.files, f.name)
	if err != nil || dir != "." {
		return nil, err
	}
	return []fs.DirEntry{fs.FileInfoToDirEntry(info)}, nil
}

// ruleFiles opens what the command line names for rules: folders, or single files.
// One without any rule file is refused: with a slip in its name the shipped rules
// would be judged by alone, and nobody would see it.
func ruleFiles(names []string) ([]fs.FS, error) {
	var ps source.Problems
	var out []fs.FS
	for _, name := range names {
		if info, err := os.Stat(name); err == nil && info.Mode().IsRegular() {
			dir, file := filepath.Split(name)
			dir = filepath.Clean(dir)
			out = append(out, oneFile{folder{os.DirFS(dir), dir}, file})
		} else if dirs, err := folders([]string{name}); err != nil {
			ps = append(ps, err.(source.Problems)...)
			continue
		} else {
			out = append(out, dirs...)
		}
		var faults source.Problems
		if len(rules.FileLimits().ReadFiles(out[len(out)-1], &faults)) == 0 && len(faults) == 0 {
			hint := "a rule file ends in .yaml, .yml or .json and has rules: in it"
			ps.Add(source.Pos{File: name}, "", "holds no rule file", hint).Code = source.Empty
		}
	}
	return out, ps.Err()
}
