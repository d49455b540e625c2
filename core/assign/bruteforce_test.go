package assign_test

import (
	"os"
	"runtime"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/bench/split/families"
	"newel/build/bench/split/programme"
	"newel/core/assign"
)

// many scales how many problems are tried: less in WebAssembly, where each takes longer,
// and more where NEWEL_SPLITS says how many times:
//
//	NEWEL_SPLITS=100 go test ./core/assign -run Brute -timeout 0
func many(t *testing.T, count int) uint64 {
	if runtime.GOARCH == "wasm" {
		count /= 8
	}
	text := os.Getenv("NEWEL_SPLITS")
	if text == "" {
		return uint64(count)
	}
	n, err := strconv.Atoi(text)
	require.NoError(t, err, "NEWEL_SPLITS is a number")
	return uint64(count * n)
}

// literal says which problem failed, so that it can be made again.
func literal(p *assign.Problem, seed uint64) string {
	return "seed " + strconv.FormatUint(seed, 10) + "\n" + programme.Literal(p)
}

// solved solves a problem and holds the answer against the definition.
func solved(t *testing.T, p *assign.Problem, seed uint64) assign.Answer {
	t.Helper()
	a := assign.Solve(p, assign.Options{})
	if fault := programme.NewJudge(p).Fault(a); fault != "" {
		t.Fatalf("%s\n%s", fault, literal(p, seed))
	}
	return a
}

// Trying every answer (build/bench/split/programme, which works values out by itself) finds
// the same in every level, on everything up to 8 items and 4 helpers; and all is proven.
func TestBruteForceFindsNothingBetter(t *testing.T) {
	for seed := range many(t, 3000) {
		p := families.Small(seed, 1+int(seed%8), 1+int(seed/8%4))
		best, _ := programme.Brute(p)
		a := solved(t, p, seed)
		for level, v := range a.Values {
			if v.Got != best[level] || !v.Proven {
				t.Fatalf("level %d: got %v, bound %v, proven %v; trying everything finds %v\n%s",
					level, v.Got, v.Bound, v.Proven, best[level], literal(p, seed))
			}
		}
	}
}

// However little work is allowed, what is claimed is true.
func TestBruteForceFindsNoFalseClaimInAHurry(t *testing.T) {
	for seed := range many(t, 1500) {
		p := families.Small(seed, 4+int(seed%5), 1+int(seed/5%4))
		best, _ := programme.Brute(p)
		a := assign.Solve(p, assign.Options{Work: 1 + int(seed*seed%5000)})
		if fault := programme.NewJudge(p).Fault(a); fault != "" {
			t.Fatalf("%s\n%s", fault, literal(p, seed))
		}
		for level := range assign.LevelEnd {
			v := a.Values[level]
			// While all levels before are at their best, the bound is one of the best.
			if programme.Better(level, best[level], v.Bound) {
				t.Fatalf("level %d: the bound %v is false, trying everything finds %v\n%s",
					level, v.Bound, best[level], literal(p, seed))
			}
			if v.Got != best[level] {
				break
			}
		}
	}
}

// The solver's own evaluation says the same as the other one, of sound answers and of
// broken ones.
func TestValuesAreWhatTheFormulasSay(t *testing.T) {
	sound := 0
	for seed := range many(t, 4000) {
		p := families.Small(seed, 1+int(seed%8), 1+int(seed/8%4))
		r, judge := families.NewRandom(seed), programme.NewJudge(p)
		to := make([]int, len(p.Items))
		for j := range to {
			to[j] = r.Between(assign.Nobody, len(p.Helpers)-1)
			if r.Percent(80) && (to[j] >= 0 && !p.Items[j].Able[to[j]] || p.Items[j].Held) {
				to[j] = assign.Nobody
				if p.Items[j].Held {
					to[j] = p.Items[j].Now
				}
			}
		}
		peak := assign.Ratio{Num: int64(r.Below(3)), Den: int64(1 + r.Below(3))}
		got, broken := p.Values(to, programme.Fraction(peak.Num, peak.Den))
		wrong := judge.Breaks(to)
		if wrong == "" {
			wrong = programme.Over(p, to, peak)
		}
		require.Equal(t, wrong == "", broken == "", "%s; %s\n%s", wrong, broken, literal(p, seed))
		if wrong == "" {
			require.Equal(t, judge.Values(to), programme.Values(got), literal(p, seed))
			sound++
		}
	}
	require.Greater(t, sound, 100)
}
