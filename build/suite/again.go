package suite

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"newel/build/tools"
)

// mostAgain is how many failures are worth a second look: more of them have a cause in common.
const mostAgain = 6

// failed is how a failure begins: where it is, then its name.
var failed = regexp.MustCompile(`^(\S+):\d+:\d+\n✖ (.*) \([\d.]+ms\)\n`)

// again runs each browser test that failed once more, by itself, when all others are done. A machine with
// two cores that runs three browsers stalls now and then for longer than a test waits, and a driver at
// times loses an answer; a fault of ours fails twice. What passed only then is printed, since a test that
// does so often is a fault too, its own or the page's.
func (s *suite) again(ctx context.Context, r Result, out string, env []string) Result {
	list := failures(out)
	if n := tallied(out); len(list) == 0 || len(list) > mostAgain || n["skipped"]+n["todo"] > 0 {
		return r
	}
	var twice []string
	for _, first := range list {
		second := "it has no name to run it by"
		if m := failed.FindStringSubmatch(first); m != nil {
			file, name := m[1], m[2]
			var passes bool
			if passes, second = s.passesAlone(ctx, file, name, env); passes {
				s.log(fmt.Sprintf("passed only when run again by itself: %s: %s; at first:\n%s", file, name, tools.Indent(first, "    | ")))
				continue
			}
		}
		twice = append(twice, first+"\nand when run again by itself:\n"+second)
	}
	if len(twice) == 0 { // with them, the tests that they are parts of
		return Result{Passed: r.Passed + r.Failed}
	}
	forgiven := len(list) - len(twice)
	return Result{Passed: r.Passed + forgiven, Failed: r.Failed - forgiven, Problems: strings.Join(twice, "\n\n")}
}

// passesAlone runs one test of a file, and gives what was wrong if it failed. One that is a part of another
// cannot be run without it: then the whole file is run, in the one engine that the name begins with.
func (s *suite) passesAlone(ctx context.Context, file, name string, env []string) (bool, string) {
	r, out := s.node(ctx, env, "--test-name-pattern=^"+regexp.QuoteMeta(name)+"$", file)
	n := tallied(out)
	bad := n["fail"] + n["cancelled"] + n["todo"] // the others of its file count as skipped
	if n["pass"]+bad > 0 {
		return n["pass"] == 1 && bad == 0, r.Problems
	}
	if engine, _, found := strings.Cut(name, ": "); found {
		env = append(slices.Clone(env), "NEWEL_ENGINES="+engine)
	}
	r, out = s.node(ctx, env, file)
	return r.Failed == 0 && strings.Contains(out, "✔ "+name+" ("), r.Problems
}
