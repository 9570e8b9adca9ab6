package cart_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.org/cogcourt/compat/cart"
	"example.org/cogcourt/rules/source"
)

// Every entry of the table is read by its type and held to its limits, and a
// reader takes no other one.
func TestEntries(t *testing.T) {
	parts := shelf(t)
	good := map[source.Kind]string{source.Null: "[anything]", source.Text: `"x"`, source.Number: "1", source.List: "[]"}
	bad := map[source.Kind][]string{source.Text: {"7", "[x]", `" "`, "null"}, source.Number: {"x", "1.5", "null", "[1]"}, source.List: {"x", "7", "null", "{}"}}
	try := func(e cart.Entry, inLine bool, value string) error {
		file := fmt.Sprintf(`{"lines": [{"id": "a", "sku": "b"}], %q: %s}`, e.Name, value)
		if inLine {
			file = fmt.Sprintf(`{"lines": [{"id": "a", "sku": "b", %q: %s}]}`, e.Name, value)
		}
		if inLine && e.Names || e.Name == "lines" { // not twice
			file = strings.NewReplacer(`"id": "a", "sku": "b", `, "", `"lines": [{"id": "a", "sku": "b"}], `, "").Replace(file)
		}
		_, err := cart.Read("cart.yaml", []byte(file), parts)
		return err
	}
	for i, list := range [][]cart.Entry{cart.Entries(), cart.LineEntries()} {
		for _, e := range list {
			path := strings.Repeat("lines[0].", i) + e.Name
			if err := try(e, i == 1, good[e.Type]); err != nil || e.Doc == "" {
				t.Errorf("%s: %v; it is %q", path, err, e.Doc)
			}
			values := slices.Clone(bad[e.Type])
			switch e.Type {
			case source.Number:
				values = append(values, fmt.Sprint(e.Min-1), fmt.Sprint(e.Max+1))
				if err := try(e, i == 1, fmt.Sprint(e.Max)); err != nil {
					t.Error(err)
				}
			case source.List:
				values = append(values, "["+strings.Repeat(`{"mix": "A", "parts": {}, "id": "a"},`, e.Max)+"{}]")
			}
			for _, value := range values {
				if err := try(e, i == 1, value); err == nil || !strings.Contains(err.Error(), ": "+path+": ") {
					t.Errorf("%s of %.40s: %v", path, value, err)
				}
			}
		}
	}
	for _, e := range []cart.Entry{{Name: "unheard_of"}, {Name: "mix"}} {
		if try(e, false, "1") == nil || try(e, true, "1") == nil {
			t.Errorf("%s is read", e.Name)
		}
	}
}

// What an entry holds comes to the place of its name.
func TestEntriesArrive(t *testing.T) {
	c, err := cart.Read("cart.json", []byte(`{"cart": "Order", "bikes": [{"mix": "A", "parts": {}}],
  "lines": [{"id": "i", "sku": "s", "name": "n", "quantity": 3, "bike": "b"}, {"id": "i"}]}`), shelf(t))
	if err != nil {
		t.Fatal(err)
	}
	l := c.Lines[0]
	if c.Name != "Order" || len(c.Bikes) != 1 || c.Bikes[0].Name() != "A" || len(c.Lines) != 2 {
		t.Errorf("%+v", c)
	}
	if l.ID != "i" || l.SKU != "s" || l.Name != "n" || l.Quantity != 3 || l.Bike != "b" {
		t.Errorf("%+v", l)
	}
}
