package page

import (
	"newel/core/guide"
	"newel/core/picture"
	"newel/core/schedule"
	"newel/core/split"
	"newel/core/wall"
)

// gridKey is what the marks mean: everybody's, and the signs.
func (m *maker) gridKey() []GridKey {
	var key []GridKey
	for i, person := range m.people() {
		key = append(key, GridKey{Kind: GridHas, ID: markID(uint8(i + 1)), Person: person, Text: m.p.Helpers[i]})
	}
	key = append(key, GridKey{Kind: GridGap, Text: m.v.Say("split.open.title")})
	if len(m.p.Helpers) > 0 {
		key = append(key, GridKey{Kind: GridCannot, Text: m.v.Say("split.clash.title")})
	}
	if len(m.Unsettled) > 0 {
		key = append(key, GridKey{Kind: GridAsked, Text: m.v.Say("covergrid.asked")})
	}
	return key
}

// people are the marks of the plan's helpers.
func (m *maker) people() []picture.Person { return picture.People(m.p.Helpers) }

func markID(who uint8) string { return "who-" + number(int(who)) }

// gridPath leads to where who has a date is said.
func (m *maker) gridPath(d *schedule.Duty) string {
	if d.IsSlot() {
		return "/who/" + d.Slot.Name()
	}
	return m.whoPath(d)
}

// gridWords says who has a date, as a cell is heard.
func (m *maker) gridWords(kind GridKind, f *split.Finding) string {
	d := &m.s.Duties[f.Duty]
	text := m.holder(d)
	switch {
	case f.Who == 0:
		text = m.v.Say("covergrid.nobody")
	case kind == GridGap || kind == GridCannot:
		text = m.v.Say("covergrid.has", arg("who", text), arg("why", m.standing(d)))
	}
	return m.inBranch(m.branch(d.Branch), m.gridSince(d, text))
}

// gridHead is the head of a day's column.
func (m *maker) gridHead(day wall.Date, first bool) GridDay {
	_, month, n := day.YMD()
	head := GridDay{
		ISO: day.String(), Weekday: m.v.Say("weekday.short." + number(int(day.Weekday()))), Day: number(n),
		Long: m.v.Day(day), Today: day == m.today, Surgery: day == m.p.Surgery,
	}
	if first || n == 1 {
		head.Month = m.v.Say("month.short." + number(month))
	}
	if head.Today {
		head.Long = joined(head.Long, m.v.Say("near.today"))
	}
	if head.Surgery {
		head.Long = joined(head.Long, m.v.Say("days.surgery"))
	}
	return head
}

// gridOffer is what a bar's post says.
func (m *maker) gridOffer(l split.Load) string {
	return m.v.Say("covergrid.offered", arg("hours", halves(l.Offer)))
}

// drawn is a load as a picture.
func (m *maker) drawn(b Bar, l split.Load, person picture.Person) picture.Bar {
	return picture.Bar{
		Person: person, Now: b.Now, Was: b.Was, Offer: b.Offer, Label: m.gridOffer(l),
		Mirror: guide.Direction(m.v.Language) == guide.RightToLeft,
	}
}

// markOf is the mark of a helper of the plan.
func (m *maker) markOf(who uint8) picture.Person {
	if all := m.people(); who != 0 && int(who) <= len(all) {
		return all[who-1]
	}
	return picture.Person{Fill: 1}
}
