package fuzz

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// The readers of what comes from outside, and Handle itself.
func TestTargetsAreFound(t *testing.T) {
	all, err := Targets("../..")
	require.NoError(t, err)
	for _, want := range []Target{
		{"core/app", "FuzzHandle"}, {"core/app", "FuzzReadRequest"}, {"core/link", "FuzzDecode"}, {"core/link", "FuzzBehindChecksum"}, {"core/link", "FuzzTrim"},
		{"core/repeat", "FuzzParse"}, {"core/merge", "FuzzReadRule"}, {"core/calendar", "FuzzRead"}, {"core/desk", "FuzzTable"}, {"core/desk", "FuzzSettings"},
		{"core/pack", "FuzzDecode"},
	} {
		require.Contains(t, all, want)
	}
	_, err = os.Stat("../../" + all[0].Dir)
	require.NoError(t, err)
}

const module = "module m\n\ngo 1.26\n"

// written makes a module with one target whose body is given.
func written(t *testing.T, body string) string {
	root := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(root, "go.mod"), []byte(module), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(root, "x_test.go"), []byte("package m\n\nimport \"testing\"\n\nfunc FuzzIt(f *testing.F) {\n\tf.Add(\"a\")\n\tf.Fuzz(func(t *testing.T, s string) {\n"+body+"\n\t})\n}\n"), 0o600))
	return root
}

// A target that holds is counted; one that fails is named with its input, and stops no other.
func TestRun(t *testing.T) {
	for body, want := range map[string]string{"\t\t_ = s": "", "\t\tif len(s) > 2 {\n\t\t\tt.Fatal(\"long\")\n\t\t}": "FuzzIt"} {
		var out strings.Builder
		target := Target{".", "FuzzIt"}
		err := run(context.Background(), written(t, body), []Target{target}, 2*time.Second, &out)
		if want == "" {
			require.NoError(t, err)
			require.Regexp(t, `^ok .*FuzzIt +[1-9]\d* tried in 2s\n$`, out.String())
			continue
		}
		require.ErrorContains(t, err, want)
		require.ErrorContains(t, err, "long")
		require.Contains(t, out.String(), "FAILED")
	}
	require.ErrorContains(t, run(context.Background(), t.TempDir(), nil, time.Second, &strings.Builder{}), "no fuzz targets")
}
