package link_test

import (
	"crypto/aes"
	"crypto/cipher"
	"crypto/pbkdf2"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
)

// The core knows nothing of keys: the browser locks and unlocks (web/lock.ts). These tests
// open the same files as web/test/unit/lock.test.mjs by Go's own cipher, so that a locked
// link does not hang on what one browser makes of it.

// lockedLink is a file of testdata/link/locked.
type lockedLink struct {
	name, words, plain, fragment string // words are the passphrase's bytes
}

func lockedLinks(t *testing.T) (all []lockedLink) {
	files, err := filepath.Glob("../../testdata/link/locked/*.txt")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 3)
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		found := map[string]string{}
		for line := range strings.Lines(string(text)) {
			if key, value, ok := strings.Cut(strings.TrimSuffix(line, "\n"), ": "); ok {
				found[key] = value
			}
		}
		words, err := hex.DecodeString(found["words"])
		require.NoError(t, err)
		for _, key := range []string{"words", "plain", "fragment"} {
			require.NotEmpty(t, found[key], "%s in %s", key, file)
		}
		all = append(all, lockedLink{filepath.Base(file), string(words), found["plain"], found["fragment"]})
	}
	return all
}

func TestLockedLinksSayOnlyThatTheyAre(t *testing.T) {
	for _, l := range lockedLinks(t) {
		h, err := link.ReadHead(l.fragment)
		require.NoError(t, err, l.name)
		require.Equal(t, link.Head{Version: 32, Locked: true}, said(h), l.name)
		_, err = link.Decode(l.fragment)
		require.ErrorIs(t, err, link.ErrLocked, l.name)
		_, _, err = link.DecodePart(l.fragment)
		require.ErrorIs(t, err, link.ErrLocked, l.name)
		require.Equal(t, l.fragment, link.Trim("https://example.org/newel/#"+l.fragment+"."), l.name)
	}
}

func TestLockedLinksThatWereCutOrChangedAreDamaged(t *testing.T) {
	const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"
	for _, l := range lockedLinks(t) {
		for i := 1; i < len(l.fragment); i++ {
			// The first letter says that it is locked; another one is another kind of link.
			_, err := link.ReadHead(l.fragment[:i])
			require.ErrorIs(t, err, link.ErrDamaged, "%s cut after %d", l.name, i)
			other := letters[(strings.IndexByte(letters, l.fragment[i])+1+i%62)%64]
			_, err = link.ReadHead(l.fragment[:i] + string(other) + l.fragment[i+1:])
			require.ErrorIs(t, err, link.ErrDamaged, "%s with another letter %d", l.name, i)
		}
	}
}

func TestGoOpensLockedLinks(t *testing.T) {
	for _, l := range lockedLinks(t) {
		plain, err := unlock(t, l.fragment, l.words)
		require.NoError(t, err, l.name)
		require.Equal(t, l.plain, base64.RawURLEncoding.EncodeToString(plain), l.name)
		_, err = link.ReadHead(l.plain)
		require.NoError(t, err, l.name)
	}
	smallest := lockedLinks(t)[0]
	_, err := unlock(t, smallest.fragment, smallest.words+".")
	require.Error(t, err, "another passphrase")
}

// unlock opens a locked link as web/lock.ts describes it.
func unlock(t *testing.T, fragment, words string) ([]byte, error) {
	whole, err := base64.RawURLEncoding.DecodeString(fragment)
	require.NoError(t, err)
	front, sealed := whole[:18], whole[18:len(whole)-3]
	key, err := pbkdf2.Key(sha256.New, words, front[2:], int(front[1])*100_000, 32)
	require.NoError(t, err)
	return gcm(t, key).Open(nil, front[2:14], sealed, front)
}

func gcm(t *testing.T, key []byte) cipher.AEAD {
	block, err := aes.NewCipher(key)
	require.NoError(t, err)
	aead, err := cipher.NewGCM(block)
	require.NoError(t, err)
	return aead
}

// Go's own cipher, by the published values that the browser's is held against as well; the
// sources stand in the file.
func TestGoAndTheBrowserMeanTheSameCipher(t *testing.T) {
	text, err := os.ReadFile("../../testdata/cipher/vectors.json")
	require.NoError(t, err)
	var published struct {
		PBKDF2 struct {
			Cases []struct {
				Password, Salt, Key string
				Iterations          int
			}
		} `json:"pbkdf2_hmac_sha256"`
		GCM struct {
			Cases []struct{ Key, IV, Additional, Plain, Cipher, Tag string }
		} `json:"aes_256_gcm"`
	}
	require.NoError(t, json.Unmarshal(text, &published))
	require.Len(t, published.PBKDF2.Cases, 2)
	require.Len(t, published.GCM.Cases, 4)
	for _, c := range published.PBKDF2.Cases {
		key, err := pbkdf2.Key(sha256.New, c.Password, []byte(c.Salt), c.Iterations, 64)
		require.NoError(t, err)
		require.Equal(t, c.Key, hex.EncodeToString(key))
	}
	bytes := func(digits string) []byte {
		b, err := hex.DecodeString(digits)
		require.NoError(t, err)
		return b
	}
	for _, c := range published.GCM.Cases {
		sealed := gcm(t, bytes(c.Key)).Seal(nil, bytes(c.IV), bytes(c.Plain), bytes(c.Additional))
		require.Equal(t, c.Cipher+c.Tag, hex.EncodeToString(sealed))
	}
}
