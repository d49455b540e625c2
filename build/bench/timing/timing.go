// Package timing times one piece of work in a way that is the same for ours
// and for a peer, natively and in WebAssembly.
package timing

import "time"

// warmUp is how long the work runs before it counts: Node compiles
// WebAssembly a second time, better, once it has seen what is hot.
const warmUp = 300 * time.Millisecond

// stretch is how long one figure is measured: long against the clock's grain
// (a browser engine may round to 0.1 ms).
const stretch = 100 * time.Millisecond

// Rounds gives n figures, each the milliseconds of one call of work.
func Rounds(n int, work func() int) []float64 {
	run(warmUp, work)
	figures := make([]float64, n)
	for i := range figures {
		figures[i] = run(stretch, work)
	}
	return figures
}

// run calls work until the time is up and returns milliseconds per call.
func run(long time.Duration, work func() int) float64 {
	start, calls := time.Now(), 0
	for time.Since(start) < long {
		work()
		calls++
	}
	return float64(time.Since(start).Microseconds()) / 1000 / float64(calls)
}
