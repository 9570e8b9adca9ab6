// Package browser looks at the command's pages as people do: in a browser, at the
// widths of a phone, a tablet and a desk, in light and in dark, and on paper. It is
// tests alone, and wants Debian's chromium.
//
// The pages are those of the demo, of mixes that nobody put together, and of names that
// try to be more than text. Whether they can be read by everybody is asked of axe-core,
// which npm fetches when the test runs; without a network that test says that it was
// left out.
package browser
