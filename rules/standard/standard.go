// Package standard holds the rules that cogcourt ships: one YAML file for each
// thing that a mechanic looks at, and the list of the sources they rest on.
//
// The files are data. They are compiled by package rules against the vocabulary
// of package compat; nothing here knows either.
package standard

import (
	"embed"
	"io/fs"
)

//go:embed *.yaml
var files embed.FS

//go:embed prepared.txt
var prepared string

// Files gives the shipped rule files.
func Files() fs.FS { return files }

// Prepared gives the expressions of the files as they were checked when the files
// were last changed, for a start that need not do so.
func Prepared() string { return prepared }
