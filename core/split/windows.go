package split

import (
	"newel/core/plan"
	"newel/core/schedule"
)

// gapLeast is the least time at home between taking the patient somewhere and fetching them
// that counts as one; as core/schedule has it.
const gapLeast = 15

// timed tells whether it is known when a duty takes its helper.
func timed(d *schedule.Duty) bool {
	switch {
	case d.Kind == schedule.Drive:
		return !d.Leave.IsZero()
	case d.Kind == schedule.Wait, d.Kind == schedule.Stay:
		return d.There.Known() && d.Ends.Known()
	}
	return true
}

// spansOf gives the times in which a duty takes a helper who lives so many minutes from the
// patient, from leaving their own home to being back: none, one, or two where they are home
// in between. Whose the duty is at present does not matter.
//
// It is schedule.Duty.FromHome for somebody else: nobody knows where the helper goes after
// driving to the hospital, or how far it is from there to the home of whoever waits. What
// has no end that anybody could name counts until its earliest.
func spansOf(d *schedule.Duty, own int) (spans [2]stretch, n int) {
	switch {
	case !timed(d):
		return spans, 0
	case d.Family != nil && d.Family.Kind.IsRide():
		return rideSpans(d, own)
	case d.Kind == schedule.Drive && d.Homeward:
		spans[0] = stretch{leaveAt(d) - own, minuteOf(d.Ends.To)}
		if d.Home.Known() {
			spans[0].to = minuteOf(d.Home.To) + own
		}
	case d.Kind == schedule.Drive:
		spans[0] = stretch{leaveAt(d) - own, minuteOf(d.There.To) + own}
	case d.Kind == schedule.Wait:
		spans[0] = stretch{minuteOf(d.There.From), minuteOf(d.Ends.To)}
	default:
		spans[0] = stretch{minuteOf(d.There.From) - own, minuteOf(d.Ends.To) + own}
	}
	return spans, 1
}

// rideSpans is core/schedule's sum for a ride with another helper's own way.
func rideSpans(d *schedule.Duty, own int) (spans [2]stretch, n int) {
	there, end := minuteOf(d.There.From), minuteOf(d.Session.To)
	way := d.Trip.Parking + d.Trip.Drive + d.Trip.Slack
	whole := stretch{leaveAt(d) - own, minuteOf(d.Home.To) + own}
	home, again := there+way+own, end-way-own
	if !d.Family.Ride.Leaves || again-home < gapLeast {
		return [2]stretch{whole}, 1
	}
	return [2]stretch{{whole.from, home}, {again, whole.to}}, 2
}

// leaveAt is when to leave the patient's home.
func leaveAt(d *schedule.Duty) int {
	t := &d.Trip
	return minuteOf(t.Arrive) - t.Parking - t.Drive - t.Slack - t.Car
}

// ownWay is a helper's way to the patient's home for a duty: what they told, else what the
// duty says.
func (p *person) ownWay(d *schedule.Duty) int {
	switch {
	case p.own != plan.Unknown:
		return p.own
	case d.Family != nil:
		return d.Family.Ride.Own
	}
	return 0
}
