package main

import (
	"context"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestUnknownWords(t *testing.T) {
	require.ErrorContains(t, start(t.Context(), []string{"bundel"}), `no command "bundel"`)
	require.ErrorContains(t, start(t.Context(), []string{"test", "--only", "speed"}), `no part "speed"`)
	require.ErrorContains(t, start(t.Context(), []string{"bundle", "here"}), `"here" is not understood`)
	require.NoError(t, start(t.Context(), []string{"help"}))
	require.NoError(t, start(t.Context(), nil))
}

func TestListenTakesTheNextFreePort(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer taken.Close()
	port := taken.Addr().(*net.TCPAddr).Port
	next, err := listen(port)
	require.NoError(t, err)
	defer next.Close()
	got := next.Addr().(*net.TCPAddr)
	require.True(t, got.IP.IsLoopback(), "reachable from this machine only")
	require.Greater(t, got.Port, port)
	_, err = listen(70000)
	require.ErrorContains(t, err, "not a port")
}

func TestServeStops(t *testing.T) {
	l, err := listen(0)
	require.NoError(t, err)
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan error)
	hello := http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { io.WriteString(w, "hello") })
	go func() { done <- serve(ctx, l, hello) }()
	r, err := http.Get("http://" + l.Addr().String())
	require.NoError(t, err)
	text, err := io.ReadAll(r.Body)
	require.NoError(t, err)
	require.Equal(t, "hello", string(text))
	stop()
	require.NoError(t, <-done)
}

// The command an automated check runs is the README's, and nothing else.
func TestAutomatedCheckRunsTheTests(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", ".ci", "run"))
	require.NoError(t, err)
	require.Contains(t, string(text), "exec go run ./build test\n")
}
