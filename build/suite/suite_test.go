package suite

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/tools"
)

// runGo runs real Go tests of a throw-away module, so that what is read is
// what the go command writes (`go doc test2json`).
func runGo(t *testing.T, body string) Result {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "go.mod"), []byte("module sample\n\ngo 1.26\n"), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "a_test.go"), []byte("package sample\n\nimport \"testing\"\n\n"+body), 0o644))
	return (&suite{root: dir}).goTest(context.Background(), tools.CleanEnv(), "./...")
}

func TestGoCounts(t *testing.T) {
	r := runGo(t, `
func TestA(t *testing.T) {}
func TestB(t *testing.T) { t.Run("x", func(t *testing.T) {}); t.Run("y", func(t *testing.T) {}) }
`)
	require.Equal(t, Result{Passed: 3}, r, "a test that holds others is not counted by itself")
}

func TestGoFailures(t *testing.T) {
	r := runGo(t, `
func TestA(t *testing.T) {}
func TestB(t *testing.T) { t.Run("x", func(t *testing.T) { t.Fatal("the reason") }); t.Run("y", func(t *testing.T) {}) }
`)
	require.Equal(t, 2, r.Passed)
	require.Equal(t, 1, r.Failed)
	require.Contains(t, r.Problems, "the reason")
}

func TestGoSkipAndPanicAndBuild(t *testing.T) {
	r := runGo(t, `func TestA(t *testing.T) { t.Sk`+`ip("later") }`)
	require.Equal(t, 1, r.Failed)
	require.Contains(t, r.Problems, "was skipped")

	r = runGo(t, `func TestA(t *testing.T) { panic("loud") }`)
	require.Equal(t, 1, r.Failed)
	require.Contains(t, r.Problems, "loud")

	r = runGo(t, `func TestA(t *testing.T) { undefined() }`)
	require.Equal(t, 1, r.Failed)
	require.Contains(t, r.Problems, "undefined: undefined")

	require.Equal(t, Result{}, runGo(t, `var _ testing.T`), "no test: nothing counted, which runOne calls a failure")
}

func runNode(t *testing.T, body string) Result {
	t.Helper()
	dir := t.TempDir()
	text := "import {test} from 'node:test';\n" + body
	require.NoError(t, os.WriteFile(filepath.Join(dir, "a.test.mjs"), []byte(text), 0o644))
	r, _ := (&suite{root: dir}).nodeTest(context.Background(), "*.test.mjs", tools.CleanEnv())
	return r
}

// The same with Node's own runner and its spec reporter.
func TestNodeCounts(t *testing.T) {
	require.Equal(t, Result{Passed: 2}, runNode(t, "test('a', () => {}); test('b', () => {})"))

	r := runNode(t, "test('a', () => {}); test('b', () => { throw new Error('the reason') })")
	require.Equal(t, 1, r.Passed)
	require.Equal(t, 1, r.Failed)
	require.Contains(t, r.Problems, "the reason")

	require.Equal(t, 1, runNode(t, "test('a', {skip: true}, () => {})").Failed)
	require.Equal(t, 1, runNode(t, "test('a', {todo: true}, () => {})").Failed)
	require.Equal(t, 1, runNode(t, "throw new Error('at load')").Failed)
	r, _ = (&suite{root: t.TempDir()}).nodeTest(context.Background(), "*.test.mjs", nil)
	require.Contains(t, r.Problems, "there is no")
}

func TestReport(t *testing.T) {
	var out strings.Builder
	s := &suite{out: &out}
	says := func(r Result) func(context.Context, *suite) Result {
		return func(context.Context, *suite) Result { return r }
	}
	total, err := s.runAll(context.Background(), []part{
		{group: "go", name: "good", alone: "run good", run: says(Result{Passed: 3})},
		{group: "go", name: "bad", alone: "run bad", run: says(Result{Passed: 1, Failed: 2, Problems: "because"})},
		{group: "web", name: "empty", alone: "run empty", run: says(Result{})},
		{group: "web", name: "hours", alone: "run hours", run: says(Result{Passed: 7}), long: true},
	})
	require.NoError(t, err)
	require.Equal(t, Result{Passed: 4, Failed: 3}, total)
	require.Contains(t, out.String(), "| because")
	require.Contains(t, out.String(), "no test ran here")
	require.Contains(t, out.String(), "run bad")
	require.NotContains(t, out.String(), "run good")

	s.Options = Options{Only: "web", Long: true}
	total, err = s.runAll(context.Background(), []part{
		{group: "go", name: "a", run: says(Result{Passed: 1})},
		{group: "web", name: "b", run: says(Result{Passed: 2})},
		{group: "web", name: "hours", run: says(Result{Passed: 7}), long: true},
	})
	require.NoError(t, err)
	require.Equal(t, Result{Passed: 9}, total)
}

func TestAPartWithoutItsNeedFails(t *testing.T) {
	need := func(context.Context, *suite) error { return errors.New("as root, run this") }
	run := func(context.Context, *suite) Result { return Result{Passed: 1} }
	r := after(need, run)(context.Background(), &suite{})
	require.Equal(t, Result{Failed: 1, Problems: "as root, run this"}, r)
}

func TestDifferences(t *testing.T) {
	write := func(pairs ...string) string {
		dir := t.TempDir()
		for i := 0; i < len(pairs); i += 2 {
			require.NoError(t, os.WriteFile(filepath.Join(dir, pairs[i]), []byte(pairs[i+1]), 0o644))
		}
		return dir
	}
	problems, err := differences(write("a", "1", "b", "2"), write("a", "1", "b", "2"))
	require.NoError(t, err)
	require.Empty(t, problems)
	problems, err = differences(write("a", "1", "b", "2"), write("a", "0", "c", "2"))
	require.NoError(t, err)
	require.Len(t, problems, 3)
}
