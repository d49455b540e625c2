package suite

import (
	"context"
	"fmt"
	"regexp"
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
	if r.Failed != len(list) || len(list) > mostAgain {
		return r
	}
	var twice []string
	for _, first := range list {
		m := failed.FindStringSubmatch(first)
		if m == nil {
			twice = append(twice, first)
			continue
		}
		file, name := m[1], m[2]
		second, out := s.node(ctx, env, "--test-name-pattern=^"+regexp.QuoteMeta(name)+"$", file)
		// The others of its file count as skipped.
		if n := tallied(out); n["pass"] != 1 || n["fail"]+n["cancelled"]+n["todo"] > 0 {
			twice = append(twice, first+"\nand when run again by itself:\n"+second.Problems)
			continue
		}
		r.Passed++
		r.Failed--
		s.log(fmt.Sprintf("passed only when run again by itself: %s: %s; at first:\n%s", file, name, tools.Indent(first, "    | ")))
	}
	r.Problems = strings.Join(twice, "\n\n")
	return r
}
