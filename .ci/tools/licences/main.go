// Command licences lists the modules that the three go.mod files of this repository require,
// with version and licence, told from the texts of the licence files in the module cache.
//
//	go run ./licences
//
// It ends with status 1 where a module has no licence file, one of which the text is not
// known, or a licence that is not allowed where the module is used: permissive ones are
// allowed everywhere, weak copyleft in .ci/tools alone, which nobody is handed. Where a
// module has several licences, each must be allowed.
package main

import (
	"fmt"
	"os"
	"path/filepath"
)

func main() {
	found, err := all(filepath.Join("..", ".."))
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
	fmt.Print(table(found))
	faults := faultsOf(found)
	for _, f := range faults {
		fmt.Fprintln(os.Stderr, f)
	}
	if len(faults) > 0 {
		os.Exit(1)
	}
}
