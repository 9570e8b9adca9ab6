package source

// At gives the place in the file of the i-th code point of Text.
func (n *Node) At(i int) Pos { return n.Pos }
