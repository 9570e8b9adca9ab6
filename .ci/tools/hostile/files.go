package hostile

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
)

// sparse makes a file of a size that nobody wrote.
func sparse(path string, size int64) error {
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	return errors.Join(f.Truncate(size), f.Close())
}

// files are folders and files that are not what they seem.
func (g *generator) files() {
	in := func(dir, name string) string { return filepath.Join(dir, name) }
	odd := map[string]func(path string) error{
		"a pipe":                 func(path string) error { return syscall.Mkfifo(path, 0o644) },
		"a socket":               func(path string) error { return syscall.Mknod(path, syscall.S_IFSOCK|0o644, 0) },
		"a link to itself":       func(path string) error { return os.Symlink(filepath.Base(path), path) },
		"a link to nothing":      func(path string) error { return os.Symlink("nowhere", path) },
		"a link to zeroes":       func(path string) error { return os.Symlink("/dev/zero", path) },
		"a link to a terminal":   func(path string) error { return os.Symlink("/dev/tty", path) },
		"a link to the input":    func(path string) error { return os.Symlink("/dev/stdin", path) },
		"a link to memory":       func(path string) error { return os.Symlink("/proc/self/mem", path) },
		"a link to the kernel":   func(path string) error { return os.Symlink("/proc/kmsg", path) },
		"a link to the folder":   func(path string) error { return os.Symlink(".", path) },
		"a folder":               func(path string) error { return os.Mkdir(path, 0o755) },
		"a file of 10 GB":        func(path string) error { return sparse(path, 10<<30) },
		"a file of no rights":    func(path string) error { return os.WriteFile(path, []byte(soundMix), 0) },
		"an empty file":          func(path string) error { return os.WriteFile(path, nil, 0o644) },
		"a file just too long":   func(path string) error { return sparse(path, 8<<20+1) },
		"a program":              func(path string) error { return os.WriteFile(path, []byte("#!/bin/sh\necho x\n"), 0o755) },
		"a file of end of lines": func(path string) error { return os.WriteFile(path, []byte(many("\n", 1<<20)), 0o644) },
	}
	for name, build := range inOrder(odd) {
		for _, d := range []struct{ door, file, args string }{
			{"mix", "m.yaml", "check m.yaml"}, {"json", "m.json", "check m.json"}, {"cart", "c.yaml", "cart c.yaml"}, {"parts",
				"p/p.yaml", "parts --parts p"},
			{"rules", "r/r.yaml", "check --rules r demo:cart-chain-cassette"}, {"rule file", "r.yaml",
				"check --rules r.yaml demo:cart-chain-cassette"}, {"parts folder", "p", "parts --parts p"},
		} {
			c := Case{Family: "file/" + d.door, Name: name, Args: strings.Fields(d.args), Want: []int{refused},
				Nobody: strings.Contains(name, "rights")}
			c.Build = func(dir string) error {
				if err := os.MkdirAll(filepath.Dir(in(dir, d.file)), 0o755); err != nil {
					return err
				}
				return build(in(dir, d.file))
			}
			if d.door == "parts" && (name == "a folder" || name == "a link to the folder") {
				c.Says = "no part file|not a regular file"
			}
			if d.door == "rules" && name == "a folder" {
				c.Says = "no rule|rule file"
			}
			g.add(c)
		}
	}
	g.folders()
}

// folders are folders of which one part cannot be read, or that have no end.
func (g *generator) folders() {
	part := func(dir, name string) error { return os.WriteFile(filepath.Join(dir, name), []byte(soundParts), 0o644) }
	for _, c := range []struct {
		name   string
		want   int
		nobody bool
		build  func(p string) error
	}{
		{"a link to the folder above", refused, false, func(p string) error {
			return errors.Join(part(p, "a.yaml"), os.Symlink("..", filepath.Join(p, "up.yaml")))
		}},
		{"a link to the folder above, named as a folder", fine, false, func(p string) error {
			return errors.Join(part(p, "a.yaml"),
				os.Symlink("..", filepath.Join(p, "up")))
		}},
		{"a folder without rights", refused, true, func(p string) error {
			return errors.Join(part(p, "a.yaml"), os.Mkdir(filepath.Join(p,
				"b"), 0))
		}},
		{"300 folders in each other", fine, false, func(p string) error {
			deep := filepath.Join(p, many("d/", 300))
			return errors.Join(os.MkdirAll(deep, 0o755), part(deep, "a.yaml"))
		}},
		{"3000 files that are no parts", fine, false, func(p string) error {
			err := part(p, "a.yaml")
			for i := range 3000 {
				err = errors.Join(err, os.WriteFile(filepath.Join(p, fmt.Sprintf("n%d.txt", i)), nil, 0o644))
			}
			return err
		}},
		{"a name that draws", refused, false, func(p string) error {
			return os.WriteFile(filepath.Join(p, "a\x1b[31m\u202e\n.yaml"), []byte("x"), 0o644)
		}},
		{"a name of bytes", refused, false, func(p string) error {
			return os.WriteFile(filepath.Join(p, "a\xff\xfe.yaml"), []byte("x"),
				0o644)
		}},
		{"one id in two files", refused, false, func(p string) error { return errors.Join(part(p, "a.yaml"), part(p, "b.yaml")) }},
		{"hidden files", refused, false, func(p string) error {
			return errors.Join(part(p, ".a.yaml"), os.MkdirAll(filepath.Join(p, ".git"), 0o755), part(p, ".git/b.yaml"))
		}},
		{"an empty folder", refused, false, func(string) error { return nil }},
		{"an id that is a file", refused, false, func(p string) error {
			return os.WriteFile(filepath.Join(p, "a.yaml"), []byte(strings.Replace(soundParts, "rope", "../a", 1)), 0o644)
		}},
		{"300 empty files", refused, false, func(p string) error {
			var err error
			for i := range 300 {
				err = errors.Join(err, os.WriteFile(filepath.Join(p, fmt.Sprintf("n%d.yaml", i)), nil, 0o644))
			}
			return err
		}},
	} {
		g.add(Case{Family: "file/folder", Name: c.name, Args: []string{"parts", "--parts", "p"}, Want: []int{c.want}, Nobody: c.nobody,
			Build: func(dir string) error {
				p := filepath.Join(dir, "p")
				return errors.Join(os.Mkdir(p, 0o755), c.build(p))
			}})
	}
	g.paths()
}

// paths are what the command line names and that is no file of anybody's.
func (g *generator) paths() {
	for _, name := range []string{"/dev/zero", "/dev/full", "/dev/tty", "/dev/random", "/proc/self/mem", "/proc/self/fd/0",
		"/proc/self/environ", "/", ".", "..", "nowhere/m.yaml", "\x1b.yaml", "a\xff.yaml", "/etc/shadow\x1b"} {
		for _, args := range [][]string{{"check", name}, {"cart", name}, {"check", "--rules", name, "demo:cart-chain-cassette"}, {"parts",
			"--parts", name}} {
			if name == "/" && args[0] != "check" || len(args) > 2 && len(name) < 3 {
				continue // of a whole machine nobody knows what lies there
			}
			g.add(Case{Family: "file/path", Name: strings.Join(args, " "), Args: args, Want: []int{refused}})
		}
	}
}

// broken are sound texts with random damage: nobody knows what they are, but what they
// cannot be.
func (g *generator) broken() {
	signs := strings.Split("{|}|[|]|:|,|-|#|&a|*a|!|%|@|`|'|\"|\\|>|<<: |? |~|\n|\n  |\t| |0|9|e|.|±|"+
		"\u00e9|\U0001f6b2|null|true|{{|}}|../", "|")
	for _, d := range append(yamlDoors(), jsonDoors()...) {
		for i := range 8 {
			text := []rune(d.head + quoted(d, "quiet as the lake") + d.tail)
			for range 1 + g.IntN(6) {
				at := g.IntN(len(text))
				switch g.IntN(3) {
				case 0:
					text = append(text[:at:at], text[at+1:]...)
				case 1:
					text = append(text[:at:at], append([]rune(pick(g, signs)), text[at:]...)...)
				default:
					to := at + g.IntN(len(text)-at)
					text = append(text[:to:to], append([]rune(string(text[at:to])), text[to:]...)...)
				}
			}
			g.add(d.holding("broken", fmt.Sprint(i), string(text), fine, fails, open, refused))
		}
	}
}
