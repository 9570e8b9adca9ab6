package usual

import _ "embed"

//go:embed counts.yaml
var counts []byte

// Counts gives the file of what is usual of parts known by a count alone, and its name.
func Counts() (name string, text []byte) { return "usual/counts.yaml", counts }
