package split

import (
	"math/rand"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// What the schedule says of whoever has a duty is what this package says of them: else a
// proposal would be right for a helper and wrong as soon as they have it.
func TestOwnTimesAreTheSchedules(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	known, gaps := 0, 0
	for range 300 {
		s := build(t, randomFamily(t, r))
		for i := range s.Duties {
			d := &s.Duties[i]
			who := s.Who(d)
			if who == 0 {
				continue
			}
			about := s.Plan.AboutOf(who)
			p := personOf(&about, who)
			require.Equal(t, d.Own, map[bool]int{false: p.ownWay(d), true: 0}[d.ID == "wait"], d.ID)
			spans, n := spansOf(s, d, p.ownWay(d))
			home := d.FromHome()
			if home.From.IsZero() || home.To.IsZero() || d.Needs != schedule.Nothing {
				require.True(t, d.Open || n == 0 || d.Leave.IsZero(), d.ID)
				continue
			}
			known++
			require.Equal(t, home.From.Unix()/60, int64(spans[0].from), d.ID)
			require.Equal(t, home.To.Unix()/60, int64(spans[n-1].to), d.ID)
			require.Equal(t, d.Gap.Known(), n == 2, d.ID)
			if n == 2 {
				gaps++
				require.Equal(t, d.Gap, schedule.Span{From: timeAt(spans[0].to, s.Loc), To: timeAt(spans[1].from, s.Loc)})
			}
		}
	}
	require.Greater(t, known, 1000)
	require.Greater(t, gaps, 20)
}

// busyAt is what a helper's times say of a minute on the wall, asked of each of their dates: an
// oracle without stretches, joins and searches. It knows no change of the clocks.
func busyAt(a *plan.About, use plan.TimesUse, minute int) bool {
	for _, t := range a.Times {
		dates, _ := t.Rule.All()
		for _, date := range dates {
			from := int(date.Day)*24*60 + int(date.At)
			if t.Use == use && from <= minute && minute < from+t.Length {
				return true
			}
		}
	}
	return false
}

// Whether somebody can at the time of a duty, minute by minute, in a zone whose clocks never
// change (America/Phoenix, IANA tzdata).
func TestTimesAgreeWithEveryMinute(t *testing.T) {
	r := rand.New(rand.NewSource(4))
	onWall := func(at time.Time) int { return int(wall.DateOf(at))*24*60 + at.Hour()*60 + at.Minute() }
	var counts [NotThen + 1]int
	for range 150 {
		p := randomFamily(t, r)
		p.Zone = "America/Phoenix"
		s := build(t, p)
		for _, f := range Look(s, start(s)).Findings {
			d := &s.Duties[f.Duty]
			about := p.AboutOf(f.Who)
			home := d.FromHome()
			if d.ID == "wait" && p.Drive != plan.Unknown && p.Parking != plan.Unknown { // and the way, as far as it is known
				way := time.Duration(p.Drive+p.Parking+(p.Drive*p.Program.Get(plan.DriveSlack)+99)/100) * time.Minute
				home = schedule.Span{From: home.From.Add(-way), To: home.To.Add(way)}
			}
			if !about.Told || about.Out || home.From.IsZero() || home.To.IsZero() || d.Needs != schedule.Nothing || d.Gap.Known() {
				continue
			}
			var want [NotThen + 1]bool
			limited := false
			for _, times := range about.Times {
				limited = limited || times.Use == plan.Free
			}
			for minute := onWall(home.From); minute < onWall(home.To); minute++ {
				want[AtWork] = want[AtWork] || busyAt(&about, plan.Work, minute)
				want[IsAway] = want[IsAway] || busyAt(&about, plan.Gone, minute)
				want[NotThen] = want[NotThen] || limited && !busyAt(&about, plan.Free, minute)
			}
			for why := AtWork; why <= NotThen; why++ {
				require.Equal(t, want[why], reasoned(f.Why, why), "%s on %s: %s", d.ID, d.Day, told(s, f.Why))
				counts[why] += yes(want[why])
			}
		}
	}
	for why := AtWork; why <= NotThen; why++ {
		require.Greater(t, counts[why], 15, "reason %d", why)
	}
}
