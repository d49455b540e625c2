package calendar

import (
	"math/rand"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/wall"
)

// changing are zones whose clocks change in all the ways that there are: by an hour or
// half an hour, at midnight, in the south, round Ramadan; and some that never do.
var changing = []string{
	"America/New_York", "Europe/London", "Australia/Lord_Howe", "Africa/Casablanca", "Australia/Adelaide",
	"America/Santiago", "America/Havana", "Asia/Kathmandu", "America/Phoenix", "America/St_Johns", "Pacific/Chatham",
	"Asia/Beirut", "Africa/Cairo", "America/Nuuk", "Europe/Dublin", "Asia/Gaza", "Antarctica/Troll",
}

// anyDuty makes a duty near a change of the clocks, at a time that a change may touch.
func anyDuty(r *rand.Rand, loc *time.Location, id uint32) plan.Duty {
	first := wall.Date(20820 + r.Intn(500)) // from January 2027
	if _, end := time.Unix(int64(first)*86400, 0).In(loc).ZoneBounds(); !end.IsZero() && r.Intn(4) > 0 {
		first = wall.DateOf(end) - wall.Date(r.Intn(8))
	}
	q := repeat.Rule{First: first, At: wall.Clock(r.Intn(24 * 60)), Freq: repeat.Freq(r.Intn(4)), Every: 1 + r.Intn(3)}
	if r.Intn(2) == 0 {
		q.At = wall.Clock(r.Intn(20) * 15) // the small hours, in which clocks change
	}
	switch q.Freq {
	case repeat.Weekly:
		q.Days, q.Week = repeat.Days(1+r.Intn(127)), time.Weekday(r.Intn(7))
	case repeat.Monthly:
		if r.Intn(2) == 0 {
			q.MonthDays = []int8{int8(1 + r.Intn(31)), int8(-1 - r.Intn(3))}
		} else {
			q.Nth = []repeat.Nth{{N: int8(r.Intn(6) - 1), Day: time.Weekday(r.Intn(7))}}
		}
	}
	switch r.Intn(4) {
	case 0: // no end
	case 1:
		q.Last = first + wall.Date(r.Intn(400))
	default:
		q.Count = 1 + r.Intn(40)
	}
	if q.Freq == repeat.Once {
		q.Count, q.Last = 0, 0
	}
	q = q.Canonical()
	days, _ := q.Pattern()
	for range min(r.Intn(4), len(days)) {
		d := days[r.Intn(len(days))]
		to := repeat.Moment{Day: d + wall.Date(r.Intn(5)-2), At: wall.Clock(r.Intn(24 * 60))}
		switch r.Intn(3) {
		case 0:
			q.Skipped = append(q.Skipped, d)
		case 1:
			q.Moved = append(q.Moved, repeat.Move{From: d, To: to})
		case 2:
			q.Extra = append(q.Extra, to)
		}
	}
	d := plan.Duty{ID: id, Kind: plan.DutyKind(r.Intn(int(plan.DutyKindEnd))), Rule: q.Canonical(), Length: r.Intn(200)}
	d.Ride = plan.Ride{Own: r.Intn(3) * 20}
	if d.Kind.IsRide() {
		d.Ride = plan.Ride{Own: r.Intn(3) * 20, Drive: r.Intn(150) - 1, Parking: r.Intn(20), Early: r.Intn(4) * 10, Leaves: r.Intn(2) == 0}
	}
	d.Revision = uint16(r.Intn(5))
	return d
}

// anyPlan has some duties by chance.
func anyPlan(t testing.TB, r *rand.Rand) plan.Plan {
	p := family(t)
	p.Zone = changing[r.Intn(len(changing))]
	p.Duties = nil
	for id := range 1 + r.Intn(4) {
		if d := anyDuty(r, load(t, p.Zone), uint32(id+1)); d.Rule.Check() == nil {
			p.Duties = append(p.Duties, d)
		}
	}
	if r.Intn(2) == 0 {
		p = sharedOut(r, p)
	}
	return p
}

// What is written is what the schedule says, for readers that follow RFC 5545 3.3.5
// and for those that follow 3.3.10, date by date and to the minute.
func TestEveryReaderSeesTheBusyTimesOfTheSchedule(t *testing.T) {
	r := rand.New(rand.NewSource(5545))
	kinds := map[string]int{}
	for n := range repeats(500) {
		p := anyPlan(t, r)
		s := build(t, p)
		file, _ := write(t, p, Choice{All: true, Alarm: -1}, "")
		want := map[timed]int{}
		for i := range s.Duties {
			if d := &s.Duties[i]; d.Family != nil {
				spans := d.Busy()
				if spans == nil {
					spans = []schedule.Span{d.Session}
				}
				for _, b := range spans {
					want[timed{utcText(b.From), utcText(b.To)}]++
				}
			}
		}
		own := map[timed]int{}
		for _, x := range expandBuiltIn(t, p) {
			own[x]++
		}
		for _, how := range []reading{placed, dropped} {
			got := map[timed]int{}
			for _, x := range expand(t, file, how) {
				got[x]++
			}
			for x, n := range own {
				if got[x] -= n; got[x] == 0 {
					delete(got, x)
				}
			}
			// Two dates of one series at one instant are one in a set of dates.
			require.Equal(t, sortedKeys(want), sortedKeys(got), "plan %d in %s, reading %d\n%+v\n%s", n, p.Zone, how, p.Duties, file)
		}
		for _, c := range parse(t, file).Children {
			for _, name := range []string{"RRULE", "EXDATE", "RDATE", "RECURRENCE-ID"} {
				kinds[name] += len(c.Props[name])
			}
			if x := c.Props.Get("DTSTART"); c.Name == "VEVENT" && x.Value[len(x.Value)-1] == 'Z' {
				kinds["UTC"]++
			}
		}
	}
	for _, name := range []string{"RRULE", "EXDATE", "RDATE", "RECURRENCE-ID", "UTC"} {
		require.Greater(t, kinds[name], 10, name) // the test met them
	}
}

// expandBuiltIn gives the plan's own duties, which are not what is asked here.
func expandBuiltIn(t testing.TB, p plan.Plan) []timed {
	p.Duties = slices.DeleteFunc(slices.Clone(p.Duties), func(d plan.Duty) bool { return d.Kind != plan.Nights })
	if len(p.Duties) > 0 { // nights take the place of staying with the patient
		return expandStays(t, p)
	}
	file, _ := write(t, p, Choice{All: true, Alarm: -1}, "")
	return expand(t, file, placed)
}

func sortedKeys(m map[timed]int) []timed {
	var list []timed
	for x := range m {
		list = append(list, x)
	}
	slices.SortFunc(list, func(a, b timed) int {
		if a.start != b.start {
			return map[bool]int{true: -1, false: 1}[a.start < b.start]
		}
		return map[bool]int{true: -1, false: 1}[a.end < b.end]
	})
	return list
}

// Unchanged files come back as the duties that they were written from.
func TestWhatIsWrittenIsReadAgain(t *testing.T) {
	r := rand.New(rand.NewSource(4791))
	for range repeats(400) {
		p := anyPlan(t, r)
		file, _ := write(t, p, everything(), "")
		found, err := Read(file, &p, load(t, p.Zone))
		require.NoError(t, err)
		require.Empty(t, found.Left)
		require.Len(t, found.Duties, len(p.Duties))
		for i, d := range found.Duties {
			require.True(t, d.Equal(p.Duties[i]), "%+v\n%+v", d, p.Duties[i])
		}
		require.NotZero(t, found.Own)
	}
}

// The same without our own properties, and into a plan in which the duties were lost:
// the times then come from the event alone. A ride is then somebody's visit, and its
// time is the busy time.
func TestTheEventsAloneSayTheSameTimes(t *testing.T) {
	r, whole := rand.New(rand.NewSource(2445)), 0
	for range 400 {
		p := anyPlan(t, r)
		if len(p.Duties) == 0 {
			continue
		}
		file, _ := write(t, p, Choice{Duty: dutyKey(p.Duties[0].ID), Alarm: -1}, "")
		bare := withoutOurs(file)
		empty := family(t)
		empty.Number, empty.Zone, empty.Duties = 5, p.Zone, nil
		found, err := Read(bare, &empty, load(t, p.Zone))
		require.NoError(t, err)
		again := empty
		for _, d := range found.Duties {
			require.Zero(t, d.ID)
			d.ID, d.Ride, d.Kind = again.FreshDuty(0), plan.Ride{}, plan.OtherDuty
			again = again.WithDuty(d)
		}
		for _, l := range found.Left {
			require.Contains(t, []string{LeftNoLength, LeftLong, repeat.TooLong, repeat.ListFault, LeftSecond, LeftSecondDate, LeftWords, LeftNote, LeftLength}, l.Why, "%+v\n%s", l, bare)
		}
		if slices.ContainsFunc(found.Left, func(l Left) bool { return l.Why != LeftNote && l.Why != LeftWords }) {
			continue
		}
		whole++
		file2, _ := write(t, again, Choice{All: true, Alarm: -1}, "")
		got := map[timed]int{}
		for _, x := range expand(t, file2, placed) {
			got[x]++
		}
		for _, x := range expandBuiltIn(t, empty) {
			delete(got, x)
		}
		want := map[timed]int{}
		for _, x := range expand(t, bare, placed) {
			want[x]++
		}
		require.Equal(t, sortedKeys(want), sortedKeys(got), "%s\n----\n%s", bare, file2)
	}
	require.Greater(t, whole, 150)
}
