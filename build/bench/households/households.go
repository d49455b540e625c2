// Package households holds the two invented families that the benchmark opens in a browser:
// the reference family (5 helpers, 12 weeks, 120 dates of duties) and the heavy one (12
// helpers, 26 weeks, 600 dates). Each is a document as it grows on the helpers' own phones,
// and the link of somebody who changed things apart from the rest.
//
// All follows from the day that it is asked for: surgery is nine days later, so that the
// family's weeks lie ahead whenever the benchmark runs. All names are invented.
package households

import (
	"strconv"
	"time"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/wall"
)

// Household is one family.
type Household struct {
	Name    string // as in the rows: reference, heavy
	Helpers []string
	Weeks   int // from surgery to the last date, rounded up
	Dates   int // of the family's own duties, all together
	duties  func(surgery wall.Date) []plan.Duty
}

// Reference is the family that most figures are of.
var Reference = Household{
	Name: "reference", Weeks: 12, Dates: 120, duties: referenceDuties,
	Helpers: []string{"Ines", "Otto", "Mara", "Bela", "Ruth"},
}

// Heavy is a family as large as the page has to bear.
var Heavy = Household{
	Name: "heavy", Weeks: 26, Dates: 600, duties: heavyDuties,
	Helpers: []string{"Ines", "Otto", "Mara", "Bela", "Ruth", "Anselm", "Greta", "Noah", "Paloma", "Viggo", "Sabine", "Tadeo"},
}

// All are the families in the order of the rows.
var All = []Household{Reference, Heavy}

// ahead is how many days before surgery the family looks at its plan.
const ahead = 9

// Links are the fragments of a family's addresses, without "#".
type Links struct {
	Own   string `json:"own"`   // what a helper is sent
	Other string `json:"other"` // of another helper, who changed six things without having heard of Later
	Later string `json:"later"` // of a third, who changed six other things without having heard of Other
}

// Links makes the family's links as they are on a day.
func (h Household) Links(today wall.Date) Links {
	doc := h.Grown(today)
	return Links{Own: link.Encode(doc), Other: link.Encode(h.apart(doc, 1)), Later: link.Encode(h.apart(doc, 2))}
}

// actor is the number of a helper's phone.
func actor(helper int) merge.Actor { return merge.Actor(104729 * (helper + 2)) }

// Grown is the family's document: the navigator makes it, and the helpers add the duties and
// what is known of themselves, each on a phone of their own, after each other.
func (h Household) Grown(today wall.Date) *merge.Doc {
	doc := merge.New(starter(today))
	first := actor(0)
	p := doc.Plan()
	p.Helpers = h.Helpers
	p.Cover = [len(p.Cover)]uint8{1, 1, 0, 2, 0}
	doc = doc.Change(first, p)
	for i, name := range h.Helpers {
		doc = doc.WithHand(actor(i), name)
		doc = doc.Change(actor(i), doc.Plan().WithAbout(uint8(i+1), about(i, today)))
	}
	for i, d := range h.duties(today + ahead) {
		by := actor(i % len(h.Helpers))
		p := doc.Plan()
		d.ID = p.FreshDuty(uint32(by))
		d.Rule = d.Rule.Canonical()
		if i%4 != 3 { // of every fourth nobody has said who
			d.Who = uint8(i%len(h.Helpers) + 1)
		}
		doc = doc.Change(by, p.WithDuty(d))
	}
	return h.ticked(doc)
}

// ticked is the document after each helper has done a few things.
func (h Household) ticked(doc *merge.Doc) *merge.Doc {
	done := []string{"choose-coach", "ask-medicines", "walker", "toilet-frame", "throw-rugs", "cords", "night-light", "groceries", "meals-ahead"}
	for i, id := range done {
		doc = doc.Change(actor(i%len(h.Helpers)), doc.Plan().WithTick(plan.Tick{Code: schedule.KindByID(id).Code}, true))
	}
	return doc
}

// apart is the document after a helper changed six things: who has single dates of the first
// five duties, and the note of one.
func (h Household) apart(doc *merge.Doc, helper int) *merge.Doc {
	for i := range 5 {
		p := doc.Plan()
		d := p.Duties[i]
		days, _ := d.Rule.Pattern()
		d.Takes = []plan.Take{{Day: days[min(1, len(days)-1)], Who: uint8(helper + 1)}}
		doc = doc.Change(actor(helper), p.WithDuty(d))
	}
	p := doc.Plan()
	d := p.Duties[4+helper]
	d.Note = "Ask " + h.Helpers[helper] + " for the key, number " + strconv.Itoa(helper)
	return doc.Change(actor(helper), p.WithDuty(d))
}

// starter is what the navigator texts.
func starter(today wall.Date) plan.Plan {
	base := plan.BaseOf(1)
	return plan.Plan{
		Number: 0x3d7a10c5, Patient: "Edda", Surgery: today + ahead, Arrival: 6 * 60, Joint: plan.Hip,
		Zone: base.Zone, Drive: 35, Parking: 10, Program: base.Program,
		Facts: plan.SoapGiven | plan.HomeAnswered | plan.Stairs | plan.Pets | plan.Glasses | plan.HearingAids,
	}
}

// about is what a helper says of themselves: jobs by turns, and one in five drives no car.
func about(i int, today wall.Date) plan.About {
	can := plan.Abilities(plan.AllAbilities)
	if i%5 == 3 {
		can &^= plan.CanDrive
	}
	begin := wall.Clock(7*60 + 30*(i%6))
	rule := weekly(today-14, begin, 40*5, time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday)
	return plan.About{Told: true, Can: can, Away: 5 * (i%6 + 1), Offer: plan.Usual, Times: []plan.Times{{Use: plan.Work, Length: 7 * 60, Rule: rule}}}
}

// weekly is a rule of so many dates on some days of the week.
func weekly(first wall.Date, at wall.Clock, dates int, days ...time.Weekday) repeat.Rule {
	return repeat.Rule{First: first, At: at, Freq: repeat.Weekly, Every: 1, Days: repeat.DaysOf(days...), Week: time.Monday, Count: dates}.Canonical()
}
