package compat

import "cmp"

// twinFound is a figure of the twin: a value, or why there is none.
type twinFound struct {
	x              float64
	xs             []float64
	s              string
	known, assumed bool
	why            *twinTally
}

// twinTally gathers what a figure lacks while it is worked out.
type twinTally struct {
	missing, absent []string
	reason, fault   string
	assumed         bool
}

func (t *twinTally) open() bool { return len(t.missing)+len(t.absent) > 0 || t.reason+t.fault != "" }

// lack notes a fact that is not there.
func (t *twinTally) lack(k kindOf, name string) {
	if k.there {
		t.missing = joinedOnce(t.missing, k.name+"."+name)
	} else {
		t.absent = joinedOnce(t.absent, k.name)
	}
}

func (t *twinTally) num(k kindOf, name string, v twinNum) float64 {
	if !v.known {
		t.lack(k, name)
	}
	t.assumed = t.assumed || v.assumed
	return v.x
}

func (t *twinTally) nums(k kindOf, name string, v twinNums) []float64 {
	if !v.known {
		t.lack(k, name)
	}
	t.assumed = t.assumed || v.assumed
	return v.xs
}

// takes reads an earlier figure; what that lacks, this one lacks.
func (t *twinTally) takes(f *twinFound) *twinFound {
	if f.known {
		t.assumed = t.assumed || f.assumed
		return f
	}
	for _, name := range f.why.missing {
		t.missing = joinedOnce(t.missing, name)
	}
	for _, name := range f.why.absent {
		t.absent = joinedOnce(t.absent, name)
	}
	t.senseless(f.why.reason)
	t.fault = cmp.Or(t.fault, f.why.fault)
	return f
}

func (t *twinTally) senseless(why string) {
	if t.reason == "" {
		t.reason = why
	}
}

func joinedOnce(to []string, name string) []string {
	for _, n := range to {
		if n == name {
			return to
		}
	}
	return append(to, name)
}
