package site

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"fmt"
	"io"
	"log"
	"math/rand/v2"
	"net"
	"net/http"
	"net/http/httptest"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/require"
)

// Files of the sizes that are really sent: a page and a core.
var (
	someone  = rand.NewChaCha8([32]byte{1})
	bigPage  = randomBytes(60_000)
	bigCore  = randomBytes(750_000)
	bigFiles = fstest.MapFS{"index.html": {Data: bigPage}, core[1:]: {Data: bigCore}}
)

func randomBytes(n int) []byte {
	data := make([]byte, n)
	someone.Read(data)
	return data
}

// runServer runs the server as it is, but for what set changes, on this machine.
func runServer(t *testing.T, set func(*http.Server)) *httptest.Server {
	t.Helper()
	h, err := New(bigFiles)
	require.NoError(t, err)
	server := httptest.NewUnstartedServer(nil)
	server.Config = Server(h)
	server.Config.ErrorLog = log.New(io.Discard, "", 0) // it names who hung up
	set(server.Config)
	server.Start()
	t.Cleanup(server.Close)
	return server
}

func asItIs(*http.Server) {}

func dial(t *testing.T, server *httptest.Server) net.Conn {
	t.Helper()
	conn, err := net.Dial("tcp", server.Listener.Addr().String())
	require.NoError(t, err)
	t.Cleanup(func() { conn.Close() })
	// A test that waits for ever says nothing; no check is made of how long anything takes.
	require.NoError(t, conn.SetDeadline(time.Now().Add(2*time.Minute)))
	return conn
}

// stillServes asks as anybody would, over a connection of its own.
func stillServes(t *testing.T, server *httptest.Server) {
	t.Helper()
	conn := dial(t, server)
	fmt.Fprintf(conn, "GET / HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n")
	r, err := http.ReadResponse(bufio.NewReader(conn), nil)
	require.NoError(t, err)
	data, err := io.ReadAll(r.Body)
	require.NoError(t, err)
	require.Equal(t, 200, r.StatusCode)
	require.True(t, bytes.Equal(bigPage, data))
}

// Clients that begin a request and never end it are let go; the others do not notice.
func TestClientsThatAskSlowly(t *testing.T) {
	server := runServer(t, func(s *http.Server) { s.ReadHeaderTimeout = time.Second })
	var slow []net.Conn
	for range 200 {
		conn := dial(t, server)
		fmt.Fprintf(conn, "GET / HTTP/1.1\r\nHost: a\r\nX-One: ")
		slow = append(slow, conn)
	}
	stillServes(t, server)
	for _, conn := range slow {
		_, err := io.ReadAll(conn) // ends when the server has hung up
		require.NoError(t, err)
	}
	stillServes(t, server)
	require.Positive(t, Server(nil).ReadHeaderTimeout, "what is let go above must be so in earnest")
	require.Positive(t, Server(nil).ReadTimeout)
	require.Positive(t, Server(nil).WriteTimeout)
	require.Positive(t, Server(nil).IdleTimeout)
}

// Clients that take a few bytes and stop get the rest whenever they go on; those that never do are let go.
func TestClientsThatReadSlowly(t *testing.T) {
	server := runServer(t, asItIs)
	asked := func() (net.Conn, *bufio.Reader) {
		conn := dial(t, server)
		require.NoError(t, conn.(*net.TCPConn).SetReadBuffer(64<<10))
		fmt.Fprintf(conn, "GET %s HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n", core)
		r := bufio.NewReader(conn)
		_, err := r.Peek(1)
		require.NoError(t, err)
		return conn, r
	}
	_, goesOn := asked()
	for range 50 {
		conn, _ := asked()
		defer conn.Close()
	}
	stillServes(t, server)
	r, err := http.ReadResponse(goesOn, nil)
	require.NoError(t, err)
	data, err := io.ReadAll(r.Body)
	require.NoError(t, err)
	require.True(t, bytes.Equal(bigCore, data), "whoever goes on reading gets every byte")
	for range 50 {
		conn, _ := asked()
		conn.Close() // gone in the middle
	}
	stillServes(t, server)
}

// Whoever never takes what was asked for is let go; what a kernel keeps for it is less than this.
func TestClientsThatNeverRead(t *testing.T) {
	huge := randomBytes(40 << 20)
	h, err := New(fstest.MapFS{"index.html": {Data: bigPage}, core[1:]: {Data: huge}})
	require.NoError(t, err)
	server := runServer(t, func(s *http.Server) { s.Handler, s.WriteTimeout = h, time.Second })
	var left atomic.Int32
	server.Config.ConnState = func(_ net.Conn, state http.ConnState) {
		if state == http.StateClosed {
			left.Add(1)
		}
	}
	conn := dial(t, server)
	fmt.Fprintf(conn, "GET %s HTTP/1.1\r\nHost: a\r\n\r\n", core)
	for end := time.Now().Add(time.Minute); left.Load() == 0; time.Sleep(10 * time.Millisecond) {
		require.True(t, time.Now().Before(end), "a client that reads nothing is waited for without end")
	}
	data, _ := io.ReadAll(conn)
	require.Less(t, len(data), len(huge))
	stillServes(t, server)
}

// Requests no browser sends. RFC 9112: 3 (request line), 3.2 (Host: 400 without one or with two), 6.1 and 6.3
// (lengths that contradict each other: 400, so that nobody smuggles a request), 5.1 (no space before a header's colon);
// RFC 9110: 15.5.15 (414 is allowed to be 404), 15.6.6 (505); RFC 6585 section 5 (431).
func TestOddRequests(t *testing.T) {
	server := runServer(t, asItIs)
	for _, odd := range []struct {
		raw    string
		status int
	}{
		{"GET / HTTP/1.1\r\n\r\n", 400},
		{"GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n", 400},
		{"GET / HTTP/1.1\r\nHost : a\r\n\r\n", 400},
		{"GET / HTTP/1.1\r\nHost: a\r\nX: \x00\r\n\r\n", 400},
		{"GET / HTTP/9.9\r\nHost: a\r\n\r\n", 505},
		{"GET  HTTP/1.1\r\nHost: a\r\n\r\n", 400},
		{"nonsense\r\n\r\n", 400},
		{"\x16\x03\x01\x00\x05hello\r\n\r\n", 400}, // TLS to a port without it
		{"GET / HTTP/1.1\r\nHost: a\r\nContent-Length: 5\r\nContent-Length: 6\r\n\r\n", 400},
		{"GET / HTTP/1.1\r\nHost: a\r\nTransfer-Encoding: gzip, chunked\r\n\r\n", 501},
		{"GET / HTTP/1.1\r\nHost: a\r\nX: " + strings.Repeat("a", 30<<10) + "\r\n\r\n", 431},
		{"GET /" + strings.Repeat("a/", 4000) + " HTTP/1.1\r\nHost: a\r\n\r\n", 404},
		{"GET /\x01 HTTP/1.1\r\nHost: a\r\n\r\n", 400},
		{"GET /%zz HTTP/1.1\r\nHost: a\r\n\r\n", 400},
		{"GET /../../etc/passwd HTTP/1.1\r\nHost: a\r\n\r\n", 404},
		{"GET http://elsewhere.example/ HTTP/1.1\r\nHost: a\r\n\r\n", 200}, // 9112 3.2.2: the absolute form is to be accepted
		{"OPTIONS * HTTP/1.1\r\nHost: a\r\n\r\n", 200},                     // Go answers for the server itself
		{"CONNECT a:443 HTTP/1.1\r\nHost: a:443\r\n\r\n", 405},
		{"TRACE / HTTP/1.1\r\nHost: a\r\nCookie: a=b\r\n\r\n", 405},
		{"GET / HTTP/1.0\r\n\r\n", 200},
		{"GET / HTTP/1.1\r\nHost: a\r\nRange: bytes=0-0,-1," + strings.Repeat("1-2,", 2000) + "\r\n\r\n", 200},
		{"GET / HTTP/1.1\r\nHost: a\r\nAccept-Encoding: " + strings.Repeat("br;q=0.1,", 1000) + "\r\n\r\n", 200},
		{"GET / HTTP/1.1\r\nHost: a\r\nIf-None-Match: " + strings.Repeat(`",`, 4000) + "\r\n\r\n", 200},
	} {
		conn := dial(t, server)
		io.WriteString(conn, odd.raw)
		r, err := http.ReadResponse(bufio.NewReader(conn), nil)
		require.NoError(t, err, "%.60q", odd.raw)
		require.Equal(t, odd.status, r.StatusCode, "%.60q", odd.raw)
		conn.Close()
	}
	stillServes(t, server)
}

// Ten thousand requests over a hundred connections that are kept open: each is answered, each byte is
// right, and the second half needs no more memory than the first.
func TestManyRequests(t *testing.T) {
	server := runServer(t, asItIs)
	const connections, each = 100, 100
	pageSum, coreSum := sha256.Sum256(bigPage), sha256.Sum256(bigCore)
	wanted := func(n int) (path string, sum [32]byte) {
		if n%10 == 0 {
			return core, coreSum
		}
		return "/", pageSum
	}
	work := func(conn net.Conn, r *bufio.Reader) error {
		for n := range each / 2 {
			path, sum := wanted(n)
			fmt.Fprintf(conn, "GET %s HTTP/1.1\r\nHost: a\r\n\r\n", path)
			answer, err := http.ReadResponse(r, nil)
			if err != nil {
				return err
			}
			hash := sha256.New()
			if _, err := io.Copy(hash, answer.Body); err != nil {
				return err
			}
			if answer.StatusCode != 200 || [32]byte(hash.Sum(nil)) != sum {
				return fmt.Errorf("%s: status %d, or other bytes", path, answer.StatusCode)
			}
		}
		return nil
	}
	var conns [connections]net.Conn
	var readers [connections]*bufio.Reader
	for i := range conns {
		conns[i] = dial(t, server)
		readers[i] = bufio.NewReader(conns[i])
	}
	half := func() (heap uint64, goroutines int) {
		var group sync.WaitGroup
		faults := make([]error, connections)
		for i := range conns {
			group.Go(func() { faults[i] = work(conns[i], readers[i]) })
		}
		group.Wait()
		for _, fault := range faults {
			require.NoError(t, fault)
		}
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc, runtime.NumGoroutine()
	}
	first, before := half()
	second, after := half()
	require.Less(t, second, first+1<<20, "the second half keeps nothing (heap after a collection, bytes)")
	require.LessOrEqual(t, after, before+5)
	t.Logf("%d requests; heap %d kB after the first half, %d kB after the second; goroutines %d and %d",
		connections*each, first>>10, second>>10, before, after)
}
