package source
import ("testing";"fmt";"os";"strings";"strconv";"path/filepath")
func TestProbe(t *testing.T) {
	fs,_ := filepath.Glob("testdata/fuzz/FuzzParse/*")
	for _, f := range fs {
	b,_ := os.ReadFile(f)
	q := strings.Split(string(b),"\n")[1]
	q = q[len("[]byte("):len(q)-1]
	s,_ := strconv.Unquote(q)
	root, err := parse("x.yaml",[]byte(s))
	fmt.Printf("%q %v\n", s, err)
	if root != nil { for _, p := range root.Pairs { fmt.Println(p.Key.Pos, p.Value.Pos, p.Value.Text) }; fmt.Println(root.Pos, root.Kind, root.Text) }
	}
}
