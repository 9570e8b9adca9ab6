// Package demo holds parts and mixes to try cogcourt with. All of them are
// invented: a lakeside town with a fleet of ferry bicycles, a touring club that
// rebuilds bicycles from donated parts, five makers that do not exist, and
// everything that they sell. The numbers are such as real parts have, so that a
// report on them reads as one on a bicycle would.
//
// The files are data in the formats of packages catalog and compat; nothing here
// knows either. A catalog of the parts and one of the mixes are read so:
//
//	parts, err := catalog.Load(demo.Files())
//	if err != nil {
//		return err
//	}
//	text, ok := demo.Mix("ferry-motor")
//	if !ok {
//		return fmt.Errorf("the mixes are %v", demo.Mixes())
//	}
//	mix, err := compat.ReadMix("demo:ferry-motor", text, parts)
//
// The mixes and what is to be said of them:
//
//   - cart-chain-cassette: a chain and a cassette in a cart; passes.
//   - club-nine-spacer: two rings and nine cogs by cable, with the spacer that
//     the freehub body wants; passes.
//   - club-two-ring: two rings and ten cogs by cable, with a derailleur that
//     another maker sold for nine; passes.
//   - donated-classes: four worn parts that are known by their classes alone; passes.
//   - donated-undecided: a motor derailleur of which nobody knows the steps;
//     unknown.
//   - ferry-motor: a cassette 1.1 mm wider than the motor's steps; warns.
//   - fleet-three-faults: protocol, freehub and chain length; fails three times.
//   - phone-question: a chain for nine or ten cogs and a cassette of eleven, known by
//     their numbers alone; unknown.
//
// There is one order as well, for package cart:
//
//   - order: seven lines for two bicycles; fails on one of them, and a line that
//     goes with either is ambiguous.
package demo

import (
	"embed"
	"io/fs"
	"strings"
)

//go:embed parts/*.yaml
var parts embed.FS

//go:embed mixes/*.yaml
var mixes embed.FS

//go:embed orders/*.yaml
var orders embed.FS

//go:embed trees.txt
var trees string

// folder is the part files with their trees: a source.TreeFS.
type folder struct{ embed.FS }

func (folder) Trees() string { return trees }

const (
	mixFolder   = "mixes"
	orderFolder = "orders"
	ending      = ".yaml"
)

// Files gives the part files, and nothing else, for catalog.Load.
func Files() fs.FS { return folder{parts} }

// Mix gives the text of the mix file of one of the names in Mixes, as YAML. It
// is the caller's own copy. The second result is false where there is no such mix.
func Mix(name string) ([]byte, bool) { return text(mixes, mixFolder, name) }

// Mixes gives the names of all mixes, in the order of the alphabet.
func Mixes() []string { return names(mixes, mixFolder) }

// Order gives the text of the cart file of one of the names in Orders, as Mix does
// for mixes.
func Order(name string) ([]byte, bool) { return text(orders, orderFolder, name) }

// Orders gives the names of all orders, in the order of the alphabet.
func Orders() []string { return names(orders, orderFolder) }

func text(files embed.FS, folder, name string) ([]byte, bool) {
	text, err := files.ReadFile(folder + "/" + name + ending)
	return text, err == nil
}

func names(files embed.FS, folder string) []string {
	// The folder is part of the program: it cannot fail to be there.
	entries, _ := files.ReadDir(folder)
	names := make([]string, len(entries))
	for i, e := range entries {
		names[i] = strings.TrimSuffix(e.Name(), ending)
	}
	return names
}
