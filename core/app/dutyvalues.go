package app

import (
	"strconv"
	"time"

	"newel/core/page"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/zone"
)

// freshDutyValues are what the form of a new duty begins with. The lengths are
// common practice, no published source, and stand there to be changed; how far it is
// comes from the last duty of the kind.
func (s *session) freshDutyValues(p plan.Plan, kind plan.DutyKind) map[string]string {
	v := map[string]string{"often": "once", "ends": "weeks", "month": "day", "leaves": "wait", "every": "1", "need": page.NeedKeys[plan.ByKind]}
	switch kind {
	case plan.TherapyRide:
		v["often"], v["length"], v["early"] = "weekly", "45", "10"
	case plan.VisitRide, plan.OtherRide:
		v["length"], v["early"] = "30", "10"
	case plan.PetCare:
		v["often"], v["length"] = "daily", "20"
	case plan.Meals:
		v["often"], v["at"], v["length"] = "daily", "12:00", "30"
	case plan.Nights:
		v["often"], v["at"], v["length"] = "daily", "21:00", "600"
	case plan.OtherDuty:
		v["length"] = "60"
	}
	for i := range p.Duties {
		if d := &p.Duties[i]; d.Kind == kind && kind.IsRide() && !d.Dropped {
			v["place"], v["drive"], v["parking"] = d.Place, minutes(d.Ride.Drive), minutes(d.Ride.Parking)
		}
	}
	return v
}

// dutyValues writes a duty as the fields of its form.
func dutyValues(p plan.Plan, d plan.Duty) map[string]string {
	v := map[string]string{
		"title": d.Title, "place": d.Place, "note": d.Note, "who": p.Helper(d.Who), "length": minutes(d.Length),
		"drive": minutes(d.Ride.Drive), "parking": minutes(d.Ride.Parking), "early": minutes(d.Ride.Early), "own": minutes(d.Ride.Own),
		"leaves": leaveAnswers[0], "first": d.Rule.First.String(), "at": d.Rule.At.String(),
		"often": oftenAnswers[d.Rule.Freq], "every": strconv.Itoa(d.Rule.Every), "month": "day", "ends": "weeks",
		"need": page.NeedKeys[plan.ByKind],
	}
	if int(d.Need) < len(page.NeedKeys) {
		v["need"] = page.NeedKeys[d.Need]
	}
	if d.Steady {
		v["steady"] = "1"
	}
	if d.Ride.Leaves {
		v["leaves"] = leaveAnswers[1]
	}
	ruleValues(v, d.Rule)
	if loc, err := zone.Load(p.Zone); err == nil && !sayable(v, d.Rule, loc) {
		v["often"], v["rule"] = "text", d.Rule.Recur(nil)
	}
	return v
}

func ruleValues(v map[string]string, r repeat.Rule) {
	for d := range time.Weekday(7) {
		if r.Days.Has(d) {
			v["day-"+strconv.Itoa(int(d))] = "1"
		}
	}
	switch {
	case len(r.MonthDays) == 1 && r.MonthDays[0] == -1:
		v["month"] = "end"
	case len(r.Nth) == 1 && r.Nth[0].N == -1:
		v["month"] = "last"
	case len(r.Nth) == 1:
		v["month"] = "nth"
	}
	switch span := int(r.Last-r.First) + 1; {
	case r.Count > 0:
		v["ends"], v["times"] = "times", strconv.Itoa(r.Count)
	case r.Last != 0 && span%7 == 0:
		v["weeks"] = strconv.Itoa(span / 7)
	case r.Last != 0:
		v["ends"], v["last"] = "day", r.Last.String()
	case r.Endless():
		v["ends"] = "never"
	}
}

// sayable tells whether the form's plain controls can say a rule. What they cannot
// came as a text, and is shown as one.
func sayable(values map[string]string, r repeat.Rule, loc *time.Location) bool {
	e := &entry{values: values}
	return e.rule(r, loc).Equal(r) && len(e.problems) == 0
}
