package bench

import (
	"context"
	"fmt"
	"slices"

	"newel/build/bench/split/families"
	"newel/build/bench/split/stages"
	"newel/core/assign"
)

// splitGoals are what the rows of every kind of a size should be at most: milliseconds of
// the stages, and what is left unproven.
var splitGoals = map[string]float64{
	"300x8-level1": 10, "300x8-level2": 100, "120x6-level3": 100, "300x8-level3": 1000, "60x4-all": 1000,
	"20x3-level2-gap": 15, "60x4-level2-gap": 15, "120x6-level2-gap": 15, "300x8-level2-gap": 15,
	"120x6-level3-gap": 1, "300x8-level3-gap": 2,
}

// splits measures the solver of core/assign in WebAssembly on the committed families,
// beside HiGHS, which is WebAssembly too, in the same run.
func splits(ctx context.Context, root string) ([]Row, error) {
	dir, remove, err := scratch()
	if err != nil {
		return nil, err
	}
	defer remove()
	_, wasm, err := programs(ctx, root, dir, "split")
	if err != nil {
		return nil, err
	}
	contests, err := contend(ctx, root, wasm, families.All())
	if err != nil {
		return nil, err
	}
	return splitRows(contests), nil
}

// splitRows makes the rows: all stages of all kinds of families, then what is left unproven.
func splitRows(contests []contest) (rows []Row) {
	var gaps []Row
	for _, group := range grouped(contests) {
		for s := range stages.All {
			rows = append(rows, timeRow(group, s))
		}
		rows = append(rows, worstRow(group))
		gaps = append(gaps, gapRows(group)...)
	}
	return append(rows, gaps...)
}

// grouped puts the families that differ in their seed only together.
func grouped(contests []contest) (groups [][]contest) {
	for _, c := range contests {
		last := len(groups) - 1
		if last < 0 || groups[last][0].Row() != c.Row() {
			groups, last = append(groups, nil), last+1
		}
		groups[last] = append(groups[last], c)
	}
	return groups
}

// worstOf gives the contest of which a figure is the largest.
func worstOf(group []contest, figure func(c *contest) float64) *contest {
	worst := &group[0]
	for i := range group {
		if figure(&group[i]) > figure(worst) {
			worst = &group[i]
		}
	}
	return worst
}

// splitRow makes a row of a group, with its goal.
func splitRow(group []contest, what, unit string, ours float64, peer string, peerValue float64) Row {
	c := &group[0]
	row := compare("split/"+c.Row()+"-"+what, unit, ours, peer, peerValue)
	row.Goal = splitGoals[fmt.Sprintf("%dx%d-%s", c.Size.Duties, c.Size.Helpers, what)]
	return row
}

// timeRow is the time of one stage, of the seed on which ours is slowest.
func timeRow(group []contest, stage int) Row {
	worst := worstOf(group, func(c *contest) float64 { return c.ours[stage] })
	return splitRow(group, stages.All[stage].Name, "ms", worst.ours[stage], worst.against(stage), worst.highs[stage])
}

// against says what the figure of HiGHS is.
func (c *contest) against(stage int) string {
	text := fmt.Sprintf("%s in WebAssembly on seed %d, ours' slowest, to the same levels' proof", c.peer, c.Seed)
	if !c.ended[stage] {
		text += fmt.Sprintf(", not reached in %d s a solve: at least", highsLimit)
	}
	return text
}

// worstRow is the worst of all stages and seeds in comparison with HiGHS.
func worstRow(group []contest) Row {
	ratio := func(c *contest) (most float64) {
		for s := range c.ours {
			most = max(most, c.ours[s]/c.highs[s])
		}
		return most
	}
	worst := ratio(worstOf(group, ratio))
	row := splitRow(group, "worst", "times", worst, group[0].peer+", on the seed and the stage that are worst for ours", 1)
	row.Goal = 1
	return row
}

// gapRows are what ours leaves unproven, of the seed that is worst.
func gapRows(group []contest) []Row {
	peak := func(c *contest) float64 { return c.minutes(c.found.Values[assign.Peak]) }
	pairs := func(c *contest) float64 {
		v := c.found.Values[assign.Pairs]
		return float64(v.Got.Num - v.Bound.Num)
	}
	open := func(c *contest) (n float64) {
		for _, v := range c.found.Values {
			if !v.Proven {
				n++
			}
		}
		return n
	}
	a, b, c := worstOf(group, peak), worstOf(group, pairs), worstOf(group, open)
	bound := a.minutes(assign.Value{Got: a.found.Values[assign.Peak].Bound, Bound: assign.Ratio{Num: 0, Den: 1}})
	return []Row{
		splitRow(group, "level2-gap", "minutes of load", peak(a), "the proven bound, for whom offered most", bound),
		splitRow(group, "level3-gap", "pairs", pairs(b), "the proven bound", float64(b.found.Values[assign.Pairs].Bound.Num)),
		splitRow(group, "all-gap", "levels", open(c), "all levels; counted are those that are left unproven", float64(assign.LevelEnd)),
	}
}

// minutes is what lies between a ratio of load and its bound, in minutes of who offered most.
func (c *contest) minutes(v assign.Value) float64 {
	most := slices.Max(c.offers)
	at := func(r assign.Ratio) float64 { return float64(r.Num) * float64(most) / float64(r.Den) }
	return at(v.Got) - at(v.Bound)
}
