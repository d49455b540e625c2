package bench

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"newel/build/bundle"
	"newel/build/tools"
)

// Times come in rounds that take turns (page in WebAssembly, page native,
// peer; and again), so that a machine that slows down slows all three. A round
// is a process or a call that warms up, then reports its own median; the
// figure is the median of the rounds.
const rounds = 5

// perRound is how many figures one process prints.
const perRound = 5

// schedule measures from a plan to rendered HTML, in milliseconds.
func schedule(ctx context.Context, root string) ([]Row, error) {
	dir, remove, err := scratch()
	if err != nil {
		return nil, err
	}
	defer remove()
	native, wasm, err := programs(ctx, root, dir, "render")
	if err != nil {
		return nil, err
	}
	var inWasm, inNative, inPeer []float64
	for range rounds {
		a, err := runRender(ctx, wasm)
		if err != nil {
			return nil, err
		}
		b, err := runRender(ctx, native)
		if err != nil {
			return nil, err
		}
		if a.Bytes != b.Bytes {
			return nil, fmt.Errorf("WebAssembly rendered %d bytes and native %d: they must be the same page", a.Bytes, b.Bytes)
		}
		inWasm, inNative = append(inWasm, median(a.Ms)), append(inNative, median(b.Ms))
		inPeer = append(inPeer, median(peerTimes(b.Entries)))
	}
	return []Row{
		compare("schedule/build", "ms", median(inWasm), "the same natively", median(inNative)),
		compare("schedule/build-native", "ms", median(inNative), "html/template, as many entries, values ready made", median(inPeer)),
	}, nil
}

// programs compiles a program of this folder twice, and gives the command lines.
func programs(ctx context.Context, root, dir, name string) (native, wasm []string, err error) {
	target, source := filepath.Join(dir, name), "./build/bench/"+name
	_, err = tools.Command{
		Step: "compiling build/bench/" + name, Dir: root, Env: tools.CleanEnv(), Name: "go",
		Args: []string{"build", "-trimpath", "-o", target, source},
	}.Run(ctx)
	if err != nil {
		return nil, nil, err
	}
	code, err := bundle.Wasm(ctx, root, source)
	if err != nil {
		return nil, nil, err
	}
	if err := os.WriteFile(target+".wasm", code, 0o644); err != nil {
		return nil, nil, err
	}
	support, err := tools.WasmSupport(ctx, root)
	runner := filepath.Join(support, "wasm_exec_node.js")
	return []string{target}, []string{"node", runner, target + ".wasm"}, err
}

// rendered is what build/bench/render prints.
type rendered struct {
	Bytes   int       `json:"bytes"`
	Entries int       `json:"entries"`
	Ms      []float64 `json:"ms"`
}

func runRender(ctx context.Context, words []string) (rendered, error) {
	var r rendered
	out, err := tools.Command{
		Step: "running build/bench/render with " + filepath.Base(words[0]), Env: tools.CleanEnv(),
		Name: words[0], Args: append(slices.Clone(words[1:]), strconv.Itoa(perRound)),
	}.Stdout(ctx)
	if err != nil {
		return r, err
	}
	err = json.Unmarshal([]byte(strings.TrimSpace(out)), &r)
	if err == nil && (len(r.Ms) == 0 || r.Bytes == 0 || r.Entries == 0) {
		err = fmt.Errorf("build/bench/render measured nothing: %s", out)
	}
	return r, err
}

func median(values []float64) float64 {
	sorted := slices.Sorted(slices.Values(values))
	middle := len(sorted) / 2
	if len(sorted)%2 == 1 {
		return sorted[middle]
	}
	return (sorted[middle-1] + sorted[middle]) / 2
}
