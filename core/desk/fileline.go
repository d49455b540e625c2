package desk

import (
	"slices"

	"newel/core/guide"
	"newel/core/merge"
	"newel/core/plan"
)

// line takes a [[line]]: its list, the days from surgery, and what it says in each language.
// English, which every language is measured against, is what is shown where the reader's is
// not among them; without it, the first of the others.
func (r *fileReader) line(t *tomlDoc) {
	l := plan.Line{Day: plan.NoDay, Hospital: true}
	hasList, bad := false, len(r.faults)
	for i := range t.Entries {
		e := &t.Entries[i]
		switch {
		case e.Key == lineDay && e.Value.Kind != tomlWhole:
			r.fault(e, faultWhole, 0, 0)
		case e.Key == lineDay && (e.Value.Whole < -plan.MaxLineDays || e.Value.Whole > plan.MaxLineDays):
			r.fault(e, faultDays, -plan.MaxLineDays, plan.MaxLineDays)
		case e.Key == lineDay:
			l.Day = int(e.Value.Whole)
		case e.Value.Kind != tomlText:
			r.fault(e, faultText, 0, 0)
		case e.Key == lineList:
			hasList = true
			if l.List, hasList = plan.ListByKey(e.Value.Text); !hasList {
				r.fault(e, faultList, 0, 0)
			}
		default:
			r.words(&l, e, t)
		}
	}
	head := &tomlEntry{Key: keyLine, Line: t.Line}
	if l.Text == "" {
		l.Text = l.Others[0].Text
	}
	switch {
	case len(r.faults) > bad:
	case !hasList:
		r.fault(head, faultNoList, 0, 0)
	case l.List.Told() && l.Day != plan.NoDay:
		r.fault(t.entry(lineDay), faultDayless, 0, 0)
	case l.Text == "":
		r.fault(head, plan.LineEmpty, 0, 0)
	case r.full(l.List):
		r.fault(head, plan.LinesMany, 0, MostLines)
	default:
		r.lines = append(r.lines, l)
	}
}

// words takes what a line says in one language.
func (r *fileReader) words(l *plan.Line, e *tomlEntry, t *tomlDoc) {
	said, main := plan.Clean(e.Value.Text), e.Key == lineText || e.Key == guide.Languages[0] && t.entry(lineText) == nil
	one := plan.Line{Text: said, Day: plan.NoDay, Hospital: true}
	switch problems := plan.CheckLine(&one); {
	case !main && !slices.Contains(guide.Languages, e.Key):
		r.fault(e, faultUnknown, 0, 0)
	case said == "":
	case len(problems) > 0:
		r.fault(e, problems[0].Code, 0, problems[0].High)
	case main:
		l.Text = said
	default:
		next, ok := l.WithWording(e.Key, said)
		if !ok {
			r.fault(e, faultLanguage, 0, plan.MostOthers)
		}
		*l = next
	}
}

// full tells whether there is no room for a further line.
func (r *fileReader) full(list plan.List) bool {
	n := 0
	for _, l := range r.lines {
		if l.List == list {
			n++
		}
	}
	return n >= plan.MaxPerList || len(r.lines) >= MostLines
}

// Numbered gives a hospital's lines their numbers, in their order: those that came with the
// program have theirs; the others get those of a plan that is being made.
func Numbered(program uint16, lines []plan.Line) []plan.Line {
	var all []plan.Line
	known := slices.Clone(plan.BaseOf(program).Lines)
	fresh := merge.NewDoc(0).FreshLines(merge.Maker, len(lines))
	for _, l := range lines {
		at := slices.IndexFunc(known, func(k plan.Line) bool {
			k.ID = l.ID
			return k == l
		})
		if at >= 0 {
			l.ID = known[at].ID
			known = slices.Delete(known, at, at+1)
		} else if len(fresh) > 0 {
			l.ID, fresh = fresh[0], fresh[1:]
		} else {
			continue // more than any form or file lets through
		}
		all = append(all, l)
	}
	slices.SortFunc(all, func(a, b plan.Line) int { return int(int64(a.ID) - int64(b.ID)) })
	return all
}
