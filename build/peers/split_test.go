package peers

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	invented "newel/build/bench/split/families"
	"newel/build/bench/split/programme"
	"newel/core/app"
	"newel/core/assign"
	"newel/core/schedule"
	"newel/core/split"
	"newel/core/wall"
)

// many is how many times more problems are tried than in an ordinary run:
//
//	NEWEL_SPLITS=20 go test ./build/peers -run Split -timeout 0
func many(t *testing.T) int {
	text := os.Getenv("NEWEL_SPLITS")
	if text == "" {
		return 1
	}
	n, err := strconv.Atoi(text)
	require.NoError(t, err, "NEWEL_SPLITS is a number")
	return n
}

// tally counts levels of problems.
type tally struct {
	HiGHS, Ours, Both int // proven by each
	Levels            int
	Apart             int // HiGHS proved a value that ours neither reached nor claimed to be best
}

func (c *tally) String() string {
	return fmt.Sprintf("%d levels: HiGHS proved %d, ours %d, both %d; in %d ours was not at the optimum and said so",
		c.Levels, c.HiGHS, c.Ours, c.Both, c.Apart)
}

// against has HiGHS solve what assign.Solve solved, level by level. A level before is fixed
// at what ours got, since that is what our bounds are promised for; while ours is at the
// optimum, this is the programme as it stands. work is what ours is allowed, 0 for as much
// as usual. It returns what is wrong, or "".
func against(peer programme.Asker, p *assign.Problem, work int, seconds float64, count *tally) string {
	a := assign.Solve(p, assign.Options{Work: work})
	model, judge := programme.NewModel(p), programme.NewJudge(p)
	if fault := judge.Fault(a); fault != "" {
		return fault
	}
	for level := range assign.LevelEnd {
		found, err := model.Ask(peer, judge, level, seconds)
		if err != nil {
			return err.Error()
		}
		ours := a.Values[level]
		if wrong := differ(level, ours, found); wrong != "" {
			return wrong
		}
		count.take(ours, found)
		model.Fix(level, ours.Got)
	}
	return ""
}

func (c *tally) take(ours assign.Value, found programme.Found) {
	c.Levels++
	if found.Proven {
		c.HiGHS++
	}
	if ours.Proven {
		c.Ours++
	}
	if found.Proven && ours.Proven {
		c.Both++
	}
	if found.Proven && ours.Got != found.Value {
		c.Apart++
	}
}

// differ says how the two contradict each other in a level.
func differ(level assign.Level, ours assign.Value, found programme.Found) string {
	said := fmt.Sprintf("level %d: ours got %v with the bound %v, HiGHS %v (proven: %v)", level, ours.Got, ours.Bound, found.Value, found.Proven)
	switch {
	case found.To != nil && programme.Better(level, found.Value, ours.Bound):
		return "our bound is false; " + said
	case found.Proven && programme.Better(level, ours.Got, found.Value):
		return "HiGHS's proof is false; " + said
	}
	return ""
}

func TestSplitOfRandomProblems(t *testing.T) {
	peer, count, hurried := start(t, HiGHS), &tally{}, &tally{}
	for seed := range uint64(90 * many(t)) {
		p := invented.Small(1<<20+seed, 6+int(seed%11), 2+int(seed/11%4))
		// Every third in a hurry, since it is then that something could be claimed too early.
		work, tally := 0, count
		if seed%3 == 2 {
			work, tally = 1+int(seed*seed%4000), hurried
		}
		if wrong := against(peer, p, work, 60, tally); wrong != "" {
			t.Fatalf("seed %d: %s\n%s", seed, wrong, programme.Literal(p))
		}
	}
	t.Log(count, "in a hurry:", hurried)
	require.Greater(t, count.Both, count.Levels*19/20, "too little is compared: %v", count)
	require.Less(t, hurried.Ours, hurried.HiGHS, "the hurry was none: %v", hurried)
}

// Level 1 of problems in which far more overlaps than in a family's: HiGHS proves what can be
// covered, and ours claims nothing else.
func TestSplitCoverOfCrowdedProblems(t *testing.T) {
	peer, proven := start(t, HiGHS), 0
	for seed := range uint64(20 * many(t)) {
		p := invented.Small(1<<21+seed, 30+int(seed*7%40), 4+int(seed%8))
		a := assign.Solve(p, assign.Options{Until: assign.CoverNice, Work: int(seed % 3 * 40000)})
		model, judge := programme.NewModel(p), programme.NewJudge(p)
		require.Empty(t, judge.Breaks(a.To), "seed %d", seed)
		for level := assign.CoverMust; level <= assign.CoverNice; level++ {
			ours := a.Values[level]
			require.Equal(t, judge.Values(a.To)[level], ours.Got, "seed %d", seed)
			found, err := model.Ask(peer, judge, level, 5)
			require.NoError(t, err, "seed %d", seed)
			require.Empty(t, differ(level, ours, found), "seed %d", seed)
			model.Fix(level, ours.Got)
			if found.Proven && ours.Proven {
				proven++
			}
		}
	}
	t.Log(proven, "levels proven by both")
	require.Greater(t, proven, 20, "too little is compared")
}

// HiGHS gets a few seconds a level here; where it needs longer, what it has found is still
// held against our bound.
func TestSplitOfFamilies(t *testing.T) {
	peer, count := start(t, HiGHS), &tally{}
	for _, f := range invented.All() {
		if f.Size.Duties > 60 || f.Kind == invented.Everybody {
			continue
		}
		text, err := os.ReadFile(filepath.Join(root, "testdata", "split", f.File()))
		require.NoError(t, err)
		p, err := invented.Read(string(text))
		require.NoError(t, err)
		require.Empty(t, against(peer, p, 0, 3, count), f.File())
	}
	t.Log(count)
	require.Greater(t, count.Both, count.Levels*9/10, "too little is compared: %v", count)
}

// The example family, opened on each day of a week, with what is open to be filled and, once,
// with everything to be shared out anew: the programme that the page solves.
func TestSplitOfTheExample(t *testing.T) {
	peer, filled, anew := start(t, HiGHS), &tally{}, &tally{}
	base, err := wall.ParseDate("2026-11-25")
	require.NoError(t, err)
	for day := range wall.Date(7) {
		s, err := schedule.Build(app.DemoPlan(base+day, 5))
		require.NoError(t, err)
		now, _ := (base + day).At(s.Loc, 9*60)
		require.Empty(t, against(peer, split.Programme(s, split.Ask{Now: now}), 0, 3, filled), "day %d", day)
		if day == 0 {
			require.Empty(t, against(peer, split.Programme(s, split.Ask{Now: now, Scope: split.Anew}), 0, 3, anew))
		}
	}
	t.Log(filled, "anew:", anew)
	require.Equal(t, filled.Levels, filled.Ours, "the example has to be proven: %v", filled)
	require.Greater(t, filled.Both, filled.Levels*9/10, "too little is compared: %v", filled)
}
