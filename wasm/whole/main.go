//go:build js && wasm

// Command whole is the core that answers everything.
package main

import (
	"newel/core/app"
	"newel/wasm/bridge"
)

func main() { bridge.Serve(app.Handle) }
