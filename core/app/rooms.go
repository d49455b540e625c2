package app

import (
	"newel/core/page"
	"newel/core/plan"
)

// room answers the requests of one part of the page. at and act are what the path says behind the
// room's name.
type room func(s *session, p plan.Plan, at, act string)

// rooms are the parts that a core may come without: a helper asks for none of them while a link
// is opened and read, so the core that comes first is downloaded without them. A nil room is one
// that the core has not: a request for it is answered with Response.Elsewhere.
//
// The linker leaves out what no function refers to. So what belongs to a room alone may be
// reached through this table only, and nothing that Near calls may mention whole.
type rooms struct {
	desk, said                 room // the navigator's side, and what a helper holds up there
	start, facts, repair       room // the form of a plan itself; at: a line of it that stands on the page
	split, helper              room
	newDuty, changeDuty        room
	line, calendar, importFile room
	paper, sayBack, paste      room
	lock, partLink, afresh     room
	sources                    func(s *session, c page.Calls)
	proposes                   func(s *session, in page.Input) bool // proposesAny
}

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
	sources:    (*session).sources,
	proposes:   (*session).proposesAny,
}

// near has what a helper does with a link on a phone in the first minutes: reading the plan and
// its guide, ticking, taking and giving back, settling questions, handing the link over.
var near = rooms{}

// visit has a room answer, or the whole core where this one has not that room.
func (s *session) visit(r room, p plan.Plan, at, act string) {
	if r == nil {
		s.out.Elsewhere = true
		return
	}
	r(s, p, at, act)
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
