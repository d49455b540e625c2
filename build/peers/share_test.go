package peers

import (
	"maps"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/calendar"
	"newel/core/plan"
)

// gives is a change of who has which dates of a duty.
func gives(id uint32, do func(d *plan.Duty, days func(int) plan.Take)) func(*plan.Plan) {
	return edit(id, func(d *plan.Duty) {
		days, _ := d.Rule.Pattern()
		do(d, func(n int) plan.Take { return plan.Take{Day: days[n]} })
	})
}

// takes gives single dates of a duty, by their place in the pattern, to a helper.
func takes(who uint8, places ...int) func(d *plan.Duty, date func(int) plan.Take) {
	return func(d *plan.Duty, date func(int) plan.Take) {
		d.Takes = slices.Clone(d.Takes)
		for _, n := range places {
			take := date(n)
			take.Who = who
			d.Takes = append(slices.DeleteFunc(d.Takes, func(t plan.Take) bool { return t.Day == take.Day }), take)
		}
		slices.SortFunc(d.Takes, func(a, b plan.Take) int { return int(a.Day - b.Day) })
	}
}

func weekdays(who uint8, days ...time.Weekday) func(d *plan.Duty, date func(int) plan.Take) {
	return func(d *plan.Duty, _ func(int) plan.Take) {
		for _, day := range days {
			d.On[day] = who
		}
	}
}

// sharings give dates of the family's duties from one to another: single ones, one that
// was moved, the first, weekdays, all but one; with times that change in between.
var sharings = []change{
	{"one date to another", gives(first, takes(2, 3))},
	{"the first date to nobody", gives(first, takes(0, 0))},
	{"the date that was moved", gives(first, takes(3, 5))},
	{"the Fridays", gives(first, weekdays(2, time.Friday))},
	{"another time", edit(first, func(d *plan.Duty) { d.Rule.At += 45 })},
	{"it moves back", edit(first, func(d *plan.Duty) { d.Rule.Moved = nil })},
	{"every second of those that are two events", gives(second, takes(1, 0, 2, 4, 6, 8, 10))},
	{"the helper waits now", edit(second, func(d *plan.Duty) { d.Ride.Leaves = false })},
	{"every day, by weekday", gives(evening, weekdays(1, time.Saturday, time.Sunday))},
	{"one of those to the other again", gives(evening, takes(3, 12, 13))},
	{"some of a month's", gives(bins, takes(2, 0, 5))},
	{"all but one", gives(meals, takes(3, 7))},
	{"that one too", edit(meals, func(d *plan.Duty) { d.Who, d.Takes = 3, nil })},
	{"all of the first to one", edit(first, func(d *plan.Duty) { d.Who, d.On, d.Takes = 1, [7]uint8{}, nil })},
	{"all of the first to another", edit(first, func(d *plan.Duty) { d.Who = 2 })},
	{"one date of it back", gives(first, takes(1, 9))},
	{"a shared duty is taken out", edit(second, func(d *plan.Duty) { d.Dropped = true })},
	{"and put back", edit(second, func(d *plan.Duty) { d.Dropped = false })},
}

// After each change every helper takes their file into their own calendar again. It then
// has their dates and nobody else's, in both models and for both readers.
func TestEveryHelpersCalendarFollowsTheSharing(t *testing.T) {
	for _, name := range readers {
		peer := start(t, name)
		p := family(t, "Asia/Kathmandu")
		files, memory := map[uint8][]string{}, map[uint8]string{}
		for n, c := range append([]change{{"nothing", func(*plan.Plan) {}}}, sharings...) {
			c.do(&p)
			require.Empty(t, plan.Check(&p, p.Surgery), c.what)
			for who := range uint8(len(p.Helpers) + 1) {
				choice := calendar.Choice{Who: who, Alarm: 30}
				var file string
				file, memory[who] = export(t, p, choice, n, memory[who])
				files[who] = append(files[who], file)
				for model, whole := range models {
					requireUpdated(t, peer, whole, busy(t, p, choice), files[who], name+", "+model+": "+c.what)
				}
			}
		}
	}
}

// Two helpers take their files into one calendar. It has the dates of both, in whichever
// order they come: no event of one replaces the other's (RFC 5546 2.1.5).
func TestTwoHelpersTakeTheirFilesIntoOneCalendar(t *testing.T) {
	for _, name := range readers {
		peer := start(t, name)
		p := family(t, "Asia/Kathmandu")
		gives(first, weekdays(2, time.Monday))(&p) // shared from the beginning
		gives(second, takes(1, 1, 2))(&p)
		var files []string
		memory := map[uint8]string{}
		for n, c := range []change{
			{"nothing", func(*plan.Plan) {}}, {"a date goes over", gives(first, takes(2, 1, 2))}, {"one comes back", gives(first, takes(1, 2))},
			{"one of the others", gives(second, takes(1, 5))}, {"another time", edit(second, func(d *plan.Duty) { d.Rule.At += 10 })},
		} {
			c.do(&p)
			var want []slot
			for _, who := range []uint8{uint8(1 + n%2), uint8(2 - n%2)} {
				choice := calendar.Choice{Who: who, Alarm: -1}
				var file string
				file, memory[who] = export(t, p, choice, n, memory[who])
				files = append(files, file)
				want = append(want, busy(t, p, choice)...)
			}
			for model, whole := range models {
				requireUpdated(t, peer, whole, want, files, name+", "+model+": "+c.what)
			}
		}
	}
}

// Parts of duties cross changes of the clocks like whole ones.
func TestPartsHaveEveryDateInEveryZone(t *testing.T) {
	for _, name := range readers {
		peer := start(t, name)
		for _, where := range slices.Sorted(maps.Keys(families)) {
			p := family(t, where)
			for _, c := range sharings[:12] {
				c.do(&p)
			}
			for who := range uint8(len(p.Helpers) + 1) {
				choice := calendar.Choice{Who: who, Alarm: 45}
				file, _ := export(t, p, choice, 0, "")
				events, problems, err := peer.Calendar(file)
				require.NoError(t, err, "%s in %s", name, where)
				require.Empty(t, problems, "%s in %s", name, where)
				requireSame(t, busy(t, p, choice), slots(events), misread[name+" "+where], false, name+" in "+where)
				found, err := calendar.Read(file, &p, load(t, where))
				require.NoError(t, err)
				require.Empty(t, found.Left)
			}
		}
	}
}
