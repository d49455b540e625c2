package schedule

import (
	"time"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// Series is one of the family's duties with its dates.
type Series struct {
	Duty  *plan.Duty
	Dates []int // places in Schedule.Duties, in order of time
	Cut   bool  // the rule has no end; its dates stop a year after the first
}

// gapLeast is the least time at home between dropping off and picking up for which
// it is worth driving; below it the helper waits. Common practice, no published
// source.
const gapLeast = 15 * time.Minute

// familyDuties gives every date of the family's duties, one duty after the other.
func (s *Schedule) familyDuties() []Duty {
	var dates [][]repeat.Occurrence // of each series
	room := 0
	for i := range s.Plan.Duties {
		d := &s.Plan.Duties[i]
		if d.Dropped {
			continue
		}
		own, cut := d.Rule.All()
		s.Series = append(s.Series, Series{Duty: d, Cut: cut})
		dates, room = append(dates, own), room+len(own)
	}
	all := make([]Duty, 0, room) // they are large, and there are hundreds
	for i := range s.Series {
		for _, date := range dates[i] {
			all = append(all, s.familyDuty(s.Series[i].Duty, date))
		}
	}
	return all
}

// familyDuty works out one date of a duty.
func (s *Schedule) familyDuty(d *plan.Duty, date repeat.Occurrence) Duty {
	out := Duty{ID: plan.DutyKeys[d.Kind], Kind: Help, Place: Home, Day: date.Day, Family: d, On: date}
	start, fit := date.Place(s.Loc)
	end := start.Add(minutes(d.Length))
	if d.Kind == plan.Nights { // until seven is until seven on the wall, whatever the clocks do
		if onWall, _ := date.Day.At(s.Loc, date.At+wall.Clock(d.Length)); onWall.After(start) {
			end = onWall
		}
	}
	out.Fit, out.Session, out.Own = fit, Span{start, end}, s.ownWay(d, d.WhoHas(date.Of))
	if d.Kind.IsRide() {
		out.Kind, out.Place = Drive, Elsewhere
		s.ride(&out, d.Ride)
	} else {
		own := minutes(out.Own)
		out.There, out.Ends, out.Free = at(start), at(end), end.Add(own)
		if own > 0 {
			out.Leave = start.Add(-own)
		}
	}
	out.startAtLeave()
	return out
}

// mustNights marks the nights in the hours in which somebody has to be with the patient.
func (s *Schedule) mustNights(family []Duty) {
	for i := range family {
		d := &family[i]
		for _, p := range s.presence {
			if d.Family.Kind == plan.Nights && d.Session.From.Before(p.Must.To) && d.Session.To.After(p.Must.From) {
				d.Must = true
			}
		}
	}
}

// ride fills in the times of a ride around its appointment, in elapsed time:
//
//	leave = appointment − early − parking − drive × (1 + slack) − into the car − own way
//	free  = end + parking + into the car + drive × (1 + slack) + own way
//
// A helper who does not wait is home in between, where the appointment is long
// enough: the way back is counted like the way there.
func (s *Schedule) ride(out *Duty, r plan.Ride) {
	there := out.Session.From.Add(-minutes(r.Early))
	out.There, out.Ends = at(there), at(out.Session.To)
	if r.Drive == plan.Unknown || r.Parking == plan.Unknown {
		out.Needs = NeedsRide
		return
	}
	t := Trip{
		Arrive: there, Early: r.Early, Parking: r.Parking, Drive: r.Drive,
		Slack: slack(r.Drive, s.rule(plan.DriveSlack)), Car: s.rule(plan.CarMinutes), Own: out.Own,
	}
	way := minutes(t.Parking + t.Drive + t.Slack)
	t.Leave = there.Add(-way - minutes(t.Car+t.Own))
	out.Trip, out.Leave = t, t.Leave
	home := out.Session.To.Add(minutes(t.Parking + t.Car + t.Drive))
	out.Home = Span{home, home.Add(minutes(t.Slack))}
	out.Free = out.Home.To.Add(minutes(t.Own))
	if r.Leaves {
		gap := Span{there.Add(way + minutes(t.Own)), out.Session.To.Add(-way - minutes(t.Own))}
		if gap.To.Sub(gap.From) >= gapLeast {
			out.Gap = gap
		}
	}
}

func minutes(n int) time.Duration { return time.Duration(n) * time.Minute }

// Busy is the time in which the helper of a duty cannot be elsewhere: one span, or
// two with the time at home between them; none where it is not known.
func (d *Duty) Busy() []Span {
	from, to := d.begin(), d.Free
	if d.Needs != Nothing && d.Leave.IsZero() && d.Kind == Drive || from.IsZero() || to.IsZero() {
		return nil
	}
	if d.Gap.Known() {
		return []Span{{from, d.Gap.From}, {d.Gap.To, to}}
	}
	return []Span{{from, to}}
}

// Who has a duty: 1 + the helper's place in Plan.Helpers, 0 for nobody yet. Of the
// family's each date has its own.
func (s *Schedule) Who(d *Duty) uint8 {
	if d.Family != nil {
		return d.Family.WhoHas(d.On.Of)
	}
	if d.IsSlot() {
		return s.Plan.WhoHasSlot(d.Slot)
	}
	for i, id := range plan.BuiltIn {
		if id == d.ID {
			return s.Plan.Cover[i]
		}
	}
	return 0
}
