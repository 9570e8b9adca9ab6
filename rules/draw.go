package rules

import (
	"fmt"
	"slices"
	"strings"

	"example.org/cogcourt/rules/fact"
	"example.org/cogcourt/rules/internal/expr"
	"example.org/cogcourt/rules/source"
)

// Drawing is one drawing that rules may point to. What it looks like is for who
// draws it; the rules know its name and the limits that it can show.
type Drawing struct {
	Name   string
	Doc    string   // what it shows, in a sentence
	Limits []string // the limits that it shows, such as warn and fail; none for most
}

// Draw says which drawing shows a rule, and the rule's own limits as they are to be
// drawn. The zero Draw is that of a rule which none shows.
type Draw struct {
	Name   string // of a [Drawing]; empty for none
	Limits []DrawnLimit
}

// DrawnLimit is a number of the rule's conditions under the name of the limit that
// the drawing shows by it.
type DrawnLimit struct {
	Name  string
	Value float64 // in the unit of what the condition holds against it
}

// Limit gives a limit by its name; it is not ok where the rule draws none of that name.
func (d Draw) Limit(name string) (value float64, ok bool) {
	i := slices.IndexFunc(d.Limits, func(l DrawnLimit) bool { return l.Name == name })
	if i < 0 {
		return 0, false
	}
	return d.Limits[i].Value, true
}

// draw reads draw: of a rule, which is the name of a drawing, or a map from it to
// limits. A limit that is no number of the rule's own conditions is refused: what is
// drawn would not be what is judged. Of conditions that are broken nobody can tell.
func (l *loader) draw(path string, rule *source.Node, broken bool) Draw {
	n := rule.Get("draw")
	if n == nil {
		return Draw{}
	}
	path += ".draw"
	switch n.Kind {
	case source.Text:
		name, ok := n.ReadText(path, l.ps)
		if _, known := l.drawing(name, path, n); !ok || !known {
			return Draw{}
		}
		return Draw{Name: name}
	case source.Map:
		if broken {
			rule = nil
		}
		return l.drawLimits(path, n, rule)
	}
	n.Refuse(l.ps, path, "the name of a drawing is wanted here", "write draw: "+l.drawingForm()).Code = source.WrongKind
	return Draw{}
}

// drawLimits reads the map from a drawing to its limits, which are held against the rule
// where there is one.
func (l *loader) drawLimits(path string, n, rule *source.Node) Draw {
	if len(n.Pairs) != 1 {
		text := fmt.Sprintf("a rule has one drawing, and here are %d", len(n.Pairs))
		n.Refuse(l.ps, path, text, "write draw: "+l.drawingForm()).Code = source.Contradicts
		return Draw{}
	}
	name, limits := n.Pairs[0].Key.Text, n.Pairs[0].Value
	drawing, known := l.drawing(name, path, n.Pairs[0].Key)
	if !known {
		return Draw{}
	}
	path += "." + name
	if len(drawing.Limits) == 0 || limits.Kind == source.Null || limits.Kind == source.Map && len(limits.Pairs) == 0 {
		text := "no limit is named here"
		if len(drawing.Limits) == 0 {
			text = "the drawing " + name + " shows no limits"
		}
		n.Pairs[0].Key.Refuse(l.ps, path, text, "write draw: "+name).Code = source.Contradicts
		return Draw{}
	}
	if limits.Kind != source.Map {
		hint := "write " + name + ": {" + drawing.Limits[0] + ": ...}, with a number of the rule's conditions"
		limits.Refuse(l.ps, path, "limits are wanted here, each with its name", hint).Code = source.WrongKind
		return Draw{}
	}
	l.keys(limits, path, drawing.Limits...)
	out := Draw{Name: name}
	for _, pair := range limits.Pairs {
		if slices.Contains(drawing.Limits, pair.Key.Text) {
			if x, ok := l.drawnNumber(path+"."+pair.Key.Text, pair.Value, rule); ok {
				out.Limits = append(out.Limits, DrawnLimit{pair.Key.Text, x})
			}
		}
	}
	return out
}

// drawing finds a drawing by its name; that there is none is a problem.
func (l *loader) drawing(name, path string, at *source.Node) (Drawing, bool) {
	i := slices.IndexFunc(l.drawings, func(d Drawing) bool { return d.Name == name })
	if i >= 0 {
		return l.drawings[i], true
	}
	names := make([]string, len(l.drawings))
	for i, d := range l.drawings {
		names[i] = d.Name
	}
	hint := fact.Suggest(name, names)
	if hint == "" {
		hint = "known are " + strings.Join(names, ", ")
	}
	if len(names) == 0 {
		hint = "nothing is drawn here; take draw: away"
	}
	at.Refuse(l.ps, path, fmt.Sprintf("no drawing is called %q", name), hint).Code = source.NoSuchChoice
	return Drawing{}, false
}

// drawingForm shows how draw: is written, by a drawing that there is.
func (l *loader) drawingForm() string {
	for _, d := range l.drawings {
		if len(d.Limits) > 0 {
			return d.Name + ", or {" + d.Name + ": {" + d.Limits[0] + ": ...}}"
		}
	}
	return "and the name of a drawing"
}

// drawnNumber reads a limit. That it stands in the conditions is not asked of sound
// files, of which nothing is parsed before it is used, nor without a rule.
func (l *loader) drawnNumber(path string, n, rule *source.Node) (float64, bool) {
	x, tol, ok := n.ReadNumber(path, l.ps)
	if !ok || l.sound {
		return x, ok
	}
	if tol != 0 {
		n.Refuse(l.ps, path, "a limit that is drawn has no tolerance", "").Code = source.BadTolerance
		return 0, false
	}
	if rule == nil {
		return x, true
	}
	known := decidingNumbers(rule)
	if slices.Contains(known, x) {
		return x, true
	}
	words := make([]string, len(known))
	for i, k := range known {
		words[i] = Decimal(k, -1)
	}
	hint := "what is drawn must be what is judged; the conditions hold no number"
	if len(words) > 0 {
		hint = "what is drawn must be what is judged; the conditions hold " + strings.Join(words, ", ")
	}
	n.Refuse(l.ps, path, fmt.Sprintf("%s is no number of this rule's conditions", n.Text), hint).Code = source.Contradicts
	return 0, false
}

// decidingNumbers gives the numbers that are written in what a rule's verdict depends
// on, each once, in the order of the text.
func decidingNumbers(rule *source.Node) []float64 {
	var all []Expression
	if lets := rule.Get("let"); lets != nil {
		for _, pair := range lets.Pairs {
			all = append(all, Expression{Key: "let." + pair.Key.Text, Text: pair.Value.Text})
		}
	}
	for _, key := range []string{"when", "fail_if", "warn_if"} {
		if text := written(rule, key); text != "" {
			all = append(all, Expression{Key: key, Text: text})
		}
	}
	var out []float64
	for _, e := range deciding(all) {
		for _, x := range expr.Literals(e.Text) {
			if !slices.Contains(out, x) {
				out = append(out, x)
			}
		}
	}
	return out
}

// deciding leaves of a rule's expressions, in the order in which one reads the other,
// those that its verdict depends on: the conditions, and the let-names that they read,
// through others too.
func deciding(all []Expression) []Expression {
	var out []Expression
	marks := map[string]bool{}
	for _, e := range slices.Backward(all) {
		if strings.HasPrefix(e.Key, "let.") && !marks[e.Key] {
			continue // only texts read it
		}
		out = append(out, e)
		for _, name := range expr.Names(e.Text) {
			marks["let."+name] = true
		}
	}
	slices.Reverse(out)
	return out
}
