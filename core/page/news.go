package page

import (
	"slices"
	"strings"

	"newel/core/merge"
	"newel/core/plan"
	"newel/core/schedule"
)

// News is what became of a plan since the person last looked.
type News struct {
	People
	Read  *merge.Doc         // the plan as the person knows it
	Times *schedule.Schedule // the times that they have seen last
	Now   *schedule.Schedule // of People.Doc
}

// newsMost is how many lines of a kind are shown at once; the rest can be unfolded.
const newsMost = 4

// newsMaker gathers the lines. A line ends with who changed it, as far as the plan says.
type newsMaker struct {
	teller
	Read       *merge.Doc
	Times, Now *schedule.Schedule
	before     plan.Plan
	differ     map[uint32][]merge.Key // the registers that differ, by duty; 0: the plan's own
	acted      []merge.Actor          // devices of which something was not read yet
}

// NewsNotice lists what the others changed, with their names: when to be there, to leave,
// and to stop eating and drinking, then the other facts, who does what and when, what else
// that moved, what was ticked. What was changed on this device is not news,
// except for the times that it moved: these have to be gone through, whoever moved them.
//
// ok is false where there is nothing to tell.
func NewsNotice(in News) (n Notice, ok bool) {
	m := newNewsMaker(in)
	n = Notice{ID: "moved", MoreTitle: m.v.Say("moved.more"), Acts: []Act{{Path: "/read", Button: m.v.Say("moved.ok")}}}
	pressing, moves := m.moves()
	n.Lines = append(m.facts(pressingFacts), pressing...)
	count := len(n.Lines)
	for i, lines := range [][]string{m.facts(factKeys()), m.family(), moves, m.lines(), m.ticks()} {
		most := min(len(lines), newsMost)
		if i > 1 && len(n.Lines) >= newsMost { // chores wait in the fold: what is next follows
			most = 0
		}
		n.Lines, n.More = append(n.Lines, lines[:most]...), append(n.More, lines[most:]...)
		count += len(lines)
	}
	if count == 0 {
		return n, false
	}
	n.Text = m.surgery() + m.v.Count("moved.count", count)
	return n, true
}

func newNewsMaker(in News) *newsMaker {
	m := &newsMaker{
		teller: newTeller(in.People, &in.Now.Plan), Read: in.Read, Times: in.Times, Now: in.Now,
		before: in.Read.Plan(), differ: map[uint32][]merge.Key{},
	}
	for _, k := range append(in.Read.Keys(), in.Doc.Keys()...) {
		if !slices.Equal(in.Read.Get(k), in.Doc.Get(k)) && !slices.Contains(m.differ[k.Of], k) {
			m.differ[k.Of] = append(m.differ[k.Of], k)
		}
	}
	for _, s := range in.Doc.Seen() {
		if s.N > in.Read.Last(s.Actor) {
			m.acted = append(m.acted, s.Actor)
		}
	}
	return m
}

// writer gives the device that wrote what a register shows. Of one that was emptied it is
// only known where a single device changed anything.
func (m *newsMaker) writer(k merge.Key) merge.Stamp {
	if s := m.Doc.Writer(k); s.N != 0 {
		return s
	}
	if len(m.acted) == 1 {
		return merge.Stamp{Actor: m.acted[0], N: 1}
	}
	return merge.Stamp{}
}

// by names the others who changed some registers since they were read, "" where the plan
// does not say. own tells that it was this device alone.
func (m *newsMaker) by(keys ...merge.Key) (names string, own bool) {
	var others []merge.Stamp
	for _, k := range keys {
		if slices.Equal(m.Read.Get(k), m.Doc.Get(k)) {
			continue
		}
		s := m.writer(k)
		if m.isMe(s) && s.N != 0 {
			own = true
			continue
		}
		others = append(others, s)
	}
	if len(others) > 0 {
		own = false
	}
	named := slices.DeleteFunc(slices.Clone(others), func(s merge.Stamp) bool {
		return s.N == 0 || s.Actor != merge.Maker && m.Doc.HandOf(s.Actor) == ""
	})
	return m.v.List(m.names(named)), own
}

// add adds a line with who changed it, unless that was this device alone. key is the
// sentence for who.
func (m *newsMaker) add(lines []string, line, key string, keys ...merge.Key) []string {
	names, own := m.by(keys...)
	switch {
	case own:
		return lines
	case names == "":
		return append(lines, line)
	}
	return append(lines, m.v.Say(key, arg("what", line), arg("who", names)))
}

// surgery says first that the day is another one, and what that does not move.
func (m *newsMaker) surgery() string {
	was, is := m.Times.Plan.Surgery, m.Now.Plan.Surgery
	if was == is {
		return ""
	}
	text := m.v.Say("moved.surgery", arg("before", m.v.Day(was)), arg("after", m.v.Day(is)))
	if names, _ := m.by(merge.Key{Field: merge.Surgery}); names != "" {
		text = m.v.Say("moved.surgery.by", arg("before", m.v.Day(was)), arg("after", m.v.Day(is)), arg("who", names))
	}
	if at := m.Now.Plan.Arrival; at.Known() && at == m.Times.Plan.Arrival {
		text += "\n" + m.v.Say("moved.arrival", arg("time", m.clock(at)), arg("day", m.v.Day(was)))
	}
	if len(m.Now.Series) > 0 {
		// They were agreed with a clinic or with each other; nobody but the family can move them.
		text += "\n" + m.v.Say("moved.family")
	}
	return text + "\n"
}

// pressingFacts may never stand behind a fold, whatever else is new: when to be there, whom to call and when, and
// the rules of eating and drinking, whose times may not be known.
var pressingFacts = []merge.Key{
	{Field: merge.Arrival}, {Field: merge.Phone},
	{Field: merge.HospitalText, Sub: uint32(plan.AfterPhone)}, {Field: merge.HospitalText, Sub: uint32(plan.EmergencyNumber)},
	{Field: merge.Setting, Sub: uint32(plan.FoodStop)}, {Field: merge.Setting, Sub: uint32(plan.LiquidsBefore)}, {Field: merge.Setting, Sub: uint32(plan.Fever)},
}

// factKeys are the other facts that are told about, in the order of the form. The day of surgery has its own sentence.
func factKeys() []merge.Key {
	var keys []merge.Key
	for _, f := range []merge.Field{merge.Joint, merge.Operation, merge.Stay, merge.Drive, merge.Parking, merge.Patient} {
		keys = append(keys, merge.Key{Field: f})
	}
	for _, f := range plan.FactKeys {
		keys = append(keys, merge.Key{Field: merge.Fact, Sub: bit(f.Fact)})
	}
	for _, f := range []merge.Field{merge.Hospital, merge.Address, merge.Phone, merge.Zone} {
		keys = append(keys, merge.Key{Field: f})
	}
	for r := range plan.Rules {
		keys = append(keys, merge.Key{Field: merge.Setting, Sub: uint32(r)})
	}
	for t := range plan.ProgramTextKeys {
		keys = append(keys, merge.Key{Field: merge.HospitalText, Sub: uint32(t)})
	}
	return slices.DeleteFunc(keys, func(k merge.Key) bool { return slices.Contains(pressingFacts, k) })
}

// bit is the place of a fact's bit.
func bit(f plan.Facts) uint32 {
	n := uint32(0)
	for ; f > 1; f >>= 1 {
		n++
	}
	return n
}

// facts has a line for each of some facts that is another one.
func (m *newsMaker) facts(keys []merge.Key) []string {
	var lines []string
	for _, k := range keys {
		value := m.ofPlan(m.p, k)
		if value == m.ofPlan(&m.before, k) {
			continue
		}
		line := m.v.Say("news.fact", arg("what", strings.TrimSuffix(m.label(k), "?")), arg("value", value))
		lines = m.add(lines, line, "news.changed", k)
	}
	return lines
}

// ofPlan says a fact as it stands in a plan.
func (t teller) ofPlan(p *plan.Plan, k merge.Key) string {
	switch k.Field {
	case merge.Arrival:
		return t.clock(p.Arrival)
	case merge.Joint:
		return t.number(k, int(p.Joint))
	case merge.Operation:
		return t.number(k, int(p.Operation))
	case merge.Stay:
		return t.number(k, int(p.Stay))
	case merge.Drive:
		return t.number(k, p.Drive)
	case merge.Parking:
		return t.number(k, p.Parking)
	case merge.Fact:
		if p.Facts.Has(plan.Facts(1) << k.Sub) {
			return t.v.Say("yes")
		}
		return t.v.Say("no")
	case merge.Setting:
		return t.number(k, p.Program.Get(plan.Rule(k.Sub)))
	case merge.HospitalText:
		return t.hospitalText(p.Program.Texts[k.Sub])
	case merge.Patient:
		return t.text(p.Patient)
	case merge.Hospital:
		return t.text(p.Program.Hospital)
	case merge.Address:
		return t.text(p.Program.Address)
	case merge.Phone:
		return t.text(p.Program.Phone)
	}
	return p.Zone
}

// pressingMoves are what may never stand behind a fold when its time is another one, in the
// order in which they are told.
var pressingMoves = []string{"drive-there", "food-stop", "liquid-stop"}

// moves lists what is on another day or time: what is pressing by itself, of the rest the
// duties first, since people have to be somewhere for them.
func (m *newsMaker) moves() (pressing, others []string) {
	moves := schedule.Moves(m.Times, m.Now)
	for _, id := range pressingMoves {
		for _, move := range moves {
			if move.ID == id {
				pressing = append(pressing, moveLine(m.v, &m.Now.Plan, move))
			}
		}
	}
	for _, move := range moves {
		if !slices.Contains(pressingMoves, move.ID) && !m.newDay(move.Line) {
			others = append(others, moveLine(m.v, &m.Now.Plan, move))
		}
	}
	return pressing, others
}
