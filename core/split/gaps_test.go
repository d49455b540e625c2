package split

import (
	"math/rand"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/schedule"
)

// accompanied tells whether somebody who can is with the patient in a minute at home, asked of
// every duty. Ours, as gaps says; no published source.
func accompanied(s *schedule.Schedule, r *Report, b schedule.Branch, at time.Time) bool {
	for _, f := range r.Findings {
		d := &s.Duties[f.Duty]
		if f.State == Open || f.State == Cannot || d.Needs != schedule.Nothing || d.Branch != schedule.Always && d.Branch != b {
			continue
		}
		from, to := d.There.From, d.Ends.To
		switch {
		case d.ID == "stay-with", d.ID == "night":
		case d.Family != nil && d.Family.Kind.IsRide():
			from, to = d.Leave.Add(time.Duration(d.Own)*time.Minute), d.Home.From
		default:
			continue
		}
		if !at.Before(from) && at.Before(to) {
			return true
		}
	}
	return false
}

// The gaps are the minutes of the presence in which nobody is there, no more and no less, for
// each stay, and those that must be covered are the ones in the hours of ASA and 42 CFR
// 416.52(c)(3) that core/schedule gives.
func TestGapsAgreeWithEveryMinute(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	empty, full, must := 0, 0, 0
	for range 200 {
		s := build(t, randomFamily(t, r))
		now := randomAsk(r, s).Now
		report := Look(s, now)
		for _, p := range s.Presence() {
			for at := p.Whole.From; at.Before(p.Whole.To); at = at.Add(time.Minute) {
				var in []Gap
				for _, g := range report.Gaps {
					if g.Branch == p.Branch && !at.Before(g.From) && at.Before(g.To) {
						in = append(in, g)
					}
				}
				alone := !at.Before(now) && !accompanied(s, report, p.Branch, at)
				require.Equal(t, alone, len(in) == 1, "%s in stay %d: %v", local(at), p.Branch, in)
				if !alone {
					full++
					continue
				}
				empty++
				inMust := at.Before(p.Must.To)
				require.Equal(t, inMust, in[0].Must)
				must += yes(inMust)
			}
		}
		for i, g := range report.Gaps {
			require.True(t, g.From.Before(g.To))
			if i > 0 && report.Gaps[i-1].Branch == g.Branch {
				before := report.Gaps[i-1]
				require.True(t, before.To.Before(g.From) || before.To.Equal(g.From) && before.Must && !g.Must, "gaps that are one are one")
			}
		}
	}
	require.Greater(t, empty, 10000)
	require.Greater(t, full, 10000)
	require.Greater(t, must, 10000)
}

// Both of two possible stays must work. Whoever has all parts and can has no gap; one who
// cannot stay the night leaves the nights, and of the stay with one night fewer.
func TestEitherOr(t *testing.T) {
	p := family(t, func(p *plan.Plan) {
		p.Stay = plan.Undecided
		p.Cover[plan.StayWith] = 1
		p.About = []plan.About{able(), {}}
	})
	s := build(t, p)
	require.Empty(t, Look(s, start(s)).Gaps)
	p.About[0].Can &^= plan.CanNight
	s = build(t, p)
	var got []string
	for _, g := range Look(s, start(s)).Gaps {
		got = append(got, local(g.From)+"-"+local(g.To))
	}
	require.Equal(t, []string{
		"Tue 20:00-Wed 08:00", "Wed 20:00-Thu 00:00", "Thu 00:00-Thu 08:00", "Thu 20:00-Fri 08:00",
		"Wed 20:00-Thu 08:00", "Thu 20:00-Fri 08:00", "Fri 20:00-Sat 08:00",
	}, got)
}
