// Package catalog holds descriptions of bicycle drivetrain parts: what a part
// may state, how that is read and checked, and a set of parts to look up.
//
// A part file is YAML or JSON with a list of parts:
//
//	catalog: Ferry shed (invented)
//	currency: EUR
//	parts:
//	  - kind: cassette
//	    id: pier-9-11-34
//	    name: Pier nine, 11-34
//	    sku: "PR-0934"
//	    price: 41.50
//	    cogs_t: [11, 13, 15, 17, 20, 23, 26, 30, 34]
//	    pitch_mm: 4.34 ± 0.02
//	    cog_thickness_mm: 1.78
//
// A folder of such files is loaded whole or not at all; every fault of every
// file is reported at once, each with its place and the nearest right word:
//
//	shed, err := catalog.Load(os.DirFS("parts"))
//	if err != nil {
//		return err // source.Problems
//	}
//	pitch := catalog.Cassette.Ref("pitch_mm")
//	for _, part := range shed.OfKind("cassette") {
//		v := pitch.In(part.Record())
//		fmt.Println(part.ID(), v.Known, v.Num, v.Tol)
//	}
//
// The words:
//
//   - A kind is a sort of part, such as cassette or rear_derailleur. Each is one
//     package variable, a rules.Object, whose field table is the only list of
//     what such a part may state: reader, hints, units, ranges, the words of the
//     rules and the printed reference all come from it. There is no Go struct a
//     kind. Kinds lists them.
//   - A part is one thing that can be bought or taken off a bicycle: its kind, an
//     id, a name, and a record of the fields that it states. What it does not
//     state stays unknown; nothing is filled in here but the few defaults of the
//     field tables.
//   - The basis of a part says where its numbers come from: stated by its maker,
//     measured, assumed, or usual. Values of an assumed part are marked as assumed.
//   - A class is a description of many parts, with the basis usual: its numbers may
//     go over a spread, with the source that says so, and nothing is required of it.
//     Package catalog/usual has those that come with the program.
//   - What is stated over a part, by Part.With or in a mix, is known of the one part
//     that lies on the bench: it goes before what the class or the catalogue says.
//
// A number of a class is written so; one of which all say the same has equal ends,
// and one without any is what the class is called by:
//
//   - kind: cassette
//     id: our-twelve
//     name: Twelve cogs, of any maker
//     basis: usual
//     cog_count: 12
//     pitch_mm: {usual: 3.65, least: 3.55, most: 3.75, source: our-log}
//
// A catalog is a set of parts, with one id for each; ids that begin with usual- are
// those of the classes that come with the program.
//
// Lists of a part run from the smallest cog towards the spokes. A part and a
// catalog are immutable once made, and safe for many goroutines. Only Load,
// LoadUsual, ReadFile, Read, ReadOver, New and With make parts, all through the same
// checks, so nobody holds a part with a number out of its range or a list over its cap.
//
// The package does not judge whether parts work together, and it fills no usual
// values in: that is left to package compat.
package catalog
