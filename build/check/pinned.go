package check

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"newel/build/tools"
)

// exact is one version and no range of them.
var exact = regexp.MustCompile(`^\d+\.\d+\.\d+(-[0-9A-Za-z.-]+)?$`)

// required is a line of go.mod that asks for a module; replaced one that puts something else in its place.
var (
	required = regexp.MustCompile(`(?m)^(?:require)?\s+([\w.~/-]+\.[\w.~/-]+) (v\S+)`)
	replaced = regexp.MustCompile(`(?m)^(?:replace\s|\s.* => )`)
)

// Pinned looks whether everything that is downloaded is named by one version and held to a checksum. What
// apt installs is not: those are programs of the tests, and Debian signs its lists.
func Pinned(root string) ([]string, error) {
	problems, err := pinnedModules(root)
	if err != nil {
		return nil, err
	}
	files, err := tools.Sources(root)
	if err != nil {
		return nil, err
	}
	for _, name := range files {
		switch path.Base(name) {
		case "package.json":
			found, err := rangesIn(root, name)
			if err != nil {
				return nil, err
			}
			problems = append(problems, found...)
			if lock := path.Join(path.Dir(name), "package-lock.json"); !slices.Contains(files, lock) {
				problems = append(problems, name+" has no package-lock.json beside it: run npm install there")
			}
		case "package-lock.json":
			found, err := uncheckedIn(root, name)
			if err != nil {
				return nil, err
			}
			problems = append(problems, found...)
		}
	}
	return problems, nil
}

func pinnedModules(root string) (problems []string, err error) {
	mod, err := os.ReadFile(filepath.Join(root, "go.mod"))
	if err != nil {
		return nil, err
	}
	sums, err := os.ReadFile(filepath.Join(root, "go.sum"))
	if err != nil {
		return nil, err
	}
	if replaced.Match(mod) {
		problems = append(problems, "go.mod replaces a module: name the one that is meant")
	}
	for _, m := range required.FindAllSubmatch(mod, -1) {
		for _, sum := range []string{" h1:", "/go.mod h1:"} {
			if !bytes.Contains(sums, fmt.Appendf(nil, "%s %s%s", m[1], m[2], sum)) {
				problems = append(problems, fmt.Sprintf("go.sum has no checksum of %s %s: run go mod tidy", m[1], m[2]))
				break
			}
		}
	}
	return problems, nil
}

func rangesIn(root, name string) (problems []string, err error) {
	var about struct{ Dependencies, DevDependencies, OptionalDependencies map[string]string }
	if err := readJSON(filepath.Join(root, name), &about); err != nil {
		return nil, err
	}
	for _, list := range []map[string]string{about.Dependencies, about.DevDependencies, about.OptionalDependencies} {
		for dependency, version := range list {
			if !exact.MatchString(version) {
				problems = append(problems, fmt.Sprintf("%s asks for %s %s, which is not one version", name, dependency, version))
			}
		}
	}
	slices.Sort(problems)
	return problems, nil
}

func uncheckedIn(root, name string) (problems []string, err error) {
	var lock struct {
		Packages map[string]struct{ Version, Integrity string }
	}
	if err := readJSON(filepath.Join(root, name), &lock); err != nil {
		return nil, err
	}
	if len(lock.Packages) < 2 {
		problems = append(problems, name+" lists no packages: it is of a form that is not known here")
	}
	for dependency, p := range lock.Packages {
		if dependency != "" && (!exact.MatchString(p.Version) || !strings.HasPrefix(p.Integrity, "sha512-")) {
			problems = append(problems, fmt.Sprintf("%s has no version and SHA-512 checksum of %s", name, dependency))
		}
	}
	slices.Sort(problems)
	return problems, nil
}

func readJSON(name string, into any) error {
	data, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	if err := json.Unmarshal(data, into); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}
