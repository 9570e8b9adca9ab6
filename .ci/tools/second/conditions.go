package second

import "example.org/cogcourt/rules/fact"

// truth writes a condition.
func (w *writer) truth(depth int) string {
	if depth > 0 {
		switch w.IntN(6) {
		case 0, 1:
			return "(" + w.truth(depth-1) + []string{" && ", " || "}[w.IntN(2)] + w.truth(depth-1) + ")"
		case 2:
			return "!(" + w.truth(depth-1) + ")"
		}
	}
	for range 6 {
		if s := w.simple(w.IntN(10), depth); s != "" {
			return s
		}
	}
	return w.number(0) + " > " + w.number(0)
}

// simple writes one condition of a form, empty where the rule has no facts for it.
func (w *writer) simple(form, depth int) string {
	compare := []string{" < ", " <= ", " > ", " >= "}[w.IntN(4)]
	switch form {
	case 0, 1:
		if f, ok := w.one([]fact.Type{fact.Fraction, fact.Whole}[w.IntN(2)]); ok {
			return f.name + compare + w.limit(f)
		}
	case 2:
		return w.number(depth) + compare + w.number(depth-1)
	case 3:
		if f, ok := w.one(fact.Flag); ok {
			return f.name
		}
	case 4:
		return w.text(depth-1) + []string{" == ", " != "}[w.IntN(2)] + w.text(0)
	case 5:
		return w.whole(depth) + []string{" == ", " != "}[w.IntN(2)] + w.whole(0)
	case 6:
		return "near(" + w.number(depth-1) + ", " + w.number(0) + ", 2.5)"
	case 7:
		return w.loop()
	case 8:
		return w.named()
	case 9:
		if f, ok := w.one(fact.Name); ok {
			return f.name + ".startsWith('" + []string{"heron", "h", "spline", "re"}[w.IntN(4)] + "')"
		}
	}
	return ""
}

// loop writes a condition on the entries of a list.
func (w *writer) loop() string {
	l, ok := w.list()
	if !ok || w.inner {
		return ""
	}
	w.inner = true
	defer func() { w.inner = false }()
	body := "x" + []string{" < ", " >= "}[w.IntN(2)] + w.limit(l)
	switch w.IntN(4) {
	case 0:
		body += " || " + w.truth(1)
	case 1:
		body = "x - " + w.number(0) + " > " + w.limit(l)
	}
	return l.name + []string{".exists", ".all"}[w.IntN(2)] + "(x, " + body + ")"
}

// named writes a condition on names.
func (w *writer) named() string {
	list, ok := w.one(fact.Names)
	f, single := w.one(fact.Name)
	switch {
	case ok && w.IntN(2) == 0:
		return w.word(list) + " in " + list.name
	case ok && list.Known != nil && w.IntN(2) == 0:
		return "known(" + list.name + ")"
	case single && f.Known != nil && w.IntN(2) == 0:
		return "known(" + f.name + ")"
	case single:
		return f.name + " in [" + w.word(f) + ", " + w.word(f) + "]"
	}
	return ""
}
