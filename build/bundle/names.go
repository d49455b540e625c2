package bundle

import (
	"crypto/sha256"
	"encoding/base32"
)

// Names are the file names that the page refers to.
type Names struct {
	Style, Begin              string // stand in the page itself, see inline.go
	Script, Core, Whole, Font string // Core comes first, Whole answers everything
	CoreSize, WholeSize       int    // in bytes
	Ahead                     string // the worker that makes a core ready
}

// coreForm is the extension of the cores' files: they are no modules before web/unpress.ts has
// had them. The worker keeps the modules, under the same names with .wasm.
const coreForm = ".press"

// hashed gives a name that changes with the content, so that browsers may keep
// the file for ever. Eight base-32 characters, as esbuild writes them for the
// fonts and pictures that it names: one shape for build/site to know.
func hashed(stem, ext string, content []byte) string {
	sum := sha256.Sum256(content)
	return stem + "-" + base32.StdEncoding.EncodeToString(sum[:5]) + ext
}
