// Package picture draws reports: the error left at each cog, side and top view, the
// gears as a ladder, what the largest pair leaves of the chain, the chain between its
// cogs, and a paper gauge of the B-gap; and a plot of characters for terminals. It is
// pure: an outline goes in, SVG comes out, and the same outline gives the same bytes.
//
//	for _, p := range picture.All(report.Outline(), picture.Options{}) {
//		fmt.Fprintf(w, "<figure>%s<figcaption>%s</figcaption></figure>", p.SVG, html.EscapeString(p.Caption))
//	}
//
// A page has the rules of [Style] in a style element; a drawing holds no colour of its
// own. Its title and its caption are in it for who cannot see it, and [Picture.Table]
// has its numbers. Texts are escaped in the SVG and nowhere else: Title, Caption and
// Table are plain texts.
//
// What is not known is not drawn: where a whole drawing cannot be made, Picture.Drawn
// is false and the SVG is a dashed frame that says why; where a part of one cannot, the
// caption says so. What is assumed is said in the caption.
//
// Every text that a drawing holds has a place of its own: a label that would lie over
// another, or outside, is tried elsewhere and else left out, for it is in the table. How
// wide a text is is reckoned by the widest of the fonts that the style names.
package picture
