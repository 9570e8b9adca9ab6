package main

import (
	_ "embed"
	"fmt"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"

	"golang.org/x/tools/go/packages"
)

//go:embed made.txt
var made string

// mutated names the files whose changes are made, by expressions over their paths: what
// decides verdicts, and the numbers that verdicts are about.
var mutated = regexp.MustCompile(`^(rules/(outcome|evaluate|logic|assumed|judge|corners|` +
	`lean|leanplan|leave|limit|going|others|marks|margin|mover|decide)|` +
	`compat/(checker|judge|usual|varied|would)|compat/cart/(pair|search)|compat/(figures|geometry|fit)/\w+)\.go$`)

// copied writes the module's files into a folder, all changes in them.
func copied(root, to string) ([]mutant, error) {
	list, err := exec.Command("git", "-C", root, "ls-files", "-z").Output()
	if err != nil {
		return nil, fmt.Errorf("the files of the module: %w", err)
	}
	for name := range strings.SplitSeq(strings.TrimRight(string(list), "\x00"), "\x00") {
		text, err := os.ReadFile(filepath.Join(root, name))
		if err != nil {
			return nil, err
		}
		if err := written(filepath.Join(to, name), text); err != nil {
			return nil, err
		}
	}
	return mutatedIn(to, mutated, changedPackages)
}

func written(file string, text []byte) error {
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		return err
	}
	return os.WriteFile(file, text, 0o644)
}

// changedPackages have the files that are changed.
var changedPackages = []string{"./rules", "./compat", "./compat/cart", "./compat/figures", "./compat/geometry", "./compat/fit"}

// mutatedIn writes all changes of some packages' files into a copy.
func mutatedIn(root string, files *regexp.Regexp, changed []string) ([]mutant, error) {
	config := &packages.Config{Dir: root, Mode: packages.NeedName | packages.NeedFiles | packages.NeedSyntax |
		packages.NeedTypes | packages.NeedTypesInfo | packages.NeedImports | packages.NeedDeps | packages.NeedCompiledGoFiles}
	pkgs, err := packages.Load(config, changed...)
	if err != nil {
		return nil, err
	}
	if packages.PrintErrors(pkgs) > 0 {
		return nil, fmt.Errorf("the module does not compile")
	}
	var all []mutant
	folders := map[string]string{} // to the names of their packages
	for _, p := range pkgs {
		folder := ""
		for _, f := range p.Syntax {
			at := p.Fset.Position(f.Package).Filename
			name, err := filepath.Rel(root, at)
			if err != nil {
				return nil, err
			}
			if folder = path.Dir(filepath.ToSlash(name)); !files.MatchString(filepath.ToSlash(name)) {
				continue
			}
			text, err := os.ReadFile(at)
			if err != nil {
				return nil, err
			}
			w := &writer{pkg: p, file: f, name: filepath.ToSlash(name), text: text, next: len(all) + 1}
			if err := os.WriteFile(at, w.mutate(), 0o644); err != nil {
				return nil, err
			}
			all = append(all, w.mutants...)
		}
		folders[folder] = p.Name
	}
	for folder, name := range folders {
		text := strings.NewReplacer("PACKAGE", name, "COUNT", strconv.Itoa(len(all))).Replace(made)
		if err := written(filepath.Join(root, folder, "mutants_made.go"), []byte(text)); err != nil {
			return nil, err
		}
	}
	return all, nil
}
