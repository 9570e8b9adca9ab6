package catalog

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"

	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// Load reads all part files (*.yaml, *.yml, *.json) of one or more folders and
// what lies below them, in the order of their names. Files and folders whose
// name begins with a dot are left out. It loads whole or not at all; the error
// is source.Problems with the faults of all files. That a folder holds no part
// file is a fault too: most likely it is the wrong folder.
func Load(folders ...fs.FS) (*Catalog, error) {
	return LoadContext(context.Background(), folders...)
}

// LoadContext is Load that ends with ctx's error alone once ctx is done, which is looked
// at between two parts.
func LoadContext(ctx context.Context, folders ...fs.FS) (*Catalog, error) {
	b := newBuilder()
	b.stopped = func() bool { return ctx.Err() != nil }
	for _, folder := range folders {
		if !b.stopped() {
			b.addFolder(folder)
		}
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return b.done()
}

// LoadUsual reads the part files of usual classes: the basis of each is usual, and
// its id begins with UsualPrefix, which no other part's may.
func LoadUsual(folder fs.FS) (*Catalog, error) {
	b := newBuilder()
	b.classes = true
	b.addFolder(folder)
	return b.done()
}

// ReadFile reads one part file as a catalog: JSON where the name ends in .json,
// YAML otherwise. The name only stands in the places of faults.
func ReadFile(name string, text []byte) (*Catalog, error) {
	b := newBuilder()
	b.addFile(name, text)
	return b.done()
}

// builder collects parts and faults over files.
type builder struct {
	catalog  *Catalog
	taken    map[string]source.Pos // where each id is stated
	currency source.Pos            // where the currency is stated first
	classes  bool                  // the files hold usual classes
	ps       source.Problems
	stopped  func() bool // nobody waits for the catalog any more

	records map[*rules.Object]map[string]*rules.Record // by the bytes of what they state: see share
	key     []byte
}

func newBuilder() *builder {
	return &builder{
		catalog: &Catalog{},
		taken:   map[string]source.Pos{},
		stopped: func() bool { return false },
		records: map[*rules.Object]map[string]*rules.Record{},
	}
}

// done gives the catalog only where no file has a fault: it is loaded whole or not
// at all.
func (b *builder) done() (*Catalog, error) {
	if err := b.ps.Err(); err != nil {
		return nil, err
	}
	b.catalog.file()
	return b.catalog, nil
}

// addFolder reads the part files of a folder. What cannot be read is a fault
// like any other, so that one such file does not hide the faults of the rest.
func (b *builder) addFolder(folder fs.FS) {
	before := b.ps.Count()
	files := source.ReadFiles(folder, &b.ps)
	if len(b.taken) == 0 {
		b.taken = make(map[string]source.Pos, sizeOf(files)/bytesAPart)
	}
	for _, f := range files {
		if b.stopped() {
			return
		}
		if root := f.Tree(); root != nil {
			b.addTree(root)
			continue
		}
		b.addFile(f.Name, f.Text)
	}
	if len(files) > 0 || b.ps.Count() > before {
		return
	}
	name := "."
	if p, ok := folder.(source.PathFS); ok {
		name = p.Path(name)
	}
	b.ps.Add(source.Pos{File: name}, "", "the folder holds no part file", "part files end in .yaml, .yml or .json").Code = source.Empty
}

// bytesAPart is about what one part takes of a file, to have room for the ids of all.
const bytesAPart = 256

func sizeOf(files []source.File) (bytes int) {
	for _, f := range files {
		bytes += len(f.Text)
	}
	return bytes
}

// addFile reads one file.
func (b *builder) addFile(name string, text []byte) {
	memory := source.Borrow()
	defer memory.Free() // parts keep texts and places, and no node
	root, err := memory.Parse(name, text)
	if err != nil {
		b.fault(name, err)
		return
	}
	b.addTree(root)
}

// addTree reads what a file holds.
func (b *builder) addTree(root *source.Node) {
	if root.Kind != source.Map {
		text := fmt.Sprintf("a part file is a map that holds parts, not %s", root.Kind)
		root.Refuse(&b.ps, "", text, "begin it with the line parts:").Code = source.WrongKind
		return
	}
	root.Keys("", &b.ps, "parts", "catalog", "currency", "note")
	b.head(root)
	list := root.Get("parts")
	if list == nil {
		b.ps.Add(root.Pos, "", "the file has no parts", "a part file holds a list under parts:").Code = source.Missing
		return
	}
	b.catalog.parts = slices.Grow(b.catalog.parts, len(list.Items))
	for i, item := range list.ReadMaps("parts", &b.ps, "kind", "id", "name") {
		if b.stopped() {
			return
		}
		b.addPart(item, "parts["+strconv.Itoa(i)+"]")
	}
}

// fault keeps the problems of a file that the parser refuses.
func (b *builder) fault(name string, err error) {
	var ps source.Problems
	if errors.As(err, &ps) {
		b.ps.Join(ps)
		return
	}
	b.ps.Add(source.Pos{File: name}, "", err.Error(), "").Code = source.Unreadable
}

// head reads what a file says of the whole catalog.
func (b *builder) head(root *source.Node) {
	if n := root.Get("note"); n != nil {
		n.ReadText("note", &b.ps)
	}
	if n := root.Get("catalog"); n != nil {
		if label, ok := n.ReadText("catalog", &b.ps); ok && !slices.Contains(b.catalog.labels, label) {
			b.catalog.labels = append(b.catalog.labels, strings.Clone(label)) // no part of the file's text
		}
	}
	n := root.Get("currency")
	if n == nil {
		return
	}
	word, ok := n.ReadText("currency", &b.ps)
	switch {
	case !ok:
	case b.catalog.currency == "":
		b.currency, b.catalog.currency = n.Pos, strings.Clone(word)
	case word != b.catalog.currency:
		text := fmt.Sprintf("the currency is %q here and %q at %s", word, b.catalog.currency, b.currency)
		n.Refuse(&b.ps, "currency", text, "a catalog has one currency").Code = source.Contradicts
	}
}

// addPart reads one item and files the part under its id.
func (b *builder) addPart(item *source.Node, path string) {
	heads := headsOf(item)
	p, ok := b.readItem(item, heads, path)
	// The id of a faulty part is taken all the same: a part that clashes with it
	// is to be mended as well.
	id := heads[headID]
	if !isWord(id) {
		return
	}
	if other, twice := b.taken[id.Text]; twice {
		text := fmt.Sprintf("the id %q is taken already, at %s", id.Text, other)
		id.Refuse(&b.ps, path+".id", text, "give each part an id of its own").Code = source.Twice
		return
	}
	b.taken[id.Text] = id.Pos
	if ok {
		b.share(p)
		b.catalog.parts = append(b.catalog.parts, p)
	}
}
