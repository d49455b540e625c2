package catalogue

import (
	"strings"

	"newel/core/app"
	"newel/core/plan"
	"newel/core/wall"
)

// dayStates are a plan's page from the day on which there is none to the day on which it is over.
func dayStates(Vectors) []State {
	const begin, days = "Before there is a plan", "A plan through its days"
	on := func(p func() plan.Plan, d, hour, minute int) func(*phone) {
		return func(ph *phone) { ph.at(d, hour, minute).of(p()) }
	}
	return []State{
		{Group: begin, Name: "static-page", What: "The page before the core has loaded, and when scripts are off."},
		{Group: begin, Name: "offline", What: "The core could not be fetched: the static page says so and stays readable.", why: "core"},
		{Group: begin, Name: "core-on-its-way", What: "The core is on its way: how much of it is here.", why: "#waiting"},
		{Group: begin, Name: "rest-on-its-way", What: "The rest of the page is on its way, since something was asked that needs it.", why: "#fetching", reach: on(family, -9, 5, 0)},
		{Group: begin, Name: "worked-out", What: "Something that takes long is worked out.", why: "#working", reach: on(family, -9, 5, 0)},
		{Group: begin, Name: "as-it-stood", What: "Opened again: the page as it stood the last time, until the core's own answer comes.", why: "#stood",
			reach: on(family, -9, 5, 0)},
		{Group: begin, Name: "newer-ready", What: "A newer version of the page has come.", why: "#newer", reach: on(family, -9, 5, 0)},
		{Group: begin, Name: "home-offer", What: "The page may be put on the home screen.", why: "#home-offer", reach: on(family, -9, 5, 0)},
		{Group: begin, Name: "storage-off", What: "The device stores nothing: the plan is there, and a sentence says what that means.", why: "storage",
			reach: on(family, -9, 5, 0)},
		{Group: begin, Name: "too-large", What: "What was put in does not fit into a request.", why: "large", reach: on(family, -9, 5, 0)},
		{Group: begin, Name: "answer-not-shown", What: "The answer could not be shown.", why: "page", reach: on(family, -9, 5, 0)},
		{Group: begin, Name: "clock-behind", What: "The clock of the device stands at a day before this page was made.", reach: on(family, -400, 9, 0)},
		{Group: begin, Name: "no-plan", What: "Opened without a link, with nothing on the device.", reach: func(p *phone) { p.open("") }},
		{Group: begin, Name: "plans-on-the-device", What: "Opened without a link, with plans on the device.", reach: func(p *phone) {
			p.of(family())
			other := starter()
			other.Number, other.Patient = 0xabd, ""
			p.of(other).open("")
		}},
		{Group: begin, Name: "plan-removed", What: "A plan was removed from the device; a button puts it back.", reach: func(p *phone) {
			p.of(family()).open("").press("/forget")
		}},
		{Group: begin, Name: "plan-put-back", What: "It was put back.", reach: func(p *phone) { p.of(family()).open("").press("/forget").press("/put-back") }},
		{Group: begin, Name: "plan-removed-in-another-tab", What: "The plan that stood here was removed in another tab of this browser.", reach: func(p *phone) {
			p.open("").send("/", app.Field{Name: "elsewhere", Value: "plan"})
		}},
		{Group: begin, Name: "all-removed-in-another-tab", What: "Everything was removed from the device in another tab.", reach: func(p *phone) {
			p.open("").send("/", app.Field{Name: "elsewhere", Value: "all"})
		}},
		{Group: begin, Name: "plan-damaged", What: "The copy of a plan on the device is damaged, and so is what was read of it.", reach: func(p *phone) {
			p.of(family()).open("")
			for key := range p.in.Kept {
				if strings.HasPrefix(key, "plan.") || strings.HasPrefix(key, "read.") {
					p.in.Kept[key] = p.in.Kept[key][:40]
				}
			}
			p.open("")
		}},
		{Group: begin, Name: "kept-here", What: "What this device keeps.", reach: func(p *phone) { p.of(family()).send("/device") }},
		{Group: begin, Name: "wipe-asked", What: "Whether all of it is to be removed.", reach: func(p *phone) { p.of(family()).send("/device").send("/device/wipe") }},
		{Group: begin, Name: "wipe-works", What: "It is being removed.", reach: func(p *phone) {
			p.of(family()).send("/device").send("/device/wipe").press("/device/wipe", field("sure", "1"))
		}},
		{Group: begin, Name: "wiped", What: "All of it is gone.", reach: func(p *phone) { p.open("").send("/device", field("gone", "1")) }},
		{Group: begin, Name: "wipe-left", What: "The browser kept some of it.", reach: func(p *phone) { p.open("").send("/device", field("left", "1")) }},
		{Group: begin, Name: "start-form", What: "The short form of a new plan.", reach: func(p *phone) { p.open("start") }},
		{Group: begin, Name: "start-form-problems", What: "The short form, sent with everything wrong.", reach: func(p *phone) {
			p.open("start").press("/start", field("surgery", "x"), field("arrival", "x"), field("drive", "x"), field("parking", "999"))
		}},
		{Group: begin, Name: "started", What: "A plan that was just made.", reach: func(p *phone) {
			p.open("start").press("/start", field("surgery", "2027-03-09"), field("arrival", "05:30"), field("joint", "knee"), field("operation", "first"), field("stay", "one-night"), field("drive", "40"))
		}},
		{Group: days, Name: "example", What: "The example family, nine days before.", reach: func(p *phone) { p.open("demo") }},
		{Group: days, Name: "weeks-before", What: "Three weeks before surgery: little is due.", reach: on(family, -21, 9, 0)},
		{Group: days, Name: "not-yet-known", What: "Arrival, way and stay are not known: nothing is guessed.", reach: on(unknown, -9, 9, 0)},
		{Group: days, Name: "not-yet-known-evening-before", What: "The evening before, and still no arrival time.", reach: on(unknown, -1, 19, 0)},
		{Group: days, Name: "arrival-put-in", What: "The arrival time was put in where it is asked for.", reach: func(p *phone) {
			p.of(unknown()).press("/arrival", field("arrival", "05:30"))
		}},
		{Group: days, Name: "arrival-put-in-wrong", What: "The arrival time was put in wrong.", reach: func(p *phone) { p.of(unknown()).send("/arrival", field("arrival", "half past")) }},
		{Group: days, Name: "way-put-in", What: "The minutes of the way were put in, too many of them.", reach: func(p *phone) {
			q := starter()
			q.Drive, q.Parking = plan.Unknown, plan.Unknown
			p.of(q).send("/way", field("drive", "4000"), field("parking", ""))
		}},
		{Group: days, Name: "nothing-tomorrow", What: "Nobody helps yet and tomorrow has nothing.", reach: on(starter, -40, 9, 0)},
		{Group: days, Name: "plain-plan", What: "A navigator's link, just opened: no names, no helpers.", reach: on(func() plan.Plan {
			p := starter()
			p.Patient, p.Program, p.Zone = "", plan.Program{}, home
			return p
		}, -9, 9, 0)},
		{Group: days, Name: "step-ticked", What: "A step was marked as done.", reach: func(p *phone) { p.of(family()).press("/tick", field("done", "1")) }},
		{Group: days, Name: "facts", What: "The facts of a plan, to be changed.", reach: func(p *phone) { p.of(family()).send("/facts") }},
		{Group: days, Name: "facts-problems", What: "The facts, sent with mistakes.", reach: func(p *phone) {
			p.of(family()).send("/facts").press("/facts", field("surgery", ""), field("arrival", "x"), field("drive", "-1"))
		}},
		{Group: days, Name: "day-before", What: "The morning of the day before.", reach: on(family, -1, 9, 0)},
		{Group: days, Name: "evening-before", What: "The evening before: eating and drinking end tonight.", reach: on(family, -1, 19, 0)},
		{Group: days, Name: "surgery-before-leaving", What: "The day of surgery, before leaving.", reach: on(family, 0, 3, 30)},
		{Group: days, Name: "surgery-on-the-way", What: "The day of surgery, on the way.", reach: on(family, 0, 4, 40)},
		{Group: days, Name: "surgery-under-way", What: "The operation is usually under way.", reach: on(family, 0, 8, 0)},
		{Group: days, Name: "surgery-recovery-room", What: "Usually in the recovery room.", reach: on(family, 0, 10, 0)},
		{Group: days, Name: "surgery-unknown-arrival", What: "The day of surgery with no arrival time.", reach: on(unknown, 0, 8, 0)},
		{Group: days, Name: "home-the-same-day", What: "Home the same day: the afternoon of surgery.", reach: on(func() plan.Plan {
			p := family()
			p.Stay = plan.SameDay
			return p
		}, 0, 15, 0)},
		{Group: days, Name: "first-night", What: "Late in the evening after surgery.", reach: on(family, 0, 22, 30)},
		{Group: days, Name: "discharge", What: "The morning after one night.", reach: on(family, 1, 9, 0)},
		{Group: days, Name: "in-recovery", What: "The third day at home.", reach: on(family, 3, 10, 0)},
		{Group: days, Name: "therapy-weeks", What: "The weeks of outpatient therapy.", reach: on(family, 13, 8, 0)},
		{Group: days, Name: "over", What: "Everything in the plan is over.", reach: on(family, 200, 9, 0)},
		{Group: days, Name: "longer-stay", What: "A revision of a hip with all facts, and a clock change in its days.", reach: on(func() plan.Plan {
			p := family()
			p.Joint, p.Operation, p.Facts = plan.Hip, plan.Revision, plan.AllFacts
			return p
		}, 2, 9, 0)},
		{Group: days, Name: "another-zone", What: "A helper's phone in another time zone: both times stand there.", reach: func(p *phone) {
			p.in.Zone = "Pacific/Auckland"
			p.of(family())
		}},
		{Group: days, Name: "other-clock", What: "The clock was changed between 12 and 24 hours.", reach: func(p *phone) {
			p.at(-1, 19, 0).of(family()).press("/clock", field("clock", map[bool]string{true: "24", false: "12"}[p.in.Clock12]))
		}},
		{Group: days, Name: "hip-evening-arrival", What: "An arrival in the afternoon: the fast is another one.", reach: on(func() plan.Plan {
			p := family()
			p.Arrival = wall.Clock(13 * 60)
			return p
		}, -1, 19, 0)},
	}
}
