package page

import (
	"time"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
)

// cardTimesMost is how many times stand on a card.
const cardTimesMost = 6

// cardTimes picks the six times that matter to a patient and their family before they have put
// anything in themselves. The last of the list stands in where a program has no hours in which
// somebody must stay.
func (m *maker) cardTimes() []CardTime {
	all := []CardTime{m.cardWash(), m.cardFood(), m.cardDrink(), m.cardArrival(), m.cardHome()}
	if m.p.Program.Get(plan.StayWithHours) > 0 {
		all = append(all, m.cardStay())
	} else {
		all = append(all, CardTime{Label: m.v.Say("desk-cards.clots"), When: m.v.Say("desk-cards.until", arg("when", m.v.ShortDay(m.lastClotDay())))})
	}
	return all[:cardTimesMost]
}

// cardWash is the first of the washes; a program has one day of them at least.
func (m *maker) cardWash() CardTime {
	washes := m.steps("wash")
	first := washes[0]
	t := CardTime{Label: m.v.Say("desk-cards.wash"), When: m.v.ShortDay(first.First), Note: m.v.Count("desk-cards.washes", len(washes))}
	if first.Evening {
		t.When = m.v.Say("due-at.evening", arg("day", t.When))
	}
	return t
}

func (m *maker) cardFood() CardTime {
	s := m.steps("food-stop")[0]
	t := m.cardStop(s, "desk-cards.food")
	heavy := m.s.Fasting.HeavyStop
	switch {
	case s.Due != schedule.AtTime:
	case m.s.Arrival.IsZero() && !m.p.Program.Own(plan.FoodStop):
		t.Note = m.v.Say("desk-cards.food.early", arg("early", m.v.Time(m.s.EarlyArrival())))
	case !heavy.IsZero() && heavy.Before(s.Until):
		t.Note = m.v.Say("desk-cards.food.heavy", arg("time", m.v.Time(heavy)))
	}
	return t
}

func (m *maker) cardDrink() CardTime {
	s := m.steps("liquid-stop")[0]
	t := m.cardStop(s, "desk-cards.drink")
	if s.Due == schedule.AtTime {
		t.Note = m.v.Say("desk-cards.drink.clear")
	}
	return t
}

// cardStop is when eating or drinking stops. A time that must not be computed is asked for.
func (m *maker) cardStop(s *schedule.Step, label string) CardTime {
	t := CardTime{Label: m.v.Say(label), Line: true}
	switch {
	case m.s.Fasting.TeamTimes:
		t.When = m.v.Say("desk-cards.team")
	case s.Due != schedule.AtTime:
		t.When, t.Note = m.v.Say("desk-cards.unknown"), m.v.Say("desk-cards.ask")
	default:
		t.When, t.Line = m.v.ShortDayTime(s.Until), false
	}
	return t
}

// cardArrival is when to be at the hospital. When to leave home is the family's to know.
func (m *maker) cardArrival() CardTime {
	t := CardTime{Label: m.v.Say("desk-cards.there")}
	if m.s.Arrival.IsZero() {
		t.When = m.v.Say("desk-cards.there.unknown", arg("day", m.v.ShortDay(m.p.Surgery)))
		t.Note, t.Line = m.v.Say("desk-cards.call", arg("day", m.callDays())), true
		return t
	}
	t.When = m.v.ShortDayTime(m.s.Arrival)
	return t
}

// callDays are the days on which the hospital's call may come.
func (m *maker) callDays() string {
	first, last := m.s.CallDays()
	if first == last {
		return m.v.ShortDay(last)
	}
	return m.v.Say("desk-cards.or", arg("one", m.v.ShortDay(first)), arg("other", m.v.ShortDay(last)))
}

// cardHome is when the patient usually goes home; of two possible ways both are said.
func (m *maker) cardHome() CardTime {
	t := CardTime{Label: m.v.Say("desk-cards.home")}
	for i := range m.s.Duties {
		d := &m.s.Duties[i]
		if !d.Homeward || d.Family != nil {
			continue
		}
		when, note := m.cardHomeOf(d)
		if t.When == "" {
			t.When, t.Note = when, note
			continue
		}
		t.Note = m.v.Say("desk-cards.home.either", arg("note", t.Note), arg("when", when), arg("other", note))
	}
	return t
}

func (m *maker) cardHomeOf(d *schedule.Duty) (when, note string) {
	switch {
	case d.Branch == schedule.IfOneNight:
		return m.v.Say("desk-cards.home.there", arg("when", m.v.ShortDayTime(d.There.From))), m.v.Say("desk-cards.home.morning", arg("leave", m.v.Time(d.Ends.To)))
	case d.Needs == schedule.NeedsArrival:
		return m.v.ShortDay(m.p.Surgery), m.v.Say("desk-cards.home.nurse")
	}
	return m.v.Say("desk-cards.from", arg("when", m.v.ShortDayTime(d.There.From))), m.v.Say("desk-cards.home.nurse")
}

// cardStay is how long somebody has to be in the house. When that begins is not known before
// the way home is: then it is said as hours.
func (m *maker) cardStay() CardTime {
	t := CardTime{Label: m.v.Say("desk-cards.stay")}
	until := time.Time{}
	for _, p := range m.s.Presence() {
		if least := m.s.MustLeast(p); least.After(until) {
			until = least
		}
	}
	if plans := m.p.Program.Get(plan.PresenceHours); plans > m.p.Program.Get(plan.StayWithHours) {
		t.Note = m.v.Say("desk-cards.stay.plan", guide.Number("n", plans))
	}
	if until.IsZero() || len(m.s.Presence()) > 1 {
		t.When = m.v.Say("desk-cards.stay.hours", guide.Number("n", m.p.Program.Get(plan.StayWithHours)))
		return t
	}
	t.When = m.v.Say("desk-cards.until", arg("when", m.v.ShortDayTime(until)))
	return t
}
