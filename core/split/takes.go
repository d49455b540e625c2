package split

import (
	"newel/core/assign"
	"newel/core/plan"
	"newel/core/schedule"
)

// The uses that a helper has one of; the table of the package comment says which duty takes
// which.
const (
	byDriverThere assign.Uses = 1 << iota
	byWaiting
	byDriverHome
	byMorningDriver
	inSameDay
	inOneNight
	inNight

	hands   = byDriverThere | byWaiting | byDriverHome | byMorningDriver
	stays   = inSameDay | inOneNight
	place   = stays | inNight
	useBits = 7
)

// takesOf is the table of the package comment.
func takesOf(s *schedule.Schedule, d *schedule.Duty) []assign.Take {
	if !timed(d) {
		return nil
	}
	spans, n := spansOf(s, d, 0)
	uses := hands
	switch {
	case d.Family == nil && d.Kind == schedule.Stay:
		uses = stayIn(d.Branch)
	case d.Family == nil:
		uses = hospitalUse(s, d, &spans[0])
	case d.Family.Kind == plan.Nights:
		uses = inNight
	case !d.Family.Kind.IsRide() && d.Family.Place != "":
		spans, n = spansOf(s, d, d.Family.Ride.Own)
		uses = hands | place
	}
	takes := make([]assign.Take, 0, n)
	for _, span := range spans[:n] {
		if span.from < span.to {
			takes = append(takes, assign.Take{From: span.from, To: span.to, Uses: uses})
		}
	}
	return takes
}

func stayIn(b schedule.Branch) assign.Uses {
	switch b {
	case schedule.IfSameDay:
		return inSameDay
	case schedule.IfOneNight:
		return inOneNight
	}
	return stays
}

// hospitalUse adds the ways that are not the duty's own: whoever drove there and does not
// wait drives back, whoever waits has come and goes home again.
func hospitalUse(s *schedule.Schedule, d *schedule.Duty, span *stretch) assign.Uses {
	switch {
	case d.Kind == schedule.Wait:
		way := hospitalWay(s)
		span.from, span.to = span.from-way, span.to+way
		return byWaiting
	case !d.Homeward:
		span.to += hospitalWay(s)
		return byDriverThere
	case d.Branch == schedule.IfSameDay:
		return byDriverHome
	}
	return byMorningDriver
}

// hospitalWay is the minutes from the patient's home to the hospital's door, as far as they are
// known: those of the drive to it.
func hospitalWay(s *schedule.Schedule) int {
	for i := range s.Duties {
		if d := &s.Duties[i]; d.Family == nil && d.Kind == schedule.Drive && hasWay(d) {
			return d.Trip.Parking + d.Trip.Drive + d.Trip.Slack
		}
	}
	return 0
}
