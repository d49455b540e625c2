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
const nodeLimit = 60 * time.Minute

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

// nodeProblems is the list of failures, the beginning of each; or the end of the output when there
// is no such list (a test was only skipped).
func nodeProblems(out string) string {
	_, list, ok := strings.Cut(out, "✖ failing tests:")
	if !ok {
		return tools.Tail(out, 60)
	}
	const most = 14 // lines: what was expected and found, and where; the rest is the runner's
	failures := strings.Split(strings.TrimSpace(list), "\n\ntest at ")
	for i, f := range failures {
		lines := strings.Split(f, "\n")
		if len(lines) > most {
			lines = append(lines[:most], "  …")
		}
		for n, line := range lines {
			if len(line) > 400 { // a whole screen that differs in one link
				lines[n] = strings.ToValidUTF8(line[:400], "") + " …"
			}
		}
		failures[i] = strings.Join(lines, "\n")
	}
	return strings.Join(failures, "\n\ntest at ")
}
