package suite

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What Node 20's spec reporter ends with, from a run of ours with three failures.
func TestEveryFailureIsNamed(t *testing.T) {
	out := "✔ one\nℹ tests 4\nℹ pass 1\nℹ fail 3\nℹ cancelled 0\nℹ skipped 0\nℹ todo 0\n\n✖ failing tests:\n"
	for n := 1; n <= 3; n++ {
		out += fmt.Sprintf("\ntest at web/test/unit/some.test.mjs:%d:1\n✖ number %d (3.1ms)\n  AssertionError: %d\n", n, n, n)
		out += strings.Repeat("      at a place\n", 100) + "  actual: " + strings.Repeat("é", 5000) + "\n"
	}
	r := readNodeTest(out)
	require.Equal(t, 1, r.Passed)
	require.Equal(t, 3, r.Failed)
	for n := 1; n <= 3; n++ {
		require.Contains(t, r.Problems, fmt.Sprintf("✖ number %d (3.1ms)\n  AssertionError: %d", n, n))
	}
	require.Less(t, strings.Count(r.Problems, "\n"), 60)
}

func TestALongLineOfAFailureIsCut(t *testing.T) {
	r := readNodeTest("ℹ pass 0\nℹ fail 1\n✖ failing tests:\n\ntest at a:1:1\n✖ one\n" + strings.Repeat("é", 5000))
	require.Less(t, len(r.Problems), 600)
	require.Contains(t, r.Problems, "é …")
}
