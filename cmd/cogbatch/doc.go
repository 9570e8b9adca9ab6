// Command cogbatch judges mixes as cogcourt check --format jsonl does, as a pipeline on
// Apache Beam: one mix a line in, one report a line out, on one machine or on a cluster.
//
//	cogbatch --input mixes.jsonl --output reports
//	sort -n reports-* | cut -f2-
//
// Reports come out in files such as reports-00003-of-00016, in any order, each behind the
// number of its line and a tab; sorted they are what the command prints. Where the input
// is a pattern of several files, the file's name and a tab stand in front of the number.
//
// It is a module of its own, so that who imports the library does not carry the engine.
package main
