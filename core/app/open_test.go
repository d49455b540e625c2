package app

import (
	"html"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/wall"
)

// started is a phone with a plan on it: surgery on Thursday 3 December 2026.
func started(t *testing.T) *phone {
	t.Helper()
	p := newPhone(t)
	p.open("start")
	p.send("/start", facts()...)
	require.Equal(t, "/", p.path)
	return p
}

func TestDateChangeIsListed(t *testing.T) {
	p := started(t)
	old := p.fragment
	family := newPhone(t)
	family.open(old)
	require.Empty(t, family.news())

	p.send("/facts", facts("surgery", "2026-12-10")...)
	for _, device := range []*phone{p, family} {
		if device == family {
			device.open(p.fragment)
		}
		moved := device.part("notice-moved")
		require.Contains(t, moved, "Surgery moved from Thursday, December 3 to Thursday, December 10")
		require.Contains(t, moved, "Drive to the hospital: from Thu, Dec 3, 04:15 to Thu, Dec 10, 04:15")
		require.Contains(t, moved, "Drive Rosa home the morning after: from Fri, Dec 4, 07:15 to Fri, Dec 11, 07:15")
		require.Contains(t, moved, "Wash 1 of 5: shower with the surgical soap: from Sun, Nov 29 to Sun, Dec 6")
		device.send("/")
		require.Contains(t, device.text(), "have changed since you last looked", "until it was read")
		device.send("/read")
		require.NotContains(t, device.text(), "since you last looked")
		require.Contains(t, device.text(), "Thursday, December 10")
	}
	// The old text message is tapped again: the newer plan stays, without a word.
	family.open(old)
	require.Empty(t, family.news())
	require.Contains(t, family.text(), "Thursday, December 10")

	// So it is on a device that never had the old one, and opens it after the new one.
	late := newPhone(t)
	late.open(p.fragment)
	late.open(old)
	require.Empty(t, late.news())
	require.Contains(t, late.text(), "Thursday, December 10")
	require.Equal(t, p.fragment, late.fragment)
}

// What moved is said in the wording that holds for this patient.
func TestMovedInTheRightWords(t *testing.T) {
	p := newPhone(t)
	p.open("start")
	careful := []string{"fact.no-surgical-soap", "1", "fact.team-times", "1"}
	p.send("/start", facts(careful...)...)
	p.send("/facts", facts(append(careful, "surgery", "2026-12-10")...)...)
	require.Contains(t, p.part("notice-moved"), "shower with an ordinary antibacterial soap: from")
	require.NotContains(t, p.part("notice-moved"), "shower with the surgical soap")
	require.Contains(t, p.part("notice-moved"), "Stop drinking, even water, at the time your team gave you: from")
}

// Two people change different things at the same time: both changes hold on both phones,
// and nobody is asked anything.
func TestBothChanged(t *testing.T) {
	a := started(t)
	b := newPhone(t)
	b.open(a.fragment)
	a.send("/facts", facts("arrival", "06:00")...)
	b.send("/facts", facts("drive", "55")...)
	fromA, fromB := a.fragment, b.fragment
	b.open(fromA)
	a.open(fromB)
	for _, phone := range []*phone{a, b} {
		require.Equal(t, 55, phone.plan().Drive, "nothing on the device is lost")
		require.EqualValues(t, 6*60, phone.plan().Arrival)
		require.NotContains(t, phone.text(), "settled")
	}
	require.Equal(t, a.fragment, b.fragment)
}

func TestTicks(t *testing.T) {
	p := started(t)
	sent := p.fragment
	out := p.send("/tick", "code", "11", "n", "0", "done", "1")
	require.Equal(t, "Done: Take up the throw rugs", out.Say)
	require.True(t, p.plan().Has(plan.Tick{Code: 11}))
	require.Contains(t, p.part("list-home"), "1 of")
	p.open(sent)
	require.True(t, p.plan().Has(plan.Tick{Code: 11}), "the text message is tapped again: what was ticked stays")
	p.send("/tick", "code", "11", "n", "0")
	p.open(sent)
	require.False(t, p.plan().Has(plan.Tick{Code: 11}))
	before := p.fragment
	for _, bad := range [][2]string{{"9999", "0"}, {"-1", "0"}, {"x", ""}, {"40", "200"}, {"40", "257"}, {"105", "0"}} {
		p.send("/tick", "code", bad[0], "n", bad[1], "done", "1")
		require.Equal(t, before, p.fragment, "there is no such step: %v", bad)
	}
	// Ticks of two people come together when one also changed the facts.
	other := newPhone(t)
	other.open(sent)
	other.send("/tick", "code", "40", "n", "1", "done", "1")
	p.send("/tick", "code", "11", "n", "0", "done", "1")
	p.send("/facts", facts("parking", "20")...)
	other.open(p.fragment)
	require.True(t, other.plan().Has(plan.Tick{Code: 11}) && other.plan().Has(plan.Tick{Code: 40, N: 1}))
}

func TestLinksThatDoNotOpen(t *testing.T) {
	p := started(t)
	good := p.fragment
	for _, bad := range []string{good[:len(good)-3], good[1:], "x", "hello-there", good + good} {
		p.open(bad)
		require.Contains(t, p.text(), "This link was cut off in sending", bad)
		require.Contains(t, p.text(), "Ask whoever sent it to send it again")
		require.Contains(t, p.last.HTML, `href="#`+good+`"`, "the plan on the device is offered")
		require.Equal(t, good, p.kept["plan."+planKey(p.planOf(good).Number)])
	}
}

// The zone of a link may be one that this page's zone data does not have, and its
// arrival may fall into an hour that is skipped.
func TestOddTimesInALink(t *testing.T) {
	p := newPhone(t)
	odd := plan.Plan{Number: 9, Surgery: p.date("2027-03-14"), Arrival: 2*60 + 30, Zone: "Mars/Olympus", Drive: 40, Parking: 15}
	p.open(link.Encode(merge.New(odd)))
	require.Equal(t, "/facts", p.path)
	require.Contains(t, p.part("problems"), `"Mars/Olympus" is not a time zone that this page knows`)
	require.Equal(t, "40", p.values()["drive"], "nothing is lost")

	odd.Number, odd.Zone = 10, "America/Chicago"
	p.open(link.Encode(merge.New(odd)))
	require.Contains(t, p.text(), "On that night the clocks jump over 02:30. It is read as 03:30 here.")
	odd.Number, odd.Surgery, odd.Arrival = 11, p.date("2027-11-07"), 90
	p.open(link.Encode(merge.New(odd)))
	require.Contains(t, p.text(), "On that night the clocks show 01:30 twice. The first one is meant here.")
}

func (p *phone) date(iso string) wall.Date {
	d, err := wall.ParseDate(iso)
	require.NoError(p.t, err)
	return d
}

// A clock that stands before this page was made is wrong, and the page says so; of one that is ahead nobody can know.
func TestClockBehind(t *testing.T) {
	p := started(t)
	for day, said := range map[string]string{
		"2026-11-24": "", "2026-11-01": "", "2029-02-03": "",
		"2026-10-31": "today is Saturday, October 31, 2026", "2025-11-24": "today is Monday, November 24, 2025", "1979-01-01": "today is Monday, January 1, 1979",
	} {
		p.at(day + "T09:00:00-06:00").open(p.last.Fragment)
		require.Equal(t, said != "", strings.Contains(p.last.HTML, ` id="notice-behind"`), day)
		require.Contains(t, p.text(), said)
	}
}

// A tab whose plan another tab has removed turns to the start, and says why.
func TestRemovedElsewhere(t *testing.T) {
	p := started(t)
	p.open("")
	p.send("/", "elsewhere", "plan")
	require.Contains(t, p.part("notice-elsewhere"), "The plan was removed from this device in another tab")
	require.Equal(t, "notice-elsewhere", p.last.Focus)
	p.send("/", "elsewhere", "all")
	require.Contains(t, p.part("notice-elsewhere"), "Everything was removed")
	p.send("/", "elsewhere", "something")
	require.NotContains(t, p.last.HTML, "notice-elsewhere")
}

func TestKeptPlans(t *testing.T) {
	p := started(t)
	real := p.plan()
	p.open("demo")
	demo := p.plan()
	p.open("")
	require.Contains(t, p.text(), "Plans on this device")
	for _, gone := range []plan.Plan{real, demo} {
		n := planKey(gone.Number)
		before := p.keys(n)
		p.send("/forget", "number", n)
		require.Empty(t, p.keys(n), "nothing of it is left")
		require.Contains(t, p.part("notice-forgotten"), "Put it back")
		p.send("/put-back", p.hidden("/put-back")...)
		var left []string // to take a change back, and what is filled anew, is not put back
		for _, key := range before {
			if !strings.HasPrefix(key, "undo.") && !strings.HasPrefix(key, "fill.") {
				left = append(left, key)
			}
		}
		require.Equal(t, left, p.keys(n))
		require.Contains(t, p.keys(n), keyPlan+n)
		p.open(p.kept[keyPlan+n])
		require.Equal(t, gone.Number == demo.Number, strings.Contains(p.text(), "This is an example"))
		p.open("")
	}
	p.kept[keyPlan+"zz"] = "rubbish"
	p.open("")
	require.Contains(t, p.text(), "Plans on this device", "a copy that cannot be read is no reason to fail")
	p.send("/forget", "number", "zz")
	require.NotContains(t, p.text(), "Put it back", "there is nothing to put back")
}

// keys lists what is stored of a plan.
func (p *phone) keys(n string) []string {
	var keys []string
	for k := range p.kept {
		if strings.HasSuffix(k, "."+n) {
			keys = append(keys, k)
		}
	}
	slices.Sort(keys)
	return keys
}

// hidden are the fields that nobody sees of the first form with a path, as they are sent.
func (p *phone) hidden(path string) []string {
	p.t.Helper()
	_, form, ok := strings.Cut(p.last.HTML, `<form action="`+path+`"`)
	require.True(p.t, ok, "no form goes to %s", path)
	form, _, _ = strings.Cut(form, "</form>")
	var fields []string
	for _, tag := range splitTags(form) {
		if name, ok := cut(tag, `type="hidden" name="`); ok {
			value, _ := cut(tag, `value="`)
			fields = append(fields, name, html.UnescapeString(value))
		}
	}
	return fields
}

// The date is moved and moved back: each of the three links counts on the other
// phone.
func TestMovedThereAndBack(t *testing.T) {
	p := started(t)
	family := newPhone(t)
	family.open(p.fragment)
	for _, date := range []string{"2026-12-10", "2026-12-03"} {
		p.send("/facts", facts("surgery", date)...)
		family.open(p.fragment)
		require.Equal(t, date, family.plan().Surgery.String())
	}
}

// Two people tick on their own phones and send each other their links: both ticks
// are on both phones, and no message that is tapped again takes one away.
func TestTicksComeTogether(t *testing.T) {
	a := started(t)
	b := newPhone(t)
	b.open(a.fragment)
	a.send("/tick", "code", "11", "n", "0", "done", "1")
	b.send("/tick", "code", "3", "n", "0", "done", "1")
	b.send("/tick", "code", "4", "n", "0", "done", "1")
	fromA, fromB := a.fragment, b.fragment
	a.open(fromB)
	b.open(fromA)
	for _, phone := range []*phone{a, b} {
		for _, code := range []uint16{3, 4, 11} {
			require.True(t, phone.plan().Has(plan.Tick{Code: code}), code)
		}
	}
	a.send("/tick", "code", "3", "n", "0")
	a.open(fromB)
	require.False(t, a.plan().Has(plan.Tick{Code: 3}), "an old message does not bring it back")
}

// What was changed here stays, however often the others changed other things, sent or not.
func TestOwnChangesStay(t *testing.T) {
	a := started(t)
	b := newPhone(t)
	b.open(a.fragment)
	b.send("/facts", facts("drive", "55")...)
	for _, arrival := range []string{"06:00", "06:15", "06:30"} {
		a.send("/facts", facts("arrival", arrival)...)
		b.open(a.fragment)
		require.Equal(t, 55, b.plan().Drive)
		require.Equal(t, arrival, b.plan().Arrival.String())
	}
	a.open(b.fragment)
	require.Equal(t, 55, a.plan().Drive)
	require.Equal(t, a.fragment, b.fragment)
}

// The browser's back button asks for an earlier state of the plan.
func TestBackAfterAChange(t *testing.T) {
	p := started(t)
	before := p.fragment
	out := p.send("/facts")
	require.True(t, out.Push, "a step of the history of its own")
	p.send("/facts", facts("drive", "50")...)
	p.open(before)
	require.Equal(t, 50, p.plan().Drive)
	require.NotContains(t, p.last.HTML, `"/settle"`, "nothing is asked")
	require.False(t, p.open("start").Push, "the address is a step already, and back must lead away from it")
}

// What was not sent is not emptied, and what cannot be laid out is not sent on.
func TestOddRequests(t *testing.T) {
	p := started(t)
	before := p.fragment
	p.send("/arrival")
	p.send("/way")
	require.Equal(t, before, p.fragment)
	odd := p.plan()
	odd.Zone = "Mars/Olympus"
	p.fragment = link.Encode(merge.New(odd))
	p.kept = map[string]string{}
	out := p.send("/send")
	require.Nil(t, out.Send)
	require.False(t, out.Push)
}

// Weeks of ticking do not make the first message a new one: what was unticked since
// stays so when it is tapped again.
func TestFirstMessageIsRemembered(t *testing.T) {
	nurse := started(t)
	nurse.send("/tick", "code", "11", "n", "0", "done", "1")
	message := nurse.fragment
	p := newPhone(t)
	p.open(message)
	p.send("/tick", "code", "11", "n", "0")
	for n := range 128 {
		done := []string{"code", "3", "n", "0", "done", "1"}
		p.send("/tick", done[:4+2*(n%2)]...)
	}
	p.open(message)
	require.False(t, p.plan().Has(plan.Tick{Code: 11}))
}

// A question that was answered once is not put again to whoever changes something
// else; a new value is asked about.
func TestAnsweredOnce(t *testing.T) {
	p := newPhone(t)
	p.open("start")
	odd := facts("arrival", "02:50", "surgery", "2026-11-20", "drive", "", "parking", "")
	p.send("/start", append(odd, "confirm", "02:50", "confirm", "2026-11-20")...)
	require.Equal(t, "/", p.path)
	helper := newPhone(t)
	helper.open(p.fragment)
	helper.send("/way", "drive", "40", "parking", "15")
	require.Equal(t, "/", helper.path)
	require.Equal(t, 40, helper.plan().Drive)
	helper.send("/arrival", "arrival", "03:10")
	require.Equal(t, "/facts", helper.path)
	require.Contains(t, helper.part("problems"), "03:10 is an unusual time")
}
