package suite

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os/exec"
	"path/filepath"
	"strings"

	"newel/build/tools"
)

// vulncheck is Go's own program for known faults in modules; it says only which of them our code reaches.
const vulncheck = "golang.org/x/vuln/cmd/govulncheck@v1.9.0"

// knownFaults asks the lists of known faults about every module and package that is pinned. Who asks needs
// a network that reaches those lists: where one does not answer, that is said, and nothing is claimed.
func knownFaults(ctx context.Context, s *suite) Result {
	var r Result
	for _, ask := range []func(context.Context, *suite) (answered bool, found string){goFaults, npmFaults} {
		answered, found := ask(ctx, s)
		switch {
		case !answered:
			s.log("NOT looked up: " + found)
		case found != "":
			r.Failed++
			r.Problems += found + "\n"
		default:
			r.Passed++
		}
	}
	// The files that were asked about are in order, whoever answers (the gate "pinned" looks closer).
	if _, err := (tools.Command{Step: "go mod verify", Dir: s.root, Env: tools.CleanEnv(), Name: "go", Args: []string{"mod", "verify"}}).Run(ctx); err != nil {
		r.Failed++
		r.Problems += "modules on this machine are not what go.sum says: " + err.Error()
	} else {
		r.Passed++
	}
	return r
}

func goFaults(ctx context.Context, s *suite) (bool, string) {
	bin := filepath.Join(s.temp, "bin")
	_, err := tools.Command{
		Step: "installing govulncheck", Dir: s.temp, Env: tools.CleanEnv("GOBIN=" + bin), Name: "go", Args: []string{"install", vulncheck},
	}.Run(ctx)
	if err != nil {
		return false, "known faults of Go modules: govulncheck could not be installed: " + err.Error()
	}
	out, err := tools.Command{
		Step: "govulncheck", Dir: s.root, Env: tools.CleanEnv(), Name: filepath.Join(bin, "govulncheck"), Args: []string{"./..."},
	}.Run(ctx)
	return readVulncheck(out, err)
}

// readVulncheck: it ends with 0 where nothing was found and 3 where something was ("go doc
// golang.org/x/vuln/cmd/govulncheck"), and otherwise has not done its work.
func readVulncheck(out string, err error) (bool, string) {
	var exit *exec.ExitError
	switch {
	case err == nil:
		return true, ""
	case errors.As(err, &exit) && exit.ExitCode() == 3:
		return true, "govulncheck: " + tools.Tail(out, 60)
	}
	return false, "known faults of Go modules: the list did not answer: " + tools.Tail(out, 1)
}

func npmFaults(ctx context.Context, s *suite) (bool, string) {
	var all []string
	for _, dir := range []string{".", "build/bench/lighthouse"} {
		out, _ := tools.Command{
			Step: "npm audit", Dir: filepath.Join(s.root, dir), Name: "npm", Args: []string{"audit", "--package-lock-only", "--json"},
		}.Stdout(ctx)
		answered, found := readAudit(out)
		if !answered {
			return false, "known faults of npm packages: " + found
		}
		if found != "" {
			all = append(all, dir+": "+found)
		}
	}
	return true, strings.Join(all, "\n")
}

// readAudit reads npm's report (npm docs, "npm audit", --json): one with counts, or one with a message.
func readAudit(out string) (bool, string) {
	var report struct {
		Message         string
		Vulnerabilities map[string]struct{ Severity string }
		Metadata        *struct{ Vulnerabilities struct{ Total int } }
	}
	switch err := json.Unmarshal([]byte(out), &report); {
	case err != nil:
		return false, "npm audit did not give a report"
	case report.Metadata == nil:
		return false, "the list did not answer: " + report.Message
	case report.Metadata.Vulnerabilities.Total == 0:
		return true, ""
	}
	text := "npm audit:"
	for name, v := range report.Vulnerabilities {
		text += fmt.Sprintf(" %s (%s)", name, v.Severity)
	}
	return true, text
}
