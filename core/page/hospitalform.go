package page

import (
	"newel/core/guide"
	"newel/core/plan"
)

// settings asks for what a hospital says in words and numbers of its own: when to call, which
// movements it limits, who has reviewed what the page says. There is no common practice for
// any of it: what stands empty is not assumed.
func (m *former) settings() Group {
	v := m.v
	fever, bowels := plan.Rules[plan.Fever].Key, plan.Rules[plan.BowelDays].Key
	g := Group{ID: "calls", Title: v.Say("form.calls"), Hint: v.Say("form.calls.hint"), Folded: true, Fields: []Field{
		m.saying(plan.EmergencyNumber, "text", v.Say("form.emergency.hint")),
		m.field("rule."+fever, "text", v.Say("rule."+fever), v.Say("form.fever.hint")),
		m.field("rule."+bowels, "number", v.Say("rule."+bowels), v.Say("form.calls.ask")),
		m.limitsField(),
		m.saying(plan.ReviewedBy, "text", v.Say("form.reviewed.hint")),
		m.saying(plan.ReviewedOn, "date", ""),
		m.saying(plan.TranslatedBy, "text", v.Say("form.translated.hint")),
		m.saying(plan.TranslatedOn, "date", ""),
	}}
	g.Fields[0].List = "emergency-numbers"
	return g
}

// limitsField is the field for the plan's own movement limits, with those that come with the
// hospital's program above it.
func (m *former) limitsField() Field {
	f := m.field("limits", "lines", m.v.Say("form.limits"), m.v.Say("form.limits.hint"))
	if m.Plan == nil {
		return f
	}
	for _, l := range plan.GivenLinesOf(m.Plan, plan.Limits) {
		f.Told = append(f.Told, l.In(m.v.Language))
	}
	return f
}

// saying is the field of one of a hospital's texts.
func (m *former) saying(t plan.ProgramText, kind, hint string) Field {
	key := plan.ProgramTextKeys[t]
	return m.field(key, kind, m.v.Say("form."+key), hint)
}

// emergencyNumbers suggests the number to dial for an ambulance by country. Sources: 911 and
// 112 as ITU-T recommends them (E.161.1, 2008); 999 Ofcom, 000 Triple Zero (Australia), 111
// (New Zealand): from memory.
func emergencyNumbers(v guide.Voice) []Option {
	return []Option{
		{Value: "911", Label: v.Say("form.emergency.911")},
		{Value: "112", Label: v.Say("form.emergency.112")},
		{Value: "999", Label: v.Say("form.emergency.999")},
		{Value: "000", Label: v.Say("form.emergency.000")},
		{Value: "111", Label: v.Say("form.emergency.111")},
	}
}
