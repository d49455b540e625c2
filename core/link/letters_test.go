package link

import (
	"encoding/base64"
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The peer is encoding/base64 of Go's library, strict and without padding; it lets line ends
// through, which a link may not have.
func peerBytes(text string) (whole []byte, ok bool) {
	if text == "" || len(text) > MaxLength || strings.ContainsAny(text, "\r\n") {
		return nil, false
	}
	whole, err := base64.RawURLEncoding.Strict().DecodeString(text)
	return whole, err == nil
}

func TestLettersAreBase64URL(t *testing.T) {
	rnd := rand.New(rand.NewSource(21))
	for n := range 3000 {
		data := make([]byte, 1+n%90)
		rnd.Read(data)
		text := lettersOf(data)
		require.Equal(t, base64.RawURLEncoding.EncodeToString(data), text)
		again, ok := bytesOf(text)
		require.True(t, ok)
		require.Equal(t, data, again)
	}
	require.Empty(t, lettersOf(nil))
}

func TestOtherTextsAreRefusedAsThePeerDoes(t *testing.T) {
	rnd := rand.New(rand.NewSource(22))
	const some = "AZaz09-_+/= \n\r\x00é%"
	refused, taken := 0, 0
	for range 30_000 {
		text := make([]byte, rnd.Intn(12))
		for i := range text {
			if text[i] = letterOrder[rnd.Intn(len(letterOrder))]; rnd.Intn(12) == 0 {
				text[i] = some[rnd.Intn(len(some))]
			}
		}
		want, ok := peerBytes(string(text))
		got, gotOK := bytesOf(string(text))
		require.Equal(t, ok, gotOK, "%q", text)
		if !ok {
			refused++
			continue
		}
		taken++
		require.Equal(t, want, got, "%q", text)
	}
	require.Greater(t, refused, 3000)
	require.Greater(t, taken, 3000)
	for _, n := range []int{MaxLength, MaxLength + 1, MaxLength + 4} {
		_, ok := bytesOf(strings.Repeat("A", n))
		require.Equal(t, n == MaxLength, ok)
	}
}
