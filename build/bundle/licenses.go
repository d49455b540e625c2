package bundle

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"

	"github.com/evanw/esbuild/pkg/api"

	"newel/build/tools"
)

// licensesName is the file with the licenses of all that the page is made of and others wrote. The typeface's
// asks that it goes wherever the typeface goes (SIL Open Font License 1.1, condition 2), the others that
// their notice is in all copies. The page "About this page" names the same works (core/page/shipped.txt).
const licensesName = "licenses.txt"

const typeface = "@fontsource-variable/atkinson-hyperlegible-next"

// work is something that somebody else wrote and the page ships.
type work struct {
	name, version string
	license       string // as SPDX names it
	text          string // of the license
}

// works finds what is shipped by asking those who put it in: Go's linker and esbuild. loader is Go's
// wasm_exec.js.
func works(ctx context.Context, root, loader string) ([]work, error) {
	goRoot, err := tools.GoEnv(ctx, root, "GOROOT")
	if err != nil {
		return nil, err
	}
	all := []work{{name: "Go", version: strings.TrimPrefix(runtime.Version(), "go")}}
	if all[0].text, err = licenseIn(goRoot); err != nil {
		return nil, err
	}
	out, err := tools.Command{
		Step: "listing what the core is made of", Dir: root, Env: tools.WasmEnv(), Name: "go",
		Args: []string{"list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}}\t{{.Version}}\t{{.Dir}}{{end}}{{end}}", "./wasm/whole"},
	}.Stdout(ctx)
	if err != nil {
		return nil, err
	}
	var dirs []string
	for line := range strings.Lines(out) {
		if parts := strings.Split(strings.TrimSpace(line), "\t"); len(parts) == 3 && !slices.Contains(dirs, parts[2]) {
			dirs = append(dirs, parts[2])
			text, err := licenseIn(parts[2])
			if err != nil {
				return nil, err
			}
			all = append(all, work{name: parts[0], version: readable(parts[1]), text: text})
		}
	}
	packages, err := npmPackages(root, loader)
	if err != nil {
		return nil, err
	}
	for _, name := range append(packages, typeface) {
		dir := filepath.Join(root, "node_modules", name)
		text, err := licenseIn(dir)
		if err != nil {
			return nil, err
		}
		data, err := os.ReadFile(filepath.Join(dir, "package.json"))
		if err != nil {
			return nil, err
		}
		var about struct{ Version string }
		if err := json.Unmarshal(data, &about); err != nil {
			return nil, fmt.Errorf("%s: package.json: %w", name, err)
		}
		all = append(all, work{name: name, version: about.Version, text: text})
	}
	for i := range all {
		if all[i].license = spdx(all[i].text); all[i].license == "" {
			return nil, fmt.Errorf("%s is under a license that is not known here, and the page may not ship it unread.\n"+
				"  what to do: read it; if the page may have it, add its words to knownLicenses (build/bundle/licenses.go)", all[i].name)
		}
	}
	slices.SortFunc(all, func(a, b work) int { return cmp.Compare(a.name, b.name) })
	return all, nil
}

// readable is a module's version; of one without a number, the revision's.
func readable(version string) string {
	if m := pseudo.FindStringSubmatch(version); m != nil {
		return m[1]
	}
	return strings.TrimPrefix(version, "v")
}

// pseudo is the end of a version as the Go Modules Reference makes it of a moment and a revision ("Pseudo-versions").
var pseudo = regexp.MustCompile(`[-.]\d{14}-([0-9a-f]{12})$`)

// npmPackages are those of which anything is in the page's scripts.
func npmPackages(root, loader string) ([]string, error) {
	o := options(root, "")
	o.EntryPoints = []string{"web/main.ts", "web/begin.ts", "web/ahead/ahead.ts", "web/worker/worker.ts"}
	o.Format, o.Platform, o.Splitting = api.FormatESModule, api.PlatformBrowser, true
	o.Alias = map[string]string{"wasm_exec": loader}
	o.PreserveSymlinks, o.Metafile = true, true
	result := api.Build(o)
	if len(result.Errors) > 0 {
		return nil, fmt.Errorf("listing what the scripts are made of: %s", result.Errors[0].Text)
	}
	var meta struct {
		Outputs map[string]struct {
			Inputs map[string]struct{ BytesInOutput int }
		}
	}
	if err := json.Unmarshal([]byte(result.Metafile), &meta); err != nil {
		return nil, err
	}
	var names []string
	for _, output := range meta.Outputs {
		for path, input := range output.Inputs {
			if _, after, found := strings.Cut(path, "node_modules/"); found && input.BytesInOutput > 0 {
				parts := strings.SplitN(after, "/", 3)
				name := parts[0]
				if strings.HasPrefix(name, "@") {
					name += "/" + parts[1]
				}
				names = append(names, name)
			}
		}
	}
	slices.Sort(names)
	return slices.Compact(names), nil
}

// licenseIn reads the license that stands in a folder.
func licenseIn(dir string) (string, error) {
	for _, name := range []string{"LICENSE", "LICENSE.md", "LICENSE.txt", "LICENCE", "COPYING"} {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err == nil {
			return strings.TrimSpace(string(data)), nil
		}
		if !os.IsNotExist(err) {
			return "", err
		}
	}
	return "", fmt.Errorf("%s has no license in it, and the page ships a part of it.\n  what to do: find out under which license it is, or do without", dir)
}

// knownLicenses are words by which a license is known, those of the longer ones first.
var knownLicenses = []struct{ words, name string }{
	{"SIL Open Font License, Version 1.1", "OFL-1.1"},
	{"Neither the name of", "BSD-3-Clause"},
	{"Redistributions in binary form must reproduce", "BSD-2-Clause"},
	{"Permission is hereby granted, free of charge, to any person obtaining a copy", "MIT"},
	{"with or without fee is hereby granted, provided that", "ISC"},
	{"with or without fee is hereby granted.", "0BSD"},
}

// spdx names a license as the SPDX License List does, or gives "" for one that is not known here.
func spdx(text string) string {
	plain := strings.Join(strings.Fields(text), " ")
	for _, known := range knownLicenses {
		if strings.Contains(plain, known.words) {
			return known.name
		}
	}
	return ""
}

// licenseFile is the text of all licenses, in plain text.
func licenseFile(all []work) []byte {
	var b strings.Builder
	b.WriteString("What this page is made of that others wrote, and under which licenses.\n")
	for _, w := range all {
		fmt.Fprintf(&b, "\n%s\n%s %s (%s)\n\n%s\n", strings.Repeat("-", 72), w.name, w.version, w.license, w.text)
	}
	return []byte(b.String())
}
