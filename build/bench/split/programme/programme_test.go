package programme

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/assign"
)

// two is a problem that is worked out by hand: two helpers, of whom the second offered twice
// as much, two overlapping rides and a visit.
func two() *assign.Problem {
	return &assign.Problem{
		Helpers: []assign.Helper{{Key: "Dana", Offer: 60}, {Key: "Luis", Offer: 120}},
		Items: []assign.Item{
			{Key: "ride-1", Series: 7, Tier: assign.Must, Weight: 5, Load: 60, Takes: []assign.Take{{From: 0, To: 60, Uses: 1}},
				Able: []bool{true, true}, Now: 0, Rather: []int8{1, -1}},
			{Key: "ride-2", Series: 7, Tier: assign.Must, Weight: 5, Load: 60, Takes: []assign.Take{{From: 30, To: 90, Uses: 3}},
				Able: []bool{true, true}, Now: assign.Nobody},
			{Key: "visit", Series: 9, Tier: assign.Nice, Weight: 2, Load: 30, Takes: []assign.Take{{From: 60, To: 80, Uses: 1}},
				Able: []bool{true, false}, Now: assign.Nobody},
		},
	}
}

// Worked by hand: Dana has ride-1 and the visit (90 minutes of 60), Luis ride-2 (60 of 120).
// q is 4 and 1, so level 5 is 4·90² + 60² = 36000.
func TestEvaluateByHand(t *testing.T) {
	got, broken := Evaluate(two(), []int{0, 1, 0})
	require.Empty(t, broken)
	require.Equal(t, Values{Whole(10), Whole(0), Whole(2), {Num: 3, Den: 2}, Whole(3), Whole(1), Whole(36000), Whole(0)}, got)
	got, broken = Evaluate(two(), []int{1, assign.Nobody, assign.Nobody})
	require.Empty(t, broken)
	require.Equal(t, Values{Whole(5), Whole(0), Whole(0), {Num: 1, Den: 2}, Whole(1), Whole(-1), Whole(3600), Whole(1)}, got)
}

func TestEvaluateFindsBrokenRows(t *testing.T) {
	held := two()
	held.Items[0].Held = true
	for what, broken := range map[string]string{
		"Dana has 2 items at minute 30": second(Evaluate(two(), []int{0, 0, 0})),
		"Dana has 2 items at minute 60": second(Evaluate(two(), []int{1, 0, 0})),
		"item visit went to helper 1":   second(Evaluate(two(), []int{0, 1, 1})),
		"item ride-1 went to helper 2":  second(Evaluate(two(), []int{2, 1, 1})),
		"item ride-1 is held":           second(Evaluate(held, []int{1, 0, assign.Nobody})),
	} {
		require.Contains(t, broken, what)
	}
	require.Empty(t, Over(two(), []int{0, 1, 0}, assign.Ratio{Num: 3, Den: 2}))
	require.Equal(t, "Dana has 90 minutes and may have 66", Over(two(), []int{0, 1, 0}, Whole(1)))
}

func second(_ Values, broken string) string { return broken }

// All is covered in one way only: ride-2 and the visit overlap, and Luis cannot do the visit.
func TestBruteByHand(t *testing.T) {
	best, ties := Brute(two())
	want, _ := Evaluate(two(), []int{0, 1, 0})
	require.Equal(t, want, best)
	require.Equal(t, 1, ties)
}

// Each way in which an answer can be wrong by itself is found.
func TestFaultFindsWhatIsWrong(t *testing.T) {
	judge, sound := NewJudge(two()), func() assign.Answer {
		a := assign.Answer{To: []int{0, 1, 0}, Cap: []int{99, 198}}
		values, _ := Evaluate(two(), a.To)
		for level, v := range values {
			a.Values[level] = assign.Value{Got: v, Bound: v, Proven: true}
		}
		return a
	}
	require.Empty(t, judge.Fault(sound()))
	for what, spoil := range map[string]func(a *assign.Answer){
		"it has 1 items":           func(a *assign.Answer) { a.To = a.To[:1] },
		"at minute 60":             func(a *assign.Answer) { a.To = []int{1, 0, 0} },
		"no ratio":                 func(a *assign.Answer) { a.Values[assign.Peak] = assign.Value{} },
		"level 2 does not allow":   func(a *assign.Answer) { a.Values[assign.Peak].Got = Whole(1) },
		"Cap of Luis is 197":       func(a *assign.Answer) { a.Cap[1] = 197 },
		"lowest terms":             func(a *assign.Answer) { a.Values[assign.Peak].Bound = assign.Ratio{Num: 6, Den: 4} },
		"it says that it got {4 1": func(a *assign.Answer) { a.Values[assign.Pairs].Got = Whole(4) },
		"says cannot be":           func(a *assign.Answer) { a.Values[assign.Rather].Bound = Whole(0) },
		"Proven is true":           func(a *assign.Answer) { a.Values[assign.Pairs].Bound = Whole(2) },
		"Proven is false":          func(a *assign.Answer) { a.Values[assign.Moves].Proven = false },
	} {
		a := sound()
		spoil(&a)
		require.Contains(t, judge.Fault(a), what)
	}
}

// The text of level 3, after the levels before have been fixed, as it was written by hand
// from the programme: one helper an item, the two overlaps, what was fixed, and y at least x.
func TestTheText(t *testing.T) {
	m := NewModel(two())
	m.Fix(assign.CoverMust, Whole(10))
	m.Fix(assign.CoverShould, Whole(0))
	m.Fix(assign.CoverNice, Whole(2))
	m.Fix(assign.Peak, assign.Ratio{Num: 3, Den: 2})
	require.Equal(t, `Minimize
 obj: +1 y0_7 +1 y1_7 +1 y0_9 
Subject To
 +1 x0_0 +1 x1_0 <= 1
 +1 x0_1 +1 x1_1 <= 1
 +1 x0_2 <= 1
 +1 x0_0 +1 x0_1 <= 1
 +1 x1_0 +1 x1_1 <= 1
 +1 x0_1 +1 x0_2 <= 1
 +5 x0_0 +5 x1_0 +5 x0_1 +5 x1_1 >= 10
 +2 x0_2 >= 2
 +2 x0_0 +2 x0_1 +1 x0_2 <= 3
 +2 x1_0 +2 x1_1 <= 6
 +1 y0_7 -1 x0_0 >= 0
 +1 y0_7 -1 x0_1 >= 0
 +1 y1_7 -1 x1_0 >= 0
 +1 y1_7 -1 x1_1 >= 0
 +1 y0_9 -1 x0_2 >= 0
Binaries
 x0_0
 x1_0
 x0_1
 x1_1
 x0_2
End
`, m.Text(assign.Pairs))
}

// The straight lines of level 5 touch the squares at whole numbers and nowhere pass them.
func TestTheLinesAreBelowTheSquares(t *testing.T) {
	for k := int64(0); k < 50; k++ {
		for l := int64(0); l < 50; l++ {
			line := (2*k+1)*l - k*(k+1)
			require.LessOrEqual(t, line, l*l)
			require.Equal(t, l == k || l == k+1, line == l*l)
		}
	}
}

// says is a peer that says always the same.
type says struct {
	status  string
	columns map[string]float64
	fault   error
}

func (s says) Ask(_ string, _ map[string]any, answer any) error {
	said := answer.(*struct {
		Status  string
		Ms      float64
		Columns map[string]float64
	})
	said.Status, said.Columns = s.status, s.columns
	return s.fault
}

// What the other solver says is looked at before it counts.
func TestWhatThePeerSaysIsLookedAt(t *testing.T) {
	m, judge := NewModel(two()), NewJudge(two())
	good := map[string]float64{"x0_0": 1, "x1_1": 0.9999999, "x0_2": 1}
	found, err := m.Ask(says{"Optimal", good, nil}, judge, assign.CoverMust, 1)
	require.NoError(t, err)
	require.Equal(t, Found{To: []int{0, 1, 0}, Value: Whole(10), Proven: true}, found)
	found, err = m.Ask(says{"Time limit reached", nil, nil}, judge, assign.CoverMust, 1)
	require.NoError(t, err)
	require.Equal(t, Found{}, found)
	for what, peer := range map[string]says{
		"gone":                  {fault: errors.New("gone")},
		`the solver says "odd"`: {status: "odd"},
		"neither 0 nor 1":       {"Optimal", map[string]float64{"x0_0": 0.5}, nil},
		"breaks a row":          {"Optimal", map[string]float64{"x0_0": 1, "x0_1": 1}, nil},
	} {
		_, err := m.Ask(peer, judge, assign.CoverMust, 1)
		require.ErrorContains(t, err, what)
	}
}
