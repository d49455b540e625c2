//go:build js && wasm

// Command near is the core that comes first: what a helper does with a link on a phone, and for all else
// the answer that the whole core has to be asked.
package main

import (
	"newel/core/app"
	"newel/wasm/bridge"
)

func main() { bridge.Serve(app.Near) }
