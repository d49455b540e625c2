package app

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"newel/core/page"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// family answers the paths of the family's duties and of calendars:
//
//	/duty/new/KIND           the form of a new duty
//	/duty/N                  a duty's page
//	/duty/N/change           its form
//	/duty/N/date             leaves out, moves, adds or gives away a single date, or takes that back
//	/duty/N/days             who has the dates on each weekday
//	/duty/N/drop, put-back   takes it out of the plan, or puts it back
//	/who/ID                  who has a duty that every plan has
//	/who/stay-with.N         who has one part of staying with the patient (plan.Slot)
//	/helper…                 see helper.go
//	/split…                  see split.go
//	/calendar…, /import…     see calendar.go
//	/guide…, /sources, /about see guide.go
//	/print…                  see paper.go
//	/say-back                see sayback.go
//	/line…                   see line.go
//
// Anything else shows the plan.
func (s *session) family(p plan.Plan, path string) {
	parts := strings.Split(strings.TrimPrefix(path, "/"), "/")
	parts = append(parts, "", "")
	switch parts[0] {
	case "duty":
		if parts[1] == "new" {
			s.visit(s.rooms.newDuty, p, parts[2], "")
			return
		}
		if d := p.Duty(dutyNumber(parts[1])); d != nil {
			s.oneDuty(p, *d, parts[2])
			return
		}
	case "who":
		s.who(p, parts[1])
		return
	case "helper":
		s.visit(s.rooms.helper, p, parts[1], parts[2])
		return
	case "split":
		s.visit(s.rooms.split, p, parts[1], parts[2])
		return
	case "calendar":
		s.visit(s.rooms.calendar, p, path[strings.LastIndexByte(path, '/')+1:], "")
		return
	case "guide", "sources", "about":
		s.guide(p, parts[0], parts[1])
		return
	case "print":
		s.visit(s.rooms.paper, p, parts[1], "")
		return
	case "say-back":
		s.visit(s.rooms.sayBack, p, "", "")
		return
	case "line":
		s.visit(s.rooms.line, p, parts[1], parts[2])
		return
	case "import":
		s.visit(s.rooms.importFile, p, parts[1], "")
		return
	}
	s.plan(p)
}

func dutyNumber(text string) uint32 {
	n, err := strconv.ParseUint(text, 10, 32)
	if err != nil {
		return 0
	}
	return uint32(n)
}

func dutyPath(id uint32) string { return "/duty/" + strconv.FormatUint(uint64(id), 10) }

func (s *session) oneDuty(p plan.Plan, d plan.Duty, act string) {
	switch act {
	case "change":
		s.visit(s.rooms.changeDuty, p, strconv.FormatUint(uint64(d.ID), 10), "")
	case "date":
		if act := s.field("act"); act == "give" {
			s.giveDate(p, d)
		} else {
			s.oneDate(p, d, act)
		}
	case "days":
		s.giveDays(p, d)
	case "drop", "put-back":
		d.Dropped = act == "drop"
		s.keepDuty(p, p, d)
	default:
		s.dutyPage(p, d.ID, "")
	}
}

// screen shows a page of its own. By a link of the page it is a new entry of the
// history; after a form it stands in the place of that form.
func (s *session) screen(path, title, html string) {
	s.out.Path, s.out.HTML, s.out.Refresh = path, html, 0
	s.out.Title = title + " · " + s.voice.Say("app.name")
	s.out.Push, s.out.Focus = len(s.in.Fields) == 0 && s.in.Path == path, "title"
}

// input is what the pages of a plan are made from; ok is false where the plan cannot
// be laid out here, and that is answered.
func (s *session) input(p plan.Plan) (in page.Input, ok bool) {
	sched, err := layOut(p)
	if err != nil {
		s.repair(p)
		return in, false
	}
	s.out.Fragment = s.fragment()
	in = page.Input{Schedule: sched, Voice: s.voice, Now: s.now, Device: s.device, Fragment: s.out.Fragment}
	if s.doc != nil { // one helper's part has none
		in.Unsettled = s.doc.Questions()
	}
	return in, true
}

func (s *session) dutyPage(p plan.Plan, id uint32, problem string) {
	in, ok := s.input(p)
	if !ok {
		return
	}
	d := p.Duty(id)
	if d == nil { // a new one that did not fit
		s.plan(p)
		return
	}
	if s.full && problem == "" {
		problem = s.voice.Say("problem.duties-many")
	}
	about := page.DutyInput{Input: in, Duty: d, Problem: problem}
	if problem != "" {
		about.Typed = s.typed() // so that nothing is lost
	}
	view := page.NewDutyView(about)
	s.screen(dutyPath(id), view.Title, page.DutyPage(view))
	if problem != "" {
		s.out.Focus, s.out.Say = "problem-date", problem
	}
}

// keepDuty takes over a duty that was changed, into a plan that may have a helper
// more than p, and shows it.
func (s *session) keepDuty(p, next plan.Plan, d plan.Duty) {
	if old := p.Duty(d.ID); old != nil {
		d = d.After(*old)
	}
	next = next.WithDuty(withDates(d))
	if problems := s.fits(next); len(problems) > 0 {
		s.dutyPage(p, d.ID, s.voice.Problem(problems[0], "", ""))
		return
	}
	s.dutyPage(s.edited(p, next), d.ID, "")
	s.out.Say = s.voice.Say("saved")
}

// oneDate leaves out, moves or adds a date of a duty, or takes that back.
func (s *session) oneDate(p plan.Plan, d plan.Duty, act string) {
	r := d.Rule
	day, _ := wall.ParseDate(s.field("day"))
	to, problem := s.moment(act, repeat.Moment{Day: day, At: r.At})
	switch act {
	case "skip":
		r.Skipped = append(slices.Clone(r.Skipped), day)
	case "move":
		r.Moved = append(slices.Clone(r.Moved), repeat.Move{From: day, To: to})
	case "add":
		r.Extra = append(slices.Clone(r.Extra), to)
	case "undo":
		r = withoutException(r, day, s.field("at"))
	}
	if problem == "" {
		r = r.Canonical()
		if err := r.Check(); errors.Is(err, repeat.Fault{Code: repeat.NoDates}) {
			problem = s.voice.Say("dates.none-left")
		} else if err != nil {
			problem = s.ruleFault(err)
		}
	}
	if problem != "" {
		s.dutyPage(p, d.ID, problem)
		return
	}
	d.Rule = r
	s.keepDuty(p, p, d)
}

// moment reads where a date goes; for what needs none it stays where it is. Of a date that
// is moved, what is left empty stays: usually only the day or only the time changes.
func (s *session) moment(act string, was repeat.Moment) (to repeat.Moment, problem string) {
	to = was
	day, at := s.field("to"), s.field("at")
	switch act {
	case "move":
		if day == "" && at == "" {
			return to, s.voice.Say("dates.no-change")
		}
	case "add":
		if day == "" {
			return to, s.voice.Say("dates.no-day")
		}
		if at == "" {
			return to, s.voice.Say("dates.no-time")
		}
	default:
		return to, ""
	}
	var err error
	if day != "" {
		if to.Day, err = wall.ParseDate(day); err != nil {
			return to, s.voice.Say("dates.no-day")
		}
	}
	if at != "" {
		if to.At, err = wall.ParseClock(at); err != nil || to.At == 24*60 {
			return to, s.voice.Say("dates.no-time")
		}
	}
	return to, ""
}

// withoutException takes back what was done to a date: with a time it is an extra
// date, without one a date that was left out or moved.
func withoutException(r repeat.Rule, day wall.Date, at string) repeat.Rule {
	if at != "" {
		clock, _ := wall.ParseClock(at)
		r.Extra = slices.DeleteFunc(slices.Clone(r.Extra), func(m repeat.Moment) bool { return m == repeat.Moment{Day: day, At: clock} })
		return r
	}
	r.Skipped = slices.DeleteFunc(slices.Clone(r.Skipped), func(d wall.Date) bool { return d == day })
	r.Moved = slices.DeleteFunc(slices.Clone(r.Moved), func(m repeat.Move) bool { return m.From == day })
	return r
}
