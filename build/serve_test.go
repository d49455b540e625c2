package main

import (
	"errors"
	"net/http"
	"net/http/httptest"
	"testing"

	"github.com/stretchr/testify/require"
)

// The catalogue is made once, when it is first asked for; the page is there whether it can be made or not.
func TestTheCatalogueIsMadeWhenItIsAskedFor(t *testing.T) {
	is := func(name string) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { w.Write([]byte(name)) })
	}
	times := 0
	ask := func(h http.Handler, path string) (int, string) {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, httptest.NewRequest("GET", path, nil))
		return w.Code, w.Body.String()
	}
	both := withCatalogue(is("page"), func() (http.Handler, error) { times++; return is("both"), nil })
	_, body := ask(both, "/catalogues.html")
	require.Equal(t, "page", body)
	require.Zero(t, times)
	for _, path := range []string{"/catalogue", "/catalogue/", "/catalogue/a.en.html"} {
		_, body = ask(both, path)
		require.Equal(t, "both", body, path)
	}
	require.Equal(t, 1, times)

	broken := withCatalogue(is("page"), func() (http.Handler, error) { return nil, errors.New("no templates") })
	code, body := ask(broken, "/catalogue/")
	require.Equal(t, http.StatusInternalServerError, code)
	require.Contains(t, body, "no templates")
	_, body = ask(broken, "/")
	require.Equal(t, "page", body)
}
