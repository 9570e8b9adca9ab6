package compat_test

import (
	"fmt"
	"strings"
	"testing"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/compat/figures"
	"example.org/cogcourt/rules"
	"example.org/cogcourt/rules/source"
)

// fullMix is a mix that states every field of every kind and of the bench, with each list
// as long as it may be. What the values are does not matter to its size.
func fullMix() string {
	var b strings.Builder
	table := func(o *rules.Object, indent string) {
		for _, f := range o.Table().Fields() {
			value := "12.345 ± 0.025"
			if f.Cap > 0 {
				value = "[" + strings.TrimSuffix(strings.Repeat("12.345, ", f.Cap), ", ") + "]"
			}
			fmt.Fprintf(&b, "%s%s: %s   # as measured\n", indent, f.Name, value)
		}
	}
	b.WriteString("mix: All\nparts:\n")
	for _, o := range catalog.Kinds() {
		fmt.Fprintf(&b, "  %s:\n", o.Name())
		table(o, "    ")
	}
	b.WriteString("bench:\n")
	table(figures.Bench, "  ")
	return b.String()
}

// TestMixLimits holds that the limits of a mix leave room for several times all that one
// can state, and that what is beyond them is refused in each form.
func TestMixLimits(t *testing.T) {
	most, text := compat.MixLimits(), fullMix()
	fifth := source.Limits{Bytes: most.Bytes / 5, Values: most.Values / 5}
	if _, err := fifth.Parse("all.yaml", []byte(text)); err != nil {
		t.Errorf("%d bytes: %v", len(text), err)
	}
	list := "[" + strings.Repeat("1,", most.Values) + "1]"
	const many, long = "has more than 20000 values (a mix is one bicycle, with one part a kind)", "is longer than 1048576 bytes (at most 1 MiB; a mix is"
	for want, read := range map[string]func() error{
		"a.yaml: " + many: func() error { _, err := compat.ReadMix("a.yaml", []byte("mix: "+list), nil); return err },
		"a.json:1:40004: " + many: func() error {
			_, err := compat.ReadMix("a.json", []byte(`{"mix": `+list+"}"), nil)
			return err
		},
		"a:7:40006: " + many: func() error {
			_, err := compat.ReadMixLine("a", 7, []byte(`{"chain": `+list+"}"), nil)
			return err
		},
		"a:7:1: " + long: func() error { _, err := compat.ReadMixLine("a", 7, make([]byte, most.Bytes+1), nil); return err },
	} {
		if err := read(); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%.200v, want %s", err, want)
		}
	}
}
