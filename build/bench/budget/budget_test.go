package budget

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestDebug(t *testing.T) {
	root, err := filepath.Abs("../../..")
	require.NoError(t, err)
	parts, err := Of(t.Context(), root, "./wasm")
	require.NoError(t, err)
	for _, p := range parts[:25] {
		t.Logf("%+v", p)
	}
}
