package suite

import (
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"

	"newel/build/tools"
)

// nodeLimit stops a run of Node tests that hangs; the runner of Node 20 has
// no limit of its own for a whole run.
const nodeLimit = 40 * time.Minute

func unitTests(ctx context.Context, s *suite) Result {
	return s.nodeTest(ctx, "web/test/unit/*.test.mjs", os.Environ())
}

// nodeTest runs the test files of a pattern with Node's own runner, two files at a time:
// a browser waits as long as it works. More of them side by side would slow each other down
// on a machine with two cores until they time out.
func (s *suite) nodeTest(ctx context.Context, pattern string, env []string, args ...string) Result {
	files, err := filepath.Glob(filepath.Join(s.root, pattern))
	if err != nil || len(files) == 0 {
		return Result{Problems: "there is no " + pattern}
	}
	for i := range files {
		files[i], _ = filepath.Rel(s.root, files[i])
	}
	ctx, cancel := context.WithTimeout(ctx, nodeLimit)
	defer cancel()
	words := append([]string{"--test", "--test-reporter=spec", "--test-concurrency=2"}, args...)
	out, err := tools.Command{
		Step: "node --test", Dir: s.root, Env: env, Name: "node", Args: append(words, files...),
	}.Run(ctx)
	r := readNodeTest(out)
	if err != nil && r.Failed == 0 {
		r.Failed, r.Problems = 1, err.Error()
	}
	return r
}

// tally is a line of the summary that Node's spec reporter ends with.
var tally = regexp.MustCompile(`(?m)^(?:ℹ|#) (pass|fail|cancelled|skipped|todo) (\d+)$`)

// readNodeTest reads the counts off the summary. Cancelled, skipped and todo
// tests have failed: nothing here may be left out.
func readNodeTest(out string) Result {
	var r Result
	for _, m := range tally.FindAllStringSubmatch(out, -1) {
		n, _ := strconv.Atoi(m[2])
		if m[1] == "pass" {
			r.Passed += n
		} else {
			r.Failed += n
		}
	}
	if r.Failed > 0 {
		r.Problems = nodeProblems(out)
	}
	return r
}

// nodeProblems is the part of the output that starts at the list of failures,
// or the whole when there is no such list (a test was only skipped).
func nodeProblems(out string) string {
	if _, list, ok := strings.Cut(out, "✖ failing tests:"); ok {
		lines := strings.Split(strings.TrimSpace(list), "\n")
		if len(lines) > 120 { // the first failure is the one to look at
			lines = append(lines[:120], "…")
		}
		return strings.Join(lines, "\n")
	}
	return tools.Tail(out, 60)
}
