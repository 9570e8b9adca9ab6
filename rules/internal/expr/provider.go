package expr

import (
	"fmt"

	"github.com/google/cel-go/cel"
	"github.com/google/cel-go/common/types"

	"example.org/cogcourt/rules/fact"
)

// provider tells the engine's checker which fields the objects have. Fields are
// read by the decorator of this package; the getters serve what it leaves over.
type provider struct {
	*types.Registry
	objects map[string]*Object
}

func newProvider(objects []*Object) (*provider, error) {
	registry, err := types.NewRegistry()
	if err != nil {
		return nil, err
	}
	p := &provider{Registry: registry, objects: map[string]*Object{}}
	for _, o := range objects {
		p.objects[o.Name] = o
	}
	return p, nil
}

// FindStructType implements types.Provider.
func (p *provider) FindStructType(name string) (*types.Type, bool) {
	if _, ok := p.objects[name]; ok {
		return types.NewTypeTypeWithParam(types.NewObjectType(name)), true
	}
	return p.Registry.FindStructType(name)
}

// FindStructFieldNames implements types.Provider.
func (p *provider) FindStructFieldNames(name string) ([]string, bool) {
	if o, ok := p.objects[name]; ok {
		return o.Table.Names(), true
	}
	return p.Registry.FindStructFieldNames(name)
}

// FindStructFieldType implements types.Provider.
func (p *provider) FindStructFieldType(name, field string) (*types.FieldType, bool) {
	o, ok := p.objects[name]
	if !ok {
		return p.Registry.FindStructFieldType(name, field)
	}
	i, ok := o.Table.Index(field)
	if !ok {
		return nil, false
	}
	unread := fmt.Errorf("%s.%s was read around the frame", name, field)
	return &types.FieldType{
		Type:    celType(o.Table.Fields()[i].Type),
		IsSet:   func(any) bool { return false },
		GetFrom: func(any) (any, error) { return nil, unread },
	}, true
}

func celType(t fact.Type) *cel.Type {
	switch t {
	case fact.Whole:
		return cel.IntType
	case fact.Fraction:
		return cel.DoubleType
	case fact.Flag:
		return cel.BoolType
	case fact.Fractions:
		return cel.ListType(cel.DoubleType)
	case fact.Wholes:
		return cel.ListType(cel.IntType)
	case fact.Names:
		return cel.ListType(cel.StringType)
	}
	return cel.StringType
}
