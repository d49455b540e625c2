// Package budget tells what each package of ours and each dependency adds to the core that a
// phone downloads.
//
// Code is counted by the names of functions, from a core that is compiled as the one that is
// sent, but linked with its names. Of the data, embedded files are counted for the package that
// embeds them; the rest (texts in the code, types, the tables with which a fault is located) is
// one line of its own, since the linker keeps no names for it. Every part is compressed by
// itself, so the parts add up to more than the core: a word that two packages share is counted
// twice. What is compared is their order, and the same part before and after a change.
package budget

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"newel/build/bundle"
)

// Part is what one package adds, or one kind of thing that belongs to no package.
type Part struct {
	Name      string // a package of ours from the top of the repository, a module, or a package of Go's
	Functions int
	Code      int // bytes of code
	Files     int // bytes of embedded files
	Packed    int // bytes of both, compressed by themselves
}

// Parts that are no package.
const (
	Compiler = "what the compiler makes for types (equality, hashes)"
	Data     = "data that has no name (texts, types, tables)"
	Headers  = "where each piece of data goes"
)

// Near is the program that a helper waits for.
const Near = "./wasm/near"

// Of measures a program of the module in root, as in "./wasm/near", compressing with pack. The parts come in the order
// of their compressed size, the largest first.
func Of(ctx context.Context, root, program string, pack func([]byte) ([]byte, error)) ([]Part, error) {
	wasm, err := bundle.NamedWasm(ctx, root, program)
	if err != nil {
		return nil, err
	}
	m, err := read(wasm)
	if err != nil {
		return nil, err
	}
	packages, err := list(ctx, root, program)
	if err != nil {
		return nil, err
	}
	contents := shares(m, packages)
	if err := embedded(contents, m, packages); err != nil {
		return nil, err
	}
	return measured(contents, pack)
}

// content is what a part consists of.
type content struct {
	Part
	bytes []byte
}

// shares gives each function to its part.
func shares(m *module, packages []pkg) map[string]*content {
	parts := map[string]*content{}
	find := finder(packages)
	for _, f := range m.functions {
		c := part(parts, find(f.name))
		c.Functions++
		c.Code += len(f.body)
		c.bytes = append(c.bytes, f.body...)
	}
	return parts
}

func part(parts map[string]*content, name string) *content {
	if parts[name] == nil {
		parts[name] = &content{Part: Part{Name: name}}
	}
	return parts[name]
}

// embedded gives each embedded file that is in the data to its package, and the rest of the data
// to nobody.
func embedded(parts map[string]*content, m *module, packages []pkg) error {
	rest := m.data
	for _, p := range packages {
		for _, name := range p.EmbedFiles {
			file, err := os.ReadFile(filepath.Join(p.Dir, name))
			if err != nil {
				return err
			}
			at := bytes.Index(rest, file)
			if at < 0 || len(file) == 0 { // cut into pieces by the linker, or never read by this core
				continue
			}
			c := part(parts, p.part())
			c.Files += len(file)
			c.bytes = append(c.bytes, file...)
			rest = slices.Concat(rest[:at], rest[at+len(file):])
		}
	}
	unnamed := part(parts, Data)
	unnamed.Files, unnamed.bytes = len(rest), rest
	headers := part(parts, Headers)
	headers.Files, headers.bytes = len(m.headers), m.headers
	return nil
}

// measured compresses the parts, all at once, and sorts them.
func measured(contents map[string]*content, pack func([]byte) ([]byte, error)) (parts []Part, err error) {
	var wait sync.WaitGroup
	faults := make(chan error, len(contents))
	for _, c := range contents {
		if len(c.bytes) == 0 {
			continue
		}
		wait.Go(func() {
			packed, err := pack(c.bytes)
			c.Packed = len(packed)
			faults <- err
		})
	}
	wait.Wait()
	close(faults)
	for fault := range faults {
		err = errors.Join(err, fault)
	}
	for _, c := range contents {
		parts = append(parts, c.Part)
	}
	slices.SortFunc(parts, func(a, b Part) int {
		return cmp.Or(cmp.Compare(b.Packed, a.Packed), strings.Compare(a.Name, b.Name))
	})
	return parts, err
}

// Largest are the first n parts that are packages.
func Largest(parts []Part, n int) (largest []Part) {
	for _, p := range parts {
		if len(largest) < n && !slices.Contains([]string{Compiler, Data, Headers}, p.Name) {
			largest = append(largest, p)
		}
	}
	return largest
}
