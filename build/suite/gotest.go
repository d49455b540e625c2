package suite

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"newel/build/tools"
)

// peersPackage needs other people's programs, which are installed for it alone.
const peersPackage = "newel/build/peers"

// goTests runs every package's tests but those that compare with peers, so that a
// machine on which those cannot be installed still runs the rest.
func goTests(ctx context.Context, s *suite) Result {
	list, err := tools.Command{
		Step: "go list", Dir: s.root, Env: tools.CleanEnv(), Name: "go", Args: []string{"list", "./..."},
	}.Stdout(ctx)
	if err != nil {
		return Result{Failed: 1, Problems: err.Error()}
	}
	packages := slices.DeleteFunc(strings.Fields(list), func(name string) bool { return name == peersPackage })
	return s.goTest(ctx, tools.CleanEnv(s.longer()...), packages...)
}

func peerTests(ctx context.Context, s *suite) Result {
	return s.goTest(ctx, tools.CleanEnv(s.longer()...), peersPackage)
}

// wasmTests runs the core as it runs in the page: compiled to WebAssembly,
// where int is 64 bits but memory, zones and the clock are the browser's. -short: what
// tries many random ones tried all of them natively, and takes half as many here, where the
// same code is four times as slow. No test is left out.
func wasmTests(ctx context.Context, s *suite) Result {
	support, err := tools.WasmSupport(ctx, s.root)
	if err != nil {
		return Result{Failed: 1, Problems: err.Error()}
	}
	return s.goTest(ctx, tools.WasmEnv(), "-short", "-exec="+filepath.Join(support, "go_js_wasm_exec"), "./core/...")
}

func (s *suite) goTest(ctx context.Context, env []string, args ...string) Result {
	limit := "15m"
	if s.Long {
		limit = "60m"
	}
	out, err := tools.Command{
		Step: "go test", Dir: s.root, Env: env, Name: "go",
		Args: append([]string{"test", "-json", "-timeout=" + limit}, args...),
	}.Run(ctx)
	r := readGoTest(out)
	if err != nil && r.Failed == 0 {
		r.Failed, r.Problems = 1, err.Error()
	}
	return r
}

// event is one line of `go test -json` (see `go doc test2json`).
type event struct {
	Action, Package, ImportPath, Test, Output string
}

// goReport gathers events by package and test.
type goReport struct {
	Result
	output  map[string][]string // by "package test"
	blamed  map[string]bool     // packages in which some test failed
	parents map[string]bool     // tests that only hold other tests
	last    map[string]string   // final action by "package test"
	order   []string
	loose   []string // lines that are no events
}

// readGoTest counts tests (a test that only holds other tests is not counted
// by itself) and keeps the output of those that failed. A test that was
// skipped has failed: nothing here may be skipped.
func readGoTest(out string) Result {
	g := &goReport{output: map[string][]string{}, blamed: map[string]bool{}, parents: map[string]bool{}, last: map[string]string{}}
	lines := bufio.NewScanner(strings.NewReader(out))
	lines.Buffer(nil, 64<<20)
	for lines.Scan() {
		var e event
		if json.Unmarshal(lines.Bytes(), &e) != nil {
			g.loose = append(g.loose, lines.Text())
			continue
		}
		g.take(e)
	}
	return g.result()
}

func (g *goReport) take(e event) {
	if e.Package == "" {
		e.Package = e.ImportPath // build-output and build-fail name it so
	}
	key := strings.TrimSpace(e.Package + " " + e.Test)
	switch e.Action {
	case "output", "build-output":
		g.output[key] = append(g.output[key], e.Output)
	case "run":
		for name := e.Test; strings.Contains(name, "/"); {
			name = name[:strings.LastIndex(name, "/")]
			g.parents[e.Package+" "+name] = true
		}
	case "pass", "fail", "skip", "build-fail":
		g.last[key] = e.Action
		g.order = append(g.order, key)
		if e.Test != "" && e.Action != "pass" {
			g.blamed[e.Package] = true
		}
	}
}

func (g *goReport) result() Result {
	var problems []string
	for _, key := range g.order {
		pkg, test, isTest := strings.Cut(key, " ")
		action := g.last[key]
		switch {
		case isTest && action == "pass" && !g.parents[key]:
			g.Passed++
		case isTest && action == "skip":
			g.Failed++
			problems = append(problems, fmt.Sprintf("%s %s was skipped, and no test may be\n%s", pkg, test, g.said(key)))
		case isTest && action == "fail":
			if !g.parents[key] || !g.childFailed(key) {
				g.Failed++
			}
			problems = append(problems, g.said(key))
		case !isTest && action == "fail" && !g.blamed[pkg]:
			g.Failed++
			problems = append(problems, g.said(key))
		case action == "build-fail":
			problems = append(problems, g.said(key))
		}
	}
	if g.Failed > 0 {
		g.Problems = tools.Tail(strings.Join(append(problems, g.loose...), "\n"), 120)
	}
	return g.Result
}

func (g *goReport) childFailed(parent string) bool {
	return slices.ContainsFunc(g.order, func(key string) bool {
		return strings.HasPrefix(key, parent+"/") && g.last[key] != "pass"
	})
}

// said is a test's output without the lines that only say that it ran.
func (g *goReport) said(key string) string {
	var b strings.Builder
	for _, line := range g.output[key] {
		if !strings.HasPrefix(line, "=== ") {
			b.WriteString(line)
		}
	}
	return strings.TrimRight(b.String(), "\n")
}
