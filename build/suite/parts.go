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
		parts = append(parts, part{group: "go", name: g.Name, alone: "go run ./build test --only go",
			run: func(_ context.Context, s *suite) Result { return gate(g.Run(s.root)) }})
	}
	return append(parts,
		part{group: "go", name: "go vet", alone: "go vet ./...", run: vet},
		part{group: "go", name: "Go tests", alone: "go test $(go list ./... | grep -v build/peers)", run: goTests},
		part{group: "go", name: "comparisons with other people's programs", alone: "go test ./build/peers", run: after(peers, peerTests)},
		part{group: "go", name: "known faults in what others wrote", alone: "go run ./build test --only go", run: knownFaults},
		part{group: "wasm", name: "go vet for WebAssembly", alone: "GOOS=js GOARCH=wasm go vet " + strings.Join(forWasm, " "), run: vetWasm},
		part{group: "wasm", name: "the core's tests again, as WebAssembly in Node", alone: "go run ./build test --only wasm", run: wasmTests},
		part{group: "web", name: "TypeScript types", alone: "npx tsc --noEmit -p web", run: after(modules, types("web"))},
		part{group: "web", name: "the workers' TypeScript types", alone: "npx tsc --noEmit -p web/worker", run: after(modules, types("web/worker"))},
		part{group: "web", name: "types of the worker ahead", alone: "npx tsc --noEmit -p web/ahead", run: after(modules, types("web/ahead"))},
		part{group: "web", name: "unit tests of the shell", alone: "node --test web/test/unit/*.test.mjs", run: after(modules, unitTests)},
		part{group: "web", name: "two bundles in two folders are the same bytes", alone: "go run ./build test --only web", run: after(modules, sameBytes)},
		part{group: "browser", name: "browser tests", alone: "go run ./build test --only browser", run: after(browsers, browserTests)},
		part{group: "long", name: "readers fed with what a program makes up", alone: "go run ./build test --only long", run: fuzzed, long: true},
		part{group: "long", name: "small faults in the core, and who notices", alone: "go run ./build mutate", run: mutated, long: true},
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
