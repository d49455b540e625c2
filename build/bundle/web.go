package bundle

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

// engines are the oldest browsers the page is written for. Safari 15 is on
// phones that get no newer system; the others are long past it. No version of the language
// is named beside it: it would have private fields written in an older way.
var engines = []api.Engine{{Name: api.EngineSafari, Version: "15"}}

// assets says what to do with files that the style refers to: copy them under
// a name with a hash.
var assets = map[string]api.Loader{
	".woff2": api.LoaderFile, ".svg": api.LoaderFile, ".png": api.LoaderFile,
}

// options are what script and style have in common.
func options(root, entry string) api.BuildOptions {
	return api.BuildOptions{
		AbsWorkingDir: root, EntryPoints: []string{entry}, Outdir: filepath.Join(root, "dist"),
		Bundle: true, Write: false, LogLevel: api.LogLevelSilent,
		MinifyWhitespace: true, MinifyIdentifiers: true, MinifySyntax: true,
		LegalComments: api.LegalCommentsNone, Charset: api.CharsetUTF8,
		Engines: engines,
		Loader:  assets, AssetNames: "[name]-[hash]",
	}
}

// web bundles web/main.ts and web/style.css. extra holds the fonts and
// pictures they refer to, by file name.
func web(root, loader string) (script, style []byte, extra map[string][]byte, err error) {
	extra = map[string][]byte{}
	if script, err = Script(root, "web/main.ts", loader, extra); err != nil {
		return nil, nil, nil, err
	}
	style, err = build(options(root, "web/style.css"), ".css", extra)
	return script, style, extra, err
}

// Script bundles one TypeScript entry as a module. loader is Go's wasm_exec.js,
// which the script gets by `import "wasm_exec"`: it comes from the toolchain
// that compiled the core rather than from a copy, because the two must be of
// the same version.
func Script(root, entry, loader string, extra map[string][]byte) ([]byte, error) {
	o := options(root, entry)
	o.Format, o.Platform = api.FormatESModule, api.PlatformBrowser
	o.Alias = map[string]string{"wasm_exec": loader}
	// What is imported only when it is needed (web/qr.ts) becomes a file of its own.
	o.Splitting, o.ChunkNames = true, "[name]-[hash]"
	o.PreserveSymlinks = true // its name has a hash of the paths that went into it, too
	script, err := build(o, ".js", extra)
	for name := range extra {
		// esbuild's own name for what the script shares with such a file.
		if strings.HasPrefix(name, "chunk-") {
			return nil, fmt.Errorf("%s shares code with a file that is loaded later, so the page would wait for one request more (%s).\n"+
				"  what to do: let only one of the two have it", entry, name)
		}
	}
	return script, err
}

// build runs esbuild and sorts its files: the entry's own, with the wanted
// extension, is the answer, the others go to extra.
func build(o api.BuildOptions, ext string, extra map[string][]byte) ([]byte, error) {
	result := api.Build(o)
	if len(result.Errors) > 0 {
		lines := api.FormatMessages(result.Errors, api.FormatMessagesOptions{Kind: api.ErrorMessage})
		return nil, fmt.Errorf("bundling %s did not work:\n%s  what to do: mend the file at the place named above",
			o.EntryPoints[0], strings.Join(lines, ""))
	}
	entry := strings.TrimSuffix(filepath.Base(o.EntryPoints[0]), filepath.Ext(o.EntryPoints[0])) + ext
	var main []byte
	for _, file := range result.OutputFiles {
		if filepath.Base(file.Path) == entry {
			main = file.Contents
		} else {
			extra[filepath.Base(file.Path)] = file.Contents
		}
	}
	if main == nil {
		return nil, errors.New("esbuild made no " + ext + " file of " + o.EntryPoints[0])
	}
	return main, nil
}

// beginScript bundles the script that stands in the page itself (web/begin.ts), so it is a plain one: a
// module would wait until the page has come.
func beginScript(root string) ([]byte, error) {
	o := options(root, "web/begin.ts")
	o.Format, o.Platform = api.FormatIIFE, api.PlatformBrowser
	return build(o, ".js", map[string][]byte{})
}

// aheadScript bundles the worker that makes a core ready (web/ahead), as a plain script: not every
// browser takes a module there. loader as for Script.
func aheadScript(root, loader string) ([]byte, error) {
	o := options(root, "web/ahead/ahead.ts")
	o.Format, o.Platform = api.FormatIIFE, api.PlatformBrowser
	o.Alias = map[string]string{"wasm_exec": loader}
	return build(o, ".js", map[string][]byte{})
}

// MinifyScript makes one plain script small, for comparisons of size.
func MinifyScript(source []byte) ([]byte, error) {
	result := api.Transform(string(source), api.TransformOptions{
		MinifyWhitespace: true, MinifyIdentifiers: true, MinifySyntax: true,
		Engines: engines, LegalComments: api.LegalCommentsNone,
	})
	if len(result.Errors) > 0 {
		return nil, errors.New(result.Errors[0].Text)
	}
	return result.Code, nil
}

// static reads the files that are served as they are, from web/static.
func static(root string) (map[string][]byte, error) {
	files := map[string][]byte{}
	top := filepath.Join(root, "web", "static")
	if _, err := os.Stat(top); os.IsNotExist(err) {
		return files, nil
	}
	err := filepath.WalkDir(top, func(path string, entry os.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		rel, _ := filepath.Rel(top, path)
		files[filepath.ToSlash(rel)], err = os.ReadFile(path)
		return err
	})
	return files, err
}
