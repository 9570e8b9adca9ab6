package main

import (
	"crypto/sha256"
	"encoding/hex"
)

// reading is what somebody found who read a licence file that no program can tell, or of
// which not all concerns a program.
type reading struct {
	module, file string
	sum          string   // the first sixteen digits of the file's SHA-256: another text is read anew
	licences     []string // of what a program is made of
	why          string
}

// byHand lists what was read by hand, in November 2026.
var byHand = []reading{
	{"github.com/opencontainers/go-digest", "LICENSE.docs", "a1d1adec3ba691ef", nil,
		"CC-BY-SA-4.0, by the README of the module for README.md and CONTRIBUTING.md alone: no program holds them"},
	{"modernc.org/libc", "LICENSE-3RD-PARTY.md", "f597097efe3d9702", []string{"BSD-2-Clause", "BSD-3-Clause", "MIT"},
		"notices of Go, musl, go-netdb and nixpkgs; musl says of parts of it that they are under a 2-clause BSD licence, an MIT-style one, or in the public domain"},
	{"modernc.org/memory", "LICENSE-LOGO", "5ae5bee3072a8413", nil, "the address of the picture that is the module's logo: no program holds it"},
	{"modernc.org/sqlite", "LICENSE-3RD-PARTY.md", "f4a00ade8f4057ab", []string{"Apache-2.0", "BSD-3-Clause", "MIT", "MPL-2.0"},
		"by its table MPL-2.0 is that of a module in the graph of modules which is compiled into nothing"},
	{"modernc.org/sqlite", "LICENSE-SQLITE", "8438c9c89b849131", []string{publicDomain}, "SQLite's dedication"},
}

// publicDomain stands for a dedication that is no licence with a short name.
const publicDomain = "public domain"

// readByHand gives what was found in a file of a module, where it is the text that was read.
func readByHand(module, file string, text []byte) ([]string, bool) {
	sum := sha256.Sum256(text)
	for _, r := range byHand {
		if r.module == module && r.file == file && hex.EncodeToString(sum[:])[:len(r.sum)] == r.sum {
			return r.licences, true
		}
	}
	return nil, false
}
