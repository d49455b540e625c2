package tools

import (
	"context"
	"os"
	"path/filepath"
	"strings"
)

// kept are the variables that the Go command and Node need. The rest stays
// out: the WebAssembly loader refuses to start when the arguments and the
// environment together pass about 8 kB, and stray settings (GOFLAGS, NODE_OPTIONS) must
// not change what is built or tested.
var kept = []string{
	"PATH", "HOME", "TMPDIR", "USER", "LANG", "SSL_CERT_FILE", "SSL_CERT_DIR",
	"GOCACHE", "GOMODCACHE", "GOPATH", "GOPROXY", "GONOPROXY", "GOSUMDB", "GONOSUMDB",
	"GOPRIVATE", "GOTOOLCHAIN", "GOROOT", "XDG_CACHE_HOME",
	"HTTP_PROXY", "HTTPS_PROXY", "NO_PROXY", "http_proxy", "https_proxy", "no_proxy",
}

// CleanEnv is our environment cut down to what is needed, with extra
// NAME=value settings added.
func CleanEnv(extra ...string) []string {
	var env []string
	for _, name := range kept {
		if value, ok := os.LookupEnv(name); ok {
			env = append(env, name+"="+value)
		}
	}
	return append(env, extra...)
}

// WasmEnv is CleanEnv for building and testing WebAssembly.
func WasmEnv(extra ...string) []string {
	return CleanEnv(append([]string{"GOOS=js", "GOARCH=wasm"}, extra...)...)
}

// GoEnv asks the Go command that builds this module for one of its settings,
// as in GoEnv(ctx, root, "GOROOT").
func GoEnv(ctx context.Context, root, name string) (string, error) {
	out, err := Command{
		Step: "go env " + name, Dir: root, Name: "go", Args: []string{"env", name},
		Env:    CleanEnv(),
		Advice: "install Go (https://go.dev/doc/install) so that the go command is on the PATH",
	}.Stdout(ctx)
	return strings.TrimSpace(out), err
}

// WasmSupport is the folder of the Go toolchain with wasm_exec.js and its
// helpers. They belong to one Go version, so they are always taken from the
// toolchain that compiles the core (golang/go issue 47082).
func WasmSupport(ctx context.Context, root string) (string, error) {
	goroot, err := GoEnv(ctx, root, "GOROOT")
	return filepath.Join(goroot, "lib", "wasm"), err
}
