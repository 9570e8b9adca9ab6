package rules

import (
	"fmt"
	"slices"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
)

// Object is a named group of facts that rules may speak of: a name, what it
// stands for, and a table of fields. It is immutable and safe to share.
type Object struct {
	inner *expr.Object
}

// NewObject makes an object. It panics where the table is wrong in itself,
// which is a mistake in the program; see fact.NewTable.
func NewObject(name, doc string, fields ...fact.Field) *Object {
	return &Object{inner: expr.NewObject(name, doc, fact.NewTable(fields...))}
}

// Called gives the same object with other names that the trade has for what it
// stands for, in lower case; hints lead from them to the right one.
func (o *Object) Called(also ...string) *Object {
	inner := *o.inner
	inner.Also = also
	return &Object{inner: &inner}
}

// Also gives the other names. The slice is the object's own: read only.
func (o *Object) Also() []string { return o.inner.Also }

// Name is the word that rules and files use.
func (o *Object) Name() string { return o.inner.Name }

// Doc says what the object stands for, in one sentence.
func (o *Object) Doc() string { return o.inner.Doc }

// Table gives the fields.
func (o *Object) Table() *fact.Table { return o.inner.Table }

// Record is the immutable values of one object, by the indexes of their fields.
type Record struct {
	object     *Object
	inner      expr.Record
	reads      []fact.Marks
	toleranced bool // some value carries a tolerance
	usual      bool // some value is a usual one that has a spread
}

// NewRecord makes a record of values in the order of the object's fields. Both
// slices are kept, not copied: the caller gives them away. lacks says why
// computed fields have no value; it is nil for stated facts.
func (o *Object) NewRecord(values []fact.Value, lacks []fact.Lack) *Record {
	r := &Record{}
	var each []*fact.Lack
	if lacks != nil {
		each = make([]*fact.Lack, len(lacks))
		for i := range lacks {
			each[i] = &lacks[i]
		}
	}
	o.FillRecord(r, values, each)
	return r
}

// FillRecord is NewRecord into a record that the caller holds, for callers that
// make many: r must not have been given to anyone yet. Fields may share a lack, and
// have none.
func (o *Object) FillRecord(r *Record, values []fact.Value, lacks []*fact.Lack) {
	if len(values) != len(o.Table().Fields()) || (lacks != nil && len(lacks) != len(values)) {
		panic(fmt.Sprintf("rules: a record of %s has %d values for %d fields", o.Name(), len(values), len(o.Table().Fields())))
	}
	r.object = o
	r.inner = expr.Record{Values: values, Lacks: lacks}
	for i := range values {
		r.toleranced = r.toleranced || values[i].Tol > 0 || values[i].Tols() != nil
		r.usual = r.usual || values[i].Spread() != nil
	}
}

// FillComputed is FillRecord for values of which none carries a tolerance or a spread, as
// those are that are worked out from others. It does not look at them, and they may
// change afterwards: r may be filled again, and again given out. The reads say by
// Config.Mark with which stated facts each field was worked out; nil says nothing, and
// then all count that Config.Behind names.
func (o *Object) FillComputed(r *Record, values []fact.Value, lacks []*fact.Lack, reads []fact.Marks) {
	r.object = o
	r.inner = expr.Record{Values: values, Lacks: lacks}
	r.reads = reads
}

// Reads gives with which stated facts each field was worked out, as FillComputed was told;
// nil where it was not. The list is the record's own: read only.
func (r *Record) Reads() []fact.Marks { return r.reads }

// Object is the object that the record is of.
func (r *Record) Object() *Object { return r.object }

// Value gives the value of the i-th field. Its lists are the record's own: read
// only.
func (r *Record) Value(i int) fact.Value { return r.inner.Values[i] }

// Lacks gives why each field of a computed record has no value, nil for one that has;
// nil where all have one. List and lacks are the record's own: read only.
func (r *Record) Lacks() []*fact.Lack { return r.inner.Lacks }

// Lack says why the i-th field of a computed record has no value.
func (r *Record) Lack(i int) fact.Lack {
	if r.inner.Lacks == nil || r.inner.Lacks[i] == nil {
		return fact.Lack{}
	}
	return *r.inner.Lacks[i]
}

// Ref points at a field of an object. It is found once, by name, so that
// reading a record costs an index.
type Ref struct {
	Object *Object
	Index  int
}

// Ref finds a field by name. It panics where there is none: refs are made when
// a program starts, from names that the program knows.
func (o *Object) Ref(name string) Ref {
	i, ok := o.Table().Index(name)
	if !ok {
		panic(fmt.Sprintf("rules: %s has no field %s", o.Name(), name))
	}
	return Ref{Object: o, Index: i}
}

// Field gives the description of the field.
func (r Ref) Field() fact.Field { return r.Object.Table().Fields()[r.Index] }

// String gives the name that rules use, such as cassette.cogs_t.
func (r Ref) String() string { return r.Object.Name() + "." + r.Field().Name }

// In reads the field from a record of its object; a nil record has no values.
func (r Ref) In(rec *Record) fact.Value {
	if rec == nil {
		return fact.Value{}
	}
	return rec.inner.Values[r.Index]
}

// AppendKey appends bytes that are equal for two records of an object where all their
// values are, as fact.Value.AppendKey has it.
func (r *Record) AppendKey(to []byte) []byte {
	for i := range r.inner.Values {
		to = r.inner.Values[i].AppendKey(to)
	}
	return to
}

// At gives the i-th value without copying it: read only.
func (r *Record) At(i int) *fact.Value { return &r.inner.Values[i] }

// Toleranced gives the indexes of the fields that carry a tolerance.
func (r *Record) Toleranced() []int {
	if !r.toleranced {
		return nil
	}
	var out []int
	for i := range r.inner.Values {
		if v := &r.inner.Values[i]; v.Known && (v.Tol > 0 || v.Tols() != nil) {
			out = append(out, i)
		}
	}
	return out
}

// Spreads gives the indexes of the fields that hold a usual value with a spread.
func (r *Record) Spreads() []int {
	if !r.usual {
		return nil
	}
	var out []int
	for i := range r.inner.Values {
		if v := &r.inner.Values[i]; v.Known && v.Spread() != nil {
			out = append(out, i)
		}
	}
	return out
}

// Moved gives the record with one field moved: -1 puts it at the lower end of its
// tolerance or spread, 1 at the upper one, 0 leaves it, and so between. A list moves
// as one, each entry by its own tolerance. The record itself stays as it is.
func (r *Record) Moved(field int, to float64) *Record { return r.MovedInto(nil, field, to) }

// MovedInto is Moved into the memory of a record that nobody else holds, nil for none.
func (r *Record) MovedInto(memory *Record, field int, to float64) *Record {
	out := r.copied(memory)
	out.move(field, to)
	return out
}

// Clone copies the record, to be changed by Put before anyone else is given it.
func (r *Record) Clone() *Record { return r.copied(nil) }

// CloneInto is Clone into the memory of a record that nobody else holds, nil for none.
func (r *Record) CloneInto(memory *Record) *Record { return r.copied(memory) }

// Forget lets go of all values, so that the record is memory and nothing else.
func (r *Record) Forget() { clear(r.inner.Values) }

// Put changes one value of a record that nobody else has been given yet.
func (r *Record) Put(field int, v fact.Value) {
	r.inner.Values[field] = v
	r.toleranced = r.toleranced || v.Tol > 0 || v.Tols() != nil
	r.usual = r.usual || v.Spread() != nil
}

// copied copies the record, into one that nobody else holds where there is one.
func (r *Record) copied(into *Record) *Record {
	if into == nil {
		into = &Record{}
	}
	into.reads, into.object, into.toleranced, into.usual = r.reads, r.object, r.toleranced, r.usual
	into.inner.Values = append(into.inner.Values[:0], r.inner.Values...)
	into.inner.Lacks = r.inner.Lacks
	return into
}

// move puts one field of a copy between the ends of its tolerance or spread.
func (r *Record) move(field int, to float64) {
	v := &r.inner.Values[field]
	if v.Spread() != nil {
		v.Num = v.Spread().At(v.Num, to, r.object.Table().Fields()[field].Type == fact.Whole)
		return
	}
	v.Num += to * v.Tol
	if v.Tols() == nil {
		return
	}
	v.List = slices.Clone(v.List)
	for k := range v.List {
		v.List[k] += to * v.Tols()[k]
	}
}
