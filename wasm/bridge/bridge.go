//go:build js && wasm

// Package bridge is the only place that knows it runs in a browser. Serve hangs one
// function on the page, globalThis.newelHandle, which takes a request's bytes and
// gives a response's bytes (core/app/exchange.go has the format); a second one,
// newelPrepare, does a little of what the first request would wait for, and gives
// true once nothing of that is left. When the first cannot answer,
// it gives null, never undefined: that is what the caller would also get from a
// program that has died, and web/core.ts treats both as "the core failed".
//
// wasm/near and wasm/whole are the two programs over it: the same source, the first without the
// rooms that a helper does not ask for (core/app/rooms.go).
package bridge

import (
	"syscall/js"

	"newel/core/app"
)

// Serve has answer answer the page's requests for as long as the page lives. It does not return.
func Serve(answer func(app.Request) app.Response) {
	handle := func(_ js.Value, args []js.Value) any { return handle(answer, args[0]) }
	// FuncOf and not go:wasmexport: an export takes and gives no bytes, and one
	// that blocks gives back a wrong number (measured with Go 1.26.8). The
	// function is never released, because the page needs it as long as it lives.
	js.Global().Set("newelHandle", js.FuncOf(handle))
	js.Global().Set("newelPrepare", js.FuncOf(func(js.Value, []js.Value) any { return app.Prepare() }))
	// A main that ends, ends the program, and with it newelHandle.
	select {}
}

// handle answers one request. It must not wait for anything: a call from
// JavaScript stops the page's event loop until it returns, so whatever it waited
// for could never arrive.
func handle(answer func(app.Request) app.Response, bytes js.Value) (response any) {
	// A panic is a mistake in the core. Caught here, it costs this one request;
	// uncaught, the whole program is gone and every later call fails as well.
	defer func() {
		if fault := recover(); fault != nil {
			printFault(fault)
			response = nil
		}
	}()
	// The length is checked before the copy: the core's memory never shrinks, and
	// phones close a tab that uses too much. One byte over is enough for
	// ReadRequest to refuse it in its own words.
	message := make([]byte, min(bytes.Length(), app.RequestLimit+1))
	js.CopyBytesToGo(message, bytes)
	request, err := app.ReadRequest(message)
	if err != nil {
		println(err.Error())
		return nil
	}
	return bytesToJS(app.WriteResponse(answer(request)))
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
