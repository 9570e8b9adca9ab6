package picture

import _ "embed" // for the style

//go:embed style.css
var style string

// Style gives the rules that drawings need on their page, for a style element: colours as
// variables, for light, for dark and for paper, and the classes of lines, fields and
// texts. Variables and classes of a page's own may go by them.
func Style() string { return style }
