package app

import (
	"strings"

	"newel/core/page"
	"newel/core/plan"
)

// sayBack shows the questions that a helper answers in their own words, and takes what was
// clear. That stays on this device: it is about one person, and no part of the plan.
func (s *session) sayBack(p plan.Plan) {
	sched, err := layOut(p)
	if err != nil {
		s.repair(p)
		return
	}
	if s.field("act") == "afresh" {
		s.drop(keySaid + planKey(p.Number))
	}
	marks := readMarks(s.kept[keySaid+planKey(p.Number)])
	in := page.Input{Schedule: sched, Voice: s.voice, Now: s.now, Device: s.device, Fragment: s.fragment()}
	view := page.NewSayBack(in, marks)
	said := s.mark(p, &view, marks)
	if said {
		view = page.NewSayBack(in, marks)
	}
	s.screen("/say-back", s.voice.Say("say-back.title"), page.SayBackPage(&view))
	switch {
	case said:
		s.out.Focus, s.out.Say = view.Next(), s.voice.Say("saved")+" "+view.Progress
	case s.field("act") == "send" && view.Done:
		s.out.Send = &Send{Title: s.voice.Say("say-back.title"), Text: view.Text(), Fragment: s.fragment()}
		s.out.Focus, s.out.Say = "", "" // what came of it is said once it is known
	}
}

// mark takes what was said of a question that is on the page; it reports whether that was so.
func (s *session) mark(p plan.Plan, v *page.SayBack, marks map[string]page.Mark) bool {
	said := map[string]page.Said{"clear": page.SaidClear, "again": page.SaidUnclear}[s.field("said")]
	if said == page.SaidNotYet {
		return false
	}
	for i := range v.Asked {
		if q := &v.Asked[i]; q.ID == s.field("q") {
			marks[q.ID] = page.Mark{Said: said, Fact: q.Fact}
			s.keep(keySaid+planKey(p.Number), writeMarks(v, marks))
			return true
		}
	}
	return false
}

// marksEnd stands between the parts of a mark and between marks. It is in no id and no fact.
const (
	markParts = "\t"
	marksEnd  = "\n"
)

// writeMarks writes the marks of the questions that are asked: those of others are over.
func writeMarks(v *page.SayBack, marks map[string]page.Mark) string {
	var all []string
	for i := range v.Asked {
		id := v.Asked[i].ID
		if m, ok := marks[id]; ok {
			said := "clear"
			if m.Said == page.SaidUnclear {
				said = "again"
			}
			all = append(all, id+markParts+said+markParts+m.Fact)
		}
	}
	return strings.Join(all, marksEnd)
}

// readMarks reads what writeMarks wrote. What else a device may hold is passed over.
func readMarks(text string) map[string]page.Mark {
	marks := map[string]page.Mark{}
	for _, line := range strings.Split(text, marksEnd) {
		col := strings.Split(line, markParts)
		if len(col) != 3 || col[1] != "clear" && col[1] != "again" {
			continue
		}
		m := page.Mark{Said: page.SaidClear, Fact: col[2]}
		if col[1] == "again" {
			m.Said = page.SaidUnclear
		}
		marks[col[0]] = m
	}
	return marks
}
