package bench

import (
	"cmp"
	"context"
	"fmt"
	"os"
	"runtime"
	"strings"

	"newel/build/tools"
)

// machine says on what the figures were measured: they are of no use without it.
func machine(ctx context.Context) string {
	info, _ := os.ReadFile("/proc/cpuinfo") // not every system has one
	chromium := cmp.Or(os.Getenv("NEWEL_CHROMIUM"), "/usr/bin/chromium")
	return fmt.Sprintf("measured on %s/%s, %d cores (%s), %s, Node %s, %s", runtime.GOOS, runtime.GOARCH, runtime.NumCPU(),
		processor(string(info)), strings.Replace(version(ctx, "go", "env", "GOVERSION"), "go", "Go ", 1), version(ctx, "node", "--version"), version(ctx, chromium, "--version"))
}

// processor is the model's name as the system tells it.
func processor(info string) string {
	for line := range strings.Lines(info) {
		if name, value, ok := strings.Cut(line, ":"); ok && strings.TrimSpace(name) == "model name" {
			return strings.TrimSpace(value)
		}
	}
	return "model unknown"
}

// version is the first line of what a program says of itself.
func version(ctx context.Context, program string, words ...string) string {
	out, err := tools.Command{Step: "asking " + program + " for its version", Name: program, Args: words}.Stdout(ctx)
	first, _, _ := strings.Cut(strings.TrimSpace(out), "\n")
	if err != nil || first == "" {
		return program + " (not there)"
	}
	return first
}
