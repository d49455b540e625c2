//go:build js && wasm

// Command wasm is the only place that knows it runs in a browser. It hangs one
// function on the page, globalThis.newelHandle, which takes a request's bytes and
// gives a response's bytes (core/app/exchange.go has the format). When it cannot,
// it gives null, never undefined: that is what the caller would also get from a
// program that has died, and web/core.ts treats both as "the core failed".
package main

import (
	"syscall/js"

	"newel/core/app"
)

func main() {
	// FuncOf and not go:wasmexport: an export takes and gives no bytes, and one
	// that blocks gives back a wrong number (measured with Go 1.26.8). The
	// function is never released, because the page needs it as long as it lives.
	js.Global().Set("newelHandle", js.FuncOf(handle))
	// A main that returns ends the program, and with it newelHandle.
	select {}
}

// handle answers one request. It must not wait for anything: a call from
// JavaScript stops the page's event loop until it returns, so whatever it waited
// for could never arrive.
func handle(_ js.Value, args []js.Value) (answer any) {
	// A panic is a mistake in the core. Caught here, it costs this one request;
	// uncaught, the whole program is gone and every later call fails as well.
	defer func() {
		if fault := recover(); fault != nil {
			printFault(fault)
			answer = nil
		}
	}()
	// The length is checked before the copy: the core's memory never shrinks, and
	// phones close a tab that uses too much. One byte over is enough for
	// ReadRequest to refuse it in its own words.
	message := make([]byte, min(args[0].Length(), app.RequestLimit+1))
	js.CopyBytesToGo(message, args[0])
	request, err := app.ReadRequest(message)
	if err != nil {
		println(err.Error())
		return nil
	}
	return bytesToJS(app.WriteResponse(app.Handle(request)))
}

// bytesToJS copies, because a view on Go's memory dies as soon as that memory grows.
func bytesToJS(message []byte) js.Value {
	array := js.Global().Get("Uint8Array").New(len(message))
	js.CopyBytesToJS(array, message)
	return array
}

// printFault writes to the browser's console, for whoever looks into it. println
// and not fmt: fmt would add about 120 kB (brotli) to the page.
func printFault(fault any) {
	switch f := fault.(type) {
	case error:
		println("the core failed:", f.Error())
	case string:
		println("the core failed:", f)
	default:
		println("the core failed")
	}
}
