package source

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"path"
	"strings"
	"time"
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
// be read or is no regular file is a problem. Of one over the widest limit no more
// than that is kept, for Parse to refuse.
func ReadFiles(fsys fs.FS, ps *Problems) []File { return Limits{}.ReadFiles(fsys, ps) }

// ReadFiles reads files, as the function ReadFiles does, within these limits.
func (m Limits) ReadFiles(fsys fs.FS, ps *Problems) []File {
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
		text, err := m.readFile(fsys, name)
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

// Read reads a text to its end, but at most a byte more than it may have: Parse refuses
// what is longer, so a huge one costs no memory.
func (m Limits) Read(from io.Reader) ([]byte, error) {
	return io.ReadAll(io.LimitReader(from, int64(m.whole().Bytes)+1))
}

// readFile is Read for a file that must be a regular one.
func (m Limits) readFile(fsys fs.FS, name string) ([]byte, error) {
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() || Waits(f) {
		return nil, errors.New("it is not a regular file")
	}
	// The size is only a hint: a file may grow, and some file systems tell none.
	most := int64(m.whole().Bytes)
	out := bytes.NewBuffer(make([]byte, 0, min(max(info.Size(), 0), most)+bytes.MinRead))
	_, err = out.ReadFrom(io.LimitReader(f, most+1))
	return out.Bytes(), err
}

// Waits says whether an open file is one that readers wait for, which some of the system's
// are that call themselves regular: a log of the kernel has no end. For what lies on a disk
// nobody waits, so that no deadline can be set there.
func Waits(f fs.File) bool {
	file, ok := f.(interface{ SetReadDeadline(time.Time) error })
	return ok && file.SetReadDeadline(time.Time{}) == nil
}

// plainError leaves out the path, which the place says already.
func plainError(err error) string {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}
