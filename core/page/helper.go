package page

import (
	"newel/core/guide"
	"newel/core/plan"
)

// HelperView is the page of one helper: the form of what they can do and when, what they
// have, and what can be done beside it.
type HelperView struct {
	Form   Form
	Path   string
	Of     string // the helper's name, which goes with each form: places move
	Out    string // that they can no longer help; empty: they can
	Load   []LoadLine
	Remove bool // nothing hangs on the name
}

// HelperInput is what the page is made from.
type HelperInput struct {
	Input
	Form  HelperFormInput
	Who   uint8 // 0: a new one
	Known bool  // a device says that it is theirs
}

// NewHelperView makes the view of the page.
func NewHelperView(in HelperInput) HelperView {
	v := HelperView{Form: newHelperForm(in.Form), Path: in.Form.Path, Of: in.Form.Name}
	if in.Who == 0 {
		return v
	}
	m := newMaker(in.Input)
	for _, line := range m.loads(m.report().Loads, nil, false) {
		if line.Path == helperPath(in.Who) {
			v.Load = append(v.Load, line)
		}
	}
	has := m.datesOf()[in.Who]
	if m.p.AboutOf(in.Who).Out {
		v.Out = m.outLine(in.Who, has)
	}
	v.Remove = !in.Known && !m.hasAny(in.Who)
	return v
}

// hasAny tells whether a helper has any duty, past ones too.
func (m *maker) hasAny(who uint8) bool {
	for i := range m.s.Duties {
		if m.s.Who(&m.s.Duties[i]) == who {
			return true
		}
	}
	for i := range m.p.Duties {
		if m.p.Duties[i].Has(who) {
			return true
		}
	}
	return false
}

// HelperPage makes the page.
func HelperPage(v HelperView) string { return helperPage(&v) }

// TimesText says a time in which somebody can help or cannot, in words.
func TimesText(v guide.Voice, t plan.Times) string {
	key := map[plan.TimesUse]string{plan.Work: "times.work", plan.Gone: "times.gone", plan.Free: "times.free"}[t.Use]
	return v.Say(key, arg("when", v.Rule(t.Rule, "count.times")), arg("length", v.Minutes(t.Length)))
}
