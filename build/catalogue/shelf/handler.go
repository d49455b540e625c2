package shelf

import (
	"net/http"
	"os"
	"strings"

	"newel/build/site"
)

// At is where the catalogue is served.
const At = "/catalogue/"

// Beside serves the catalogue in folder at At, and everything else by the site's handler. The
// catalogue's documents have the site's headers but for one thing: the index may show them in frames.
func Beside(of http.Handler, folder string) (http.Handler, error) {
	files, err := site.New(os.DirFS(folder))
	if err != nil {
		return nil, err
	}
	catalogue := http.StripPrefix(strings.TrimSuffix(At, "/"), files)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch {
		case r.URL.Path == strings.TrimSuffix(At, "/"):
			http.Redirect(w, r, At, http.StatusPermanentRedirect)
		case strings.HasPrefix(r.URL.Path, At):
			catalogue.ServeHTTP(&framed{ResponseWriter: w}, r)
		default:
			of.ServeHTTP(w, r)
		}
	}), nil
}

// framed lets pages of the same origin show what is served in frames (CSP 3, 6.4.2 and 6.1.6).
type framed struct{ http.ResponseWriter }

const policy = "Content-Security-Policy"

func (f *framed) WriteHeader(status int) {
	head := f.Header()
	head.Set(policy, strings.Replace(head.Get(policy), "frame-ancestors 'none'", "frame-ancestors 'self'; frame-src 'self'", 1))
	f.ResponseWriter.WriteHeader(status)
}
