package bench

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing/fstest"
	"time"

	"newel/build/bundle"
	"newel/build/site"
	"newel/build/tools"
)

// freshBundle makes the page as it is sent, with its compressed copies, in a folder below dir.
func freshBundle(ctx context.Context, root, dir string) (fs.FS, error) {
	out := filepath.Join(dir, "dist")
	err := bundle.Make(ctx, bundle.Options{Root: root, Out: out, Fresh: true, Log: func(string) {}})
	return os.DirFS(out), err
}

// inMemory is a folder of files that are only here.
func inMemory(files map[string][]byte) fs.FS {
	folder := fstest.MapFS{}
	for name, data := range files {
		folder[name] = &fstest.MapFile{Data: data}
	}
	return folder
}

// served serves a folder on this machine's own address until stop is called.
func served(files fs.FS) (address string, stop func(), err error) {
	handler, err := site.New(files)
	if err != nil {
		return "", nil, err
	}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return "", nil, err
	}
	server := &http.Server{Handler: handler, ReadHeaderTimeout: 10 * time.Second}
	go server.Serve(listener) // its error is that it was closed
	return "http://" + listener.Addr().String() + "/", func() { server.Close() }, nil
}

// inBrowser runs one of the programs in build/bench/browser with a question, and reads its answer.
func inBrowser(ctx context.Context, root, program string, question, answer any) error {
	words, err := json.Marshal(question)
	if err != nil {
		return err
	}
	out, err := tools.Command{
		Step: "running build/bench/browser/" + program, Dir: root, Env: tools.CleanEnv(), Name: "node",
		Args:   []string{filepath.Join("build", "bench", "browser", program), string(words)},
		Advice: "see whether Chromium starts here, and whether the page opens by hand: go run ./build serve",
	}.Stdout(ctx)
	if err != nil {
		return err
	}
	if err := json.Unmarshal([]byte(strings.TrimSpace(out)), answer); err != nil {
		return fmt.Errorf("build/bench/browser/%s answered what cannot be read: %w", program, err)
	}
	return nil
}

// pages are the page and the floor, served.
type pages struct {
	ours, floor string // addresses
	stop        func()
}

// servedPages makes and serves both, and sees to it that there is a Chromium to open them.
func servedPages(ctx context.Context, o Options) (p pages, err error) {
	if err := tools.Apt(ctx, "the bench in a browser", []string{"chromium"}, o.Log); err != nil {
		return p, err
	}
	dir, remove, err := scratch()
	if err != nil {
		return p, err
	}
	defer remove() // the handler keeps all in memory
	ours, err := freshBundle(ctx, o.Root, dir)
	if err != nil {
		return p, err
	}
	floor, err := floorFiles(ctx, o.Root)
	if err != nil {
		return p, err
	}
	a, stopA, errA := served(ours)
	b, stopB, errB := served(inMemory(floor))
	if err := errors.Join(errA, errB); err != nil {
		return p, err
	}
	return pages{ours: a, floor: b, stop: func() { stopA(); stopB() }}, nil
}
