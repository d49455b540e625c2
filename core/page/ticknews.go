package page

import (
	"slices"

	"newel/core/guide"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/schedule"
)

// ticks says in one line for each person what they ticked.
func (m *newsMaker) ticks() []string {
	titles := map[string][]string{}
	var who []string
	var open []string
	for i := range m.Now.Steps {
		st := &m.Now.Steps[i]
		tick := st.Tick()
		key := merge.Key{Field: merge.Tick, Sub: uint32(tick.Code)<<8 | uint32(tick.N)}
		if st.Line != nil {
			key = merge.Key{Field: merge.LineDone, Sub: st.Line.ID}
		}
		is, was := st.Done(m.p), st.Done(&m.before)
		names, own := m.by(key)
		title := stepTitle(m.v, m.p, st)
		switch {
		case is == was || own || !st.Once():
		case !is:
			open = append(open, title)
		default:
			if titles[names] == nil {
				who = append(who, names)
			}
			titles[names] = append(titles[names], title)
		}
	}
	var lines []string
	for _, name := range who {
		list := arg("list", m.some(titles[name]))
		if name == "" {
			lines = append(lines, m.v.Say("news.ticked", list))
		} else {
			lines = append(lines, m.v.Say("news.ticked.by", list, arg("who", name)))
		}
	}
	if len(open) > 0 {
		lines = append(lines, m.v.Say("news.unticked", arg("list", m.some(open))))
	}
	return lines
}

// stepTitle is what a step is called.
func stepTitle(v guide.Voice, p *plan.Plan, st *schedule.Step) string {
	if st.Line != nil {
		return st.Line.In(v.Language)
	}
	return v.Entry(st.ID, st.Variant, v.Fills(p, st.N, st.Of)...).Title
}

// some lists a few, and how many more there are.
func (t teller) some(list []string) string {
	if len(list) > newsMost {
		rest := t.v.Count("next.more", len(list)-newsMost)
		list = append(slices.Clone(list[:newsMost]), rest)
	}
	return t.v.List(list)
}
