package catalogue

import (
	"strings"

	"newel/core/app"
	"newel/core/desk"
	"newel/core/plan"
)

// deskStates are the navigator's screens.
func deskStates(Vectors) []State {
	return append(deskOne(), append(deskTable(), deskSettings()...)...)
}

// atDesk opens the desk with the invented hospital's settings.
func atDesk(p *phone) *phone {
	settings := plan.BaseOf(1)
	settings.Zone = home
	return p.open(desk.Address(&settings))
}

func patient(more ...app.Field) []app.Field {
	return append([]app.Field{field("surgery", "2027-03-20"), field("arrival", "05:30"), field("joint", "hip"), field("operation", "first"),
		field("stay", "undecided"), field("language", "es"), field("label", "Bed 4")}, more...)
}

func deskOne() []State {
	const group = "The desk: one patient"
	return []State{
		{Group: group, Name: "desk", What: "Where the navigator starts.", reach: func(p *phone) { atDesk(p) }},
		{Group: group, Name: "desk-without-settings", What: "The desk before the hospital's settings are in.", reach: func(p *phone) { p.open("desk") }},
		{Group: group, Name: "desk-damaged", What: "The desk's own address is damaged.", reach: func(p *phone) { p.open("desk.AAAA") }},
		{Group: group, Name: "desk-problems", What: "A patient was put in with mistakes.", reach: func(p *phone) { atDesk(p).press("/desk", field("surgery", "x"), field("arrival", "25:00")) }},
		{Group: group, Name: "desk-made", What: "A patient's link was made.", reach: func(p *phone) { atDesk(p).press("/desk", patient()...) }},
		{Group: group, Name: "desk-made-two", What: "Two patients' links were made.", reach: func(p *phone) { atDesk(p).press("/desk", patient()...).press("/desk", patient()...) }},
		{Group: group, Name: "desk-moved", What: "A link that was sent before is to be corrected.", reach: func(p *phone) { atDesk(p).send("/desk/moved") }},
		{Group: group, Name: "desk-moved-problem", What: "What was pasted is no link.", reach: func(p *phone) { atDesk(p).send("/desk/moved").press("/desk/moved", field("text", "no link")) }},
		{Group: group, Name: "desk-moved-read", What: "The link was read: its facts can be changed.", reach: func(p *phone) {
			atDesk(p).send("/desk/moved").press("/desk/moved", field("text", address+"#"+fragmentOf(family())))
		}},
		{Group: group, Name: "desk-moved-done", What: "It was corrected: the surgery is a week later.", reach: func(p *phone) {
			atDesk(p).send("/desk/moved", append(patient(), field("link", fragmentOf(family())), field("act", "correct"))...)
		}},
		{Group: group, Name: "class", What: "A sample patient's days, for the class.", reach: func(p *phone) { atDesk(p).send("/desk/class") }},
		{Group: group, Name: "class-hip", What: "The sample of a hip.", reach: func(p *phone) { atDesk(p).send("/desk/class/14/hip") }},
		{Group: group, Name: "class-same-day", What: "The sample of going home the same day, on that day.", reach: func(p *phone) { atDesk(p).send("/desk/class/14/same-day") }},
		{Group: group, Name: "class-not-yet", What: "The sample in which little is known, the day before.", reach: func(p *phone) { atDesk(p).send("/desk/class/13/not-yet") }},
		{Group: group, Name: "desk-guide", What: "The guide with the hospital's settings.", reach: func(p *phone) { atDesk(p).send("/guide") }},
	}
}

const table = "Label,Date,Arrival,Joint,Notes\nBed 1,2027-03-20,5:30 AM,knee,x\nBed 2,2027-03-20,,hip,\nBed 3,2027-03-22,13:15,knee,\n"
const wrongTable = "Label,Date,Arrival,Joint,Link\nBed 1,soon,early,elbow,x\nBed 2,2027-03-20,05:30,hip,\nBed 3,1999-01-01,25:00,knee,\n"

func deskTable() []State {
	const group = "The desk: many patients"
	rows := func(text string) func(*phone) *phone {
		return func(p *phone) *phone {
			return atDesk(p).send("/desk/rows").press("/desk/rows", field("act", "check"), field("text", text))
		}
	}
	return []State{
		{Group: group, Name: "rows", What: "Where a table of patients is put in.", reach: func(p *phone) { atDesk(p).send("/desk/rows") }},
		{Group: group, Name: "rows-unreadable", What: "What was put in is no table.", reach: func(p *phone) { rows("no table")(p) }},
		{Group: group, Name: "rows-checked", What: "A table was read.", reach: func(p *phone) { rows(table)(p) }},
		{Group: group, Name: "rows-with-errors", What: "A table with mistakes: each says its row, column and value.", reach: func(p *phone) { rows(wrongTable)(p) }},
		{Group: group, Name: "rows-many", What: "A hundred and fifty patients.", reach: func(p *phone) { rows("Date\n" + strings.Repeat("2027-03-20\n", 150))(p) }},
		{Group: group, Name: "cards", What: "The patients' cards, to be printed.", reach: func(p *phone) {
			atDesk(p).send("/desk/cards", field("text", table), field("act", "cards"))
		}},
		{Group: group, Name: "cards-of-nobody", What: "There are no links to print cards of.", reach: func(p *phone) { atDesk(p).send("/desk/cards") }},
	}
}

func deskSettings() []State {
	const group = "The desk: the hospital's settings"
	file := func(p *phone) *phone { return atDesk(p).send("/desk/settings/file") }
	return []State{
		{Group: group, Name: "settings", What: "The hospital's settings.", reach: func(p *phone) { atDesk(p).send("/desk/settings") }},
		{Group: group, Name: "settings-line-added", What: "One line more of the hospital's own.", reach: func(p *phone) {
			atDesk(p).send("/desk/settings").press("/desk/settings", field("act", "add"))
		}},
		{Group: group, Name: "settings-problems", What: "The settings, sent with mistakes.", reach: func(p *phone) {
			atDesk(p).send("/desk/settings").press("/desk/settings", field("hospital", strings.Repeat("x", 200)), field("rule.fever", "900"))
		}},
		{Group: group, Name: "settings-saved", What: "The settings were saved.", reach: func(p *phone) { atDesk(p).send("/desk/settings").press("/desk/settings") }},
		{Group: group, Name: "settings-file", What: "The settings as a file.", reach: func(p *phone) { file(p) }},
		{Group: group, Name: "settings-file-wrong", What: "A file that cannot be read.", reach: func(p *phone) { file(p).press("/desk/settings/check", field("text", "fever = warm")) }},
		{Group: group, Name: "settings-file-checked", What: "A file was read; what it changes.", reach: func(p *phone) {
			file(p).press("/desk/settings/check", field("text", "[hospital]\nname = \"Alder Ferry Hospital\"\n"))
		}},
		{Group: group, Name: "settings-file-saved", What: "The file was handed over to be saved.", reach: func(p *phone) { file(p).press("/desk/settings/save") }},
		{Group: group, Name: "settings-kept", What: "The settings on this device.", reach: func(p *phone) { atDesk(p).send("/desk/settings/keep") }},
		{Group: group, Name: "settings-keep", What: "They were kept on this device.", reach: func(p *phone) {
			atDesk(p).send("/desk/settings/keep").press("/desk/settings/keep", field("act", "keep"))
		}},
	}
}
