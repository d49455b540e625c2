package split

import (
	"math/rand"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/schedule"
)

// What somebody is at in one minute, said anew and minute by minute, without the uses and the
// sweep of the package. Ours, as the table of the package comment says; no published source.
type doing int

const (
	nothing    doing = iota
	staying          // a part of being with the patient at home
	sleeping         // a night of the family
	busyAtHome       // something in the patient's home
	riding           // somewhere with the patient, and back
	elsewhere        // something that is not at the patient's home, and the way there
	atHospital       // one of the four duties of the hospital, and its ways
)

// together tells whether one helper can be at two things in one minute.
func together(a, b doing) bool {
	if a > b {
		a, b = b, a
	}
	switch {
	case a == nothing:
		return true
	case a == staying && b == staying: // of one stay; two of different stays are not compared
		return false
	case a == staying, a == sleeping:
		return b != elsewhere && !(a == sleeping && b == sleeping)
	case a == atHospital: // and so is b: who drives, waits, and drives home is one
		return true
	}
	return false
}

// doingAt is what a duty has its helper do in the minute that begins at a time.
func doingAt(s *schedule.Schedule, d *schedule.Duty, at time.Time) doing {
	min := func(n int) time.Duration { return time.Duration(n) * time.Minute }
	in := func(from, to time.Time) bool { return !at.Before(from) && at.Before(to) }
	way := time.Duration(0)
	if s.Plan.Drive != plan.Unknown && s.Plan.Parking != plan.Unknown {
		way = min(s.Plan.Drive + s.Plan.Parking + (s.Plan.Drive*s.Plan.Program.Get(plan.DriveSlack)+99)/100)
	}
	switch {
	case !d.There.Known():
		return nothing
	case d.ID == "drive-home" && in(begins(d), lateHome(s)):
		return atHospital
	case d.ID == "drive-there" && d.Needs != schedule.Nothing && in(d.There.From, d.There.From.Add(time.Minute)):
		return atHospital
	case d.ID == "drive-home-morning" && d.Needs != schedule.Nothing && in(d.There.From, d.Ends.To):
		return atHospital
	case d.Needs == schedule.NeedsRide && d.Family.Ride.Leaves && d.Session.To.Sub(d.There.From) >= 17*time.Minute:
		if in(d.There.From, d.There.From.Add(time.Minute)) || in(d.Session.To.Add(-time.Minute), d.Session.To) {
			return riding
		}
		return nothing
	case d.Needs == schedule.NeedsRide && in(d.There.From, d.Session.To):
		return riding
	case d.Needs != schedule.Nothing:
		return nothing
	case d.ID == "stay-with" && in(d.There.From, d.Ends.To):
		return staying
	case d.ID == "drive-there" && in(d.Leave, d.There.From.Add(way)):
		return atHospital
	case d.ID == "wait" && in(d.There.From.Add(-way), d.Ends.To.Add(way)):
		return atHospital
	case d.Homeward && in(d.Leave, d.Home.To):
		return atHospital
	case d.Family == nil:
		return nothing
	case d.Family.Kind == plan.Nights && in(d.There.From, d.Ends.To):
		return sleeping
	case d.Family.Kind == plan.Nights:
		return nothing
	case d.Family.Kind.IsRide():
		own := min(d.Own)
		if in(d.Leave.Add(own), d.Free.Add(-own)) && !atHomeBetween(d, at, own) {
			return riding
		}
	case d.Family.Place != "":
		if in(d.There.From.Add(-min(d.Family.Ride.Own)), d.Ends.To.Add(min(d.Family.Ride.Own))) {
			return elsewhere
		}
	case in(d.There.From, d.Ends.To):
		return busyAtHome
	}
	return nothing
}

// begins is when a drive begins: while the way is not known, where it leads.
func begins(d *schedule.Duty) time.Time {
	if d.Leave.IsZero() {
		return d.There.From
	}
	return d.Leave
}

// lateHome is when the patient is home at the latest, of what is known: the sum of the plan's
// rules (common practice, no published source), recovery at its longest, and the way.
func lateHome(s *schedule.Schedule) time.Time {
	get := s.Plan.Program.Get
	_, surgery := plan.SurgeryRange(s.Plan.Operation)
	sum := get(plan.PrepMinutes) + get(surgery) + get(plan.RecoveryMax)
	if s.Plan.Drive != plan.Unknown {
		sum += s.Plan.Drive + (s.Plan.Drive*get(plan.DriveSlack)+99)/100 + get(plan.CarMinutes)
	}
	return s.Arrival.Add(time.Duration(sum) * time.Minute)
}

// atHomeBetween tells whether a ride's helper is at the patient's home: a quarter of an hour
// at least, as core/schedule says.
func atHomeBetween(d *schedule.Duty, at time.Time, own time.Duration) bool {
	way := time.Duration(d.Trip.Parking+d.Trip.Drive+d.Trip.Slack) * time.Minute
	home, again := d.There.From.Add(way), d.Session.To.Add(-way)
	return d.Family.Ride.Leaves && again.Sub(home) >= 15*time.Minute && !at.Before(home) && at.Before(again)
}

// clashing tells whether one helper cannot have both, by asking every minute.
func clashing(s *schedule.Schedule, a, b *schedule.Duty) bool {
	if a.Branch != schedule.Always && b.Branch != schedule.Always && a.Branch != b.Branch {
		return false
	}
	begin, _ := (max(a.Day, b.Day) - 1).At(s.Loc, 0)
	for minute := range 4 * 24 * 60 {
		at := begin.Add(time.Duration(minute) * time.Minute)
		if !together(doingAt(s, a, at), doingAt(s, b, at)) {
			return true
		}
	}
	return false
}

// A duty has the reason "other" if and only if its helper has something else that it clashes
// with, and every duty that is named clashes.
func TestClashesAgreeWithEveryMinute(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	found, pairs := 0, 0
	for range 220 {
		s := build(t, randomFamily(t, r))
		report := Look(s, start(s))
		require.Len(t, report.Findings, len(s.Duties))
		for i := range report.Findings {
			f := &report.Findings[i]
			want := false
			for j := range report.Findings {
				other := &report.Findings[j]
				if i == j || f.Who == 0 || f.Who != other.Who || s.Duties[i].Day-s.Duties[j].Day > 2 || s.Duties[j].Day-s.Duties[i].Day > 2 {
					continue
				}
				pairs++
				want = want || clashing(s, &s.Duties[i], &s.Duties[j])
			}
			got := false
			for _, why := range f.Why {
				if why.Why == HasOther {
					got = true
					require.True(t, clashing(s, &s.Duties[i], &s.Duties[why.Other]))
				}
			}
			out := s.Plan.AboutOf(f.Who).Out
			require.Equal(t, want && !out, got, "duty %d: %s on %s", i, s.Duties[i].ID, s.Duties[i].Day)
			found += yes(got)
		}
	}
	t.Logf("%d duties with clashes, %d pairs", found, pairs)
	require.Greater(t, found, 150)
}
