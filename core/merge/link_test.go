package merge_test

import (
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
)

// What Check lets through, core/link writes and reads again, whatever it is: the documents
// are made of registers drawn by chance, of which those are left out that are refused.
func TestSoundDocumentsBecomeLinks(t *testing.T) {
	written := 0
	for seed := range int64(400) {
		d := merge.AnyRegisters(rand.New(rand.NewSource(seed)).Intn)
		if d.Check() != nil {
			continue
		}
		fragment := link.Encode(d)
		if len(fragment) > link.MaxLength {
			continue
		}
		got, err := link.Decode(fragment)
		require.NoError(t, err, "seed %d", seed)
		require.True(t, d.Equal(got), "seed %d", seed)
		written++
	}
	require.Greater(t, written, 50)
}
