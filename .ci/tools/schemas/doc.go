// Package schemas holds the JSON Schemas that cogcourt prints against what it
// reads and writes, with a validator that shares no code with either.
//
// What the loader accepts, the schema must accept. What the loader refuses, the
// schema must refuse as well, but for reasons that no schema can express; these
// are listed in one table, each with its why. The tests run over every good file
// of the repository, over every bad one, and over good ones with one change made
// at random.
//
//	cd .ci/tools && go test ./schemas
package schemas
