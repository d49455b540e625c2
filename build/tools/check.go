package tools

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// minNode is the oldest major version of Node that works: the test runner's
// options and the global fetch the tests use are there from 20 on.
const minNode = 20

// Ask runs a program for its version line. A test replaces it.
type Ask func(name string, args ...string) (string, error)

// Check says what is missing from the machine, one sentence each; an empty
// list means that everything the bundle needs is there.
func Check(ctx context.Context, root string) []string {
	ask := func(name string, args ...string) (string, error) {
		return Command{Step: name, Dir: root, Name: name, Args: args, Env: CleanEnv()}.Stdout(ctx)
	}
	problems := checkGo(ask)
	problems = append(problems, checkNode(ask)...)
	return append(problems, checkNpm(ask)...)
}

func checkGo(ask Ask) []string {
	root, err := ask("go", "env", "GOROOT")
	if err != nil {
		return []string{"Go is not on the PATH: install it (https://go.dev/doc/install), version as in go.mod or newer."}
	}
	loader := filepath.Join(strings.TrimSpace(root), "lib", "wasm", "wasm_exec.js")
	if _, err := os.Stat(loader); err != nil {
		return []string{fmt.Sprintf("Go is there but %s is not, and the page needs it: install the complete Go "+
			"(https://go.dev/doc/install), not a cut-down package.", loader)}
	}
	return nil
}

func checkNode(ask Ask) []string {
	said, err := ask("node", "--version")
	if err != nil {
		return []string{fmt.Sprintf("Node is not on the PATH: install Node %d or newer (https://nodejs.org).", minNode)}
	}
	if major, ok := nodeMajor(said); !ok || major < minNode {
		return []string{fmt.Sprintf("Node %q is too old: install Node %d or newer (https://nodejs.org).",
			strings.TrimSpace(said), minNode)}
	}
	return nil
}

func checkNpm(ask Ask) []string {
	if _, err := ask("npm", "--version"); err != nil {
		return []string{"npm is not on the PATH: it comes with Node (https://nodejs.org); on Debian it is the package npm."}
	}
	return nil
}

// nodeMajor reads the 20 of "v20.20.2".
func nodeMajor(version string) (int, bool) {
	head, _, _ := strings.Cut(strings.TrimPrefix(strings.TrimSpace(version), "v"), ".")
	n, err := strconv.Atoi(head)
	return n, err == nil
}
