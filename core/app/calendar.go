//go:build !near

package app

import (
	"slices"
	"strconv"
	"strings"

	"newel/core/calendar"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/schedule"
)

// fileName is what the calendar file is called: nobody's name stands in a folder of
// downloads.
const fileName = "schedule.ics"

// alarms are the leads that can be chosen, in minutes before leaving; -1 is none.
var alarms = []int{-1, 0, 15, 30, 60, 120, 720}

// calendar shows what can go into a calendar file, or makes one. only names a duty, where
// it was asked for from a duty's page: its number, or the id of one that every plan has.
func (s *session) calendar(p plan.Plan, only string) {
	in, ok := s.input(p)
	if !ok {
		return
	}
	whose := s.field("whose")
	if whose == "" {
		whose = "all"
		if p.Duty(dutyNumber(only)) != nil {
			whose = "f" + only
		} else if slices.Contains(plan.BuiltIn[:], only) {
			whose = only
		}
	}
	if s.isPart {
		whose = "h1" // whose part it is
	}
	alarm, steps := s.lastChoice(p)
	if s.field("make") != "" {
		steps = s.field("steps") != ""
		if n, err := strconv.Atoi(s.field("alarm")); err == nil {
			alarm = n
		}
	}
	steps = steps && !s.isPart
	view := page.CalendarView{
		Voice: s.voice, Fragment: in.Fragment, Calls: page.NewCalls(s.voice, &p, s.fragment()),
		Whose: s.whose(p, whose), Alarm: s.alarmOptions(alarm), Steps: steps, Part: s.isPart,
	}
	choice, known := choiceOf(p, whose)
	if s.field("make") != "" && known {
		choice.Alarm, choice.Steps = alarm, view.Steps
		file := s.calendarFile(in.Schedule, whose, choice)
		view.Empty = file == ""
		if file != "" {
			s.out.File = &File{Name: fileName, Type: "text/calendar;charset=utf-8", Text: file}
			view.Ready = fileName
		}
	}
	path := s.in.Path // also of one duty, so that it is asked for again after "back"
	if s.field("make") != "" {
		path = "/calendar"
	}
	s.screen(path, s.voice.Say("calendar-page.title"), page.CalendarPage(view))
	if view.Ready != "" || view.Empty {
		s.out.Push, s.out.Focus = false, "notice-calendar"
	}
}

// calendarFile makes a file, and remembers what is in it. Of one helper's part nothing is
// remembered or looked up: its link may be old or somebody's invention, and what it lacks is
// not gone from the plan.
func (s *session) calendarFile(sched *schedule.Schedule, whose string, choice calendar.Choice) string {
	in := calendar.Input{Schedule: sched, Voice: s.voice, Now: s.now, Choice: choice}
	if s.isPart {
		file, _ := calendar.Write(in)
		return file
	}
	p := sched.Plan
	key := keyCalendar + planKey(p.Number) + "." + memoryOf(p, whose, choice)
	in.Before, in.Others = s.kept[key], s.memories(p, key)
	file, memory := calendar.Write(in)
	s.keep(keyCalendar+planKey(p.Number)+lastForm, strconv.Itoa(choice.Alarm)+" "+s.field("steps"))
	if file != "" {
		s.keep(key, memory)
	}
	return file
}

// memoryOf names the memory of a file. A helper's goes by their name: places in the list
// shift when copies of a plan are joined.
func memoryOf(p plan.Plan, whose string, c calendar.Choice) string {
	if c.All || c.Duty != "" {
		return whose
	}
	return "h:" + calendar.NameKey(p.Helper(c.Who))
}

// lastForm is where the answers of the last calendar file are kept, behind the plan's key:
// made again, it should hold the same things.
const lastForm = ".form"

func (s *session) lastChoice(p plan.Plan) (alarm int, steps bool) {
	minutes, box, ok := strings.Cut(s.kept[keyCalendar+planKey(p.Number)+lastForm], " ")
	alarm, err := strconv.Atoi(minutes)
	if !ok || err != nil || s.isPart {
		return 30, false
	}
	return alarm, box != ""
}

// memories are those of this plan's other files.
func (s *session) memories(p plan.Plan, own string) []string {
	var all []string
	for _, key := range s.calendarKeys(planKey(p.Number)) {
		if key != own {
			all = append(all, s.kept[key])
		}
	}
	return all
}

// choiceOf reads whose duties are meant: all, hN (a helper), fN (one of the family's
// duties), or the id of a duty that every plan has.
func choiceOf(p plan.Plan, whose string) (c calendar.Choice, ok bool) {
	switch {
	case whose == "all":
		return calendar.Choice{All: true}, true
	case slices.Contains(plan.BuiltIn[:], whose):
		return calendar.Choice{Duty: whose}, true
	case strings.HasPrefix(whose, "h"):
		n, err := strconv.ParseUint(whose[1:], 10, 8)
		return calendar.Choice{Who: uint8(n)}, err == nil && p.Helper(uint8(n)) != ""
	case strings.HasPrefix(whose, "f"):
		return calendar.Choice{Duty: whose}, p.Duty(dutyNumber(whose[1:])) != nil
	}
	return c, false
}

func (s *session) whose(p plan.Plan, chosen string) []page.Option {
	list := []page.Option{{Value: "all", Label: s.voice.Say("calendar-page.all")}}
	for i, name := range p.Helpers {
		list = append(list, page.Option{Value: "h" + strconv.Itoa(i+1), Label: s.voice.Say("calendar-page.helper", arg("who", name))})
	}
	only := ""
	if strings.HasPrefix(chosen, "f") {
		if d := p.Duty(dutyNumber(chosen[1:])); d != nil {
			only = s.voice.DutyTitle(d)
		}
	} else if slices.Contains(plan.BuiltIn[:], chosen) {
		only = s.voice.Duty(&p, &schedule.Duty{ID: chosen}).Title
	}
	if only != "" {
		list = append(list, page.Option{Value: chosen, Label: s.voice.Say("calendar-page.only", arg("what", only))})
	}
	for i := range list {
		list[i].Chosen = list[i].Value == chosen
	}
	return list
}

func (s *session) alarmOptions(chosen int) []page.Option {
	var list []page.Option
	for _, n := range alarms {
		label := s.voice.Say("calendar-page.alarm.before", arg("time", s.voice.Minutes(n)))
		switch n {
		case -1:
			label = s.voice.Say("calendar-page.alarm.none")
		case 0:
			label = s.voice.Say("calendar-page.alarm.then")
		}
		list = append(list, page.Option{Value: strconv.Itoa(n), Label: label, Chosen: n == chosen})
	}
	return list
}
