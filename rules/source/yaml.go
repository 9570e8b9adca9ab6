package source

import (
	"bytes"
	"fmt"
	"io"

	"gopkg.in/yaml.v3"
)

func parseYAML(l *layout) (*Node, Problems) {
	dec := yaml.NewDecoder(bytes.NewReader([]byte(l.text)))
	var doc yaml.Node
	if err := dec.Decode(&doc); err == io.EOF {
		return nil, Problems{{Pos: l.pos(0), Text: "the file is empty"}}
	} else if err != nil {
		return nil, Problems{{Pos: Pos{File: l.name}, Text: err.Error()}}
	}
	var ps Problems
	n := fromYAML(l, doc.Content[0], &ps)
	return n, ps
}

func fromYAML(l *layout, y *yaml.Node, ps *Problems) *Node {
	n := &Node{Pos: Pos{l.name, y.Line, y.Column}, from: l}
	switch y.Kind {
	case yaml.ScalarNode:
		n.Text, n.Plain = y.Value, y.Style == 0
		n.Kind = Text
		if n.Plain {
			switch {
			case y.Value == "" || y.Value == "null" || y.Value == "~":
				n.Kind = Null
			case y.Value == "true" || y.Value == "false":
				n.Kind = Bool
			case shaped(y.Value):
				n.Kind = Number
			}
		}
	case yaml.SequenceNode:
		n.Kind = List
		for _, c := range y.Content {
			n.Items = append(n.Items, fromYAML(l, c, ps))
		}
	case yaml.MappingNode:
		n.Kind = Map
		for i := 0; i+1 < len(y.Content); i += 2 {
			n.Pairs = append(n.Pairs, Pair{fromYAML(l, y.Content[i], ps), fromYAML(l, y.Content[i+1], ps)})
		}
	default:
		ps.Add(n.Pos, "", fmt.Sprintf("aliases are not allowed: *%s", y.Value), "")
	}
	return n
}
