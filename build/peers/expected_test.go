package peers

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/calendar"
	"newel/core/plan"
	"newel/core/schedule"
)

// slot is one span of a helper's time, in seconds since 1970. What is compared are
// sets of them with twins kept, so that a date that came in double is seen.
type slot struct{ from, to int64 }

func (s slot) String() string {
	utc := func(second int64) string { return time.Unix(second, 0).UTC().Format("2006-01-02T15:04Z") }
	return utc(s.from) + "/" + utc(s.to)
}

// busy lists the busy time of all duties that a choice names, in order of time.
func busy(t *testing.T, p plan.Plan, c calendar.Choice) []slot {
	t.Helper()
	s := build(t, p)
	var all []slot
	for i := range s.Duties {
		d := &s.Duties[i]
		if !c.All && s.Who(d) != c.Who {
			continue
		}
		spans := d.Busy()
		require.NotEmpty(t, spans, "every duty of these plans has its times: %s on %s", d.ID, d.Day)
		for _, span := range spans {
			all = append(all, slotOf(span))
		}
	}
	sortSlots(all)
	return all
}

func slotOf(s schedule.Span) slot { return slot{s.From.Unix(), s.To.Unix()} }

func sortSlots(all []slot) {
	slices.SortFunc(all, func(a, b slot) int {
		if a.from != b.from {
			return int(a.from - b.from)
		}
		return int(a.to - b.to)
	})
}

// slots lists the events of a calendar that still stand.
func slots(events []Event) []slot {
	var all []slot
	for _, e := range events {
		if e.Status != "CANCELLED" {
			all = append(all, slot{e.Start, e.End})
		}
	}
	sortSlots(all)
	return all
}

// mistake is what a reader makes of some dates: what it loses and what it shows instead.
type mistake struct{ loses, shows []string }

// requireSame compares two lists of slots and names what only one of them has. whole:
// the reader's known mistake must show in full; else it may, in part.
func requireSame(t *testing.T, want, got []slot, known mistake, whole bool, what string) {
	t.Helper()
	missing, more := texts(without(want, got)), texts(without(got, want))
	if whole {
		require.Equal(t, known, mistake{missing, more}, what)
		return
	}
	require.Subset(t, known.loses, missing, what)
	require.Subset(t, known.shows, more, what)
}

// texts writes slots out.
func texts(list []slot) []string {
	var all []string
	for _, s := range list {
		all = append(all, s.String())
	}
	return all
}

// without gives what is in a and not in b, counting twins.
func without(a, b []slot) []slot {
	count := map[slot]int{}
	for _, s := range b {
		count[s]++
	}
	var rest []slot
	for _, s := range a {
		if count[s]--; count[s] < 0 {
			rest = append(rest, s)
		}
	}
	return rest
}
