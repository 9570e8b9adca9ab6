// Package hostile writes inputs that mean harm, for every door of the command: mixes,
// part files, rule files and adjustments, carts, lines of JSONL, arguments, folders and
// what is no file at all. Each is judged by the built command in a process of its own,
// which must end in time, within bounds of processor time and memory, with the right
// status, a fault at the place where one was planted, and nothing on its output that
// draws on a terminal.
//
// What is random comes from a seed, so that the same seed gives the same inputs. The
// tests run a third of each family, and with -all every one:
//
//	go test ./hostile -all -seed 2
package hostile
