package main

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/cmd/cogcourt/internal/view"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/source"
)

// judged is a mix and what judges it.
type judged struct {
	mix     asked
	checker *compat.Checker
}

// likeMix prints a mix as it stands, with what its report misses as lines to fill in.
func (st starting) likeMix(o options, s stream, like judged) int {
	cat, err := o.catalogue()
	if err != nil {
		return complain(s, err)
	}
	m, root, err := like.mix.readTree(s.in, cat)
	if err != nil {
		return complain(s, err)
	}
	report := like.checker.Check(m)
	missing := report.Missing()
	out := view.Starter{Mix: written(root.Get("mix")), Scope: m.Scope().String(), Checks: len(st.set.Rules()),
		Head: []string{missingText(missing)}}
	for _, p := range root.Get("parts").Pairs {
		b := view.Block{Kind: p.Key.Text, Blanks: st.missed(p.Key.Text, missing)}
		if p.Value.Kind == source.Map {
			if b.Lines = entries(p.Value); b.Lines == nil {
				b.Lines = []string{"basis: stated"} // which goes without saying, and keeps the part in the mix
			}
		} else {
			b.ID = written(p.Value)
		}
		out.Blocks = append(out.Blocks, b)
	}
	st.absent(&out, report)
	bench := view.Block{Lines: entries(root.Get("bench")), Blanks: st.missed("bench", missing)}
	if len(bench.Lines)+len(bench.Blanks) > 0 {
		out.Bench = &bench
	}
	view.MixStarter(s.out, out)
	return exitOK
}

func missingText(missing []compat.Missing) string {
	if len(missing) == 0 {
		return "A mix to go on from. Its report misses nothing that would decide a check."
	}
	return "A mix to go on from. What its report misses stands as lines to fill in: take the # away and write the value."
}

// absent adds the parts that are not in the mix: those of which a check misses a
// fact, and those that a whole bicycle also needs.
func (st starting) absent(out *view.Starter, r compat.Report) {
	there := func(kind string) bool {
		return slices.ContainsFunc(out.Blocks, func(b view.Block) bool { return b.Kind == kind })
	}
	for _, m := range r.Missing() {
		kind, _, _ := strings.Cut(m.Name, ".")
		if _, known := catalog.Kind(kind); known && !there(kind) {
			out.Blocks = append(out.Blocks, view.Block{Kind: kind, Blanks: st.missed(kind, r.Missing())})
		}
	}
	for _, kind := range r.Absent() {
		if !there(kind) {
			out.Needed = append(out.Needed, kind)
		}
	}
}

// missed lists the fields of a kind that a report misses, in its order.
func (st starting) missed(kind string, missing []compat.Missing) []view.Blank {
	var out []view.Blank
	for _, m := range missing {
		if of, _, _ := strings.Cut(m.Name, "."); of != kind {
			continue
		}
		if b, ok := st.blank(m.Name); ok {
			out = append(out, b)
		}
	}
	return out
}

// entries writes the entries of a map, a line each.
func entries(n *source.Node) []string {
	if n == nil {
		return nil
	}
	var out []string
	for _, p := range n.Pairs {
		out = append(out, p.Key.Text+": "+written(p.Value))
	}
	return out
}

var (
	plainText   = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9 ./-]*[A-Za-z0-9]$|^[A-Za-z]$`)
	plainNumber = regexp.MustCompile(`^[0-9.]+( ?(±|\+/-) ?[0-9.]+)?$`)
)

// written writes a value as YAML in one line.
func written(n *source.Node) string {
	switch n.Kind {
	case source.Null:
		return "null"
	case source.List:
		items := make([]string, len(n.Items))
		for i, item := range n.Items {
			items[i] = written(item)
		}
		return "[" + strings.Join(items, ", ") + "]"
	case source.Map:
		return "{" + strings.Join(entries(n), ", ") + "}"
	case source.Text:
		// Whatever may be read as something else goes into quotes.
		plain := plainText.MatchString(n.Text) && (n.Plain || !readAsOther(n.Text)) || n.Plain && plainNumber.MatchString(n.Text)
		if !plain {
			return strconv.Quote(n.Text)
		}
	}
	return n.Text
}

// readAsOther tells the words that YAML may read as a flag, as nothing or as a number.
func readAsOther(word string) bool {
	return slices.Contains([]string{"true", "false", "null", "yes", "no", "on", "off", "y", "n", "nan", "inf"}, strings.ToLower(word))
}
