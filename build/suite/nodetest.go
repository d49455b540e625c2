package suite

import (
	"context"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"

	"newel/build/tools"
)

// nodeLimit stops a run of Node tests that hangs; the runner of Node 20 has
// no limit of its own for a whole run.
const nodeLimit = 75 * time.Minute

func unitTests(ctx context.Context, s *suite) Result {
	r, _ := s.nodeTest(ctx, "web/test/unit/*.test.mjs", s.environ())
	return r
}

// nodeTest runs the test files of a pattern with Node's own runner, two files at a time:
// a browser waits as long as it works. More of them side by side would slow each other down
// on a machine with two cores until they time out.
func (s *suite) nodeTest(ctx context.Context, pattern string, env []string) (Result, string) {
	files, err := filepath.Glob(filepath.Join(s.root, pattern))
	if err != nil || len(files) == 0 {
		return Result{Problems: "there is no " + pattern}, ""
	}
	for i := range files {
		files[i], _ = filepath.Rel(s.root, files[i])
	}
	return s.node(ctx, env, append([]string{"--test-concurrency=2"}, files...)...)
}

// node runs Node's test runner with these words behind its name, and gives what it printed too.
func (s *suite) node(ctx context.Context, env []string, words ...string) (Result, string) {
	ctx, cancel := context.WithTimeout(ctx, nodeLimit)
	defer cancel()
	out, err := tools.Command{
		Step: "node --test", Dir: s.root, Env: env, Name: "node", Args: append([]string{"--test", "--test-reporter=spec"}, words...),
	}.Run(ctx)
	r := readNodeTest(out)
	if err != nil && r.Failed == 0 {
		r.Failed, r.Problems = 1, err.Error()
	}
	return r, out
}

// tally is a line of the summary that Node's spec reporter ends with.
var tally = regexp.MustCompile(`(?m)^(?:ℹ|#) (pass|fail|cancelled|skipped|todo) (\d+)$`)

func tallied(out string) map[string]int {
	n := map[string]int{}
	for _, m := range tally.FindAllStringSubmatch(out, -1) {
		n[m[1]], _ = strconv.Atoi(m[2])
	}
	return n
}

// readNodeTest reads the counts off the summary. Cancelled, skipped and todo
// tests have failed: nothing here may be left out.
func readNodeTest(out string) Result {
	n := tallied(out)
	r := Result{Passed: n["pass"], Failed: n["fail"] + n["cancelled"] + n["skipped"] + n["todo"]}
	if r.Failed > 0 {
		r.Problems = nodeProblems(out)
	}
	return r
}

// nodeProblems is the list of failures, the beginning of each; or the end of the output when there
// is no such list (a test was only skipped).
func nodeProblems(out string) string {
	failed := failures(out)
	if len(failed) == 0 {
		return tools.Tail(out, 60)
	}
	return "test at " + strings.Join(failed, "\n\ntest at ")
}

// failures are the failed tests as the reporter lists them at its end, without "test at", the
// beginning of each: what was expected and found, and where; the rest is the runner's.
func failures(out string) []string {
	const most = 14 // lines
	_, list, _ := strings.Cut(out, "✖ failing tests:")
	list, found := strings.CutPrefix(strings.TrimSpace(list), "test at ")
	if !found {
		return nil
	}
	failed := strings.Split(list, "\n\ntest at ")
	for i, f := range failed {
		lines := strings.Split(f, "\n")
		if len(lines) > most {
			lines = append(lines[:most], "  …")
		}
		for n, line := range lines {
			if len(line) > 400 { // a whole screen that differs in one link
				lines[n] = strings.ToValidUTF8(line[:400], "") + " …"
			}
		}
		failed[i] = strings.Join(lines, "\n")
	}
	return failed
}
