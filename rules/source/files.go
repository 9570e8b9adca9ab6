package source

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"path"
	"strings"
)

// File is a file that was read: the name to show in messages and its bytes.
type File struct {
	Name string
	Text []byte

	trees string // what its file system keeps: see TreeFS
}

// PathFS is a file system that knows the paths of its files outside of it, so that
// messages name a path that the user can open.
type PathFS interface {
	fs.FS
	Path(name string) string
}

// ReadFiles reads every .yaml, .yml and .json file below the root, in the order
// of their paths; names that begin with a dot are left out. A file that cannot
// be read, is no regular file or is over the size limit is a problem.
func ReadFiles(fsys fs.FS, ps *Problems) []File {
	var files []File
	var trees string
	if t, ok := fsys.(TreeFS); ok {
		trees = t.Trees()
	}
	outside := func(name string) string {
		if p, ok := fsys.(PathFS); ok {
			return p.Path(name)
		}
		return name
	}
	// The walk itself never stops early: each fault is one problem.
	_ = fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			ps.Add(Pos{File: outside(name)}, "", "cannot be read: "+plainError(err), "").Code = Unreadable
			return nil
		case name != "." && strings.HasPrefix(path.Base(name), "."):
			if d.IsDir() {
				return fs.SkipDir
			}
			return nil
		case d.IsDir() || !isData(name):
			return nil
		}
		text, err := readFile(fsys, name)
		if err != nil {
			ps.Add(Pos{File: outside(name)}, "", "cannot be read: "+plainError(err), "").Code = Unreadable
			return nil
		}
		files = append(files, File{outside(name), text, trees})
		return nil
	})
	return files
}

func isData(name string) bool {
	switch path.Ext(name) {
	case ".yaml", ".yml", ".json":
		return true
	}
	return false
}

// readFile reads at most a byte more than a file may have: Parse refuses what is
// longer, so a huge file costs no memory.
func readFile(fsys fs.FS, name string) ([]byte, error) {
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, errors.New("it is not a regular file")
	}
	// The size is only a hint: a file may grow, and some file systems tell none.
	out := bytes.NewBuffer(make([]byte, 0, min(max(info.Size(), 0), MaxBytes)+bytes.MinRead))
	_, err = out.ReadFrom(io.LimitReader(f, MaxBytes+1))
	return out.Bytes(), err
}

// plainError leaves out the path, which the place says already.
func plainError(err error) string {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}
