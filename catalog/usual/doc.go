// Package usual holds what is usual of parts: classes without a maker, and counts, each
// fact with the spread of what is published of it and who says so.
//
//	name, text := usual.Counts()
//	root, err := source.Parse(name, text)
package usual
