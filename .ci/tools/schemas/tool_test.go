package schemas

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// root is the repository, from here.
const root = "../../.."

// binary is the command, built once for all tests.
var binary string

func TestMain(m *testing.M) { os.Exit(withBinary(m)) }

func withBinary(m *testing.M) int {
	dir, err := os.MkdirTemp("", "cogcourt")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	defer os.RemoveAll(dir)
	binary = filepath.Join(dir, "cogcourt")
	build := exec.Command("go", "build", "-o", binary, "./cmd/cogcourt")
	build.Dir = root
	if out, err := build.CombinedOutput(); err != nil {
		fmt.Fprintf(os.Stderr, "%v\n%s", err, out)
		return 1
	}
	return m.Run()
}

// tool runs the command in the root of the repository and gives what it prints.
// It must load and be used well; whether a mix fails is its own matter.
func tool(t testing.TB, stdin string, args ...string) []byte {
	t.Helper()
	cmd := exec.Command(binary, args...)
	cmd.Dir = root
	cmd.Stdin = strings.NewReader(stdin)
	var out, told bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &told
	err := cmd.Run()
	if cmd.ProcessState == nil {
		t.Fatal(err)
	}
	if status := cmd.ProcessState.ExitCode(); status != 0 && status != 1 && status != 4 {
		t.Fatalf("cogcourt %v: exit status %d: %s", args, status, told.String())
	}
	return out.Bytes()
}

var (
	compiled = map[string]*jsonschema.Schema{}
	compile  sync.Mutex
)

// schema compiles one of the schemas that the command prints. Formats are held,
// not only noted.
func schema(t testing.TB, name string) *jsonschema.Schema {
	t.Helper()
	compile.Lock()
	defer compile.Unlock()
	if s := compiled[name]; s != nil {
		return s
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(tool(t, "", "schema", name)))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.AssertFormat()
	if err := c.AddResource(name+".json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(name + ".json")
	if err != nil {
		t.Fatalf("the schema of %s is none: %v", name, err)
	}
	compiled[name] = s
	return s
}

// TestSchemasAreSchemas holds that all of them compile, which checks them against
// the meta-schema of their draft.
func TestSchemasAreSchemas(t *testing.T) {
	for _, name := range []string{"parts", "mix", "cart", "rules", "report", "verdict", "findings", "change", "cart-report", "sheet"} {
		if s := schema(t, name); s.DraftVersion != 2020 {
			t.Errorf("%s is of draft %d", name, s.DraftVersion)
		}
	}
}
