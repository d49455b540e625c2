package suite

import (
	"context"
	"strings"

	"newel/build/check"
	"newel/build/tools"
)

// allParts is the whole suite in the order in which it runs: quick rules
// first, browsers last.
func allParts() []part {
	var parts []part
	for _, g := range check.Gates {
		parts = append(parts, part{"go", g.Name, "go run ./build test --only go",
			func(_ context.Context, s *suite) Result { return gate(g.Run(s.root)) }})
	}
	return append(parts,
		part{"go", "go vet", "go vet ./...", vet},
		part{"go", "Go tests", "go test $(go list ./... | grep -v build/peers)", goTests},
		part{"go", "comparisons with other people's programs", "go test ./build/peers", after(peers, peerTests)},
		part{"wasm", "go vet for WebAssembly", "GOOS=js GOARCH=wasm go vet " + strings.Join(forWasm, " "), vetWasm},
		part{"wasm", "the core's tests again, as WebAssembly in Node", "go run ./build test --only wasm", wasmTests},
		part{"web", "TypeScript types", "npx tsc --noEmit -p web", after(modules, types("web"))},
		part{"web", "the workers' TypeScript types", "npx tsc --noEmit -p web/worker", after(modules, types("web/worker"))},
		part{"web", "types of the worker ahead", "npx tsc --noEmit -p web/ahead", after(modules, types("web/ahead"))},
		part{"web", "unit tests of the shell", "node --test web/test/unit/*.test.mjs", after(modules, unitTests)},
		part{"web", "two bundles in two folders are the same bytes", "go run ./build test --only web", after(modules, sameBytes)},
		part{"browser", "browser tests", "go run ./build test --only browser", after(browsers, browserTests)},
	)
}

func vet(ctx context.Context, s *suite) Result {
	return s.tool(ctx, tools.Command{Step: "go vet", Env: tools.CleanEnv(), Name: "go", Args: []string{"vet", "./..."}})
}

// forWasm are the packages that are compiled to WebAssembly: the page's, and the programs
// of the benchmark.
var forWasm = []string{"./wasm/...", "./core/...", "./build/bench/render", "./build/bench/occurrences", "./build/bench/link", "./build/bench/split"}

// vetWasm looks at the files that only exist under WebAssembly.
func vetWasm(ctx context.Context, s *suite) Result {
	return s.tool(ctx, tools.Command{Step: "go vet", Env: tools.WasmEnv(), Name: "go",
		Args: append([]string{"vet"}, forWasm...)})
}

// types checks one TypeScript project: the page and its worker have different globals.
func types(project string) func(context.Context, *suite) Result {
	return func(ctx context.Context, s *suite) Result {
		return s.tool(ctx, tools.Command{Step: "tsc", Name: "npx", Args: []string{"--no-install", "tsc", "--noEmit", "-p", project}})
	}
}

// tool runs a program that is silent when all is well; it counts as one check.
func (s *suite) tool(ctx context.Context, c tools.Command) Result {
	c.Dir = s.root
	if _, err := c.Run(ctx); err != nil {
		return Result{Failed: 1, Problems: err.Error()}
	}
	return Result{Passed: 1}
}
