package split

import (
	"newel/core/plan"
	"newel/core/schedule"
)

// gapLeast is the least time at home between taking the patient somewhere and fetching them
// that counts as one; as core/schedule has it.
const gapLeast = 15

// timed tells whether it is known when a duty takes its helper, at least some of the time.
func timed(d *schedule.Duty) bool { return d.There.Known() && d.Ends.Known() }

// hasWay tells whether it is known when to leave for a drive.
func hasWay(d *schedule.Duty) bool { return !d.Leave.IsZero() }

// spansOf gives the times in which a duty takes a helper who lives so many minutes from the
// patient, from leaving their own home to being back: none, one, or two where they are home
// in between. Whose the duty is at present does not matter.
//
// It is schedule.Duty.FromHome for somebody else: nobody knows where the helper goes after
// driving to the hospital. Where a way is not known it counts nothing, so that what is known
// of the duty still counts, a minute at least: who is at work then cannot, however near it is.
func spansOf(s *schedule.Schedule, d *schedule.Duty, own int) (spans [2]stretch, n int) {
	switch {
	case !timed(d):
		return spans, 0
	case d.Family != nil && d.Family.Kind.IsRide():
		return rideSpans(d, own)
	case d.Kind == schedule.Drive && d.Homeward:
		spans[0] = stretch{leaveAt(d) - own, homeAt(s, d) + own}
	case d.Kind == schedule.Drive:
		spans[0] = stretch{leaveAt(d) - own, minuteOf(d.There.To) + own}
	default:
		spans[0] = stretch{minuteOf(d.There.From) - own, minuteOf(d.Ends.To) + own}
	}
	spans[0].to = max(spans[0].to, spans[0].from+1)
	return spans, 1
}

// homeAt is when whoever drives the patient home from the hospital is there at the latest. A
// drive home on the day of surgery has no end that anybody could name, since the checks come
// after recovery: it counts until the latest end of recovery and the way home, at least.
func homeAt(s *schedule.Schedule, d *schedule.Duty) int {
	if !d.Open {
		if d.Home.Known() {
			return minuteOf(d.Home.To)
		}
		return minuteOf(d.Ends.To)
	}
	late := minuteOf(d.Ends.To)
	for _, stage := range s.Stages {
		late = max(late, minuteOf(stage.Ends.To)) // the last of them is recovery
	}
	if d.Home.Known() {
		late += minuteOf(d.Home.From) - minuteOf(d.Ends.From) + d.Trip.Slack + d.Trip.Car
	}
	return late
}

// rideSpans is core/schedule's sum for a ride with another helper's own way.
func rideSpans(d *schedule.Duty, own int) (spans [2]stretch, n int) {
	there, end := minuteOf(d.There.From), minuteOf(d.Session.To)
	way := d.Trip.Parking + d.Trip.Drive + d.Trip.Slack
	whole := stretch{leaveAt(d) - own, end + own}
	if d.Home.Known() {
		whole.to = minuteOf(d.Home.To) + own
	}
	home, again := max(there+way+own, whole.from+1), min(end-way-own, whole.to-1)
	if !d.Family.Ride.Leaves || again-home < gapLeast {
		return [2]stretch{whole}, 1
	}
	return [2]stretch{{whole.from, home}, {again, whole.to}}, 2
}

// leaveAt is when to leave the patient's home; while the way is not known, when to be there.
func leaveAt(d *schedule.Duty) int {
	if !hasWay(d) {
		return minuteOf(d.There.From)
	}
	t := &d.Trip
	return minuteOf(t.Arrive) - t.Parking - t.Drive - t.Slack - t.Car
}

// ownWay is a helper's way to the patient's home for a duty: what they told, else what the
// duty says. Of waiting it is the way to the hospital, since nobody knows how far that is from
// the home of whoever waits.
func (p *person) ownWay(d *schedule.Duty) int {
	switch {
	case d.Kind == schedule.Wait:
		return p.hospital
	case p.own != plan.Unknown:
		return p.own
	case d.Family != nil:
		return d.Family.Ride.Own
	}
	return 0
}
