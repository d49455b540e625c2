//go:build !near

package app

import "newel/core/plan"

// Handle answers one request. It never fails: what is wrong is said on the page.
func Handle(r Request) Response { return answered(r, &whole) }

// whole has every room.
var whole = rooms{
	desk:       func(s *session, _ plan.Plan, path, _ string) { s.desk(path) },
	said:       func(s *session, _ plan.Plan, path, _ string) { s.saidBack(path) },
	start:      func(s *session, _ plan.Plan, _, _ string) { s.start() },
	facts:      factsRoom,
	repair:     func(s *session, p plan.Plan, _, _ string) { s.repairForm(p) },
	split:      (*session).split,
	helper:     (*session).oneHelper,
	newDuty:    func(s *session, p plan.Plan, kind, _ string) { s.newDuty(p, kind) },
	changeDuty: func(s *session, p plan.Plan, number, _ string) { s.changeDuty(p, *p.Duty(dutyNumber(number))) },
	line:       (*session).line,
	calendar:   func(s *session, p plan.Plan, only, _ string) { s.calendar(p, only) },
	importFile: func(s *session, p plan.Plan, act, _ string) { s.importFile(p, act == "add") },
	paper:      func(s *session, p plan.Plan, sheet, _ string) { s.paper(p, sheet) },
	sayBack:    func(s *session, p plan.Plan, _, _ string) { s.sayBack(p) },
	paste:      func(s *session, _ plan.Plan, _, _ string) { s.paste() },
	lock:       func(s *session, p plan.Plan, _, _ string) { s.lock(p) },
	partLink:   func(s *session, p plan.Plan, _, _ string) { s.partLink(p) },
	afresh:     func(s *session, p plan.Plan, _, _ string) { s.afresh(p) },
	device:     wipeRoom,
	old:        true,
	sources:    (*session).sources,
	about:      (*session).about,
}

func factsRoom(s *session, p plan.Plan, at, _ string) {
	switch at {
	case "arrival":
		s.inline(p, "arrival")
	case "way":
		s.inline(p, "drive", "parking")
	default:
		s.asked = true
		s.facts(p)
	}
}
