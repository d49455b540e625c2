package check

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The forms are those of the Go Modules Reference ("go.mod files", "go.sum files") and of npm's documentation
// (package.json "dependencies", package-lock.json "packages"; versions as in Semantic Versioning 2.0.0).
func TestPinned(t *testing.T) {
	const (
		mod  = "module m\n\ngo 1.26.0\n\nrequire (\n\texample.org/a/b v1.2.3\n\texample.org/c v0.0.0-20250609112844-439c63cef608 // indirect\n)\n\ntool example.org/a/b/c\n"
		sum  = "example.org/a/b v1.2.3 h1:x\nexample.org/a/b v1.2.3/go.mod h1:x\nexample.org/c v0.0.0-20250609112844-439c63cef608 h1:x\nexample.org/c v0.0.0-20250609112844-439c63cef608/go.mod h1:x\n"
		pkg  = `{"devDependencies": {"a": "1.2.3", "@b/c": "2.0.0-rc.1"}}`
		lock = `{"packages": {"": {}, "node_modules/a": {"version": "1.2.3", "integrity": "sha512-x"}}}`
	)
	given := func(mod, sum, pkg, lock string) []string {
		return run(t, Pinned, "go.mod", mod, "go.sum", sum, "package.json", pkg, "package-lock.json", lock)
	}
	require.Empty(t, given(mod, sum, pkg, lock))
	require.Len(t, given(mod, sum[len("example.org/a/b v1.2.3 h1:x\n"):], pkg, lock), 1)
	require.Len(t, given("module m\n\nrequire example.org/a v1.0.0\n", sum, pkg, lock), 1)
	require.Len(t, given(mod+"\nreplace example.org/c => ../c\n", sum, pkg, lock), 1)
	require.Len(t, given(mod+"\nreplace (\n\texample.org/c => ../c\n)\n", sum, pkg, lock), 1)
	for _, version := range []string{"^1.2.3", "~1.2.3", "1.x", "*", "", "latest", ">=1.0.0", "github:a/b", "1.2"} {
		require.Len(t, given(mod, sum, `{"dependencies": {"a": "`+version+`"}}`, lock), 1, version)
	}
	require.Len(t, given(mod, sum, pkg, `{"packages": {"": {}, "node_modules/a": {"version": "1.2.3"}}}`), 1)
	require.Len(t, given(mod, sum, pkg, `{"packages": {"": {}, "node_modules/a": {"version": "1.2.3", "integrity": "sha1-x"}}}`), 1)
	require.Len(t, given(mod, sum, pkg, `{"dependencies": {}}`), 1)
	require.Len(t, run(t, Pinned, "go.mod", mod, "go.sum", sum, "x/package.json", pkg), 1)
}
