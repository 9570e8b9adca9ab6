package source

import "sync"

// chunkNodes is how many nodes are allocated in one piece.
const chunkNodes = 1024

// Memory is memory for trees that nobody keeps: it serves one reader after the other.
// It belongs to one goroutine.
//
//	m := source.Borrow()
//	defer m.Free()
//	root, err := m.Parse("parts.json", text)
type Memory struct {
	chunks []*chunk
	last   int // nodes of the last chunk that are in use

	limits Limits // of the texts that are read

	maps   []*mapChunk
	filled int // entries of the last one that are in use

	firstChunk [1]*chunk // room for the list of what is enough for most texts
	firstMaps  [1]*mapChunk
}

type chunk [chunkNodes]Node

// mapChunk is memory for the entries of maps.
type mapChunk [chunkNodes]Pair

var (
	chunks    = sync.Pool{New: func() any { return new(chunk) }}
	mapChunks = sync.Pool{New: func() any { return new(mapChunk) }}
)

// Borrow gives memory to read with, until it is freed, within the widest limits.
func Borrow() *Memory { return Limits{}.Borrow() }

// Borrow gives memory to read with, until it is freed, within these limits.
func (m Limits) Borrow() *Memory {
	out := &Memory{limits: m}
	out.chunks, out.maps = out.firstChunk[:0], out.firstMaps[:0]
	return out
}

// Parse is Limits.Parse into this memory. What was read of the nodes, such as texts and
// places, may be kept beyond Free, and no node.
func (m *Memory) Parse(file string, text []byte) (*Node, error) {
	return rescued(Pos{File: file}, func() (*Node, error) { return m.limits.parse(file, text, m) })
}

// ParseLine is ParseLine into this memory.
func (m *Memory) ParseLine(file string, line int, text []byte) (*Node, error) {
	return m.limits.parseLine(file, line, text, m)
}

// Free gives the memory back: no node of its trees must be looked at any more.
func (m *Memory) Free() {
	for i, c := range m.chunks {
		used := chunkNodes
		if i == len(m.chunks)-1 {
			used = m.last
		}
		clear(c[:used])
		chunks.Put(c)
	}
	for i, c := range m.maps {
		used := chunkNodes
		if i == len(m.maps)-1 {
			used = m.filled
		}
		clear(c[:used])
		mapChunks.Put(c)
	}
	*m = Memory{limits: m.limits}
}

// lend has the nodes of a text in memory that serves again, where there is any.
func (l *layout) lend(m *Memory) {
	if l != nil { // nil where the text was refused
		l.lent = m
	}
}

// room gives memory for some more nodes of a text.
func (l *layout) room() []Node {
	if l.lent == nil {
		return make([]Node, 0, chunkNodes)
	}
	c := chunks.Get().(*chunk)
	l.lent.chunks, l.lent.last = append(l.lent.chunks, c), chunkNodes
	return c[:0]
}

// entries gives memory for the entries of a map, so many of them.
func (l *layout) entries(n int) []Pair {
	m := l.lent
	if m == nil || n > chunkNodes {
		return make([]Pair, 0, n)
	}
	if len(m.maps) == 0 || m.filled+n > chunkNodes {
		m.maps, m.filled = append(m.maps, mapChunks.Get().(*mapChunk)), 0
	}
	from := m.filled
	m.filled += n
	return m.maps[len(m.maps)-1][from:from:m.filled]
}

// used notes how much of the last room is in use.
func (l *layout) used(nodes int) {
	if l.lent != nil {
		l.lent.last = nodes
	}
}
