package bundle

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/base32"
	"encoding/json"
	"fmt"
	"path"
	"slices"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

// workerName is the service worker's file. It has no hash: browsers ask for the same address
// again and take a change of its bytes for a new version (Service Workers, 4.3 "Update").
const workerName = "worker.js"

// noVersion stands in the static pages for the version, which is only known once they are made.
const noVersion = `data-version="00000000"`

// addWorker writes the worker for the files of a page, and the version into its static pages.
// The version is a hash over every byte of the page and over the worker's own code, so the
// worker changes exactly when something changes.
func addWorker(root string, files map[string][]byte, withdraw bool) error {
	entry := "web/worker/worker.ts"
	if withdraw {
		entry = "web/worker/withdraw.ts"
	}
	code, err := workerCode(root, entry)
	if err != nil {
		return err
	}
	names := kept(files)
	version := versionOf(names, files, code)
	for _, name := range names {
		if path.Ext(name) == ".html" {
			if !bytes.Contains(files[name], []byte(noVersion)) {
				return fmt.Errorf("%s has no place for its version: its script should have %s (core/page/frame.qtpl)", name, noVersion)
			}
			files[name] = bytes.ReplaceAll(files[name], []byte(noVersion), []byte(`data-version="`+version+`"`))
		}
	}
	if !withdraw {
		code = append(listing(version, names, files), code...)
	}
	files[workerName] = code
	return nil
}

// workerCode bundles the worker as a plain script: not every browser takes a module here.
func workerCode(root, entry string) ([]byte, error) {
	o := options(root, entry)
	o.Format, o.Platform = api.FormatIIFE, api.PlatformBrowser
	return build(o, ".js", map[string][]byte{})
}

// kept lists the files that the worker keeps, in the order in which it fetches them: the small
// ones, the core, and last of all the larger core, which few people need. The licenses
// and the icons are for others than the page.
func kept(files map[string][]byte) []string {
	var names []string
	for name := range files {
		if name != licensesName && name != workerName && path.Ext(name) != ".png" {
			names = append(names, name)
		}
	}
	late := func(name string) int {
		if strings.HasPrefix(name, "whole-") {
			return 1
		}
		return 0
	}
	slices.SortFunc(names, func(a, b string) int {
		return cmp.Or(cmp.Compare(late(a), late(b)), cmp.Compare(len(files[a]), len(files[b])), cmp.Compare(a, b))
	})
	return names
}

// versionOf is eight base-32 characters, as in names with a hash.
func versionOf(names []string, files map[string][]byte, code []byte) string {
	h := sha256.New()
	for _, name := range names {
		fmt.Fprintf(h, "%s %d ", name, len(files[name]))
		h.Write(files[name])
	}
	h.Write(code)
	return base32.StdEncoding.EncodeToString(h.Sum(nil)[:5])
}

// listing is the line before the worker's code: the version, and each file's name with what it
// must hash to, as Subresource Integrity writes it. index.html goes by the folder's own address:
// some hosts redirect the other one.
func listing(version string, names []string, files map[string][]byte) []byte {
	rows := make([][2]string, len(names))
	for i, name := range names {
		rows[i] = [2]string{strings.TrimSuffix(name, "index.html"), integrity(files[name])}
	}
	list, err := json.Marshal(rows)
	if err != nil {
		panic(err) // texts can always be written
	}
	return fmt.Appendf(nil, "const newelVersion=%q,newelFiles=%s;\n", version, list)
}
