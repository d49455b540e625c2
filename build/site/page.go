package site

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"strings"
)

// page is one file of the folder in all the forms it is kept in.
type page struct {
	kind  string // Content-Type
	cache string // Cache-Control
	forms []form // the plain one first, then gzip, then br
}

// form is a file's bytes in one content coding.
type form struct {
	coding string // "" for the plain bytes
	data   []byte
	etag   string
}

// suffixes of the compressed copies, which have no address of their own.
var suffixes = map[string]string{".gz": "gzip", ".br": "br"}

// hashedName is the shape of a name that changes with the content (see
// build/bundle): such a file may be kept for ever.
var hashedName = regexp.MustCompile(`-[A-Z2-7]{8}\.[a-z0-9]+$`)

const (
	forEver  = "public, max-age=31536000, immutable" // a year, RFC 8246
	askAgain = "no-cache"
)

func load(files fs.FS) (map[string]*page, error) {
	pages := map[string]*page{}
	err := fs.WalkDir(files, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || isCopy(files, name) {
			return err
		}
		p, err := read(files, name)
		pages["/"+name] = p
		return err
	})
	if err != nil {
		return nil, err
	}
	index := pages["/index.html"]
	if index == nil {
		return nil, errors.New("the folder has no index.html: make it with go run ./build bundle")
	}
	pages["/"] = index
	return pages, nil
}

// isCopy says whether name is the compressed copy of another file.
func isCopy(files fs.FS, name string) bool {
	ext := path.Ext(name)
	if suffixes[ext] == "" {
		return false
	}
	_, err := fs.Stat(files, strings.TrimSuffix(name, ext))
	return err == nil
}

func read(files fs.FS, name string) (*page, error) {
	p := &page{kind: kinds[path.Ext(name)], cache: askAgain}
	if p.kind == "" {
		return nil, fmt.Errorf("%s: no type is known for this extension: add it to build/site/headers.go", name)
	}
	if hashedName.MatchString(name) {
		p.cache = forEver
	}
	plain, err := fs.ReadFile(files, name)
	if err != nil {
		return nil, err
	}
	p.forms = []form{{"", plain, etag(plain)}}
	for _, suffix := range []string{".gz", ".br"} {
		packed, err := fs.ReadFile(files, name+suffix)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return nil, err
		}
		p.forms = append(p.forms, form{suffixes[suffix], packed, etag(packed)})
	}
	return p, nil
}

// etag is strong: a hash of the very bytes sent, so that two encodings of one
// file differ in it (RFC 9110 section 8.8.3.3).
func etag(data []byte) string {
	sum := sha256.Sum256(data)
	return fmt.Sprintf(`"%x"`, sum[:12])
}
