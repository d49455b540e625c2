package page

import (
	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
)

// List is one list with its lines in the order of steps.txt.
type List struct {
	ID, Title string
	Progress  string // "3 of 12 done", where lines can be ticked
	Rows      []Row
}

func (m *maker) lists() []List {
	var lists []List
	index := map[string]int{}
	done, boxes := map[string]int{}, map[string]int{}
	for i := range m.s.Steps {
		s := &m.s.Steps[i]
		at, ok := index[s.List]
		if !ok {
			at = len(lists)
			index[s.List] = at
			lists = append(lists, List{ID: "list-" + s.List, Title: m.v.Say("list." + s.List)})
		}
		r := m.stepRow("item-", s)
		lists[at].Rows = append(lists[at].Rows, r)
		if r.Tick != nil {
			boxes[s.List]++
			if r.Tick.Done {
				done[s.List]++
			}
		}
	}
	for name, at := range index {
		if boxes[name] > 0 {
			lists[at].Progress = m.v.Say("group.count", guide.Number("done", done[name]), guide.Number("n", boxes[name]))
		}
	}
	return lists
}

// GuideList is a list as the static page shows it: no plan, no dates, but when
// each line is due counted from surgery.
type GuideList struct {
	ID, Title string
	Rows      []GuideRow
}

// GuideRow is one line of it.
type GuideRow struct {
	Due string
	guide.Entry
}

// guideDuties are the duties of the guide, in the order of the days.
var guideDuties = []string{"drive-there", "wait", "drive-home", "drive-home-morning", "stay-with", "night", "meal", "pets", "therapy", "visit"}

// GuideLists gives the duties and all lists with all lines, by common practice.
func GuideLists(v guide.Voice) []GuideList {
	var nobody plan.Plan
	duties := GuideList{ID: "list-duties", Title: v.Say("list.duties")}
	for _, id := range guideDuties {
		row := GuideRow{Entry: v.GeneralDuty(id)}
		if id == "wait" {
			row.Due = v.Durations(&nobody)
		}
		duties.Rows = append(duties.Rows, row)
	}
	lists := []GuideList{duties}
	for i := range schedule.Kinds {
		k := &schedule.Kinds[i]
		if lists[len(lists)-1].ID != "list-"+k.List {
			lists = append(lists, GuideList{ID: "list-" + k.List, Title: v.Say("list." + k.List)})
		}
		last := &lists[len(lists)-1]
		last.Rows = append(last.Rows, GuideRow{Due: v.Relative(k), Entry: v.General(k)})
	}
	return lists
}
