package expr

import (
	"hash/fnv"

	"github.com/google/cel-go/common/types"

	"example.org/cogcourt/rules/fact"
)

// Object is a named table of fields with the Unknown values that stand for it
// and for each of its fields while they are not stated. The Unknowns are shared
// by all records: reading an absent fact allocates nothing.
type Object struct {
	Name  string
	Doc   string
	Table *fact.Table
	Also  []string // other names that the trade has for it

	absent   *types.Unknown
	unstated []*types.Unknown
	lacks    []fact.Lack // of each field while it is not stated
	lackAll  fact.Lack   // of the object while it is not there
}

// NewObject makes an object. The ids of its Unknowns come from its name, so that
// objects made apart from each other differ; a vocabulary refuses two that clash.
func NewObject(name, doc string, table *fact.Table) *Object {
	h := fnv.New32a()
	h.Write([]byte(name))
	base := int64(h.Sum32()) << 16
	o := &Object{Name: name, Doc: doc, Table: table, absent: types.NewUnknown(base, types.NewAttributeTrail(name))}
	o.lackAll = fact.Lack{Absent: []string{name}}
	for i, f := range table.Fields() {
		trail := types.NewAttributeTrail(name)
		types.QualifyAttribute(trail, f.Name)
		o.unstated = append(o.unstated, types.NewUnknown(base+int64(i)+1, trail))
		o.lacks = append(o.lacks, fact.Lack{Missing: []string{name + "." + f.Name}})
	}
	return o
}

// Lacking says what is missing where a field is not stated, or where the object
// is not there, with -1 for the field. It is shared by all who ask: read only.
func (o *Object) Lacking(field int) *fact.Lack {
	if field < 0 {
		return &o.lackAll
	}
	return &o.lacks[field]
}

// Record is the values of one object, by the indexes of their fields.
type Record struct {
	Values []fact.Value
	Lacks  []*fact.Lack // nil for a record of stated facts
}
