package peers

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/calendar"
	"newel/core/plan"
	"newel/core/repeat"
)

// change is something that a family does to its plan.
type change struct {
	what string
	do   func(*plan.Plan)
}

// edit changes one duty as the page does: its Revision rises when its times moved.
func edit(id uint32, do func(*plan.Duty)) func(*plan.Plan) {
	return func(p *plan.Plan) {
		d := *p.Duty(id)
		do(&d)
		d.Rule = d.Rule.Canonical()
		if !d.SameTimes(*p.Duty(id)) {
			d.Revision++
		}
		*p = p.WithDuty(d)
	}
}

// The duties of family, by their numbers.
const (
	first, second, morning, evening, meals, visit, train, nights, bins, early = 1, 2, 3, 4, 5, 6, 7, 8, 9, 10
)

// changes are made one after the other, each followed by a new file.
var changes = []change{
	{"nothing", func(*plan.Plan) {}},
	{"a new time for all dates", edit(first, func(d *plan.Duty) { d.Rule.At += 30 })},
	{"a date moves to another day", edit(second, func(d *plan.Duty) {
		days, _ := d.Rule.Pattern()
		d.Rule.Moved = []repeat.Move{{From: days[3], To: repeat.Moment{Day: days[3] + 1, At: clock(15, 0)}}}
	})},
	{"that date moves back", edit(second, func(d *plan.Duty) { d.Rule.Moved = nil })},
	{"a date is skipped", edit(evening, func(d *plan.Duty) {
		days, _ := d.Rule.Pattern()
		d.Rule.Skipped = append(d.Rule.Skipped, days[4])
	})},
	{"a date is added", edit(evening, func(d *plan.Duty) {
		days, _ := d.Rule.Pattern()
		d.Rule.Extra = append(d.Rule.Extra, repeat.Moment{Day: days[2], At: clock(22, 0)})
	})},
	{"the added date is gone", edit(evening, func(d *plan.Duty) { d.Rule.Extra = nil })},
	{"the first date is skipped", edit(morning, func(d *plan.Duty) { d.Rule.Skipped = append(d.Rule.Skipped, d.Rule.First) })},
	{"another helper", edit(meals, func(d *plan.Duty) { d.Who = 1 })},
	{"other words", edit(visit, func(d *plan.Duty) { d.Note = "Bring the list of questions" })},
	{"a longer drive", edit(visit, func(d *plan.Duty) { d.Ride.Drive += 20 })},
	{"another length", edit(nights, func(d *plan.Duty) { d.Length -= 60 })},
	{"the helper waits", edit(second, func(d *plan.Duty) { d.Ride.Leaves = false })},
	{"fewer dates", edit(bins, func(d *plan.Duty) { d.Rule.Count -= 2 })},
	{"another pattern", edit(train, func(d *plan.Duty) { d.Rule.Freq, d.Rule.Days, d.Rule.Every = repeat.Daily, 0, 5 })},
	{"a duty is dropped", edit(train, func(d *plan.Duty) { d.Dropped = true })},
	{"a duty with a moved date is dropped", edit(first, func(d *plan.Duty) { d.Dropped = true })},
	{"a dropped duty comes back", edit(train, func(d *plan.Duty) { d.Dropped = false })},
	{"the first date becomes later", edit(early, func(d *plan.Duty) { d.Rule.First += 20 })},
	{"a new duty", func(p *plan.Plan) {
		d := *p.Duty(visit)
		d.ID, d.Title, d.Rule.First = p.FreshDuty(0), "Eye doctor", d.Rule.First+5
		*p = p.WithDuty(d)
	}},
	{"nothing once more", func(*plan.Plan) {}},
}

// models are the two ways in which calendars take in an event that they know. RFC 5546
// 2.1.5 tells events apart by UID and RECURRENCE-ID; whether a newer event without
// RECURRENCE-ID also takes away the moved dates of the older one it leaves open.
// (CalConnect's "iCalendar Recurrence Problems and Recommendations", 3.1.2, says yes.)
var models = map[string]bool{"a newer event replaces the whole series": true, "each moved date is replaced by itself": false}

// A calendar into which every file is taken as it comes holds, after each, just what
// the plan then says: nothing twice, nothing that is gone. There are no clock changes
// in Kathmandu, so readers make no mistakes of their own.
func TestFilesTakenInAgainUpdateACalendar(t *testing.T) {
	for _, name := range readers {
		peer := start(t, name)
		for model, whole := range models {
			p := family(t, "Asia/Kathmandu")
			file, memory := export(t, p, everybody(), 0, "")
			files := []string{file}
			for n, c := range changes {
				c.do(&p)
				require.Empty(t, plan.Check(&p, p.Surgery), c.what)
				file, memory = export(t, p, everybody(), n+1, memory)
				files = append(files, file)
				requireUpdated(t, peer, whole, busy(t, p, everybody()), files[n:], name+", "+model+": "+c.what)
			}
			requireUpdated(t, peer, whole, busy(t, p, everybody()), files, name+", "+model+": all files in their order")
			requireUpdated(t, peer, whole, busy(t, p, everybody()), []string{files[0], file}, name+", "+model+": the first and the last")
		}
	}
}

func requireUpdated(t *testing.T, p *Peer, whole bool, want []slot, files []string, what string) {
	t.Helper()
	events, err := p.Update(whole, files...)
	require.NoError(t, err, what)
	events = slices.DeleteFunc(events, func(e Event) bool { return strings.HasPrefix(e.Summary, "Not yours now: ") }) // it takes no time
	if missing, more := texts(without(want, slots(events))), texts(without(slots(events), want)); len(missing)+len(more) > 0 {
		t.Errorf("%s: loses %v, shows %v", what, missing, more)
	}
}

// One helper's calendar hears of what went to another: it is there, says whose it is, and
// takes no time.
func TestADutyThatGoesToAnotherHelperSaysSo(t *testing.T) {
	for _, name := range readers {
		p := family(t, "Asia/Kathmandu")
		choice := calendar.Choice{Who: 2, Alarm: 30}
		before, memory := export(t, p, choice, 0, "")
		edit(second, func(d *plan.Duty) { d.Who = 3 })(&p)
		edit(meals, func(d *plan.Duty) { d.Who = 2 })(&p)
		after, memory := export(t, p, choice, 1, memory)
		again, _ := export(t, p, choice, 2, memory)
		peer := start(t, name)
		requireUpdated(t, peer, true, busy(t, p, choice), []string{before, after}, name)
		requireUpdated(t, peer, true, busy(t, p, choice), []string{before, after, again}, name)
		edit(second, func(d *plan.Duty) { d.Who = 2 })(&p)
		back, _ := export(t, p, choice, 3, memory)
		requireUpdated(t, peer, true, busy(t, p, choice), []string{before, after, back}, name+": it came back")
	}
}

// timing is what RFC 5546 2.1.4 counts as a change that needs a new SEQUENCE.
var timing = []string{"DTSTART", "DTEND", "DURATION", "RRULE", "RDATE", "EXDATE", "STATUS", "RECURRENCE-ID"}

// timings gives, by UID, how the timing of an event and its moved dates stands in a file,
// and its SEQUENCE.
func timings(t *testing.T, file string) (print map[string][]string, sequence map[string]int) {
	print, sequence = map[string][]string{}, map[string]int{}
	for _, e := range parsed(t, file).within("VEVENT") {
		uid := e.theOne(t, "UID").value
		n, err := strconv.Atoi(e.theOne(t, "SEQUENCE").value)
		require.NoError(t, err)
		if old, again := sequence[uid]; again {
			require.Equal(t, old, n, "a moved date has its event's SEQUENCE")
		}
		sequence[uid] = n
		moved := len(e.all("RECURRENCE-ID")) > 0
		for _, name := range timing {
			for _, l := range e.all(name) {
				print[uid] = append(print[uid], fmt.Sprint(moved, l))
			}
		}
	}
	for _, list := range print {
		slices.Sort(list)
	}
	return print, sequence
}

// SEQUENCE rises where RFC 5546 2.1.4 says so, and nowhere else; an event that is no
// longer there had come as cancelled first.
func TestSequenceRisesExactlyWhenATimeChanges(t *testing.T) {
	p := family(t, "America/Chicago")
	file, memory := export(t, p, everybody(), 0, "")
	rises := 0
	for n, c := range changes {
		c.do(&p)
		var next string
		next, memory = export(t, p, everybody(), n+1, memory)
		before, oldSequence := timings(t, file)
		after, sequence := timings(t, next)
		for uid, old := range before {
			now, there := after[uid]
			switch {
			case !there:
				require.Contains(t, fmt.Sprint(old), "CANCELLED", "%s: %s is gone without a word", c.what, uid)
			case slices.Equal(old, now):
				require.Equal(t, oldSequence[uid], sequence[uid], "%s: %s stayed where it was", c.what, uid)
			default:
				require.Greater(t, sequence[uid], oldSequence[uid], "%s: %s moved: %v, before: %v", c.what, uid, now, old)
				rises++
			}
		}
		file = next
	}
	require.Greater(t, rises, len(changes)/2)
}

// A device that remembers nothing (another phone, a new one) writes the same UIDs with
// SEQUENCEs that are not lower than before a change.
func TestAnotherDeviceWritesTheSameEvents(t *testing.T) {
	p := family(t, "Asia/Kathmandu")
	_, memory := export(t, p, everybody(), 0, "")
	edit(first, func(d *plan.Duty) { d.Rule.At += 15 })(&p)
	there, _ := export(t, p, everybody(), 1, memory)
	here, _ := export(t, p, everybody(), 1, "")
	_, thereSequence := timings(t, there)
	_, hereSequence := timings(t, here)
	require.Equal(t, thereSequence, hereSequence)
	for _, name := range readers {
		requireUpdated(t, start(t, name), true, busy(t, p, everybody()), []string{there, here}, name)
	}
}
