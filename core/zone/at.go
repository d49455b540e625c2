package zone

import "time"

// Fit says how a wall-clock time falls on the clock of its zone.
type Fit int

const (
	Exact    Fit = iota // the clock shows this time once
	Skipped             // the clock jumps over it: clocks go forward
	Repeated            // the clock shows it twice: clocks go back
)

// reach is how far to look for a change of the clocks. UTC offsets run from -12 to +14 hours,
// so one day before and after the wall-clock time read as UTC lie surely on either side of
// every instant it could mean. No zone in the data changes its clocks twice in so short a time.
const reach = 24 * time.Hour

// At returns the instant at which the clocks in loc show the given time, and how it fits.
// The rule is RFC 5545, section 3.3.5, which time.Date does not promise: a time that comes
// twice is its first occurrence; a time that is skipped is read with the UTC offset in force
// before the gap, so that 02:30 on New York's spring day is 03:30 daylight time.
//
// As with time.Date, values outside their usual range carry over: hour 24 is midnight at the
// end of the day, minute 90 is half past the next hour, day 0 is the last of the month before.
// The carry happens on the wall clock, before the zone is looked at. loc must not be nil.
func At(loc *time.Location, year int, month time.Month, day, hour, minute int) (time.Time, Fit) {
	wall := time.Date(year, month, day, hour, minute, 0, 0, time.UTC)
	if s := stretch(loc, wall.Unix()); s != nil {
		return wall.Add(-s.offset).In(loc), Exact
	}
	before := offset(loc, wall.Add(-reach))
	after := offset(loc, wall.Add(reach))

	early := wall.Add(-before) // the instant, if the clocks have not changed yet
	late := wall.Add(-after)   // the instant, if they have
	earlyFits := offset(loc, early) == before
	lateFits := offset(loc, late) == after

	switch {
	case earlyFits && lateFits && before != after:
		return early.In(loc), Repeated
	case earlyFits:
		return early.In(loc), Exact
	case lateFits:
		return late.In(loc), Exact
	default:
		return early.In(loc), Skipped
	}
}

// offset returns how far the clocks in loc are ahead of UTC at t.
func offset(loc *time.Location, t time.Time) time.Duration {
	_, seconds := t.In(loc).Zone()
	return time.Duration(seconds) * time.Second
}
