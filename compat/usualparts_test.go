package compat_test
import ("testing";"example.org/cogcourt/compat")
func TestX(t *testing.T){ c:=compat.Usual(); t.Log(c.Len()) }
