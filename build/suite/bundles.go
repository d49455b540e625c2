package suite

import (
	"bytes"
	"context"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"slices"

	"newel/build/bundle"
	"newel/build/catalogue/shelf"
	"newel/build/pseudo"
	"newel/build/site"
	"newel/build/tools"
)

// sameBytes builds the page twice, once from a copy of the sources in another
// folder with a longer name, and compares every byte.
func sameBytes(ctx context.Context, s *suite) Result {
	if err := s.makeSite(ctx); err != nil {
		return gate(nil, err)
	}
	other := filepath.Join(s.temp, "a copy of the sources", "in another folder")
	if err := tools.CopySources(s.root, other); err != nil {
		return gate(nil, err)
	}
	modules := filepath.Join(other, "node_modules")
	if err := os.Symlink(filepath.Join(s.root, "node_modules"), modules); err != nil {
		return gate(nil, err)
	}
	second := filepath.Join(s.temp, "second")
	if err := makeBundle(ctx, other, second); err != nil {
		return gate(nil, err)
	}
	return gate(differences(s.site, second))
}

// makeSite builds a fresh bundle, once in a run.
func (s *suite) makeSite(ctx context.Context) error {
	if s.site != "" {
		return nil
	}
	out := filepath.Join(s.temp, "site")
	err := makeBundle(ctx, s.root, out)
	if err == nil {
		s.site = out
	}
	return err
}

func makeBundle(ctx context.Context, root, out string) error {
	return bundle.Make(ctx, bundle.Options{Root: root, Out: out, Fresh: true, Log: func(string) {}})
}

// differences names the files that two folders do not have in common, byte for
// byte.
func differences(a, b string) ([]string, error) {
	first, err := tools.Sources(a)
	if err != nil {
		return nil, err
	}
	second, err := tools.Sources(b)
	if err != nil {
		return nil, err
	}
	var problems []string
	for _, name := range first {
		if !slices.Contains(second, name) {
			problems = append(problems, name+" is only in the first bundle")
			continue
		}
		x, _ := os.ReadFile(filepath.Join(a, name))
		y, err := os.ReadFile(filepath.Join(b, name))
		if err != nil {
			return nil, err
		}
		if !bytes.Equal(x, y) {
			problems = append(problems, name+" differs between the two bundles")
		}
	}
	for _, name := range second {
		if !slices.Contains(first, name) {
			problems = append(problems, name+" is only in the second bundle")
		}
	}
	return problems, nil
}

// browserTests serves a fresh bundle with the real handler and lets the browsers at it; and a
// second one that speaks a pseudo-language as well. The tests find the addresses in NEWEL_SITE
// and NEWEL_PSEUDO.
func browserTests(ctx context.Context, s *suite) Result {
	if err := s.makeSite(ctx); err != nil {
		return gate(nil, err)
	}
	other, err := s.makePseudo(ctx)
	if err != nil {
		return gate(nil, err)
	}
	catalogue := filepath.Join(s.temp, "catalogue")
	if err := shelf.Make(ctx, s.root, s.site, catalogue); err != nil {
		return gate(nil, err)
	}
	env := s.environ()
	for _, served := range []struct{ name, folder string }{{"NEWEL_SITE", s.site}, {"NEWEL_PSEUDO", other}} {
		address, stop, err := serve(served.folder, catalogue)
		if err != nil {
			return gate(nil, err)
		}
		defer stop()
		env = append(env, served.name+"="+address)
	}
	r, out := s.nodeTest(ctx, "web/test/browser/*.test.mjs", env)
	s.log(engineTimes(out))
	return s.again(ctx, r, out, env)
}

// makePseudo builds the page with the pseudo-language beside the others.
func (s *suite) makePseudo(ctx context.Context) (folder string, err error) {
	overlay, err := pseudo.Overlay(s.root, filepath.Join(s.temp, "pseudo-texts"))
	if err != nil {
		return "", err
	}
	folder = filepath.Join(s.temp, "pseudo")
	return folder, bundle.Make(ctx, bundle.Options{
		Root: s.root, Out: folder, Overlay: overlay, Plain: true, Log: func(string) {},
	})
}

// serve serves a bundled folder, and the catalogue beside it, on this machine until stop is called.
func serve(folder, catalogue string) (address string, stop func() error, err error) {
	handler, err := site.New(os.DirFS(folder))
	if err != nil {
		return "", nil, err
	}
	if handler, err = shelf.Beside(handler, catalogue); err != nil {
		return "", nil, err
	}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return "", nil, err
	}
	server := site.Server(handler)
	go server.Serve(listener)
	return fmt.Sprintf("http://%s/", listener.Addr()), server.Close, nil
}
