package source

// Kind says what a Node holds.
type Kind uint8

// The kinds of nodes.
const (
	Null   Kind = iota // no value: nothing, ~ or null
	Bool               // true or false
	Number             // a number as JSON writes them
	Text               // a text, quoted or not
	List               // a list of nodes
	Map                // named nodes
)

// String names the kind as problems do.
func (k Kind) String() string {
	switch k {
	case Bool:
		return "a flag"
	case Number:
		return "a number"
	case Text:
		return "a text"
	case List:
		return "a list"
	case Map:
		return "a map"
	}
	return "nothing"
}

// Node is one value of a file, which knows its place. A tree of nodes is
// immutable once made and safe for many goroutines.
type Node struct {
	Kind         Kind
	Pos          Pos    // the first character of the value: of a quoted text its quote, of a block text its | or >
	Text         string // the decoded text of a scalar; numbers and flags as they are written. It may be a piece of the file's text
	Plain        bool   // a scalar without quotes
	Comment      bool   // YAML: a comment follows a plain scalar on its line
	TightComment bool   // YAML: that comment has no blank behind its #, as in bolt #4: most likely it was meant as text
	Items        []*Node
	Pairs        []Pair // in the order of the file

	from   *layout // the file's text; nil for what FromGo made
	at     int32   // the byte offset of Pos in it
	indent int32   // YAML: the column, from 0, of the block around it; -1 at the top
	style  style
}

// Pair is one entry of a map. The key is a scalar; its name is Key.Text.
type Pair struct{ Key, Value *Node }

// style says how a scalar is written, which decides how its places are found.
type style uint8

const (
	stylePlain style = iota // also lists, maps, and all of JSON but its strings
	styleSingle
	styleDouble
	styleLiteral
	styleFolded
	styleJSON // a JSON string
)

// Get gives the value of a key, or nil where the node is no map, has no such
// key, or is nil itself.
func (n *Node) Get(key string) *Node {
	if n == nil {
		return nil
	}
	for _, p := range n.Pairs {
		if p.Key.Text == key {
			return p.Value
		}
	}
	return nil
}
