package compat

import (
	"fmt"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules/source"
)

// part reads one part of a mix: an id, a description in place, or what is stated
// over a part that is named by its id.
func (r *mixReader) part(kind string, n *source.Node) (catalog.Part, bool) {
	if n.Kind != source.Map {
		return r.named(kind, n, func() string { return "parts." + kind })
	}
	id := n.Get("id")
	if id == nil {
		return catalog.Read(kind, n, r.ps)
	}
	below, ok := r.below(kind, id)
	if !ok {
		// What is wrong with the fields is told all the same.
		if object, known := catalog.Kind(kind); known {
			n.ReadRecord(object.Table().Partial(), kind, beside, r.ps)
		}
		return catalog.Part{}, false
	}
	return catalog.ReadOver(below, n, r.ps)
}

// beside are the entries beside the fields of a part that is named by its id.
var beside = []string{"id", "name", "maker", "sku", "price", "basis"}

// below finds the parts that something is stated over: one by its id, or several
// classes that make one part together.
func (r *mixReader) below(kind string, id *source.Node) ([]catalog.Part, bool) {
	path := "parts." + kind + ".id"
	if id.Kind != source.List {
		p, ok := r.named(kind, id, func() string { return path })
		return []catalog.Part{p}, ok
	}
	if len(id.Items) == 0 {
		id.Refuse(r.ps, path, "is an empty list", "write the ids of usual classes").Code = source.Empty
		return nil, false
	}
	var out []catalog.Part
	all := true
	for i, item := range id.Items {
		at := fmt.Sprintf("%s[%d]", path, i)
		if item.Kind == source.Text && !isUsual(item.Text) {
			item.Refuse(r.ps, at, fmt.Sprintf("%q is no usual class, and only those make a part together", item.Text),
				"ids of classes begin with "+catalog.UsualPrefix+"; of a part write id: "+item.Text).Code = source.Contradicts
			all = false
			continue
		}
		p, ok := r.named(kind, item, func() string { return at })
		out, all = append(out, p), all && ok
	}
	return out, all
}

func isUsual(id string) bool { return strings.HasPrefix(id, catalog.UsualPrefix) }

// named finds the part of an id: a usual class by what its id begins with, and else
// a part of the catalogue.
func (r *mixReader) named(kind string, n *source.Node, path func() string) (catalog.Part, bool) {
	if n.Kind == source.List {
		n.Refuse(r.ps, path(), "is a list", "write "+kind+": {id: [...]} for classes that make one part together").Code = source.WrongKind
		return catalog.Part{}, false
	}
	id, ok := n.PlainText()
	if !ok {
		n.ReadText(path(), r.ps)
		return catalog.Part{}, false
	}
	from := r.from
	if isUsual(id) {
		from = Usual()
	}
	if from == nil {
		n.Refuse(r.ps, path(), fmt.Sprintf("there is no catalogue to find %q in", id),
			"describe the part in place: "+kind+": {...}").Code = source.UnknownID
		return catalog.Part{}, false
	}
	p, ok := from.Part(id)
	if !ok {
		n.Refuse(r.ps, path(), fmt.Sprintf("no part is called %q", id), r.ps.Suggest(id, ids(from, kind))).Code = source.UnknownID
		return catalog.Part{}, false
	}
	if p.Kind() != kind {
		n.Refuse(r.ps, path(), fmt.Sprintf("%s is of the kind %s", id, p.Kind()), "write "+p.Kind()+": "+id).Code = source.Contradicts
		return catalog.Part{}, false
	}
	if from == r.from {
		r.mix.catalog = from.Name()
	}
	return p, true
}

// ids lists the ids of a kind, for the nearest-name hint.
func ids(from *catalog.Catalog, kind string) []string {
	var out []string
	for _, p := range from.OfKind(kind) {
		out = append(out, p.ID())
	}
	return out
}
