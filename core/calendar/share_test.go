package calendar

import (
	"math/rand"
	"slices"
	"strings"
	"testing"
	"time"

	ical "github.com/emersion/go-ical"
	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/schedule"
)

// sharedRides is a plan whose rides Dana and Lee share: Dana has Mondays, Wednesdays and
// Fridays, Lee the Wednesdays, and on Friday 19 March it is Ann. Days as in a printed
// calendar of 2027.
func sharedRides(t testing.TB, change ...func(*plan.Duty)) plan.Plan {
	return family(t, func(p *plan.Plan) {
		p.Helpers = []string{"Dana", "Lee", "Ann"}
		d := &p.Duties[0]
		d.On[time.Wednesday] = 2
		d.Takes = []plan.Take{{Day: day(t, "2027-03-19"), Who: 3}}
		for _, c := range change {
			c(d)
		}
	})
}

func TestAFileHasTheHelpersOwnDatesOnly(t *testing.T) {
	p := sharedRides(t)
	for who, want := range map[uint8][]string{
		// 18 rides from 15 March: 12 on Mondays and Fridays until Friday 23 April. Monday 5 April falls
		// out, Tuesday 6 April is added, and the one on Friday 26 March is in the afternoon.
		1: {"20270315T093000", "FREQ=WEEKLY;BYDAY=MO,FR;COUNT=12", "20270319T093000 20270405T093000", "20270406T093000"},
		2: {"20270317T093000", "FREQ=WEEKLY;BYDAY=WE;COUNT=6", "", ""},
		3: {"20270319T093000", "", "", ""},
	} {
		file, _ := write(t, p, Choice{Who: who, Alarm: -1}, "")
		main := events(t, file, "Ride to therapy")[0]
		require.Equal(t, want, []string{main.Props.Get("DTSTART").Value, line(main, "RRULE"), values(main, "EXDATE"), values(main, "RDATE")}, "helper %d", who)
		require.NotContains(t, line(main, "DESCRIPTION"), "Who has which day", "the others are not in it")
	}
	all, _ := write(t, p, Choice{All: true, Alarm: -1}, "")
	main := events(t, all, "Ride to therapy")[0]
	require.Equal(t, "10:30 Ride to therapy (leave 09:30)", line(main, "SUMMARY"), "no one person's")
	require.Contains(t, unescape(main.Props.Get("DESCRIPTION").Value), "Who has which day: Mondays: Dana; Tuesdays: Dana; Wednesdays: Lee; Fridays: Dana; Fri, Mar 19: Ann\n")
	require.Len(t, events(t, all, "Lee: 07:00 Dog, mornings"), 1, "one person has all of it")
	whole, _ := write(t, family(t), Choice{All: true, Alarm: -1}, "")
	require.Equal(t, line(events(t, whole, "therapy")[0], "UID"), line(main, "UID"))
}

func values(c *ical.Component, name string) string {
	var all []string
	for _, p := range c.Props[name] {
		all = append(all, p.Value)
	}
	return strings.Join(all, " ")
}

func TestADescriptionDoesNotListDatesWithoutEnd(t *testing.T) {
	p := sharedRides(t, func(d *plan.Duty) {
		days, _ := d.Rule.Pattern()
		d.On, d.Takes = [7]uint8{}, nil
		for _, day := range days[:15] {
			d.Takes = append(d.Takes, plan.Take{Day: day, Who: 0})
		}
	})
	all, _ := write(t, p, Choice{All: true, Alarm: -1}, "")
	text := unescape(events(t, all, "Ride to therapy")[0].Props.Get("DESCRIPTION").Value)
	require.Contains(t, text, "Who has which day: Dana; Mon, Mar 15: Nobody yet; ")
	require.Contains(t, text, "; 2 more dates: see the plan\n", "15 less the one that is left out, twelve of them shown")
}

// share gives dates of a duty to people by chance.
func share(r *rand.Rand, d *plan.Duty, helpers int) {
	d.Who, d.On, d.Takes = uint8(r.Intn(helpers+1)), [7]uint8{}, nil
	days, _ := d.Rule.Pattern()
	for _, m := range d.Rule.Extra {
		days = append(days, m.Day)
	}
	slices.Sort(days)
	for _, day := range slices.Compact(days) {
		if r.Intn(5) == 0 && len(d.Takes) < plan.MostTakes {
			d.Takes = append(d.Takes, plan.Take{Day: day, Who: uint8(r.Intn(helpers + 1))})
		}
	}
	if r.Intn(2) == 0 {
		for i := range d.On {
			d.On[i] = uint8(r.Intn(helpers + 1))
		}
	}
}

// times are the busy times that one helper has of the family's duties.
func times(t testing.TB, p plan.Plan, who uint8) map[timed]int {
	s, want := build(t, p), map[timed]int{}
	for i := range s.Duties {
		d := &s.Duties[i]
		if d.Family == nil || s.Who(d) != who {
			continue
		}
		spans := d.Busy()
		if spans == nil {
			spans = []schedule.Span{d.Session}
		}
		for _, b := range spans {
			want[timed{utcText(b.From), utcText(b.To)}]++
		}
	}
	return want
}

// What is in everybody's own file together is what the schedule says: each date once, with
// whoever has it, for readers of either kind.
func TestEveryHelpersFileHasTheirDatesToTheMinute(t *testing.T) {
	r := rand.New(rand.NewSource(215))
	parts, met := 0, map[string]int{}
	for n := range repeats(250) {
		p := anyPlan(t, r)
		p.Cover = [5]uint8{}
		p.Cover[0] = 4
		p.Helpers = []string{"Dana", "Lee", "Ann", "Kim"} // Kim has what every plan has
		for i := range p.Duties {
			share(r, &p.Duties[i], 3)
		}
		of := map[string]uint8{}
		for who := range uint8(4) {
			if who == 0 { // nobody has some of what every plan has, too
				p.Cover = [5]uint8{4, 4, 4, 4, 4}
			}
			file, _ := write(t, p, Choice{Who: who, Alarm: -1}, "")
			if file == "" {
				require.Empty(t, times(t, p, who))
				continue
			}
			for _, how := range []reading{placed, dropped} {
				got := map[timed]int{}
				for _, x := range expand(t, file, how) {
					got[x]++
				}
				require.Equal(t, sortedKeys(times(t, p, who)), sortedKeys(got), "plan %d in %s, helper %d\n%+v\n%s", n, p.Zone, who, p.Duties, file)
			}
			for _, c := range parse(t, file).Children {
				if id := line(c, "UID"); c.Name == "VEVENT" {
					other, taken := of[id]
					require.False(t, taken && other != who, "%d and %d have one UID", other, who)
					of[id] = who
					if strings.Contains(line(c, propDuty), "share ") {
						parts++
					}
					for _, name := range []string{"RRULE", "EXDATE", "RDATE", "RECURRENCE-ID"} {
						met[name] += len(c.Props[name])
					}
				}
			}
			// Taken in again, a file that nobody touched changes nothing.
			for _, text := range []string{file, withoutOurs(file)} {
				found, err := Read(text, &p, load(t, p.Zone))
				require.NoError(t, err)
				require.Empty(t, found.Left, "%s", text)
				seen := map[uint32]bool{}
				for _, d := range found.Duties {
					require.True(t, d.Equal(*p.Duty(d.ID)), "%+v\n%+v", d, p.Duty(d.ID))
					require.False(t, seen[d.ID], "one duty comes once")
					seen[d.ID] = true
				}
			}
		}
	}
	require.Greater(t, parts, 500)
	for name, n := range met {
		require.Greater(t, n, 50, name)
	}
	require.Len(t, met, 4)
}
