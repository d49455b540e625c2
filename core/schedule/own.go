package schedule

import (
	"time"

	"newel/core/plan"
)

// ownWay is how many minutes the helper who has a date of a duty has from their own home to
// the patient's: as they told it, else as the duty says.
func (s *Schedule) ownWay(d *plan.Duty, who uint8) int {
	if own, told := s.Plan.AboutOf(who).Own(); told {
		return own
	}
	return d.Ride.Own
}

// ownWays says of the duties that every plan has how far away whoever has them lives. Waiting
// has none: how far the hospital is from their home nobody told.
func (s *Schedule) ownWays(duties []Duty) {
	for i := range duties {
		if d := &duties[i]; d.Family == nil && d.Kind != Wait {
			d.Own, _ = s.Plan.AboutOf(s.Who(d)).Own()
		}
	}
}

// FromHome is when whoever has a duty leaves their own home, and when they are back there at
// the latest. What is not known is zero.
//
// The family's own duties hold the own way in Leave and Free. Of those that every plan has
// these are the patient's, so that all copies say one time. Then the own way is counted by
// the patient's home, also where the helper goes from the hospital or to it: that is never
// too late.
func (d *Duty) FromHome() Span {
	way := Span{d.begin(), d.Free}
	if d.Kind == Drive && d.Leave.IsZero() {
		way.From = time.Time{}
	}
	if d.Family != nil {
		return way
	}
	if !way.From.IsZero() {
		way.From = way.From.Add(-minutes(d.Own))
	}
	if !way.To.IsZero() {
		way.To = way.To.Add(minutes(d.Own))
	}
	return way
}

// OwnLeave is when whoever has one of the duties that every plan has leaves their own home,
// where they do not live at the patient's and told how far away; else zero.
func (d *Duty) OwnLeave() time.Time {
	if d.Family != nil || d.Own == 0 {
		return time.Time{}
	}
	return d.FromHome().From
}

// NeedOf is how much a duty is needed; never plan.ByKind. Of the duties that every plan has
// waiting is nice to have, and being with the patient must be in the hours in which somebody
// has to be there, else it should be. A night of the family in those hours must be,
// whatever it says.
func (d *Duty) NeedOf() plan.Need {
	switch {
	case d.Must:
		return plan.MustBe
	case d.Family != nil:
		return d.Family.NeedOf()
	case d.Kind == Wait:
		return plan.NiceToHave
	}
	return plan.ShouldBe
}
