package hostile

import (
	"runtime/debug"
	"time"
)

// patience is far more than anything that is watched takes (a few hundredths of a second), also on a
// machine that is busy with something else: this is no measure of speed.
var patience = 20 * time.Second

// Watch ends the program, saying what was done, unless stop is called in time. A loop without end can
// only be found from outside: Go's fuzzing waits for it for ever. The stacks of all goroutines are printed.
func Watch(what string) (stop func()) {
	timer := time.AfterFunc(patience, func() {
		debug.SetTraceback("all")
		panic("after " + patience.String() + " there is still no end of: " + what)
	})
	return func() { timer.Stop() }
}
