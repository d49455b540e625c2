package site

import (
	"net/http"
	"time"
)

// Server is a server for the handler with limits that no honest phone meets: a client that is slow in
// asking, or never takes what it asked for, costs one connection for a while and nobody else anything.
// A core takes under a minute on the slowest line that anybody would wait for; ten are given.
func Server(h http.Handler) *http.Server {
	return &http.Server{
		Handler:           h,
		ReadHeaderTimeout: 10 * time.Second,
		ReadTimeout:       20 * time.Second, // no request of ours has a body
		WriteTimeout:      10 * time.Minute,
		IdleTimeout:       2 * time.Minute,
		MaxHeaderBytes:    16 << 10, // RFC 6585 section 5: more is 431; Go adds 4 kB to what is set
	}
}
