//go:build race

package compat

// underRace says that the race detector is on, under which a sync.Pool forgets at random.
const underRace = true
