package desk

import (
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/message"
	"newel/core/plan"
	"newel/core/wall"
)

// host24 is a page on a host name of 24 characters.
const host24 = "https://abcdefghijklmnopqrst.org/"

// A starter takes one part of 160 septets (3GPP TS 23.038 6.2.1, TS 23.040 9.2.3.24.1; core/message
// holds their vectors) in each language on each day of four years, the year written or not,
// with a link that names a program by its number, and with one that adds a parking pass.
func TestAStarterTakesOnePart(t *testing.T) {
	require.Len(t, strings.TrimSuffix(strings.TrimPrefix(host24, "https://"), "/"), 24)
	for _, facts := range []plan.Facts{0, plan.ParkingPass, plan.SoapGiven | plan.DrinkGiven | plan.ParkingPass} {
		longest := 0
		for _, v := range voices() {
			for d := today; d < today+4*366; d++ {
				p := PlanOf(known(), Patient{Surgery: d, Arrival: 330, Facts: facts}, 0xfedcba98)
				fragment := link.Encode(merge.New(p))
				require.Equal(t, facts == 0, len(fragment) <= 22)
				require.LessOrEqual(t, len(fragment), 38)
				cost := message.Parts(Message(v, host24+"#"+fragment, nil, &p))
				require.Equal(t, message.GSM7, cost.Alphabet)
				require.Equal(t, 1, cost.Parts, "%s %s: %d", v.Language, d, cost.Units)
				longest = max(longest, cost.Units)
			}
		}
		t.Logf("facts %x: %d of 160 septets at most", facts, longest)
	}
}

// Corrections take one part, too, with a program's number; the longest link is that of a day
// and a time that both changed, by a device with a great number.
func TestCorrectionsTakeOnePart(t *testing.T) {
	for _, v := range voices() {
		longest := map[string]int{}
		for d := today; d < today+400; d++ {
			for _, c := range corrections(d) {
				doc := merge.New(PlanOf(known(), c.before, 0xfedcba98))
				next := Corrected(doc, c.after, 4_000_000)
				before, after := doc.Plan(), next.Plan()
				text := Message(v, host24+"#"+link.Encode(next), &before, &after)
				cost := message.Parts(text)
				require.Equal(t, message.GSM7, cost.Alphabet, text)
				require.Equal(t, 1, cost.Parts, text)
				key := messageKey(&before, &after, after.Arrival.Known())
				require.Equal(t, c.key, key)
				longest[key] = max(longest[key], cost.Units)
			}
		}
		t.Log(v.Language, longest)
	}
}

type correction struct {
	key           string
	before, after Patient
}

func corrections(d wall.Date) []correction {
	base := Patient{Surgery: d, Arrival: wall.NoClock}
	with := func(change func(p *Patient)) Patient {
		p := base
		change(&p)
		return p
	}
	at := func(c wall.Clock) Patient { return with(func(p *Patient) { p.Arrival = c }) }
	moved := with(func(p *Patient) { p.Surgery = d + 7 })
	both := with(func(p *Patient) { p.Surgery, p.Arrival = d+7, 690 })
	return []correction{
		{"desk.text.arrival", base, at(690)}, {"desk.text.arrival-moved", at(330), at(690)}, {"desk.text.arrival-open", at(330), base},
		{"desk.text.moved", base, moved}, {"desk.text.moved-time", base, both}, {"desk.text.corrected", base, with(func(p *Patient) { p.Stay = plan.SameDay })},
		{"desk.text.moved-open", at(690), with(func(p *Patient) { p.Surgery, p.Arrival = d+7, 690 })},
	}
}

// A message stands on a locked screen: neither the operation nor a name is in it, in any state.
func TestAMessageSaysNothingOfTheOperation(t *testing.T) {
	for _, v := range voices() {
		for _, joint := range []plan.Joint{plan.Knee, plan.Hip} {
			for _, c := range corrections(today + 20) {
				before := PlanOf(own(), c.before, 7)
				before.Joint, before.Patient, before.Helpers = joint, "Rosa", []string{"Dana", "Tomas"}
				after := before
				after.Surgery, after.Arrival, after.Stay = c.after.Surgery, c.after.Arrival, c.after.Stay
				for _, text := range []string{Message(v, page+"#x", &before, &after), Message(v, page+"#x", nil, &after)} {
					require.NotRegexp(t, `(?i)knee|hip\b|rodilla|cadera|surg|cirug|operac|replace|reempl|Rosa|Dana|Tomas|Alder Ferry Hosp`, text)
					require.True(t, strings.HasSuffix(text, " "+page+"#x"), "the link stands at the end, free: "+text)
					require.NotContains(t, text, "{")
				}
			}
		}
	}
}

// The texts as people get them.
func TestMessages(t *testing.T) {
	en, es := voices()[0], voices()[1]
	es.Clock12 = true
	before := PlanOf(known(), Patient{Surgery: day("2026-12-02"), Arrival: wall.NoClock}, 7)
	known := before
	known.Arrival = 330
	moved := known
	moved.Surgery = day("2027-01-13")
	require.Equal(t, "Your plan for Wednesday, December 2: all times and lists, day by day. L", Message(en, "L", nil, &before))
	require.Equal(t, "Su plan para el miércoles, 2 de diciembre: horas y listas, dia por dia. L", Message(es, "L", nil, &before))
	require.Equal(t, "Please arrive on Wednesday, December 2 at 5:30 AM. This updates your plan: L", Message(en, "L", &before, &known))
	require.Equal(t, "Por favor llegue el miércoles, 2 de diciembre a las 5:30 a.m. Esto pone al dia su plan: L", Message(es, "L", &before, &known))
	require.Contains(t, Message(en, "L", &known, &moved), "Your new date is Wednesday, January 13, 2027.")
}

// An sms: link (RFC 5724 2.2) carries the whole text and the whole address: another library
// (net/url) reads them out of it again.
func TestTheMessageInALink(t *testing.T) {
	p := PlanOf(known(), Patient{Surgery: day("2026-12-02"), Arrival: 330}, 7)
	for _, v := range voices() {
		text := Message(v, host24+"#"+link.Encode(merge.New(p)), nil, &p)
		u, err := url.Parse(message.SMS([]string{"555-0142"}, text))
		require.NoError(t, err)
		require.Equal(t, "sms", u.Scheme)
		require.Equal(t, "555-0142", u.Opaque)
		query, err := url.ParseQuery(u.RawQuery)
		require.NoError(t, err)
		require.Equal(t, text, query.Get("body"))
	}
}

// What a link costs that carries a hospital's settings: it is reported, and bounded.
func TestMessagesWithSettingsInTheLink(t *testing.T) {
	p := PlanOf(own(), Patient{Surgery: day("2026-12-02"), Arrival: 330}, 7)
	fragment := link.Encode(merge.New(p))
	cost := message.Parts(Message(voices()[0], host24+"#"+fragment, nil, &p))
	t.Logf("%d characters of link: %d septets, %d parts", len(fragment), cost.Units, cost.Parts)
	require.LessOrEqual(t, cost.Parts, 3)
}
