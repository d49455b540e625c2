package split

import (
	"runtime"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/assign"
	"newel/core/plan"
	"newel/core/wall"
)

// burden is as much as a link can hold: sixty helpers, three thousand dates of duties that
// last for hours and begin every hour, and the parts of two weeks at home. The helpers have
// twelve times each, as many dates of them as plan.Check lets through, if they have any.
func burden(t testing.TB, length int, who func(i int) uint8, times func(p *plan.Plan, i, k int) plan.Times) plan.Plan {
	return family(t, func(p *plan.Plan) {
		p.Stay, p.Helpers, p.About = plan.Undecided, nil, nil
		p.Program.Set(plan.PresenceHours, 14*24)
		for i := range plan.MostHelpers {
			about := able()
			for k := range plan.MaxTimes {
				if times != nil {
					about.Times = append(about.Times, times(p, i, k))
				}
			}
			p.Helpers, p.About = append(p.Helpers, "helper "+strconv.Itoa(i)), append(p.About, about)
		}
		const duties = 20
		for i := range duties {
			d := atHome(uint32(i+1), plan.PetCare, length, daily(p.Surgery, wall.Clock(60*i), plan.MaxDates/duties))
			d.Who = who(i)
			p.Duties = append(p.Duties, d)
		}
	})
}

// timesCount is how many dates each of the times can have.
const timesCount = plan.MaxTimesDates / (plan.MostHelpers * plan.MaxTimes)

// shifts are hours of work on one weekday, others for each helper.
func shifts(p *plan.Plan, i, k int) plan.Times {
	return plan.Times{Use: plan.Work, Length: 60 * (9 + i%5), Rule: weekly(p.Surgery, wall.Clock(60*((i+k*2)%24)), timesCount, time.Weekday(k%7), p.Surgery.Weekday())}
}

// never are times that come to nothing: free for a moment after everything is over.
func never(p *plan.Plan, i, k int) plan.Times {
	return plan.Times{Use: plan.TimesUse(k % 3), Length: 1 + i + 60*k, Rule: daily(p.Surgery+400, 60*7, timesCount)}
}

// A link that was made to be a burden costs a phone no more than a moment: bounds on what is
// allocated, which is the same on every machine, and a wide one on time. Ours.
func TestABurdenIsBorne(t *testing.T) {
	nobody, one, each := func(int) uint8 { return 0 }, func(int) uint8 { return 1 }, func(i int) uint8 { return uint8(i + 1) }
	for _, c := range []struct {
		name   string
		length int
		who    func(int) uint8
		times  func(*plan.Plan, int, int) plan.Times
	}{
		{"nobody can", 23 * 60, each, never},
		{"everybody can everything", 23 * 60, nobody, nil},
		{"one has everything", 23 * 60, one, nil},
		{"shifts, nobody has anything", 10 * 60, nobody, shifts},
		{"shifts, each has a duty", 20, each, shifts},
		{"shifts, one has everything", 20, one, shifts},
	} {
		name := c.name
		s := build(t, burden(t, c.length, c.who, c.times))
		require.Greater(t, len(s.Duties), plan.MaxDates)
		var report *Report
		took, memory := spending(func() { report = Look(s, start(s)) })
		t.Logf("%s: Look %s, %d MB", name, took, memory>>20)
		require.Less(t, memory, uint64(20<<20), name)
		require.Less(t, took, 2*time.Second, name)
		require.Len(t, report.Findings, len(s.Duties))
		var proposal Proposal
		took, memory = spending(func() { proposal = Suggest(s, Ask{Scope: Anew, Now: start(s)}) })
		t.Logf("%s: Suggest %s, %d MB, %d lines, %d changes", name, took, memory>>20, len(proposal.Lines), len(proposal.Changes))
		require.Less(t, took, 20*time.Second, name)
		require.Less(t, memory, uint64(200<<20), name)
		require.Equal(t, len(s.Duties)-assign.MaxItems, proposal.Beyond, name)
		took, memory = spending(func() { Apply(s.Plan, s, time.Time{}, proposal.Lines) })
		t.Logf("%s: Apply %s, %d MB", name, took, memory>>20)
		require.Less(t, memory, uint64(20<<20), name)
	}
}

func spending(f func()) (time.Duration, uint64) {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	began := time.Now()
	f()
	took := time.Since(began)
	runtime.ReadMemStats(&after)
	return took, after.TotalAlloc - before.TotalAlloc
}
