// Package site serves a bundled folder: a plain http.Handler that imports
// nothing but the standard library, so that any host can wrap it in a line.
//
// One entry point, New. It reads the folder once and keeps it in memory: the
// whole page is a few megabytes, and a file that cannot be served shows up at
// the start, not in front of a family. What it promises (RFC 9110, RFC 9111):
//
//   - only GET and HEAD; anything else is 405 with Allow
//   - a strong ETag for each encoding, If-None-Match (304) and If-Match (412)
//   - brotli or gzip when the browser accepts it, with Vary: Accept-Encoding
//   - names with a hash may be kept for ever; all others are asked for again
//   - no ranges (Accept-Ranges: none): a page this small is sent whole
//   - headers that let the page do only what it needs
package site

import (
	"io"
	"io/fs"
	"net/http"
	"strconv"
)

type handler struct {
	pages  map[string]*page // by URL path
	policy string           // Content-Security-Policy
}

// New reads the bundled folder and returns its handler. It fails when a file
// cannot be read, has an extension whose type is not known here, or when
// there is no index.html.
func New(files fs.FS) (http.Handler, error) {
	pages, err := load(files)
	if err != nil {
		return nil, err
	}
	return &handler{pages, policyOf(pages)}, nil
}

// ServeHTTP answers one request.
func (h *handler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h.secure(w.Header())
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD") // RFC 9110 section 15.5.6
		say(w, r, http.StatusMethodNotAllowed, "This address can only be read (GET or HEAD).")
		return
	}
	p := h.find(r)
	if p == nil {
		say(w, r, http.StatusNotFound, "There is nothing at this address. The page itself is at /.")
		return
	}
	p.serve(w, r)
}

// find looks the path up as it was written. There is no cleaning: "//" or
// "/../" is nobody's address, and neither is one that hides a character behind
// an escape (RawPath is only set for those).
func (h *handler) find(r *http.Request) *page {
	if r.URL.RawPath != "" {
		return nil
	}
	return h.pages[r.URL.Path]
}

func (p *page) serve(w http.ResponseWriter, r *http.Request) {
	head := w.Header()
	head.Set("Vary", "Accept-Encoding") // on 304 and 406 as well
	best, ok := p.choose(r.Header.Values("Accept-Encoding"))
	if !ok {
		say(w, r, http.StatusNotAcceptable, "Your browser refuses every form this file is kept in (plain, gzip, br).")
		return
	}
	head.Set("ETag", best.etag)
	head.Set("Cache-Control", p.cache)
	switch precondition(r.Header, best.etag) {
	case http.StatusPreconditionFailed:
		say(w, r, http.StatusPreconditionFailed, "The file has changed since.")
		return
	case http.StatusNotModified:
		w.WriteHeader(http.StatusNotModified)
		return
	}
	head.Set("Accept-Ranges", "none") // RFC 9110 section 14.3
	head.Set("Content-Type", p.kind)
	head.Set("Content-Length", strconv.Itoa(len(best.data)))
	if best.coding != "" {
		head.Set("Content-Encoding", best.coding)
	}
	w.WriteHeader(http.StatusOK)
	if r.Method == http.MethodGet {
		w.Write(best.data) // an error here means the browser has gone
	}
}

// say answers with one plain sentence.
func say(w http.ResponseWriter, r *http.Request, status int, sentence string) {
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.Header().Set("Cache-Control", "no-cache")
	w.Header().Set("Content-Length", strconv.Itoa(len(sentence)+1))
	w.Header().Del("ETag")
	w.WriteHeader(status)
	if r.Method != http.MethodHead {
		io.WriteString(w, sentence+"\n")
	}
}
