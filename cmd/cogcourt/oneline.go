package main

import (
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"unicode/utf8"

	"example.org/cogcourt/catalog"
	"example.org/cogcourt/compat"
	"example.org/cogcourt/rules/source"
)

// asked is one mix that a command line asks for: a file, or all arguments with =
// together.
type asked struct {
	file  string     // as input takes it; empty for the mix that stands on the line
	line  []argument // what it is made of then
	apart bool       // a file stands between these arguments
}

// argument is one argument with =, taken apart.
type argument struct {
	whole  string
	kind   string // what stands in front of the = and of the first dot
	field  string // what stands behind that dot; id where there is none
	dotted bool
	value  string
	place  source.Pos // which argument it is: what every fault begins with
}

// oneLine is a mix on the line, for a message to show.
const oneLine = "chain.speeds=9 cassette.cogs_t=11,13,15"

// asks sorts the arguments of a command line into mixes, in the order in which they
// begin. Those with = are one mix wherever they stand.
func asks(args []string) []asked {
	var mixes []asked
	own, last := -1, -1 // the mix on the line, and the argument that was put into it last
	for i, arg := range args {
		if !assigns(arg) {
			mixes = append(mixes, asked{file: arg})
			continue
		}
		if own < 0 {
			own = len(mixes)
			mixes = append(mixes, asked{})
		}
		m := &mixes[own]
		if len(m.line) > mostArguments {
			continue // readTree refuses the first one too many
		}
		m.apart = m.apart || len(m.line) > 0 && last != i-1
		m.line = append(m.line, takeApart(i+1, arg))
		last = i
	}
	return mixes
}

// mostArguments is how many arguments one mix may be made of: more than all kinds have
// fields.
const mostArguments = 2000

// files takes every argument for the name of a file.
func files(args []string) []asked {
	out := make([]asked, len(args))
	for i, arg := range args {
		out[i].file = arg
	}
	return out
}

// assigns tells an argument of a mix on the line from the name of a file, which may
// have a = as well: in front of it stands no folder.
func assigns(arg string) bool {
	name, _, found := strings.Cut(arg, "=")
	return found && !strings.ContainsAny(name, `/\`) && !strings.HasPrefix(name, "demo:")
}

// mostShown is how many characters of an argument a fault repeats.
const mostShown = 60

func takeApart(number int, arg string) argument {
	a := argument{whole: arg, field: "id"}
	var name, field string
	name, a.value, _ = strings.Cut(arg, "=")
	if a.kind, field, a.dotted = strings.Cut(name, "."); a.dotted {
		a.field = field
	}
	shown := arg
	if utf8.RuneCountInString(arg) > mostShown {
		shown = string([]rune(arg)[:mostShown]) + "..."
	}
	a.place = source.Pos{File: fmt.Sprintf("argument %d: %s", number, shown)}
	return a
}

// name is what stands in front of the =.
func (a argument) name() string {
	name, _, _ := strings.Cut(a.whole, "=")
	return name
}

// read reads the mix.
func (m asked) read(in io.Reader, cat *catalog.Catalog) (compat.Mix, error) {
	mix, _, err := m.readTree(in, cat)
	return mix, err
}

// readTree reads the mix and gives the tree that it was read from.
func (m asked) readTree(in io.Reader, cat *catalog.Catalog) (compat.Mix, *source.Node, error) {
	if m.file != "" {
		return readMix(m.file, in, cat)
	}
	if len(m.line) > mostArguments {
		return compat.Mix{}, nil, source.Problems{{Pos: m.line[mostArguments].place, Code: source.TooMany,
			Text: fmt.Sprintf("the mix on the line has more than %d arguments", mostArguments), Hint: "write it into a file"}}
	}
	root, faults := lineTree(m.line)
	read := slices.Clone(faults)
	mix := compat.ReadMixNode(root, cat, &read)
	if len(read) == 0 {
		return mix, root, nil
	}
	found := slices.Clone(faults)
	for _, p := range read.Since(faults.Count()) {
		// What could not be taken apart is not also missing.
		if p.Code != source.Missing || len(faults) == 0 {
			found = append(found, p)
		}
	}
	return compat.Mix{}, nil, m.inOrder(found)
}

// inOrder gives faults in the order of the arguments, and takes paths away that say
// no more than the argument does.
func (m asked) inOrder(found source.Problems) error {
	place := make(map[source.Pos]int, len(m.line))
	for i, a := range m.line {
		place[a.place] = i
	}
	at := func(p source.Problem) int {
		if i, ok := place[p.Pos]; ok {
			return i
		}
		return -1
	}
	for i := range found {
		k := at(found[i])
		if k < 0 {
			continue
		}
		if name := m.line[k].name(); found[i].Path == name || found[i].Path == "parts."+name {
			found[i].Path = ""
		}
		if _, err := os.Stat(m.line[k].whole); err == nil {
			found[i].Hint = "a file is called that: write ./" + m.line[k].whole + " to judge it"
		}
	}
	slices.SortStableFunc(found, func(a, b source.Problem) int { return at(a) - at(b) })
	return found
}
