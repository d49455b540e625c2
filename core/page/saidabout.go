package page

import (
	"strconv"

	"newel/core/guide"
	"newel/core/merge"
	"newel/core/plan"
)

// need says how much a duty is needed.
func (t teller) need(id uint32, n plan.Need) string {
	if n != plan.ByKind && int(n) < len(NeedKeys) {
		return t.v.Say("duty-form.need." + NeedKeys[n])
	}
	usual := plan.Duty{}
	if d := t.p.Duty(id); d != nil {
		usual.Kind = d.Kind
	}
	return t.v.Say("duty-form.need.kind", arg("usual", t.v.Say("duty-form.need."+NeedKeys[usual.NeedOf()])))
}

// about says what was told of a helper, with every part in which two can differ.
func (t teller) about(value string) string {
	a, ok := merge.ReadAbout(value)
	if !ok { // of a later page, or taken away
		return t.v.Say("thing.nothing")
	}
	said := t.abilities(a.Can)
	if a.Away != plan.Unknown {
		said = append(said, t.v.Count("thing.away", a.Away))
	}
	offer := [...]string{plan.Usual: "usual", plan.Light: "light", plan.ALot: "lot"}[a.Offer]
	said = append(said, t.v.Say("helper.offer."+offer, arg("hours", strconv.Itoa(plan.OfferHours[a.Offer]))))
	for _, times := range a.Times {
		said = append(said, TimesText(t.v, times))
	}
	if a.Likes != 0 {
		said = append(said, t.v.Say("thing.rather", arg("list", t.tasks(a.Likes))))
	}
	if a.Avoids != 0 {
		said = append(said, t.v.Say("thing.rather-not", arg("list", t.tasks(a.Avoids))))
	}
	return t.v.List(said)
}

func (t teller) abilities(can plan.Abilities) []string {
	if can == 0 {
		return []string{t.v.Say("thing.cannot")}
	}
	var said []string
	for i, key := range []string{"drive", "night", "steady", "pets"} {
		if can&(1<<i) != 0 {
			said = append(said, t.v.Say("helper.can."+key, arg("name", t.v.Patient(t.p))))
		}
	}
	return said
}

func (t teller) tasks(set plan.Tasks) string {
	var said []string
	for i, key := range []string{"ride", "hospital", "pets", "meals", "night", "company", "other"} {
		if set&(1<<i) != 0 {
			said = append(said, t.v.Say("task."+key))
		}
	}
	return t.v.List(said)
}

// helpersNews says what is told of helpers now, and who cannot help any more.
func (m *newsMaker) helpersNews() []string {
	var lines []string
	for i, name := range m.p.Helpers {
		is, was := m.p.AboutOf(uint8(i+1)), m.aboutBefore(name)
		told, out := merge.Key{Field: merge.About, Name: name}, merge.Key{Field: merge.Out, Name: name}
		who := arg("who", name)
		if is.Out != was.Out {
			key := "changed.out"
			if was.Out {
				key = "changed.out.back"
			}
			lines = m.add(lines, m.v.Say(key, who), "news.changed", out)
		}
		is.Out, was.Out = false, false
		switch {
		case is.Equal(was):
		case !is.Told:
			lines = m.add(lines, m.v.Say("changed.about.gone", who), "news.changed", told)
		case m.Doc.HandOf(m.writer(told).Actor) == name:
			if _, own := m.by(told); !own {
				lines = append(lines, m.v.Say("changed.about.self", who))
			}
		default:
			lines = m.add(lines, m.v.Say("changed.about", who), "news.changed", told)
		}
	}
	return lines
}

func (m *newsMaker) aboutBefore(name string) plan.About {
	for i, known := range m.before.Helpers {
		if known == name {
			return m.before.AboutOf(uint8(i + 1))
		}
	}
	return plan.About{}
}

// shiftsNews says who has single parts of staying with the patient now.
func (m *newsMaker) shiftsNews() []string {
	title := m.v.Entry(plan.BuiltIn[plan.StayWith], "", m.v.Fills(m.p, 0, 0)...).Title
	var share shares
	keys := map[string][]merge.Key{}
	for slot := range plan.MaxSlot + 1 {
		// What the whole stay gives has a line of its own.
		name, key := m.p.Helper(m.p.WhoHasSlot(slot)), merge.Key{Field: merge.Shift, Sub: uint32(slot)}
		if !hasShift(m.p, slot) && !hasShift(&m.before, slot) || m.before.Helper(m.before.WhoHasSlot(slot)) == name {
			continue
		}
		share.add(name, m.v.Slot(m.p, slot))
		keys[name] = append(keys[name], key)
	}
	var lines []string
	for i, name := range share.names {
		line := m.v.Say("changed.nobody.some", arg("what", title), arg("dates", m.some(share.dates[i])))
		if name != "" {
			line = m.v.Say("changed.who.some", arg("what", title), arg("who", name), arg("dates", m.some(share.dates[i])))
		}
		lines = m.add(lines, line, "news.changed", keys[name]...)
	}
	return lines
}

func hasShift(p *plan.Plan, slot plan.Slot) bool {
	for _, s := range p.Shifts {
		if s.Slot == slot {
			return true
		}
	}
	return false
}

// needNews says how much a duty is needed now, and of whom.
func (m *newsMaker) needNews(was, d *plan.Duty, what guide.Arg) []string {
	var lines []string
	if was.Need != d.Need {
		line := m.v.Say("changed.need", what, arg("need", m.need(d.ID, d.Need)))
		lines = m.add(lines, line, "news.changed", merge.Key{Field: merge.Need, Of: d.ID})
	}
	if was.Steady != d.Steady {
		key := "changed.steady"
		if was.Steady {
			key = "changed.steady.not"
		}
		lines = m.add(lines, m.v.Say(key, what), "news.changed", merge.Key{Field: merge.Steady, Of: d.ID})
	}
	return lines
}
