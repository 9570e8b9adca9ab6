package view

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/rules/fact"
)

// Starter is a file to begin from, of parts or a mix.
type Starter struct {
	Head   []string // what it is and what to do with it: remarks
	Mix    string   // its name as YAML has it; empty for a file of parts
	Scope  string
	Blocks []Block
	Needed []string // kinds that a whole bicycle lacks
	Bench  *Block   // nil for a file of parts
	More   []string // kinds that may stand in it as well
	Checks int      // how many rules there are
}

// Block is one part, or what was measured.
type Block struct {
	Kind   string
	ID     string   // the part is this one; else the lines describe it
	Lines  []string // what is stated, as YAML has it
	Blanks []Blank  // what may be filled in
}

// Blank is a field to fill in.
type Blank struct {
	Field    fact.Field
	Rules    int    // how many rules read it, themselves or through figures
	Invented string // what it holds already, as YAML has it; empty for a line to fill in
}

// PartStarter prints a file of parts: a line for each field, all but what a part must
// state being remarks.
func PartStarter(w io.Writer, s Starter) {
	s.head(w)
	fmt.Fprintln(w, "parts:")
	for _, b := range s.Blocks {
		id := strings.ReplaceAll(b.Kind, "_", "-")
		fmt.Fprintf(w, "  - kind: %s\n", b.Kind)
		fmt.Fprintln(w, "    # Invented: put your own in the place of both.")
		fmt.Fprintf(w, "    id: my-%s\n    name: Invented %s\n", id, kindsText([]string{b.Kind}))
		fold(w, "    # ", "    # ", "Who makes it, your number for it and its price; and whether its values are "+
			strings.Join(catalog.Bases(), ", ")+".")
		fmt.Fprint(w, "    # maker:\n    # sku:\n    # price:\n    # basis: stated\n")
		s.blanks(w, "    ", b.Blanks)
	}
}

// MixStarter prints a mix with its parts and what may be filled in.
func MixStarter(w io.Writer, s Starter) {
	s.head(w)
	fmt.Fprintf(w, "mix: %s\n# cart is judged by what is in it, bike also by what it lacks.\nscope: %s\n", s.Mix, s.Scope)
	if slices.ContainsFunc(s.Blocks, Block.states) {
		fmt.Fprintln(w, "parts:")
	} else {
		fmt.Fprintln(w, "# No part is in it yet. Write the first one below, and take the {} away.\nparts: {}")
	}
	for _, b := range s.Blocks {
		s.part(w, b)
	}
	if len(s.Needed) > 0 {
		fold(w, "  # ", "  # ", "A whole bicycle also needs these: write an id behind each, or its fields below it.")
		for _, kind := range s.Needed {
			fmt.Fprintf(w, "  # %s:\n", kind)
		}
	}
	if len(s.More) > 0 {
		fold(w, "  # ", "  # ", "As well: "+strings.Join(s.More, ", ")+".")
	}
	if s.Bench != nil {
		fmt.Fprintln(w, "# What was measured on the bicycle goes before what parts state.")
		fmt.Fprintln(w, "bench:")
		printLines(w, "  ", s.Bench.Lines)
		s.blanks(w, "  ", s.Bench.Blanks)
	}
}

// part prints one part of a mix. What is to be stated over a part of the catalogue
// takes more lines than its id, so they stand as remarks behind it.
func (s Starter) part(w io.Writer, b Block) {
	switch {
	case b.ID != "" && len(b.Blanks) == 0:
		fmt.Fprintf(w, "  %s: %s\n", b.Kind, b.ID)
	case b.ID != "":
		fmt.Fprintf(w, "  %s: %s\n", b.Kind, b.ID)
		fmt.Fprintf(w, "  # Not stated of it. Filled in, this goes in the place of the line above:\n  # %s:\n  #   id: %s\n", b.Kind, b.ID)
		s.blanks(w, "  #   ", b.Blanks)
	case !b.states():
		fmt.Fprintf(w, "  # %s:\n", b.Kind)
		s.blanks(w, "  #   ", b.Blanks)
	default:
		fmt.Fprintf(w, "  %s:\n", b.Kind)
		printLines(w, "    ", b.Lines)
		s.blanks(w, "    ", b.Blanks)
	}
}

// states says whether a block is more than remarks.
func (b Block) states() bool { return b.ID != "" || len(b.Lines) > 0 }

func (s Starter) head(w io.Writer) {
	for _, text := range s.Head {
		fold(w, "# ", "# ", text)
	}
}

func printLines(w io.Writer, margin string, lines []string) {
	for _, l := range lines {
		fmt.Fprintln(w, margin+Clean(l))
	}
}

// blanks prints fields: what each is, what it may hold, how to get it and how much
// hangs on it, then its line.
func (s Starter) blanks(w io.Writer, margin string, blanks []Blank) {
	remark := margin + "# " // where the block is a remark itself, one within it
	for i, b := range blanks {
		if i > 0 {
			fmt.Fprintln(w)
		}
		fold(w, remark, remark, full(Capital(typeText(b.Field)))+" "+s.weight(b.Rules))
		fold(w, remark, remark, b.Field.Doc)
		if b.Field.Default != nil {
			fold(w, remark, remark, "Not stated, it is "+valueText(*b.Field.Default, b.Field)+".")
		}
		if b.Field.How != "" {
			fold(w, remark, remark, "How: "+b.Field.How)
		}
		switch {
		case b.Invented != "":
			fmt.Fprintf(w, "%s# It must be stated. Invented: put your own in its place.\n%s%s: %s\n", margin, margin, b.Field.Name, b.Invented)
		case strings.Contains(margin, "#"):
			fmt.Fprintf(w, "%s%s:\n", margin, b.Field.Name)
		default:
			fmt.Fprintf(w, "%s# %s:\n", margin, b.Field.Name)
		}
	}
}

// weight says how much hangs on a field.
func (s Starter) weight(rules int) string {
	if rules == 0 {
		return "No rule reads it."
	}
	return fmt.Sprintf("Read by %d of %s.", rules, counted(s.Checks, "rule", "rules"))
}
