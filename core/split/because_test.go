package split

import (
	"math/rand"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/schedule"
)

// What a line says of its reasons is so: held against the plan as it would be, asked anew. The
// reasons are ours, as Because says; no published source.
func TestReasonsForASuggestionAreTrue(t *testing.T) {
	r := rand.New(rand.NewSource(13))
	var said [BestWhole + 1]int
	for range 200 {
		p := randomFamily(t, r)
		s := build(t, p)
		ask := randomAsk(r, s)
		proposal := Suggest(s, ask)
		dates := datesHeld(build(t, Apply(p, s, time.Time{}, proposal.Lines)), ask.Now, registersOf(s, proposal.Open))
		for _, l := range proposal.Lines {
			if l.To == 0 {
				continue
			}
			require.Len(t, l.Others, len(p.Helpers)-1)
			require.NotEmpty(t, l.Because)
			require.True(t, slices.IsSorted(l.Because))
			for _, why := range l.Because {
				said[why]++
				require.True(t, isTrue(s, ask.Now, &proposal, &l, why, dates), "reason %d", why)
			}
		}
	}
	for why, n := range said[OnlyOne:] {
		require.Greater(t, n, 5, "reason %d", why+1)
	}
}

// datesHeld counts the dates of each series that each helper has and can do, by the names of
// both.
func datesHeld(s *schedule.Schedule, now time.Time, open []register) map[string]int {
	dates, seen := map[string]int{}, map[register]bool{}
	for i := range s.Duties {
		d := &s.Duties[i]
		if reg := registerOf(d); !seen[reg] && !over(s, d, now) && !slices.Contains(open, reg) {
			seen[reg] = true
			dates[seriesOf(s, d)+" "+s.Plan.Helper(s.Who(d))]++
		}
	}
	return dates
}

// hasWhole tells whether a helper has every date of a series today and can do it, whatever
// else they have.
func hasWhole(s *schedule.Schedule, now time.Time, series string, who uint8) bool {
	report := Look(s, now)
	for _, f := range report.Findings {
		if d := &s.Duties[f.Duty]; seriesOf(s, d) == series {
			able := true
			for _, why := range f.Why {
				able = able && why.Why == HasOther
			}
			if f.Who != who || who == 0 || !able {
				return false
			}
		}
	}
	return true
}

// isTrue tells whether a reason of a line holds.
func isTrue(s *schedule.Schedule, now time.Time, p *Proposal, l *Line, why Because, dates map[string]int) bool {
	others, busy := 0, 0 // who could; who could if they had nothing else
	for _, o := range l.Others {
		others += yes(len(o.Why) == 0)
		busy += yes(len(o.Why) == 1 && o.Why[0].Why == HasOther)
	}
	least := func(load func(Load) int) bool {
		ratio := func(who uint8) float64 { return float64(load(p.Loads[who-1])) / float64(p.Loads[who-1].Offer) }
		for _, o := range l.Others {
			if len(o.Why) == 0 && ratio(o.Who) < ratio(l.To)-1e-12 {
				return false
			}
		}
		return others > 0
	}
	d := &s.Duties[l.Duty]
	about := s.Plan.AboutOf(l.To)
	switch why {
	case OnlyOne:
		return others == 0 && busy == 0
	case OthersBusy:
		return others == 0 && busy > 0
	case HasSeries:
		return dates[seriesOf(s, d)+" "+s.Plan.Helper(l.To)] > 1 && !hasWhole(s, now, seriesOf(s, d), l.From)
	case Would:
		return about.Told && about.Likes&taskOf(s, d) != 0
	case HasLess:
		return least(func(l Load) int { return l.After }) && least(func(l Load) int { return l.Before })
	case IsFree:
		return least(func(l Load) int { return l.Before })
	}
	return len(l.Because) == 1
}

// Whoever is named as one who could do a duty can: given to them instead, it has somebody who
// can do it; and whoever is said not to cannot.
func TestTheOthersAreJudgedRightly(t *testing.T) {
	r := rand.New(rand.NewSource(14))
	could, couldNot := 0, 0
	for range 60 {
		p := randomFamily(t, r)
		s := build(t, p)
		ask := randomAsk(r, s)
		proposal := Suggest(s, ask)
		for _, l := range proposal.Lines {
			if l.To == 0 {
				continue
			}
			for _, o := range l.Others {
				lines := slices.Clone(proposal.Lines)
				for i := range lines {
					if registerOf(&s.Duties[lines[i].Duty]) == registerOf(&s.Duties[l.Duty]) {
						lines[i].To = o.Who
					}
				}
				then := build(t, Apply(p, s, time.Time{}, lines))
				good, bad := true, false
				for _, f := range Look(then, ask.Now).Findings {
					if registerOf(&then.Duties[f.Duty]) == registerOf(&s.Duties[l.Duty]) {
						good = good && f.State <= Untold
						bad = bad || f.State == Cannot
					}
				}
				require.Equal(t, len(o.Why) == 0, good, told(s, o.Why))
				could += yes(good)
				couldNot += yes(bad)
			}
		}
	}
	require.Greater(t, could, 300)
	require.Greater(t, couldNot, 300)
}
