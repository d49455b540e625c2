package bundle

import (
	"context"
	"crypto/sha256"
	"fmt"
	"hash"
	"os"
	"path/filepath"
	"strings"

	"newel/build/tools"
)

// The bundle is up to date when a hash of everything that goes into it, and a
// hash of the folder as it was written, are the ones noted after the last
// build. The note lives in .cache and holds those two lines.

// inputs are the folders and files that the bundle is made from.
var inputs = []string{"core/", "wasm/", "web/", "build/bundle/", "build/frame/", "build/press/", "build/site/policy.go", "build/templates/",
	"go.mod", "go.sum", "package.json", "package-lock.json"}

func cacheFolder(root string) string { return filepath.Join(root, ".cache", "packed") }

// noteFile has one note for each output folder.
func noteFile(o Options) string {
	sum := sha256.Sum256([]byte(o.Out))
	return filepath.Join(o.Root, ".cache", fmt.Sprintf("bundle-%x", sum[:6]))
}

func current(ctx context.Context, o Options) bool {
	noted, err := os.ReadFile(noteFile(o))
	if err != nil {
		return false
	}
	note, err := note(ctx, o)
	return err == nil && note == string(noted)
}

func remember(ctx context.Context, o Options) error {
	note, err := note(ctx, o)
	if err != nil {
		return err
	}
	return os.WriteFile(noteFile(o), []byte(note), 0o644)
}

func note(ctx context.Context, o Options) (string, error) {
	version, err := tools.GoEnv(ctx, o.Root, "GOVERSION")
	if err != nil {
		return "", err
	}
	sources, err := tools.Sources(o.Root)
	if err != nil {
		return "", err
	}
	in := sha256.New()
	for _, name := range sources {
		if isInput(name) {
			if err := add(in, o.Root, name); err != nil {
				return "", err
			}
		}
	}
	out, err := FolderHash(o.Out)
	return fmt.Sprintf("%s %x\n%s\n", version, in.Sum(nil), out), err
}

// isInput leaves out tests: changing one changes no byte of the bundle.
func isInput(name string) bool {
	if strings.HasSuffix(name, "_test.go") || strings.HasPrefix(name, "web/test/") {
		return false
	}
	for _, input := range inputs {
		if name == input || (strings.HasSuffix(input, "/") && strings.HasPrefix(name, input)) {
			return true
		}
	}
	return false
}

// add hashes a file's name, length and content, so that no two trees of files
// run together into the same bytes.
func add(h hash.Hash, dir, name string) error {
	data, err := os.ReadFile(filepath.Join(dir, name))
	fmt.Fprintf(h, "%d %s %d ", len(name), name, len(data))
	h.Write(data)
	return err
}

// FolderHash is a hash over every file of a folder, names included.
func FolderHash(dir string) (string, error) {
	if _, err := os.Stat(dir); err != nil {
		return "", err
	}
	names, err := tools.Sources(dir)
	if err != nil {
		return "", err
	}
	h := sha256.New()
	for _, name := range names {
		if err := add(h, dir, name); err != nil {
			return "", err
		}
	}
	return fmt.Sprintf("%x", h.Sum(nil)), nil
}
