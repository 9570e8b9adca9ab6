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

// What the files come to again and again: see rules.Prepare.
//
//go:embed expressions.txt
var expressions string

//go:embed trees.txt
var trees string

// folder is the files with their trees: a source.TreeFS.
type folder struct{ embed.FS }

func (folder) Trees() string { return trees }

// Files gives the shipped rule files.
func Files() fs.FS { return folder{files} }

// Expressions gives the expressions of the files as they were checked when the files
// were last changed, for a start that need not do so.
func Expressions() string { return expressions }
