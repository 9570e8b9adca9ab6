package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestLineOverlays holds that kind=id and kind.field=value together are the part of
// that id with the field stated over it, as a file writes it, and that several ids of
// one kind are one part of several classes.
func TestLineOverlays(t *testing.T) {
	for _, c := range []struct{ line, parts string }{
		{"cassette=reedbed-12-10-51 cassette.pitch_mm=3.6", "cassette: {id: reedbed-12-10-51, pitch_mm: 3.6}"},
		{"cassette.pitch_mm=3.6 chain=lantern-chain-12 cassette=reedbed-12-10-51",
			"cassette: {pitch_mm: 3.6, id: reedbed-12-10-51}\n  chain: lantern-chain-12"},
		{"cassette=usual-cassette-11-378-road", "cassette: usual-cassette-11-378-road"},
		{"chain.speeds=9 cassette=usual-cassette-11-378-road", "chain: {speeds: 9}\n  cassette: usual-cassette-11-378-road"},
		{"cassette=usual-cassette-11-378-road cassette.cogs_t=11,12,13,14,15,17,19,21,23,25,28",
			"cassette: {id: usual-cassette-11-378-road, cogs_t: [11, 12, 13, 14, 15, 17, 19, 21, 23, 25, 28]}"},
		{"rear_derailleur=usual-rd-r17,usual-cage-road-short-11", "rear_derailleur: {id: [usual-rd-r17, usual-cage-road-short-11]}"},
		{"rear_derailleur=usual-rd-r17,usual-cage-road-short-11 rear_derailleur.max_cog_t=30",
			"rear_derailleur: {id: [usual-rd-r17, usual-cage-road-short-11], max_cog_t: 30}"},
	} {
		path := filepath.Join(t.TempDir(), "bike.yaml")
		if err := os.WriteFile(path, []byte("mix: unnamed\nparts:\n  "+c.parts+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		wantStatus, want, fileErr := command1("", "check", "--format", "json", path)
		status, got, stderr := command1("", append([]string{"check", "--format", "json"}, arguments(c.line)...)...)
		if wantStatus == exitLoad || status != wantStatus || got != want {
			t.Errorf("%s ends with %d, the file with %d: %s%s%s", c.line, status, wantStatus, stderr, fileErr, firstDifference(want, got))
		}
	}
}

// TestLineOverlayFaults holds that faults of an overlay name the argument that they
// are in.
func TestLineOverlayFaults(t *testing.T) {
	for _, c := range []struct{ line, place, word string }{
		{"chain.speeds=9 cassette=usual-cassette-11-378-rode", "argument 2: cassette=usual-cassette-11-378-rode: ", "usual-cassette-11-378-road"},
		{"cassette=reedbed-12-10-51 cassette.pich_mm=3.6", "argument 2: cassette.pich_mm=3.6: ", "pitch_mm"},
		{"rear_derailleur=usual-rd-r17,usual-rd-r12", "argument 1: rear_derailleur=usual-rd-r17,usual-rd-r12: ", "ratio"},
	} {
		status, out, stderr := command1("", append([]string{"check"}, arguments(c.line)...)...)
		if status != exitLoad || out != "" || !strings.HasPrefix(stderr, c.place) || !strings.Contains(stderr, c.word) {
			t.Errorf("%s ends with %d, want a fault at %q with %q:\n%s%s", c.line, status, c.place, c.word, stderr, out)
		}
	}
}

// TestOneLineAnswers holds the answers to two questions as they are asked at the counter.
func TestOneLineAnswers(t *testing.T) {
	for _, c := range []struct {
		line   string
		status int
		answer string
	}{
		{"chain.speeds=9 cassette=usual-cassette-11-378-road", exitFail, "No: "},
		{"chain.speeds=10 cassette=usual-cassette-11-378-road", exitUnknown, "Open: measure or look up "},
	} {
		status, out, stderr := command1("", append([]string{"check"}, arguments(c.line)...)...)
		if status != c.status || !strings.HasPrefix(out, c.answer) {
			t.Errorf("%s ends with %d, want %d and %q:\n%s%s", c.line, status, c.status, c.answer, stderr, out)
		}
	}
}

// TestLineKnowsTheTrade holds that words of the trade in the place of kinds and fields
// are hints, never read.
func TestLineKnowsTheTrade(t *testing.T) {
	for _, c := range []struct {
		line   string
		status int
		want   string
	}{
		{"check freewheel.cogs_t=14,16", exitLoad, `argument 1: freewheel.cogs_t=14,16: there is no kind "freewheel" (here it is called "cassette")`},
		{"check chainset=x", exitLoad, `here it is called "crankset"`},
		{"check derailleur=x", exitLoad, `did you mean "rear_derailleur" or "front_derailleur"?`},
		{"new part freewheel", exitUsage, `there is no kind "freewheel"; here it is called "cassette"`},
	} {
		status, out, stderr := command1("", arguments(c.line)...)
		if status != c.status || out != "" || !strings.Contains(stderr, c.want) {
			t.Errorf("%s ends with %d, want %d and %q:\n%s%s", c.line, status, c.status, c.want, stderr, out)
		}
	}
}

// TestLikeIsFilledIn holds that what a mix to go on from asks of a part of the catalogue
// can be filled in as its remarks say.
func TestLikeIsFilledIn(t *testing.T) {
	_, like, _ := command1("", "new", "mix", "--like", "demo:donated-undecided")
	before, rest, ok := strings.Cut(like, "  rear_derailleur: donated-rd-lantern\n")
	if !ok || !strings.Contains(rest, "  #   made_for_cogs:\n") {
		t.Fatal(like)
	}
	filled := before + strings.NewReplacer("\n  # rear_derailleur:\n  #   id:", "\n  rear_derailleur:\n    id:",
		"\n  #   made_for_cogs:\n", "\n    made_for_cogs: 12\n").Replace(rest)
	status, out, stderr := command1(filled, "check", "-")
	if status == exitLoad || status == exitUnknown {
		t.Errorf("exit status %d: %s%s\n%s", status, stderr, out, filled)
	}
}
