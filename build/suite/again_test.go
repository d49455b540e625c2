package suite

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/tools"
)

// Real tests in Node's own runner: one that fails only the first time, one that always does.
func runAgain(t *testing.T, body string) (Result, string) {
	t.Helper()
	dir := t.TempDir()
	text := "import { test } from 'node:test'; import { existsSync, writeFileSync } from 'node:fs';\n" +
		"const first = (name) => { if (existsSync(name)) return; writeFileSync(name, ''); throw new Error('not yet'); };\n" + body
	require.NoError(t, os.WriteFile(filepath.Join(dir, "a.test.mjs"), []byte(text), 0o644))
	var said strings.Builder
	s := &suite{root: dir, out: &said}
	r, out := s.nodeTest(context.Background(), "*.test.mjs", tools.CleanEnv())
	return s.again(context.Background(), r, out, tools.CleanEnv()), said.String()
}

func TestWhatFailsOnceOnlyIsSaid(t *testing.T) {
	r, said := runAgain(t, "test('webkit: a (b) [c] is $d', () => first('one')); test('webkit: a', () => {})")
	require.Equal(t, Result{Passed: 2}, r)
	require.Contains(t, said, "passed only when run again by itself: a.test.mjs: webkit: a (b) [c] is $d")
	require.Contains(t, said, "not yet")
}

func TestWhatFailsTwiceHasFailed(t *testing.T) {
	r, said := runAgain(t, "test('a', () => first('one')); test('b', () => { throw new Error('never') })")
	require.Equal(t, 1, r.Passed)
	require.Equal(t, 1, r.Failed)
	require.Contains(t, r.Problems, "never")
	require.Contains(t, r.Problems, "and when run again by itself:")
	require.NotContains(t, r.Problems, "not yet")
	require.Contains(t, said, "a.test.mjs: a; at first:")
}

func TestAPartOfATestRunsAgainWithTheTest(t *testing.T) {
	whole := "test('the shell in webkit', async () => { await test('webkit: part', () => %s); await test('webkit: other', () => {}) }); test(`${process.env.NEWEL_ENGINES}: c`, () => {})"
	r, said := runAgain(t, fmt.Sprintf(whole, "first('one')"))
	require.Equal(t, Result{Passed: 4}, r)
	require.Contains(t, said, "passed only when run again by itself: a.test.mjs: webkit: part; at first:")

	r, _ = runAgain(t, fmt.Sprintf(whole, "{ throw new Error('never') }"))
	require.Equal(t, 2, r.Failed, "the part, and what it is a part of")
	require.Contains(t, r.Problems, "never")

	// In another engine than the one that failed nothing is tried again.
	r, _ = runAgain(t, "test('webkit', async () => { await test('webkit: part', () => first('one')) }); test('firefox', () => { if (process.env.NEWEL_ENGINES) return process.env.NEWEL_ENGINES === 'webkit' || first('two') })")
	require.Equal(t, Result{Passed: 3}, r)
}

func TestManyFailuresAreNotRunAgain(t *testing.T) {
	r, said := runAgain(t, "for (let n = 0; n < 7; n++) test(`t${n}`, () => first(`${n}`))")
	require.Equal(t, 7, r.Failed)
	require.Empty(t, said)
}

func TestAFileThatDoesNotLoadIsNotForgiven(t *testing.T) {
	r, _ := runAgain(t, "first('one'); test('a', () => {})")
	require.Equal(t, 1, r.Failed)
}

func TestTimesOfTheEngines(t *testing.T) {
	text := engineTimes("✔ webkit: one (2400.5ms)\n✖ chromium: two (1000ms)\n✔ webkit: three (700.25ms)\n✔ no engine (5ms)\n" +
		"✖ failing tests:\n\ntest at a:1:1\n✖ chromium: two (1000ms)\n")
	require.True(t, strings.HasPrefix(text, "webkit 3 s in 2 tests, chromium 1 s in 1 tests\n       2 s  webkit: one\n       1 s  chromium: two\n"), text)
}
