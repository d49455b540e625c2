package bundle

import "newel/build/press"

// pressed gives a core as it is sent: without what only printed traces need, and in the form that
// compresses best. A newer Go may write something that build/press does not know; then the core
// is sent as it is, which the page takes just as well (web/unpress.ts), only later.
func pressed(wasm []byte, log func(string)) []byte {
	trimmed, err := press.Trim(wasm)
	if err != nil {
		log("the core is sent with its tables for traces, and is larger for it: " + err.Error())
		trimmed = wasm
	}
	small, err := press.Press(trimmed)
	if err != nil {
		log("the core is sent as it was compiled, and is larger for it: " + err.Error())
		return trimmed
	}
	return small
}
