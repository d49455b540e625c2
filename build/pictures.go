package main

import (
	"context"
	"flag"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"

	"newel/build/bundle"
	"newel/build/site"
	"newel/build/tools"
)

// runPictures takes the pictures of the README with a real browser from a freshly
// made page: web/test/pictures.mjs says which, build/pictures holds them.
func runPictures(ctx context.Context, root string, args []string) error {
	flags := flag.NewFlagSet("pictures", flag.ContinueOnError)
	if err := options(flags, args); err != nil {
		return err
	}
	dist := filepath.Join(root, "dist")
	if err := makeFolder(ctx, bundle.Options{Root: root, Out: dist}); err != nil {
		return err
	}
	if err := tools.Apt(ctx, "the pictures", []string{"chromium"}, func(s string) { fmt.Println("· " + s) }); err != nil {
		return err
	}
	handler, err := site.New(os.DirFS(dist))
	if err != nil {
		return err
	}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return err
	}
	server := &http.Server{Handler: handler}
	go server.Serve(listener) //nolint:errcheck // ends with the program
	defer server.Close()
	out := filepath.Join(root, "build", "pictures")
	_, err = tools.Command{
		Step: "taking the pictures", Dir: root, Name: "node",
		Env:  append(os.Environ(), "NEWEL_SITE=http://"+listener.Addr().String()+"/"),
		Args: []string{"web/test/pictures.mjs", out},
	}.Run(ctx)
	if err == nil {
		fmt.Println("· the pictures are in " + out)
	}
	return err
}
