package bundle

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"sync"

	"github.com/andybalholm/brotli"
)

// encoding is one way to make a file smaller for the way to the browser.
type encoding struct {
	suffix string // of the file beside the plain one
	encode func([]byte) ([]byte, error)
}

var encodings = []encoding{{".br", Brotli}, {".gz", Gzip}}

// Brotli compresses at level 11, the smallest and slowest, with the largest window that RFC 7932 has:
// a core is longer than the usual one.
func Brotli(data []byte) ([]byte, error) {
	var b bytes.Buffer
	return finish(&b, brotli.NewWriterOptions(&b, brotli.WriterOptions{Quality: brotli.BestCompression, LGWin: 24}), data)
}

// Gzip compresses at level 9; its header carries no time and no name.
func Gzip(data []byte) ([]byte, error) {
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	return finish(&b, w, data)
}

func finish(b *bytes.Buffer, w io.WriteCloser, data []byte) ([]byte, error) {
	if _, err := w.Write(data); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// pack makes the compressed copies of all files. A copy that is no smaller
// than the plain file (a font, a picture) is left out. Level 11 takes seconds
// for the core, so copies are kept in the cache folder under the hash of what
// they were made from.
func pack(files map[string][]byte, cache string) (map[string][]byte, error) {
	if err := os.MkdirAll(cache, 0o755); err != nil {
		return nil, err
	}
	type copyOf struct {
		name string
		data []byte
		err  error
	}
	var wait sync.WaitGroup
	done := make(chan copyOf, len(files)*len(encodings))
	used := map[string]bool{}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		for _, enc := range encodings {
			sum := sha256.Sum256(files[name])
			kept := filepath.Join(cache, fmt.Sprintf("%x%s", sum[:16], enc.suffix))
			used[kept] = true
			wait.Go(func() {
				data, err := cached(kept, files[name], enc.encode)
				done <- copyOf{name + enc.suffix, data, err}
			})
		}
	}
	wait.Wait()
	close(done)
	packed := map[string][]byte{}
	for c := range done {
		if c.err != nil {
			return nil, fmt.Errorf("compressing to %s: %w", c.name, c.err)
		}
		if plain := files[c.name[:len(c.name)-3]]; len(c.data) < len(plain) {
			packed[c.name] = c.data
		}
	}
	return packed, prune(cache, used)
}

func cached(kept string, data []byte, encode func([]byte) ([]byte, error)) ([]byte, error) {
	if old, err := os.ReadFile(kept); err == nil && len(old) > 0 {
		return old, nil
	}
	packed, err := encode(data)
	if err != nil {
		return nil, err
	}
	// Written under another name first: a build that is stopped in the middle
	// must not leave half a file to be taken for a whole one.
	temp := fmt.Sprintf("%s.%d", kept, os.Getpid())
	if err := os.WriteFile(temp, packed, 0o644); err != nil {
		return nil, err
	}
	return packed, os.Rename(temp, kept)
}

// prune keeps the cache to what the last build used.
func prune(cache string, used map[string]bool) error {
	entries, err := os.ReadDir(cache)
	if err != nil {
		return err
	}
	for _, entry := range entries {
		if path := filepath.Join(cache, entry.Name()); !used[path] {
			os.Remove(path) // another build may have removed it first
		}
	}
	return nil
}
