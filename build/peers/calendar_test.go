package peers

import (
	"maps"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/calendar"
	"newel/core/plan"
	"newel/core/schedule"
)

// readers are the peers that read calendar files.
var readers = []string{IcalJS, Libical}

// A phone that takes in the file has the helper's busy time of every date, to the
// minute, and rings as long before as was asked: as ical.js and libical read it, each
// with the VTIMEZONE of the file.
func TestACalendarHasEveryDateOfTheSchedule(t *testing.T) {
	for _, name := range readers {
		peer := start(t, name)
		for _, where := range slices.Sorted(maps.Keys(families)) {
			p := family(t, where)
			for who := range uint8(len(p.Helpers) + 2) {
				choice := calendar.Choice{All: int(who) > len(p.Helpers), Who: who, Alarm: 45}
				file, _ := export(t, p, choice, 0, "")
				events, problems, err := peer.Calendar(file)
				require.NoError(t, err, "%s in %s", name, where)
				require.Empty(t, problems, "%s in %s", name, where)
				requireSame(t, busy(t, p, choice), slots(events), misread[name+" "+where], choice.All, name+" in "+where)
				requireAlarms(t, events, choice.Alarm)
			}
		}
	}
}

func requireAlarms(t *testing.T, events []Event, minutes int) {
	t.Helper()
	for _, e := range events {
		require.Equal(t, []int64{e.Start - int64(60*minutes)}, e.Alarms, "%s %s", e.UID, e.Summary)
	}
}

// The steps of the lists last whole days, up to the day after their last (RFC 5545
// 3.6.1), or are at a moment. They are the only events without busy time.
func TestACalendarHasTheStepsOfTheLists(t *testing.T) {
	p := family(t, "America/Chicago")
	choice := calendar.Choice{All: true, Alarm: -1, Steps: true}
	file, _ := export(t, p, choice, 0, "")
	for _, name := range readers {
		events, problems, err := start(t, name).Calendar(file)
		require.NoError(t, err)
		require.Empty(t, problems)
		days := 0
		var timed []Event
		for _, e := range events {
			require.Empty(t, e.Alarms)
			if e.AllDay {
				days++
				require.Zero(t, e.Start%86400, e.Summary)
				require.Zero(t, e.End%86400, e.Summary)
				require.Greater(t, e.End, e.Start, e.Summary)
			} else if e.End > e.Start {
				timed = append(timed, e)
			}
		}
		require.Equal(t, wholeDays(t, p), days, name)
		requireSame(t, busy(t, p, choice), slots(timed), misread[name+" "+p.Zone], true, name)
	}
}

// A file that nobody changed comes back as the plan's own duties.
func TestACalendarComesBackAsTheSameDuties(t *testing.T) {
	for where := range families {
		p := family(t, where)
		dropped := p.Duties[3]
		dropped.Dropped, dropped.Revision = true, 1
		p = p.WithDuty(dropped)
		file, _ := export(t, p, everybody(), 0, "")
		found, err := calendar.Read(file, &p, load(t, where))
		require.NoError(t, err)
		require.Empty(t, found.Left, where)
		require.Len(t, found.Duties, len(p.Duties))
		for _, d := range found.Duties {
			require.Equal(t, *p.Duty(d.ID), d, "%s, duty %d", where, d.ID)
		}
	}
}

// wholeDays counts the all-day events that the lists come to: the lines of the lists
// about the house and the bag are one event a day together.
func wholeDays(t *testing.T, p plan.Plan) int {
	s := build(t, p)
	type due struct {
		list string
		day  int
	}
	together := map[due]bool{}
	n := 0
	for i := range s.Steps {
		step := &s.Steps[i]
		switch step.List {
		case "home", "equipment", "pack", "going":
			for day := step.First; day <= step.Last; day++ {
				together[due{step.List, int(day)}] = true
			}
		default:
			if step.Due != schedule.AtTime || step.BeforeLeaving {
				n++
			}
		}
	}
	return n + len(together)
}
