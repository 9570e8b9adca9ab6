package compat_test

import (
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// weight is every module that a program gets with this package.
var weight = []string{
	"cel.dev/expr",
	"example.org/cogcourt",
	"github.com/antlr4-go/antlr/v4",
	"github.com/google/cel-go",
	"go.yaml.in/yaml/v3",
	"golang.org/x/exp",
	"google.golang.org/genproto/googleapis/api",
	"google.golang.org/genproto/googleapis/rpc",
	"google.golang.org/protobuf",
	"gopkg.in/yaml.v3",
}

// unwanted are packages that rules and data must not reach: no network, no other
// program, no code that is loaded at run time.
var unwanted = []string{"net", "net/http", "net/rpc", "os/exec", "plugin", "log/syslog"}

// What a program takes on with this package is written down, and holds nothing
// that reaches out.
func TestWeight(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "-f", "{{.ImportPath}} {{with .Module}}{{.Path}}{{end}}", ".").Output()
	if err != nil {
		t.Skipf("the go command cannot list packages here: %v", err)
	}
	modules := map[string]bool{}
	packages := map[string]bool{}
	for line := range strings.Lines(string(out)) {
		path, module, _ := strings.Cut(strings.TrimSpace(line), " ")
		packages[path] = true
		if module != "" {
			modules[module] = true
		}
	}
	if !packages["example.org/cogcourt/rules"] {
		t.Fatalf("the list is not one of this package: %s", out)
	}
	for module := range modules {
		if !slices.Contains(weight, module) {
			t.Errorf("the module %s has come in", module)
		}
	}
	for _, module := range weight {
		if !modules[module] {
			t.Errorf("the module %s is not needed any more", module)
		}
	}
	for _, path := range unwanted {
		if packages[path] {
			t.Errorf("the package %s is reached", path)
		}
	}
}
