package page

import (
	"time"

	"newel/core/plan"
	"newel/core/wall"
)

// The questions of the say-it-back page about the time at home.

func (m *maker) askEmergency() (SayQuestion, bool) {
	signs := m.v.Signs(m.p)
	q := m.question("emergency", "", signs.Emergency.Why, nil, arg("number", signs.Number))
	q.Fact = signs.Number
	for _, l := range signs.Emergency.How {
		if l.Point { // the sentence before them is said already
			q.Points = append(q.Points, l)
		}
	}
	return q, true
}

func (m *maker) askOffice() (SayQuestion, bool) {
	phone := m.v.PhoneText(&m.p.Program)
	which := ".no-phone"
	if phone != "" {
		which = ".phone"
	}
	q := m.question("office", which, m.v.Signs(m.p).Office.Why, nil, arg("phone", phone))
	q.Fact += "." + phone
	return q, true
}

// askStay asks how long somebody has to be in the house; not once that is over.
func (m *maker) askStay() (SayQuestion, bool) {
	hours := m.p.Program.Get(plan.StayWithHours)
	if hours == 0 {
		return SayQuestion{}, false
	}
	until := time.Time{}
	for _, p := range m.s.Presence() {
		if least := m.s.MustLeast(p); least.After(until) {
			until = least
		}
	}
	if until.IsZero() || len(m.s.Presence()) > 1 {
		q := m.question("stay", ".hours", m.why("stay-with"), nil)
		q.Fact += "." + number(hours)
		return q, until.IsZero() || until.After(m.Now)
	}
	return m.question("stay", ".until", m.why("stay-with"), []time.Time{until}, arg("when", m.v.DayTime(until))), until.After(m.Now)
}

// askRide asks for the next ride to therapy, and who drives.
func (m *maker) askRide() (SayQuestion, bool) {
	for i := range m.s.Duties {
		d := &m.s.Duties[i]
		if d.Family == nil || d.ID != plan.DutyKeys[plan.TherapyRide] || !d.There.From.After(m.Now) || d.Leave.IsZero() {
			continue
		}
		who := m.p.Helper(m.s.Who(d))
		name, which := who, ".somebody"
		if who == "" {
			which = ".nobody"
		}
		q := m.question("ride", which, m.why("therapy"), []time.Time{d.Leave, d.There.From},
			arg("day", m.v.Day(wall.DateOf(d.Leave))), arg("leave", m.v.Time(d.Leave)), arg("there", m.v.Time(d.There.From)), arg("who", name))
		q.Fact += "." + who
		return q, true
	}
	return SayQuestion{}, false
}

func (m *maker) askWalk() (SayQuestion, bool) {
	return m.question("walk", "", m.why("walk-often"), nil), true
}

func (m *maker) askPain() (SayQuestion, bool) {
	return m.question("pain", "", m.why("pain-medicine"), nil), true
}

func (m *maker) askPumps() (SayQuestion, bool) {
	return m.question("pumps", "", m.why("ankle-pumps"), nil), true
}

func (m *maker) askHands() (SayQuestion, bool) {
	return m.question("hands", "", m.why("clean-hands"), nil), true
}

func (m *maker) askDriving() (SayQuestion, bool) {
	return m.question("driving", "", m.why("driving-again"), nil), true
}

// askClots asks until when to look for the signs of a clot; not once that is over.
func (m *maker) askClots() (SayQuestion, bool) {
	n := m.p.Program.Get(plan.ClotDays)
	last := m.p.Surgery + wall.Date(n)
	q := m.question("clots", "", m.v.Signs(m.p).Clots.Why, nil, arg("day", m.v.Day(last)), arg("days", m.v.Count("unit.days", n)))
	q.Fact += "." + number(int(last))
	return q, last >= m.today
}
