//go:build race

package main

// raced says that the race detector watches.
const raced = true
