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
// reached through this table only. The near core is compiled with the tag "near", without the
// files that hold the full table, and those whose imports would run something at the start.
type rooms struct {
	desk, said                 room // the navigator's side, and what a helper holds up there
	start, facts, repair       room // the form of a plan itself; at: a line of it that stands on the page
	split, helper              room
	newDuty, changeDuty        room
	line, calendar, importFile room
	paper, sayBack, paste      room
	lock, partLink, afresh     room
	device                     room // what it keeps, and removing all of it
	old                        bool // reads links of versions 1 and 2
	sources, about             func(s *session, c page.Calls)
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
