package compat_test

import (
	"example.org/cogcourt/compat"
	"testing"
)

func TestX(t *testing.T) { c := compat.Usual(); t.Log(c.Len()) }
