package check

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestRecursionOfTheRepository(t *testing.T) {
	problems, err := Recursion("../..")
	require.NoError(t, err)
	require.Empty(t, problems)
}

func TestRecursionIsFound(t *testing.T) {
	root := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(root, "core/x"), 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(root, "core/x/x.go"), []byte(`package x
type T struct{ j int }
type U struct{ t T }
func a() { a() }
func b() { c() }
func c() { f := b; f() }
func d() { e() }
func e() {}
func (t T) g() { t.h() }
func (t T) h() { t.g() }
func (u U) g() { u.t.g() }
func i() { var walk func(); walk = func() { walk() }; walk() }
func j() { _ = T{j: 1} }
`), 0o600))
	found, err := recursive(root, []source{{name: "core/x/x.go", dir: "core/x"}})
	require.NoError(t, err)
	require.Equal(t, []string{"core/x: (T).g + (T).h", "core/x: a", "core/x: b + c", "core/x: func walk"}, found)
	require.Len(t, judgeRecursion(found, map[string]string{"core/x: a": "at most 3", "core/x: d": "never"}), 4)
}
