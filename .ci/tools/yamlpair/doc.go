// Package yamlpair holds the YAML parser that cogcourt uses against its
// successor under another module path: on every YAML file of the repository, good
// and bad, both give the same tree of nodes, with the same places, or both give an
// error. cogcourt needs the first alone; where the two part ways one day, this
// tells in which file.
//
//	cd .ci/tools && go test ./yamlpair
package yamlpair
