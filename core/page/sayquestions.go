package page

import (
	"strconv"
	"strings"
	"time"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// SayQuestion is one question of the say-it-back page. Every answer is the schedule's own.
type SayQuestion struct {
	ID     string
	Topic  string // in few words, for what is to be explained again
	Ask    string
	Answer string
	Note   string // who else may have a say
	Points []guide.Line
	Why    string
	Fact   string // changes when the plan's answer does, and with nothing else
}

// sayQuestions picks the six questions that matter most on this day: what lies ahead first,
// and always what to do in an emergency.
func (m *maker) sayQuestions() []SayQuestion {
	ahead := []func() (SayQuestion, bool){
		m.askWash, m.askFood, m.askDrink, m.askLeave, m.askHome, m.askEmergency,
		m.askOffice, m.askStay, m.askWalk, m.askPain,
	}
	if m.arrived() {
		ahead = []func() (SayQuestion, bool){
			m.askHome, m.askEmergency, m.askOffice, m.askStay, m.askRide, m.askWalk, m.askPain, m.askClots, m.askPumps, m.askDriving, m.askHands,
		}
	}
	var all []SayQuestion
	for _, ask := range ahead {
		if q, ok := ask(); ok && len(all) < questionsAsked {
			all = append(all, q)
		}
	}
	return all
}

// question makes one whose words stand under its id; which tells apart what an answer may
// be, and times are those that it names.
func (m *maker) question(id, which, why string, times []time.Time, args ...guide.Arg) SayQuestion {
	args = append(args, m.v.Fills(m.p, 0, 0)...)
	facts := []string{which}
	for _, t := range times {
		facts = append(facts, strconv.FormatInt(t.Unix()/60, 36))
	}
	key := "say-back." + id
	return SayQuestion{
		ID: id, Topic: m.v.Say(key+".topic", args...), Ask: m.v.Say(key+which+".ask", args...),
		Answer: m.v.Say(key+which+".answer", args...), Why: why, Fact: strings.Join(facts, "."),
	}
}

// steps lists the steps of a kind.
func (m *maker) steps(id string) []*schedule.Step {
	var all []*schedule.Step
	for i := range m.s.Steps {
		if m.s.Steps[i].ID == id {
			all = append(all, &m.s.Steps[i])
		}
	}
	return all
}

func (m *maker) why(id string) string { return m.v.Entry(id, "", m.v.Fills(m.p, 0, 0)...).Why }

func (m *maker) askWash() (SayQuestion, bool) {
	washes := m.steps("wash")
	first, last := washes[0], washes[len(washes)-1]
	which := ".evening"
	if m.p.Program.Get(plan.WashMorning) == 1 {
		which = ".morning"
	}
	q := m.question("wash", which, m.why("wash"), nil,
		arg("day", m.v.Day(first.First)), arg("last", m.v.Day(last.Last)), arg("times", m.v.Count("count.times", len(washes))))
	q.Fact += "." + number(len(washes)) + "." + number(int(first.First))
	return q, true
}

func (m *maker) askFood() (SayQuestion, bool) { return m.askStop("food", m.steps("food-stop")[0]) }

func (m *maker) askDrink() (SayQuestion, bool) { return m.askStop("drink", m.steps("liquid-stop")[0]) }

// askStop asks when eating or drinking stops; not once it has.
func (m *maker) askStop(id string, s *schedule.Step) (SayQuestion, bool) {
	why := m.words(s).Why
	switch {
	case m.s.Fasting.TeamTimes:
		return m.question(id, ".team", why, nil), true
	case s.Due != schedule.AtTime:
		_, call := m.s.CallDays()
		return m.question(id, ".unknown", why, nil, arg("day", m.v.Day(call))), true
	}
	q := m.question(id, ".time", why, []time.Time{s.Until},
		arg("weekday", m.v.Weekday(wall.DateOf(s.Until))), arg("when", m.v.DayTime(s.Until)))
	q.Note = m.v.Say("team-first")
	return q, s.Until.After(m.Now)
}

// askLeave asks when to leave for the hospital, as far as that is known.
func (m *maker) askLeave() (SayQuestion, bool) {
	why, day := m.why("drive-there"), arg("day", m.v.Day(m.p.Surgery))
	if m.s.Arrival.IsZero() {
		_, call := m.s.CallDays()
		q := m.question("leave", ".unknown", why, nil, arg("call", m.v.Day(call)), arg("hospital", m.hospital()))
		q.Fact += "." + number(int(call))
		return q, true
	}
	there := arg("there", m.v.Time(m.s.Arrival))
	for i := range m.s.Duties {
		if d := &m.s.Duties[i]; d.ID == "drive-there" && !d.Leave.IsZero() {
			return m.question("leave", ".time", why, []time.Time{d.Leave, m.s.Arrival}, there,
				arg("day", m.v.Day(wall.DateOf(d.Leave))), arg("leave", m.v.Time(d.Leave))), true
		}
	}
	return m.question("leave", ".there", why, []time.Time{m.s.Arrival}, day, there), true
}

// askHome asks when to fetch the patient; of two possible ways home both answers are given.
func (m *maker) askHome() (SayQuestion, bool) {
	var q SayQuestion
	open := false
	for i := range m.s.Duties {
		d := &m.s.Duties[i]
		if !d.Homeward || d.Family != nil {
			continue
		}
		one := m.askHomeOf(d)
		if d.Day >= m.today {
			open = true
		}
		if q.ID == "" {
			q = one
			continue
		}
		q.Answer = m.v.Say("say-back.home.either", arg("one", q.Answer), arg("other", one.Answer))
		q.Fact += "|" + one.Fact
	}
	return q, open
}

func (m *maker) askHomeOf(d *schedule.Duty) SayQuestion {
	why := m.why(d.ID)
	switch {
	case d.Branch == schedule.IfOneNight:
		return m.question("home", ".morning", why, []time.Time{d.There.From, d.Ends.To},
			arg("when", m.v.DayTime(d.There.From)), arg("leave", m.v.Time(d.Ends.To)))
	case d.Needs == schedule.NeedsArrival:
		return m.question("home", ".unknown", why, nil)
	}
	return m.question("home", ".same-day", why, []time.Time{d.There.From}, arg("when", m.v.DayTime(d.There.From)))
}
