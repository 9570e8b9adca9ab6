package compat

import (
	"fmt"
	"sync"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/catalog/usual"
)

// Usual gives the usual classes, which mixes name by ids that begin with
// catalog.UsualPrefix, whatever other catalogue they are read with. They are parsed
// when they are first asked for.
func Usual() *catalog.Catalog { return usualParts() }

// usualParts panics where the files have a fault, which is one of the program: a
// test loads them.
var usualParts = sync.OnceValue(func() *catalog.Catalog {
	c, err := catalog.LoadUsual(usual.Files())
	if err != nil {
		panic(fmt.Sprintf("compat: the usual classes: %v", err))
	}
	return c
})
