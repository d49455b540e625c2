package tools

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// answers plays a machine: what each program says, or an error if it is not
// there. goroot is a folder with or without the WebAssembly loader.
func answers(goroot, node string, npm bool) Ask {
	return func(name string, _ ...string) (string, error) {
		said := map[string]string{"go": goroot, "node": node, "npm": "11.0.0"}
		if said[name] == "" || (name == "npm" && !npm) {
			return "", errors.New("not found")
		}
		return said[name] + "\n", nil
	}
}

func TestChecksSayWhatToDo(t *testing.T) {
	complete, cut := t.TempDir(), t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(complete, "lib", "wasm"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(complete, "lib", "wasm", "wasm_exec.js"), nil, 0o644))

	require.Empty(t, checkGo(answers(complete, "", true)))
	require.Contains(t, checkGo(answers("", "", true))[0], "Go is not on the PATH: install it")
	require.Contains(t, checkGo(answers(cut, "", true))[0], "install the complete Go")

	for _, good := range []string{"v20.0.0", "v20.20.2", "v26.1.0"} {
		require.Empty(t, checkNode(answers("", good, true)), good)
	}
	for _, old := range []string{"v18.20.1", "v0.10.0", "nonsense"} {
		require.Contains(t, checkNode(answers("", old, true))[0], "too old: install Node 20", old)
	}
	require.Contains(t, checkNode(answers("", "", true))[0], "Node is not on the PATH")
	require.Contains(t, checkNpm(answers("", "", false))[0], "npm is not on the PATH")
	require.Empty(t, checkNpm(answers("", "", true)))
}

func TestAptNeedsRights(t *testing.T) {
	prefix, ok := rights(0, true, false)
	require.True(t, ok)
	require.Empty(t, prefix)
	prefix, ok = rights(1000, true, true)
	require.True(t, ok)
	require.Equal(t, []string{"sudo"}, prefix)
	_, ok = rights(1000, true, false)
	require.False(t, ok)
	_, ok = rights(0, false, true)
	require.False(t, ok)
	require.Equal(t, "apt-get update && apt-get install -y --no-install-recommends a b", aptLine([]string{"a", "b"}))
	require.Equal(t, []string{"b"}, missingPackages([]string{"a", "b"}, func(name string) bool { return name == "a" }))
	for _, name := range slices.Concat(Browsers, Peers) {
		require.NotEmpty(t, proofs[name], "what to look for where there is no dpkg")
	}
}

// Debian 12 has libical3, Debian 13 libical3t64.
func TestAPackageWithTwoNames(t *testing.T) {
	packages := []string{"a", "old|new"}
	for _, known := range []string{"old", "new"} {
		require.Equal(t, []string{"a", known}, chosen(packages, func(name string) bool { return name == known }))
	}
	require.Equal(t, []string{"a", "old"}, chosen(packages, func(string) bool { return false }))
	require.True(t, proven([]string{"sh"}))
	require.False(t, proven([]string{"no-such-program"}))
	require.True(t, proven([]string{"sh", "-c", "exit 0"}))
	require.False(t, proven([]string{"sh", "-c", "exit 1"}))
}

func TestModulesCurrent(t *testing.T) {
	root := t.TempDir()
	list, note := filepath.Join(root, "package-lock.json"), filepath.Join(root, "node_modules", ".package-lock.json")
	require.NoError(t, os.WriteFile(list, nil, 0o644))
	require.False(t, modulesCurrent(root), "nothing installed")
	require.NoError(t, os.MkdirAll(filepath.Dir(note), 0o755))
	require.NoError(t, os.WriteFile(note, nil, 0o644))
	now := time.Now()
	require.NoError(t, os.Chtimes(list, now, now))
	require.NoError(t, os.Chtimes(note, now, now.Add(-time.Hour)))
	require.False(t, modulesCurrent(root), "older than the list")
	require.NoError(t, os.Chtimes(note, now, now))
	require.True(t, modulesCurrent(root))
}

// npm ci empties node_modules, also where it is a link to another tree's.
func TestNothingIsInstalledThroughALink(t *testing.T) {
	root, other := t.TempDir(), t.TempDir()
	kept := filepath.Join(other, "kept")
	require.NoError(t, os.WriteFile(kept, nil, 0o644))
	require.NoError(t, os.Symlink(other, filepath.Join(root, "node_modules")))
	err := NodeModules(context.Background(), root, func(string) {})
	require.ErrorContains(t, err, "is a link")
	require.FileExists(t, kept)
}

func TestStepErrorSaysAllThree(t *testing.T) {
	_, err := Command{Step: "counting", Name: "sh", Advice: "count again",
		Args: []string{"-c", "seq 1 50; echo why >&2; exit 3"}}.Run(context.Background())
	require.ErrorContains(t, err, "counting did not work (exit status 3).")
	require.ErrorContains(t, err, "    why\n")
	require.ErrorContains(t, err, "what to do: count again")
	require.NotContains(t, err.Error(), "    1\n", "only the last lines")

	_, err = Command{Step: "finding", Name: "no-such-program-here"}.Run(context.Background())
	require.ErrorContains(t, err, "finding did not work")

	ctx, cancel := context.WithTimeout(context.Background(), 50*time.Millisecond)
	defer cancel()
	_, err = Command{Step: "waiting", Name: "sleep", Args: []string{"30"}}.Run(ctx)
	require.ErrorContains(t, err, "it took too long")
}

func TestStdoutKeepsChannelsApart(t *testing.T) {
	out, err := Command{Step: "talking", Name: "sh", Args: []string{"-c", "echo answer; echo noise >&2"}}.Stdout(context.Background())
	require.NoError(t, err)
	require.Equal(t, "answer\n", out)
}

func TestCleanEnv(t *testing.T) {
	t.Setenv("GOFLAGS", "-mod=mod")
	t.Setenv("SOME_LONG_SECRET", "x")
	t.Setenv("HOME", "/somewhere")
	env := WasmEnv("A=b")
	require.Contains(t, env, "HOME=/somewhere")
	require.Contains(t, env, "GOOS=js")
	require.Contains(t, env, "A=b")
	require.NotContains(t, env, "GOFLAGS=-mod=mod")
	require.NotContains(t, env, "SOME_LONG_SECRET=x")
}

func TestRootAndSources(t *testing.T) {
	root := t.TempDir()
	for _, name := range []string{"go.mod", "a/b.txt", "a/dist/kept.txt", "dist/x", "node_modules/x/y", ".git/z", ".cache/c", ".ci/run"} {
		path := filepath.Join(root, name)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte("module newel\n"), 0o644))
	}
	found, err := Root(filepath.Join(root, "a"))
	require.NoError(t, err)
	require.Equal(t, root, found)
	_, err = Root(t.TempDir())
	require.ErrorContains(t, err, "not inside Newel's folder")

	want := []string{".ci/run", "a/b.txt", "a/dist/kept.txt", "go.mod"}
	files, err := Sources(root)
	require.NoError(t, err)
	require.Equal(t, want, files)

	other := t.TempDir()
	require.NoError(t, CopySources(root, other))
	files, err = Sources(other)
	require.NoError(t, err)
	require.Equal(t, want, files)
}
