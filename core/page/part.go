package page

import (
	"slices"

	"newel/core/guide"
	"newel/core/schedule"
)

// PartView is one helper's part of a plan: the day itself and their own duties. Nothing
// in it can be changed, since it is no copy of the plan.
type PartView struct {
	View
	Helper string
	Own    []PartDuty
	Whole  string // the fragment of the whole plan, where this device has it
	Here   string // its day and arrival, where they are other ones than the part's
}

// PartDuty is one of the family's duties with the dates that the helper has.
type PartDuty struct {
	Title, Place string
	Text         []string // what to bring, and the words of its kind
	Dates        []string
}

// PartInput is what the page of a part is made from. In the plan of its schedule the
// helper is the first.
type PartInput struct {
	Input
	Helper string
	Whole  string
	Here   string
}

// own is the helper's place in the plan of a part link.
const own = 1

// NewPartView makes the view.
func NewPartView(in PartInput) PartView {
	in.Schedule, in.Report = ownDuties(in.Schedule), nil // a report goes by the places of duties
	m := newMaker(in.Input)
	m.reads = true
	v := m.viewOfDay()
	v.ReadOnly = true
	v.Notices = append(append(v.Notices, m.behind()...), in.Notices...)
	v.Notices = append(v.Notices, m.clockNotices()...)
	v.Clots = m.clotCard()
	m.fillDays(&v)
	if !m.atHospital() {
		withoutStages(&v)
	}
	n := m.next(&v)
	v.Next = Next{Lead: n.Lead, LeadDay: n.LeadDay, Urgent: n.Urgent, Sooner: n.Sooner, Blocks: n.Blocks}
	if n.Lead == nil && len(n.Blocks)+len(n.Sooner) == 0 {
		v.Next.Text = m.v.Say("next.nothing")
	}
	return PartView{View: v, Helper: in.Helper, Own: m.ownSeries(), Whole: in.Whole, Here: in.Here}
}

// ownDuties leaves the duties that the helper has, and of each series their dates.
func ownDuties(s *schedule.Schedule) *schedule.Schedule {
	mine := *s
	mine.Duties, mine.Series = nil, nil
	at := map[int]int{} // where a duty has gone
	for i := range s.Duties {
		if s.Who(&s.Duties[i]) == own {
			at[i] = len(mine.Duties)
			mine.Duties = append(mine.Duties, s.Duties[i])
		}
	}
	for _, series := range s.Series {
		var dates []int
		for _, i := range series.Dates {
			if to, ok := at[i]; ok {
				dates = append(dates, to)
			}
		}
		series.Dates = dates
		mine.Series = append(mine.Series, series)
	}
	return &mine
}

// atHospital tells whether the helper is there on the day of surgery, so that the stages
// of that day concern them.
func (m *maker) atHospital() bool {
	return slices.ContainsFunc(m.s.Duties, func(d schedule.Duty) bool { return d.Family == nil && d.Day == m.p.Surgery })
}

func withoutStages(v *View) {
	for _, days := range []*[]Day{&v.Past, &v.Days} {
		for i := range *days {
			d := &(*days)[i]
			d.Rows = slices.DeleteFunc(d.Rows, func(r Row) bool { return r.Kind == "stage" })
		}
		*days = slices.DeleteFunc(*days, func(d Day) bool { return len(d.Rows) == 0 })
	}
}

// ownSeries lists the family's duties that have dates of the helper's to come.
func (m *maker) ownSeries() []PartDuty {
	var all []PartDuty
	for i := range m.s.Series {
		series := &m.s.Series[i]
		d := PartDuty{Title: m.v.DutyTitle(series.Duty), Place: series.Duty.Place, Text: m.dutyText(series.Duty)}
		for _, at := range series.Dates {
			if date := &m.s.Duties[at]; date.Session.To.After(m.Now) {
				d.Dates = append(d.Dates, m.moment(date.On.Moment)+m.beside(date.Session.From))
			}
		}
		if len(d.Dates) > 0 {
			all = append(all, d)
		}
	}
	return all
}

// PartPage makes the page.
func PartPage(v PartView) string { return partPage(&v) }

// PartTitle is the title of a helper's part.
func PartTitle(v guide.Voice, helper string) string {
	return v.Say("link-part.of", arg("who", helper))
}
