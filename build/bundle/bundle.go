// Package bundle makes the static folder: the page, its style, its script, the
// core as WebAssembly, and a gzip and a brotli copy of each.
//
// One entry point, Make. Same sources and same Go, same bytes, in any folder
// and at any time: names carry a hash of the content, nothing carries a date.
package bundle

import (
	"context"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"strings"

	"newel/build/templates"
	"newel/build/tools"
)

// Options say what to build and where to.
type Options struct {
	Root  string // the repository
	Out   string // the folder to make; replaced as a whole
	Fresh bool   // build even when nothing has changed since the last time
	Log   func(string)

	// Overlay is a file that names other files to take in place of some in Root, or beside
	// them, as "go help build" describes it; "" for none. With it the build is Fresh.
	Overlay string

	// Programs are a hospital's settings files (core/desk), for a copy of the page of its own;
	// the last one holds today. With them the build is Fresh.
	Programs []string

	more map[string][]byte // files that go into the folder beside those of the page

	Plain bool // without the compressed copies, which take the longest

	// WithdrawWorker has worker.js remove itself and all that earlier ones kept on people's devices.
	WithdrawWorker bool
}

// add has a file go into the folder beside those of the page.
func (o Options) add(name string, data []byte) {
	if o.more != nil {
		o.more[name] = data
	}
}

// Make writes the folder, or leaves it when the sources have not changed since
// it was made. It expects node_modules to be installed.
func Make(ctx context.Context, o Options) error {
	if len(o.Programs) > 0 {
		o.more = map[string][]byte{}
		temp, err := os.MkdirTemp("", "newel-programs-")
		if err != nil {
			return err
		}
		defer os.RemoveAll(temp)
		if o.Overlay, err = withPrograms(o, temp); err != nil {
			return err
		}
	}
	o.Fresh = o.Fresh || o.Overlay != "" || o.WithdrawWorker
	if !o.Fresh && current(ctx, o) {
		o.Log(fmt.Sprintf("%s is up to date", o.Out))
		return nil
	}
	if err := replaceable(o.Out); err != nil {
		return err
	}
	changed, err := templates.Write(o.Root)
	if err != nil {
		return err
	}
	if len(changed) > 0 {
		o.Log("wrote " + strings.Join(changed, ", "))
	}
	files, err := allFiles(ctx, o)
	if err != nil {
		return err
	}
	maps.Copy(files, o.more)
	if !o.Plain {
		o.Log("compressing")
		packed, err := pack(files, cacheFolder(o.Root))
		if err != nil {
			return err
		}
		maps.Copy(files, packed)
	}
	if err := replace(o.Out, files); err != nil || o.Fresh {
		return err // a fresh bundle is for one use: nothing to note
	}
	return remember(ctx, o)
}

// Files builds everything in memory, uncompressed, as name → content.
func Files(ctx context.Context, root string, log func(string)) (map[string][]byte, error) {
	return allFiles(ctx, Options{Root: root, Log: log})
}

func allFiles(ctx context.Context, o Options) (map[string][]byte, error) {
	root, log := o.Root, o.Log
	files, err := static(root)
	if err != nil {
		return nil, err
	}
	log("compiling the cores to WebAssembly")
	core, err := compileCore(ctx, o, "./wasm/near")
	if err != nil {
		return nil, err
	}
	whole, err := compileCore(ctx, o, "./wasm/whole")
	if err != nil {
		return nil, err
	}
	log("bundling the script and the style")
	support, err := tools.WasmSupport(ctx, root)
	if err != nil {
		return nil, err
	}
	loader := filepath.Join(support, "wasm_exec.js")
	script, style, extra, err := web(root, loader)
	if err != nil {
		return nil, err
	}
	ahead, err := aheadScript(root, loader)
	if err != nil {
		return nil, err
	}
	begin, err := beginScript(root)
	if err != nil {
		return nil, err
	}
	log("writing the static pages")
	names := Names{
		Style: "page.css", Begin: "begin.js", Script: hashed("page", ".js", script),
		Core: hashed("core", coreForm, core), Whole: hashed("whole", coreForm, whole),
		CoreSize: len(core), WholeSize: len(whole), Ahead: hashed("ahead", ".js", ahead),
	}
	if names.Font, err = fontOf(extra); err != nil {
		return nil, err
	}
	made, err := works(ctx, root, loader)
	if err != nil {
		return nil, err
	}
	files[licensesName] = licenseFile(made)
	built, err := frames(ctx, root, o.Overlay, names)
	if err != nil {
		return nil, err
	}
	for name, data := range built {
		if filepath.Ext(name) == ".html" {
			if data, err = sealed(data, names.Script, script); err != nil {
				return nil, err
			}
			if built[name], err = inlined(data, names, style, begin); err != nil {
				return nil, err
			}
		}
	}
	maps.Copy(built, map[string][]byte{names.Script: script, names.Core: core, names.Whole: whole, names.Ahead: ahead})
	maps.Copy(built, extra)
	for name, data := range built {
		if _, taken := files[name]; taken {
			return nil, fmt.Errorf("web/static/%s has the name of a file that the build makes: rename it", name)
		}
		files[name] = data
	}
	return files, addWorker(root, files, o.WithdrawWorker)
}

// fontOf names the one font among the files that the style sheet refers to; the page asks for
// it before the style sheet has come.
func fontOf(extra map[string][]byte) (string, error) {
	font := ""
	for name := range extra {
		if filepath.Ext(name) == ".woff2" {
			if font != "" {
				return "", fmt.Errorf("the style refers to two fonts, %s and %s: the page has one", font, name)
			}
			font = name
		}
	}
	if font == "" {
		return "", fmt.Errorf("the style refers to no font: web/style/type.css should")
	}
	return font, nil
}

// replaceable refuses to wipe a folder that is not one of ours, such as a
// mistyped --out.
func replaceable(out string) error {
	entries, err := os.ReadDir(out)
	if os.IsNotExist(err) || (err == nil && len(entries) == 0) {
		return nil
	}
	if err != nil {
		return fmt.Errorf("%s cannot be used as the folder to write: %w", out, err)
	}
	if cores, _ := filepath.Glob(filepath.Join(out, "core-*")); len(cores) == 0 {
		return fmt.Errorf("%s holds files that no bundle made, so it is left alone: name another folder with --out, or empty it first", out)
	}
	return nil
}

// replace writes the new folder beside the old one and swaps them, so that a
// build that stops half-way leaves the old one whole.
func replace(out string, files map[string][]byte) error {
	next := strings.TrimRight(out, "/") + ".new"
	if err := os.RemoveAll(next); err != nil {
		return err
	}
	for name, data := range files {
		target := filepath.Join(next, name)
		if err := os.MkdirAll(filepath.Dir(target), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(target, data, 0o644); err != nil {
			return err
		}
	}
	if err := os.RemoveAll(out); err != nil {
		return err
	}
	return os.Rename(next, out)
}
