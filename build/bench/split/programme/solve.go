package programme

import (
	"fmt"
	"math"

	"newel/core/assign"
)

// Asker is a peer that solves a text: build/peers' Peer of HiGHS.
type Asker interface {
	Ask(op string, question map[string]any, answer any) error
}

// Found is what the other solver found for one level.
type Found struct {
	To     []int        // by item: the helper, or assign.Nobody
	Value  assign.Ratio // worked out from To
	Proven bool         // it says that nothing is better
	Ms     float64      // that it took, without reading the text
}

// Ask has a peer solve one level, in at most that many seconds. The answer is rounded to
// whole numbers and worked out anew, so a tolerance of the peer's cannot pass for a value;
// an answer that breaks a row after rounding is an error. To is nil where the peer found
// none in its time.
func (m *Model) Ask(peer Asker, judge *Judge, level assign.Level, seconds float64) (f Found, err error) {
	var said struct {
		Status  string
		Ms      float64
		Columns map[string]float64 // of those that are not 0
	}
	err = peer.Ask("solve", map[string]any{"text": m.Text(level), "seconds": seconds}, &said)
	if err != nil {
		return f, err
	}
	f.Ms = said.Ms
	switch said.Status {
	case "Optimal":
		f.Proven = true
	case "Time limit reached":
		if len(said.Columns) == 0 {
			return f, nil
		}
	default:
		return f, fmt.Errorf("the solver says %q of level %d", said.Status, level)
	}
	if f.To, err = m.rounded(said.Columns); err != nil {
		return f, err
	}
	if broken := judge.Breaks(f.To); broken != "" {
		return f, fmt.Errorf("level %d: the solver's answer breaks a row once rounded: %s", level, broken)
	}
	f.Value = judge.Values(f.To)[level]
	return f, nil
}

// rounded reads an answer out of the columns.
func (m *Model) rounded(columns map[string]float64) ([]int, error) {
	to := make([]int, len(m.p.Items))
	for j := range to {
		to[j] = assign.Nobody
		for i := range m.p.Helpers {
			value := columns[x(i, j)]
			if math.Abs(value-math.Round(value)) > 1e-4 {
				return nil, fmt.Errorf("the solver's %s is %g, neither 0 nor 1", x(i, j), value)
			}
			if math.Round(value) == 1 {
				to[j] = i
			}
		}
	}
	return to, nil
}
