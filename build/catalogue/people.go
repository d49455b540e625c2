package catalogue

import (
	"strings"

	"newel/core/app"
	"newel/core/plan"
)

// peopleStates are who does what: helpers, duties, cover, and what two phones changed apart.
func peopleStates(Vectors) []State {
	return append(append(coverStates(), dutyStates()...), helperStates()...)
}

func coverStates() []State {
	const group = "Who does what"
	on := func(p func() plan.Plan, path string) func(*phone) {
		return func(ph *phone) { ph.of(p()).send(path) }
	}
	return []State{
		{Group: group, Name: "one-helper", What: "One helper has everything.", reach: on(alone, "/")},
		{Group: group, Name: "one-helper-split", What: "Who does what, with one helper.", reach: on(alone, "/split")},
		{Group: group, Name: "twelve-helpers", What: "As many helpers as a plan can have.", reach: on(twelve, "/")},
		{Group: group, Name: "twelve-helpers-split", What: "Who does what among twelve.", reach: on(twelve, "/split")},
		{Group: group, Name: "everything-uncovered", What: "Nobody has taken anything yet.", reach: on(uncovered, "/")},
		{Group: group, Name: "everything-uncovered-split", What: "Who does what, and nobody does.", reach: on(uncovered, "/split")},
		{Group: group, Name: "everything-covered", What: "Everything has somebody who can.", reach: on(covered, "/")},
		{Group: group, Name: "everything-covered-split", What: "Who does what, with nothing open.", reach: on(covered, "/split")},
		{Group: group, Name: "nobody-helps-yet", What: "Who does what in a plan without helpers.", reach: on(starter, "/split")},
		{Group: group, Name: "split", What: "Who does what in the example family: gaps and clashes.", reach: on(family, "/split")},
		{Group: group, Name: "split-recovery", What: "Who does what, two weeks after.", reach: func(p *phone) { p.at(14, 9, 0).of(family()).send("/split") }},
		{Group: group, Name: "split-later-weeks", What: "Who does what, with the next two weeks of the grid.", reach: on(family, "/split/from/1")},
		{Group: group, Name: "suggestion", What: "A suggestion for what is open.", reach: on(family, "/split/suggest")},
		{Group: group, Name: "suggestion-for-all", What: "A suggestion for all of it.", reach: on(family, "/split/anew")},
		{Group: group, Name: "suggestion-taken", What: "A suggestion for all of it was taken over.", reach: func(p *phone) { p.of(family()).send("/split/anew").press("/split/accept") }},
		{Group: group, Name: "filled", What: "What is open was given out in one tap; it can be undone.", reach: func(p *phone) { p.of(family()).send("/split").press("/split/fill") }},
		{Group: group, Name: "filled-undone", What: "That was undone.", reach: func(p *phone) { p.of(family()).send("/split").press("/split/fill").press("/split/undo") }},
		{Group: group, Name: "filled-kept", What: "That was left as it is.", reach: func(p *phone) { p.of(family()).send("/split").press("/split/fill").press("/split/fine") }},
	}
}

func dutyStates() []State {
	const group = "The family's duties"
	on := func(path string, fields ...app.Field) func(*phone) {
		return func(p *phone) { p.of(family()).send(path, fields...) }
	}
	return append([]State{
		{Group: group, Name: "duty", What: "A ride that repeats, with a date left out and one moved.", reach: on("/duty/1")},
		{Group: group, Name: "duty-once", What: "A duty of one day.", reach: on("/duty/3")},
		{Group: group, Name: "duty-over", What: "A duty whose dates are over.", reach: func(p *phone) { p.at(300, 9, 0).of(family()).send("/duty/1") }},
		{Group: group, Name: "duty-dropped", What: "A duty that was taken out; it can be put back.", reach: func(p *phone) { p.of(withDropped()).send("/duty/3") }},
		{Group: group, Name: "duty-drop", What: "It was just taken out.", reach: func(p *phone) { p.of(family()).send("/duty/4").press("/duty/4/drop") }},
		{Group: group, Name: "duty-put-back", What: "It was put back.", reach: func(p *phone) { p.of(withDropped()).send("/duty/3").press("/duty/3/put-back") }},
		{Group: group, Name: "duty-date-wrong", What: "A date was moved to no day.", reach: func(p *phone) {
			p.of(family()).send("/duty/1").press("/duty/1/date", field("act", "move"), field("to", ""), field("at", "x"))
		}},
		{Group: group, Name: "duty-date-undone", What: "A change of one date was taken back.", reach: func(p *phone) { p.of(family()).send("/duty/1").press("/duty/1/date") }},
		{Group: group, Name: "duty-weekdays", What: "The weekdays were shared out.", reach: func(p *phone) {
			p.of(family()).send("/duty/1").press("/duty/1/days", field("on-1", "Luis"), field("on-3", "Mina"))
		}},
		{Group: group, Name: "duty-change", What: "The form of a duty.", reach: on("/duty/1/change")},
		{Group: group, Name: "duty-change-problems", What: "The form of a duty, sent with mistakes.", reach: func(p *phone) {
			p.of(family()).send("/duty/1/change").press("/duty/1/change", field("first", "x"), field("at", "x"), field("length", "x"))
		}},
		{Group: group, Name: "duty-who", What: "Who has a duty that every plan has.", reach: on("/who/drive-there")},
		{Group: group, Name: "duty-who-given", What: "It was given to somebody.", reach: func(p *phone) {
			p.of(family()).send("/who/drive-there").press("/who/drive-there", field("who", "Luis"))
		}},
		{Group: group, Name: "duty-who-problem", What: "It was given to a name that is too long.", reach: on("/who/drive-there", field("who", strings.Repeat("Ana ", 20)))},
		{Group: group, Name: "calendar", What: "What can go into a calendar file.", reach: on("/calendar")},
		{Group: group, Name: "calendar-of-a-duty", What: "The calendar of one duty.", reach: on("/calendar/duty/1")},
		{Group: group, Name: "calendar-of-the-drive", What: "The calendar of a duty that every plan has.", reach: on("/calendar/who/drive-there")},
		{Group: group, Name: "calendar-made", What: "A calendar file was made.", reach: func(p *phone) { p.of(family()).send("/calendar").press("/calendar") }},
		{Group: group, Name: "import", What: "Where a clinic's calendar file is put in.", reach: on("/import")},
		{Group: group, Name: "import-nothing", What: "Nothing was put in.", reach: func(p *phone) { p.of(family()).send("/import").press("/import") }},
		{Group: group, Name: "import-read", What: "A clinic's file was read, and nothing taken over yet.", reach: func(p *phone) {
			p.of(family()).send("/import").press("/import", field("text", clinicFile))
		}},
		{Group: group, Name: "import-added", What: "Its entries were taken over.", reach: func(p *phone) {
			p.of(family()).send("/import").press("/import", field("text", clinicFile)).press("/import/add", field("add", "0"))
		}},
	}, newDuties(group)...)
}

// newDuties are the forms of every kind of duty.
func newDuties(group string) []State {
	var all []State
	for _, kind := range plan.DutyKeys {
		all = append(all, State{Group: group, Name: "duty-new-" + kind, What: "The form of a duty of the kind " + kind + ".",
			reach: func(p *phone) { p.of(family()).send("/duty/new/" + kind) }})
	}
	return all
}

// clinicFile is a calendar file as a clinic sends it (RFC 5545).
const clinicFile = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Millrace Therapy//EN\r\n" +
	"BEGIN:VEVENT\r\nUID:1@millrace.example\r\nDTSTAMP:20270101T000000Z\r\nDTSTART:20270320T100000\r\nDTEND:20270320T104500\r\n" +
	"SUMMARY:Therapy\r\nLOCATION:3 Quay Street\r\nEND:VEVENT\r\n" +
	"BEGIN:VEVENT\r\nUID:2@millrace.example\r\nDTSTAMP:20270101T000000Z\r\nDTSTART;VALUE=DATE:20270321\r\nSUMMARY:Office closed\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"

func helperStates() []State {
	const group = "Helpers"
	mine := func(p *phone) *phone {
		before, hers, his := apart()
		p.in.Kept[key("me")] = "Dana"
		return p.open(before).open(hers).open(his)
	}
	return []State{
		{Group: group, Name: "helper-new", What: "The form of a new helper.", reach: func(p *phone) { p.of(family()).send("/helper/new") }},
		{Group: group, Name: "helper-new-problems", What: "It was sent with nothing in it.", reach: func(p *phone) {
			p.of(family()).send("/helper/new").press("/helper/new", field("name", ""))
		}},
		{Group: group, Name: "helper", What: "When Dana can and cannot.", reach: func(p *phone) { p.of(family()).send("/helper/1") }},
		{Group: group, Name: "helper-sent", What: "Dana lives farther away than was said.", reach: func(p *phone) { p.of(family()).send("/helper/1").press("/helper/1", field("away", "35")) }},
		{Group: group, Name: "helper-drops-out", What: "Dana can no longer help; what she had is open.", reach: func(p *phone) {
			p.of(family()).send("/helper/1").press("/helper/1/out")
		}},
		{Group: group, Name: "helper-out", What: "The form of somebody who can no longer help.", reach: func(p *phone) { p.of(withDropped()).send("/helper/4") }},
		{Group: group, Name: "helper-back", What: "Tomas can help again.", reach: func(p *phone) { p.of(withDropped()).send("/helper/4").press("/helper/4/back") }},
		{Group: group, Name: "helper-removable", What: "The form of a helper who has nothing.", reach: func(p *phone) { p.of(spare()).send("/helper/5") }},
		{Group: group, Name: "helper-removed", What: "A helper who had nothing was taken off.", reach: func(p *phone) { p.of(spare()).send("/helper/5").press("/helper/5/remove") }},
		{Group: group, Name: "whose-device", What: "Whose device it is.", reach: func(p *phone) { p.of(family()).send("/me") }},
		{Group: group, Name: "whose-device-said", What: "Dana has said that it is hers: her own part stands first.", reach: func(p *phone) {
			p.of(family()).send("/me").press("/me", field("who", "1"))
		}},
		{Group: group, Name: "whose-device-problem", What: "Somebody else, without a name.", reach: func(p *phone) {
			p.of(family()).send("/me").press("/me", field("who", "other"), field("name", ""))
		}},
		{Group: group, Name: "own-day-of-surgery", What: "Dana's phone on the day of surgery.", reach: func(p *phone) {
			p.at(0, 3, 30).of(family()).send("/me").press("/me", field("who", "1"))
		}},
		{Group: group, Name: "merged-with-questions", What: "Two phones changed the same things apart: the plan asks.", reach: func(p *phone) { mine(p) }},
		{Group: group, Name: "question-settled", What: "One of the questions was settled.", reach: func(p *phone) { mine(p).press("/settle") }},
		{Group: group, Name: "news", What: "What others changed since the plan was last read.", reach: func(p *phone) {
			before, hers, _ := apart()
			p.open(before).open(hers)
		}},
		{Group: group, Name: "news-read", What: "It was read.", reach: func(p *phone) {
			before, hers, _ := apart()
			p.open(before).open(hers).press("/read")
		}},
		{Group: group, Name: "surgery-moved", What: "The surgery was moved by a week: what moved along and what did not.", reach: func(p *phone) {
			before, after := moved()
			p.open(before).open(after)
		}},
		{Group: group, Name: "older-link", What: "An older link of a plan that has moved meanwhile.", reach: func(p *phone) {
			before, after := moved()
			p.open(after).open(before)
		}},
	}
}

// spare is the family's plan with a helper who has nothing.
func spare() plan.Plan {
	p, who := family().WithHelper("Ada")
	return p.WithAbout(who, plan.About{Told: true, Can: plan.CanDrive, Offer: plan.Light})
}
