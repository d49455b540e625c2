package page

import (
	"newel/core/guide"
	"newel/core/message"
	"newel/core/plan"
	"newel/core/wall"
)

// DeskFrame is what all screens of the navigator's desk have. Their forms carry what was put in
// for patients on in hidden fields, so that nothing of it is stored.
type DeskFrame struct {
	Voice    guide.Voice
	Fragment string // of the desk: its settings
	Calls    Calls
	Title    string
	Lead     string
	Hospital string  // whose settings hold; empty: they have no name
	Home     string  // where the settings are of an earlier program than this copy of the page is for: the desk's fragment with that
	HomeName string  // and whose it is
	Renew    *Hidden // the table of links that were made with other settings; nil: there is none
	Example  string  // where nobody has put settings in: the desk's fragment with the example's
}

// DeskMade is a link that was made at the desk, with the message that goes with it.
type DeskMade struct {
	Title    string   // for which day it is
	Said     []string // what was put in, read back in sentences
	Message  string
	Language string   // of the message
	Ways     Ways     // the fields of its forms hold the link
	Moves    []string // what moved against the link before
	Pressing []string // those of them that may not stand behind a fold
	MovesSum string   // their number in a sentence; empty: it is a first link
	Notes    []string
	Card     bool      // a card can be printed: the fields of its forms hold the patient's row
	Day      wall.Date // of surgery
	First    bool      // a patient's first link: there can be a next patient
}

// NewDeskWays are the ways of handing over a message that has its link in it.
func NewDeskWays(v guide.Voice, action, address, fragment, text string) Ways {
	return Ways{
		Voice: v, Action: action, Fragment: fragment, Address: address, Text: text, Code: FitsInCode(address),
		SMS: message.SMS(nil, text), Parts: v.Count("link.parts", message.Parts(text).Parts),
	}
}

// FitsInCode tells whether an address fits into a QR code.
func FitsInCode(address string) bool { return len(address) <= mostInCode }

// DeskSaid reads back in sentences what the desk knows of a patient: what, when and how soon;
// the arrival; the stay; what was handed out.
func DeskSaid(v guide.Voice, p *plan.Plan) []string {
	said := []string{v.Say("desk-page.said", arg("what", DeskWhat(v, p)), arg("day", v.Day(p.Surgery)), arg("to-go", toGo(v, p)))}
	if p.Arrival.Known() {
		said = append(said, v.Say("desk-page.said.arrival", arg("time", v.Clock(p.Arrival.HourMinute()))))
	} else {
		said = append(said, v.Say("desk-page.said.no-arrival"))
	}
	said = append(said, v.Say([]string{"desk-page.said.one-night", "desk-page.said.same-day", "desk-page.said.undecided"}[p.Stay]))
	return append(said, deskGiven(v, p.Facts)...)
}

// DeskWhat names the operation without the patient.
func DeskWhat(v guide.Voice, p *plan.Plan) string {
	nameless := *p
	nameless.Patient = ""
	return Title(v.Book, &nameless)
}

func toGo(v guide.Voice, p *plan.Plan) string {
	m := maker{v: v, p: p, today: v.Today}
	return m.toGo()
}

func deskGiven(v guide.Voice, facts plan.Facts) []string {
	var given []string
	for _, g := range []struct {
		fact plan.Facts
		key  string
	}{{plan.SoapGiven, "desk-page.soap"}, {plan.DrinkGiven, "desk-page.drink"}, {plan.ParkingPass, "desk-page.pass"}} {
		if facts.Has(g.fact) {
			given = append(given, v.Say(g.key))
		}
	}
	said := []string{v.Say("desk-page.said.nothing")}
	if len(given) > 0 {
		said[0] = v.Say("desk-page.said.given", arg("what", v.List(given)))
	}
	if facts.Has(plan.NoSurgicalSoap) {
		said = append(said, v.Say("desk-page.said.no-soap"))
	}
	if facts.Has(plan.TeamTimes) {
		said = append(said, v.Say("desk-page.said.team"))
	}
	return said
}

// DeskDamagedPage says that the desk's address cannot be read.
func DeskDamagedPage(f DeskFrame) string { return deskDamaged(&f) }
