// Package usual holds what is usual of drivetrain parts by class: classes without
// a maker, such as a cassette of eleven cogs for road bicycles or a lever that pulls
// 2.7 mm a click. They stand in where nobody has measured a part or found its
// sheet. Each number is published or, where it says memory, common knowledge of the
// trade; with it stands how far published and measured ones lie from it, and who
// says so.
//
// The files are part files of package catalog, which are read by catalog.LoadUsual:
//
//	classes, err := catalog.LoadUsual(usual.Files())
//	if err != nil {
//		return err
//	}
//	road, _ := classes.Part("usual-cassette-11-378-road")
//	mine, err := road.With(map[string]any{"cogs_t": []int{11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28}})
//
// Sources are ids of the shipped rules' sources. What nobody may take for granted
// is in none of the classes: a motor's steps, protocols, cells, threads and hangers,
// torques and strengths.
package usual

import (
	"embed"
	"io/fs"
)

//go:embed parts/*.yaml
var parts embed.FS

//go:embed trees.txt
var trees string

// folder is the part files with their trees: a source.TreeFS.
type folder struct{ embed.FS }

func (folder) Trees() string { return trees }

// Files gives the part files, and nothing else, for catalog.LoadUsual.
func Files() fs.FS { return folder{parts} }
