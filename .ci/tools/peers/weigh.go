package main

import (
	"fmt"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"text/tabwriter"
)

// weighed are small programs, one an engine, in folders below weigh.
var weighed = []string{"handwritten", "cogcourt", "celgo", "expr", "opa"}

// weights prints how large a stripped program with each engine becomes.
func weights() {
	dir, err := os.MkdirTemp("", "peers")
	if err != nil {
		log.Fatal(err)
	}
	defer os.RemoveAll(dir)
	w := tabwriter.NewWriter(os.Stdout, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(w, "a program with\tMB\t")
	for _, name := range weighed {
		file := filepath.Join(dir, name)
		build := exec.Command("go", "build", "-ldflags=-s -w", "-o", file, "example.org/cogcourt/tools/peers/weigh/"+name)
		if out, err := build.CombinedOutput(); err != nil {
			log.Fatalf("%v: %s", err, out)
		}
		info, err := os.Stat(file)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Fprintf(w, "%s\t%.1f\t\n", name, float64(info.Size())/1e6)
	}
	w.Flush()
}
