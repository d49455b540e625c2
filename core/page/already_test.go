package page_test

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
	"newel/core/merge"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/wall"
)

// The times are arithmetic, worked out by hand: Luis lives 15 minutes away. Surgery is on 9
// March, Rosa is home the morning after, and parts of a day are 8 to 14, 14 to 20 and 20 to 8.
// When the own way may fall away is ours; no published source.

// luisHelps is a plan in which Luis has a duty on 11 March, and whatever is given to him besides.
func luisHelps(t *testing.T, d plan.Duty, more func(*plan.Plan)) *page.Row {
	t.Helper()
	v := luisView(t, d, more, "2027-03-10T12:00:00-06:00")
	for i := range v.Days {
		for j := range v.Days[i].Rows {
			if r := &v.Days[i].Rows[j]; r.ID == "duty-f1-2027-03-11" {
				return r
			}
		}
	}
	require.Fail(t, "the duty is not in the days")
	return nil
}

func luisView(t *testing.T, d plan.Duty, more func(*plan.Plan), now string) page.View {
	t.Helper()
	p := harmless.plan(t)
	p.Stay, p.Helpers = plan.OneNight, []string{"Luis", "Mina"}
	p = p.WithAbout(1, plan.About{Told: true, Can: plan.AllAbilities, Away: 15})
	d.ID, d.Who = 1, 1
	p.Duties = []plan.Duty{d}
	if more != nil {
		more(&p)
	}
	s, err := schedule.Build(p)
	require.NoError(t, err)
	in := page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open("en")}, Fragment: fragment(p)}
	in.Now, err = time.Parse(time.RFC3339, now)
	require.NoError(t, err)
	if p.Patient == "asked" {
		in.Unsettled = []merge.Question{{Key: merge.Key{Field: merge.Shift, Sub: uint32(plan.SlotOf(1, plan.Night))}, Versions: make([]merge.Version, 2)}}
	}
	return page.NewView(in)
}

func onThatDay(clock wall.Clock) repeat.Rule {
	day, _ := wall.ParseDate("2027-03-11")
	return repeat.Rule{First: day, At: clock, Every: 1}.Canonical()
}

var nowhere = plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown}

func catAt(clock wall.Clock) plan.Duty {
	return plan.Duty{Kind: plan.PetCare, Rule: onThatDay(clock), Length: 20, Ride: nowhere}
}

func therapyAt(clock wall.Clock, length int) plan.Duty {
	return plan.Duty{Kind: plan.TherapyRide, Rule: onThatDay(clock), Length: length, Ride: plan.Ride{Drive: 20, Parking: 10, Early: 10}}
}

func slot(day int, part plan.Slot, who uint8) func(*plan.Plan) {
	return func(p *plan.Plan) { *p = p.WithShift(plan.SlotOf(day, part), who) }
}

func also(d plan.Duty) func(*plan.Plan) {
	return func(p *plan.Plan) {
		d.ID, d.Who = 2, 1
		p.Duties = append(p.Duties, d)
	}
}

func both(a, b func(*plan.Plan)) func(*plan.Plan) {
	return func(p *plan.Plan) { a(p); b(p) }
}

func TestNobodyLeavesHomeWhoIsThereAlready(t *testing.T) {
	night := slot(1, plan.Night, 1)
	atWork := func(p *plan.Plan) {
		about := p.AboutOf(1)
		about.Times = []plan.Times{{Use: plan.Work, Length: 300, Rule: repeat.Rule{First: p.Surgery + 1, At: 21 * 60, Every: 1}}}
		*p = p.WithAbout(1, about)
	}
	elsewhere := catAt(8 * 60)
	elsewhere.Place = "the neighbour's"
	leaves := therapyAt(10*60, 180)
	leaves.Ride.Leaves = true
	for name, c := range map[string]struct {
		duty plan.Duty
		more func(*plan.Plan)
		want string
	}{
		"he comes from his home":             {catAt(7*60 + 30), nil, "Leave home by 07:15"},
		"he has the night":                   {catAt(7*60 + 30), night, "at 07:30"},
		"somebody else has the night":        {catAt(7*60 + 30), slot(1, plan.Night, 2), "Leave home by 07:15"},
		"the night ends when he would leave": {catAt(8*60 + 15), night, "at 08:15"},
		"it ends a minute before":            {catAt(8*60 + 16), night, "Leave home by 08:01"},
		"he is at work in that night":        {catAt(7*60 + 30), both(night, atWork), "Leave home by 07:15"},
		"it is not settled who has it":       {catAt(7*60 + 30), both(night, func(p *plan.Plan) { p.Patient = "asked" }), "Leave home by 07:15"},
		"the morning begins after":           {catAt(8 * 60), slot(2, plan.Morning, 1), "Leave home by 07:45"},
		"he is there for the day":            {catAt(13 * 60), slot(2, plan.Morning, 1), "at 13:00"},
		"the cat is somewhere else":          {elsewhere, night, "Leave home by 07:45"},
		"he brings Rosa back from therapy":   {catAt(12 * 60), also(therapyAt(10*60+30, 45)), "at 12:00"},
		"he was back long before":            {catAt(13 * 60), also(therapyAt(10*60+30, 45)), "Leave home by 12:45"},
		"he is at his home in between":       {catAt(12 * 60), both(slot(2, plan.Morning, 1), also(leaves)), "Leave home by 11:45"},
		"a ride from his home":               {therapyAt(10*60+30, 45), nil, "Leave home by 09:20"},
		"a ride while he is there":           {therapyAt(10*60+30, 45), slot(2, plan.Morning, 1), "Leave with Rosa by 09:35"},
		"nobody knows how far the ride is":   {catAt(12 * 60), also(plan.Duty{Kind: plan.TherapyRide, Rule: onThatDay(10*60 + 30), Length: 45, Ride: nowhere}), "Leave home by 11:45"},
	} {
		r := luisHelps(t, c.duty, c.more)
		require.Equal(t, c.want, r.Label+" "+r.Time, name)
	}
}

// While nobody knows which stay it will be, what only one of the two holds is not certain: the
// same day brings Rosa home on the 9th, and the night of the 9th is one of that stay alone.
func TestTheOwnWayStaysWhereTheStayIsNotDecided(t *testing.T) {
	row := func(stay plan.Stay) string {
		d := catAt(7*60 + 30)
		d.Rule.First--
		v := luisView(t, d, both(func(p *plan.Plan) { p.Stay = stay }, slot(0, plan.Night, 1)), "2027-03-09T12:00:00-06:00")
		for i := range v.Days {
			for _, r := range v.Days[i].Rows {
				if r.ID == "duty-f1-2027-03-10" {
					return r.Label + " " + r.Time
				}
			}
		}
		return ""
	}
	require.Equal(t, "at 07:30", row(plan.SameDay))
	require.Equal(t, "Leave home by 07:15", row(plan.Undecided))
}

// The head of the page, and how the time was worked out, say the same as the row.
func TestTheHeadLeadsWithTheSameTime(t *testing.T) {
	for _, c := range []struct {
		more         func(*plan.Plan)
		leave, label string
		urgent       bool
	}{
		{nil, "09:20", "Leave home by", true},
		{slot(2, plan.Morning, 1), "09:35", "Leave with Rosa by", false},
	} {
		v := luisView(t, therapyAt(10*60+30, 45), c.more, "2027-03-11T09:25:00-06:00")
		lead := v.Next.Lead
		require.NotNil(t, lead)
		require.Equal(t, c.label+" "+c.leave, lead.Label+" "+lead.Time)
		require.Equal(t, c.urgent, v.Next.Urgent != "", "he is on his way at 09:25 only from his own home")
		sum, minutes := lead.Sum, 0
		require.Equal(t, c.leave, sum[len(sum)-1].Value)
		for _, f := range sum {
			var n int
			if rest, ok := strings.CutPrefix(f.Value, "− "); ok {
				for _, digit := range strings.TrimSuffix(rest, " min") {
					n = 10*n + int(digit-'0')
				}
			}
			minutes += n
		}
		at, _ := time.Parse("15:04", c.leave)
		require.Equal(t, "10:30", at.Add(time.Duration(minutes)*time.Minute).Format("15:04"), "the sum adds up: %v", sum)
	}
}

// One helper's part leads with whatever they do next, not with the first drive weeks ahead; what
// has begun gives way to what comes then.
func TestAPartLeadsWithWhatComesNext(t *testing.T) {
	p := harmless.plan(t)
	p.Stay, p.Helpers = plan.OneNight, []string{"Luis"}
	visit := therapyAt(10*60+30, 45)
	visit.ID, visit.Who, visit.Rule.First = 1, 1, visit.Rule.First+9
	cat := catAt(7*60 + 30)
	cat.ID, cat.Who = 2, 1
	p.Duties = []plan.Duty{visit, cat}
	p = p.WithShift(plan.SlotOf(1, plan.Night), 1)
	s, err := schedule.Build(p)
	require.NoError(t, err)
	lead := func(now string) string {
		in := page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open("en")}, Fragment: fragment(p)}
		in.Now, err = time.Parse(time.RFC3339, now)
		require.NoError(t, err)
		return page.NewPartView(page.PartInput{Input: in, Helper: "Luis"}).Next.Lead.ID
	}
	require.Equal(t, "next-duty-stay-with-slot-"+strconv.Itoa(int(plan.SlotOf(1, plan.Night))), lead("2027-03-10T12:00:00-06:00"))
	require.Equal(t, "next-duty-f2-2027-03-11", lead("2027-03-10T22:00:00-06:00"))
	require.Equal(t, "next-duty-f1-2027-03-20", lead("2027-03-11T07:40:00-06:00"))
}
