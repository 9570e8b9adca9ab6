package fact

import "encoding/binary"

// Lack says why a computed field has no value: facts that nobody stated,
// objects that are not there, a sentence why it would mean nothing, or what went
// wrong where all facts are there. At most one of these is given; all empty
// stands for a field that was simply not stated.
type Lack struct {
	Missing []string // names of fields, such as cassette.pitch_mm
	Absent  []string // names of objects
	Reason  string
	Quiet   bool   // the Reason is how things should be: no news for whoever reads a report
	Fault   string // leaves a rule undecided with an error, where Reason takes it away
}

// AppendKey appends bytes that are equal for two lacks where these say the same, and
// only there.
func (l *Lack) AppendKey(to []byte) []byte {
	for _, list := range [2][]string{l.Missing, l.Absent} {
		to = binary.AppendUvarint(to, uint64(len(list)))
		for _, name := range list {
			to = appendText(to, name)
		}
	}
	if l.Quiet {
		to = append(to, 1)
	}
	return appendText(appendText(to, l.Reason), l.Fault)
}
