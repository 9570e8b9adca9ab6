// Package view prints reports, rules, words and parts as text, JSON and pages.
//
// It decides how things look, never what they are: every number and verdict
// comes from the packages that it prints. Names that people wrote are shown with
// control and direction marks made visible, so that no part can draw on a
// terminal.
package view
