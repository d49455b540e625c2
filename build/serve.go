package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"

	"newel/build/bundle"
	"newel/build/catalogue/shelf"
	"newel/build/site"
)

// portsToTry is how far serve looks for a free port after the one asked for.
const portsToTry = 20

func runServe(ctx context.Context, root string, args []string) error {
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	port := flags.Int("port", 8080, "the port; if it is taken, the next free one")
	programs := programFlag(flags)
	if err := options(flags, args); err != nil {
		return err
	}
	dist := filepath.Join(root, "dist")
	if err := makeFolder(ctx, bundle.Options{Root: root, Out: dist, Programs: *programs}); err != nil {
		return err
	}
	handler, err := site.New(os.DirFS(dist))
	if err != nil {
		return err
	}
	folder, err := os.MkdirTemp("", "newel-catalogue-") // of this server alone: another may run beside it
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	both := withCatalogue(handler, func() (http.Handler, error) {
		say("writing the catalogue")
		if err := shelf.Make(ctx, root, dist, folder); err != nil {
			return nil, err
		}
		return shelf.Beside(handler, folder)
	})
	listener, err := listen(*port)
	if err != nil {
		return err
	}
	address := "http://" + listener.Addr().String() + "/"
	fmt.Printf("\nServing on this machine only, until Ctrl-C. The page, the demo family's link, and every screen in every state:\n%s\n%s#demo\n%scatalogue/\n", address, address, address)
	fmt.Printf("\nA browser that has opened an earlier build here shows that one once more, and then offers this one.\n")
	return serve(ctx, listener, both)
}

// withCatalogue serves the catalogue beside the page. It is made when it is first asked for: whoever
// wants the page neither waits for it nor goes without where it cannot be made.
func withCatalogue(page http.Handler, make func() (http.Handler, error)) http.Handler {
	made := sync.OnceValues(make)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !strings.HasPrefix(r.URL.Path+"/", shelf.At) {
			page.ServeHTTP(w, r)
			return
		}
		both, err := made()
		if err != nil {
			say(err.Error())
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
		both.ServeHTTP(w, r)
	})
}

// listen takes the first free port on this machine's own address: nothing
// here is reachable from the network.
func listen(port int) (net.Listener, error) {
	if port < 0 || port > 65535 {
		return nil, fmt.Errorf("%d is not a port: ports go from 1 to 65535", port)
	}
	for p := port; p < min(port+portsToTry, 65536); p++ {
		if l, err := net.Listen("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(p))); err == nil {
			return l, nil
		}
	}
	return nil, fmt.Errorf("no port from %d to %d is free: name another with --port", port, port+portsToTry-1)
}

// serve runs until the context ends.
func serve(ctx context.Context, l net.Listener, handler http.Handler) error {
	server := site.Server(handler)
	stopped := context.AfterFunc(ctx, func() { server.Close() })
	defer stopped()
	if err := server.Serve(l); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}
