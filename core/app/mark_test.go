package app

import (
	"encoding/binary"
	"hash/fnv"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// The peer is hash/fnv of Go's library.
func TestAMarkIsFNV(t *testing.T) {
	ours, peer := newMark(), fnv.New64a()
	require.Equal(t, peer.Sum64(), ours.sum)
	for _, s := range []string{"", "Dana", "José \x00\xff", "the second of two"} {
		ours.text(s)
		peer.Write(binary.LittleEndian.AppendUint64(nil, uint64(len(s))))
		peer.Write([]byte(s))
		require.Equal(t, strconv.FormatUint(peer.Sum64(), 36), ours.String())
	}
}
