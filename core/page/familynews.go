package page

import (
	"slices"

	"newel/core/guide"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/wall"
)

// What a line about a duty is about: its times, who has it, its words.
var (
	timeFields = []merge.Field{merge.Pattern, merge.Date, merge.Extra, merge.Length, merge.Own, merge.Way, merge.Walk, merge.Early, merge.Leaves}
	whoFields  = []merge.Field{merge.Who, merge.On, merge.Takes}
	wordFields = []merge.Field{merge.Title, merge.Place, merge.Note}
)

// of lists the registers of a duty and of some fields that differ from what was read.
func (m *newsMaker) of(id uint32, fields []merge.Field) []merge.Key {
	return slices.DeleteFunc(slices.Clone(m.differ[id]), func(k merge.Key) bool { return !slices.Contains(fields, k.Field) })
}

// family lists who has the drives of the surgery and the rest that every plan has, then what
// is different about the family's duties: one line for a rule, not one for each date.
func (m *newsMaker) family() []string {
	var lines []string
	for i, id := range plan.BuiltIn {
		if who := m.p.Helper(m.p.Cover[i]); m.before.Helper(m.before.Cover[i]) != who {
			what := m.v.Entry(id, "", m.v.Fills(m.p, 0, 0)...).Title
			lines = m.add(lines, m.whoLine(what, who), "news.changed", merge.Key{Field: merge.Cover, Sub: uint32(i)})
		}
	}
	lines = append(append(lines, m.shiftsNews()...), m.helpersNews()...)
	for i := range m.p.Duties {
		lines = append(lines, m.aboutDuty(&m.p.Duties[i])...)
	}
	for i := range m.before.Duties {
		if d := &m.before.Duties[i]; !d.Dropped && m.p.Duty(d.ID) == nil {
			lines = append(lines, m.v.Say("changed.gone", arg("what", m.v.DutyTitle(d))))
		}
	}
	return append(lines, m.idle()...)
}

// aboutDuty has the lines about one duty: that it is new or gone, or else its times, who has
// it, and its words, each for itself.
func (m *newsMaker) aboutDuty(d *plan.Duty) []string {
	var lines []string
	what, rule := arg("what", m.v.DutyTitle(d)), arg("rule", m.v.Rule(d.Rule, guide.Things(d.Kind)))
	one := m.v.Say("changed.which", what, arg("rule", m.v.RuleShort(d.Rule))) // two may have one title
	was := m.before.Duty(d.ID)
	switch {
	case was == nil && d.Dropped, was != nil && was.Dropped && d.Dropped:
		return nil
	case was == nil:
		return m.add(nil, m.v.Say("changed.new", what, rule), "news.added", merge.Key{Field: merge.Kind, Of: d.ID})
	case was.Dropped:
		return m.add(nil, m.v.Say("changed.new", what, rule), "news.added", merge.Key{Field: merge.Alive, Of: d.ID})
	case d.Dropped:
		return m.add(nil, m.v.Say("changed.gone", arg("what", one)), "news.taken-out", merge.Key{Field: merge.Gone, Of: d.ID})
	}
	if !was.SameTimes(*d) {
		lines = m.add(lines, m.v.Say("changed.rule", what, rule), "news.changed", m.of(d.ID, timeFields)...)
	}
	for _, line := range m.who(was, d, one) {
		lines = m.add(lines, line, "news.changed", m.of(d.ID, whoFields)...)
	}
	if was.Kind != d.Kind { // no form does that; but a night that is pet care now would look covered
		line := m.v.Say("changed.kind", arg("what", one), arg("kind", m.v.Entry(plan.DutyKeys[d.Kind], "").Title))
		lines = m.add(lines, line, "news.changed", merge.Key{Field: merge.Kind, Of: d.ID})
	}
	if was.Place != d.Place || was.Note != d.Note || was.Title != d.Title {
		lines = m.add(lines, m.v.Say("changed.words", arg("what", one)), "news.changed", m.of(d.ID, wordFields)...)
	}
	return append(lines, m.needNews(was, d, arg("what", one))...)
}

// who says who has a duty now: all of it, the dates on some weekdays, single dates.
func (m *newsMaker) who(was, d *plan.Duty, what string) []string {
	var lines []string
	if name := m.p.Helper(d.Who); m.before.Helper(was.Who) != name {
		lines = append(lines, m.whoLine(what, name))
	}
	var share shares
	for day := range d.On {
		if name := m.holder(d, d.On[day]); m.holderBefore(was, was.On[day]) != name && (d.On[day] != 0 || was.On[day] != 0) {
			share.add(name, m.v.Say("repeat.weekday."+number(day)))
		}
	}
	for _, day := range takenDays(was, d) {
		if name := m.p.Helper(d.WhoHas(day)); m.before.Helper(was.WhoHas(day)) != name {
			share.add(name, m.v.ShortDay(day))
		}
	}
	for i, name := range share.names {
		dates := m.some(share.dates[i])
		if name == "" {
			lines = append(lines, m.v.Say("changed.nobody.some", arg("what", what), arg("dates", dates)))
		} else {
			lines = append(lines, m.v.Say("changed.who.some", arg("what", what), arg("who", name), arg("dates", dates)))
		}
	}
	return lines
}

// holder gives who has the dates on a weekday: as the duty says where nothing is said.
func (m *newsMaker) holder(d *plan.Duty, who uint8) string {
	if who == 0 {
		who = d.Who
	}
	return m.p.Helper(who)
}

func (m *newsMaker) holderBefore(d *plan.Duty, who uint8) string {
	if who == 0 {
		who = d.Who
	}
	return m.before.Helper(who)
}

// shares gathers dates by who has them, in the order of the dates.
type shares struct {
	names []string
	dates [][]string
}

func (s *shares) add(name, date string) {
	i := slices.Index(s.names, name)
	if i < 0 {
		i = len(s.names)
		s.names, s.dates = append(s.names, name), append(s.dates, nil)
	}
	s.dates[i] = append(s.dates[i], date)
}

// takenDays are the days that either of two states of a duty gives to somebody by
// themselves.
func takenDays(was, d *plan.Duty) []wall.Date {
	var days []wall.Date
	for _, t := range append(slices.Clone(was.Takes), d.Takes...) {
		days = append(days, t.Day)
	}
	slices.Sort(days)
	return slices.Compact(days)
}

func (m *newsMaker) whoLine(what, who string) string {
	if who == "" {
		return m.v.Say("changed.nobody", arg("what", what))
	}
	return m.v.Say("changed.who", arg("what", what), arg("who", who))
}

// idle lists the dates that one person moved while another changed the days of the duty:
// such a date stands beside the new days now, and only people know whether it still holds.
func (m *newsMaker) idle() []string {
	known := m.Read.Idle()
	var lines []string
	for _, k := range m.Doc.Idle() {
		versions, d := m.Doc.Get(k), m.p.Duty(k.Of)
		if d == nil || slices.Contains(known, k) || versions[len(versions)-1].Value == "-" {
			continue
		}
		lines = append(lines, m.v.Say("news.idle", arg("what", m.duty(d)),
			arg("day", m.v.ShortDay(wall.Date(k.Sub))), arg("to", m.value(k, versions[len(versions)-1].Value))))
	}
	return lines
}
