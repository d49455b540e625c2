package app

import (
	"maps"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/repeat"
)

// partLink is a family's plan on one phone, and the link of Luis's part of it: he drives to
// the hospital, and has one date of Dana's therapy.
func partLink(t *testing.T) (p *phone, fragment string) {
	t.Helper()
	p = started(t)
	p.send("/facts", facts("hospital", "Alder Ferry Hospital", "address", "12 Millrace Road", "phone", "555-0142")...)
	p.send("/duty/new/therapy", therapy("place", "Millrace Therapy, 3 Quay Street", "note", "Loose trousers")...)
	p.send("/duty/1/date", "act", "give", "day", "2026-12-16", "who", "Luis")
	p.send("/who/drive-there", "who", "Luis")
	p.send("/tick", "code", "11", "n", "0", "done", "1")
	fragment = link.EncodePart(p.plan(), "Luis")
	require.NotEmpty(t, fragment)
	return p, fragment
}

func TestOneHelpersPartIsRead(t *testing.T) {
	_, fragment := partLink(t)
	p := newPhone(t)
	out := p.open(fragment + ".")
	require.Equal(t, []string{"/", fragment}, []string{out.Path, out.Fragment})
	require.Contains(t, out.Title, "Only Luis's duties, to read")
	require.Empty(t, p.kept, "it is no copy of the plan, and nothing of it is kept")
	require.Contains(t, p.part("notice-part"), "ask whoever sent it")
	for _, there := range []string{"Thursday, December 3", "9 days to go", "Alder Ferry Hospital, 12 Millrace Road", "555-0142", "Rosa: knee replacement", "part of the plan as it was when the link was sent"} {
		require.Contains(t, p.text(), there)
	}
	require.Contains(t, p.part("next"), "Leave home by 04:15")
	require.Contains(t, p.part("day-2026-12-03"), "Leave home by 04:15 Drive to the hospital")
	require.Contains(t, p.part("day-2026-12-03"), "Surgery begins", "the day itself, since he is there")
	require.Contains(t, p.part("family"), "Ride to therapy Millrace Therapy, 3 Quay Street Loose trousers")
	require.Contains(t, p.part("family"), "1 date to come")
	require.Contains(t, p.part("family"), "Wed, Dec 16, 10:30")
	require.Contains(t, p.part("signs"), "555-0142")
	require.Contains(t, p.text(), "The hospital's own instructions come first")
	require.Equal(t, refreshSeconds, out.Refresh)
	for _, not := range []string{"Dana", "Dec 14", "rugs", "Nobody has this yet"} {
		require.NotContains(t, textOf(t, out.HTML, "main"), not)
	}
	// No way to change anything: the only forms are those of the clock and of the language.
	for _, form := range strings.Split(out.HTML, "<form ")[1:] {
		own := strings.HasPrefix(form, `action="/clock"`) || strings.HasPrefix(form, `action="/language"`)
		require.True(t, own, form[:40])
	}
	for _, link := range strings.Split(out.HTML, `data-path="`)[1:] {
		path, _, _ := strings.Cut(link, `"`)
		require.Contains(t, []string{"/", "/calendar", "/guide", "/sources", "/about", "/device"}, path)
	}
}

// The guide is there for whoever has a part, without dates and boxes, and with the hospital's
// numbers.
func TestTheGuideOfAPart(t *testing.T) {
	_, fragment := partLink(t)
	p := newPhone(t)
	p.open(fragment)
	for _, path := range []string{"/guide", "/guide/home", "/sources", "/about"} {
		out := p.send(path)
		require.Equal(t, []string{path, fragment}, []string{out.Path, out.Fragment})
		require.Contains(t, p.part("signs"), "555-0142")
		require.NotContains(t, out.HTML, `action="/tick"`)
		require.NotContains(t, out.HTML, `action="/line`)
		require.NotContains(t, out.HTML, `data-path="/duty`)
	}
	require.Empty(t, p.kept)
}

// A helper who only feeds the cat is not told how the day in the hospital usually goes.
func TestAPartWithoutTheHospital(t *testing.T) {
	p := started(t)
	p.send("/duty/new/pets", "first", "2026-12-01", "at", "07:30", "length", "20", "often", "daily", "every", "1", "month", "day", "ends", "weeks", "weeks", "2", "title", "Feed the cat", "who", "Ann")
	reader := newPhone(t)
	reader.open(link.EncodePart(p.plan(), "Ann"))
	require.Contains(t, reader.part("days"), "Feed the cat")
	require.NotContains(t, reader.part("days"), "Surgery begins")
	require.Contains(t, reader.part("next"), "Feed the cat")
	reader.at("2027-03-03T09:00:00-06:00").send("/")
	require.Contains(t, reader.part("next"), "Nothing is due now")
	require.Contains(t, reader.part("days"), "Nothing is left for Ann to do")
}

// Whatever is asked for with a part in the address, nothing changes and nothing is kept.
func TestAPartCannotBeChanged(t *testing.T) {
	whole, fragment := partLink(t)
	p := newPhone(t)
	for _, path := range []string{"/facts", "/tick", "/arrival", "/way", "/me", "/send", "/link", "/link/part", "/link/lock", "/link/afresh",
		"/duty/1", "/duty/1/change", "/duty/1/drop", "/duty/new/pets", "/who/drive-there", "/import", "/import/add", "/settle", "/join", "/read", "/calendar/1", "/x", "/unlock"} {
		p.fragment = fragment
		out := p.send(path, append(facts("arrival", "07:00"), "code", "11", "n", "0", "done", "1", "who", "Ann", "act", "send", "sure", "1", "phrase", "long enough", "part", "1", "key", "x", "value", "y")...)
		require.Equal(t, fragment, out.Fragment, path)
		require.Contains(t, p.part("notice-part"), "Only Luis's duties, to read", path)
		require.Empty(t, p.kept, path)
		require.Nil(t, out.Send, path)
		require.Nil(t, out.Lock, path)
		require.Nil(t, out.File, path)
	}
	// On a device that has the plan it stays as it is, and is offered.
	before := whole.fragment
	keys := len(whole.kept)
	whole.open(fragment)
	require.Equal(t, keys, len(whole.kept))
	require.Contains(t, whole.last.HTML, `href="#`+before+`" data-path="/">Open the whole plan on this device`)
	require.NotContains(t, p.last.HTML, "Open the whole plan")
}

// The helper's part goes into their calendar, with the UIDs that the whole plan's file has,
// so that one takes the place of the other (RFC 5545 3.8.4.7).
func TestAPartGoesIntoACalendar(t *testing.T) {
	whole, fragment := partLink(t)
	p := newPhone(t)
	p.open(fragment)
	out := p.send("/calendar")
	require.Equal(t, []string{"/calendar", fragment}, []string{out.Path, out.Fragment})
	require.NotContains(t, p.text(), "Whose rides and help?")
	require.NotContains(t, p.text(), "patient's steps")
	require.NotContains(t, p.last.HTML, "/import")
	out = p.send("/calendar", "make", "1", "alarm", "30", "whose", "all", "steps", "1")
	require.NotNil(t, out.File)
	require.Contains(t, out.File.Text, "Drive to the hospital")
	require.NotContains(t, out.File.Text, "Dana")
	require.NotContains(t, out.File.Text, "shower")
	require.Empty(t, p.kept)
	full := whole.send("/calendar", "make", "1", "alarm", "30", "whose", "h2")
	require.Equal(t, uids(full.File.Text), uids(out.File.Text))
	require.GreaterOrEqual(t, len(uids(out.File.Text)), 2)
}

func uids(file string) []string {
	var all []string
	for line := range strings.Lines(file) {
		if uid, ok := strings.CutPrefix(line, "UID:"); ok {
			all = append(all, strings.TrimSpace(uid))
		}
	}
	return all
}

func TestAPartInAZoneThatIsNotKnown(t *testing.T) {
	whole, _ := partLink(t)
	odd := whole.plan()
	odd.Zone = "Mars/Olympus"
	p := newPhone(t)
	p.open(link.EncodePart(odd, "Luis"))
	require.Contains(t, p.text(), "Load the page again to open this link")
	require.Empty(t, p.kept)
	require.NotPanics(t, func() { p.open(link.EncodePart(merge.New(odd).Plan(), "Nobody")) })
}

// Three hundred characters can ask for a quarter of a million dates. A part is bound as a
// whole plan is (plan.MaxDates), before anything is laid out.
func TestAPartWithTooManyDates(t *testing.T) {
	fragment := link.EncodePart(crammed(started(t).plan()), "Luis")
	require.NotEmpty(t, fragment)
	require.Less(t, len(fragment), 600)
	for _, path := range []string{"/", "/calendar"} {
		p := newPhone(t)
		p.fragment = fragment
		took := allocated(func() { p.send(path, "make", "1", "alarm", "-1") })
		require.Contains(t, p.text(), "This plan is more than the page can show", path)
		require.Less(t, took, uint64(200<<20), "%s: two requests", path)
		require.Nil(t, p.last.File, path)
		require.Empty(t, p.kept, path)
	}
}

// What was taken out of a plan is not laid out on its page, and is in calendar files, as
// cancelled. It is bound there too.
func TestACalendarOfTooManyDutiesThatWereTakenOut(t *testing.T) {
	q := crammed(started(t).plan())
	for i := range q.Duties {
		q.Duties[i].Dropped = true
	}
	fragment := link.Encode(merge.New(q))
	require.NotEmpty(t, fragment)
	p := newPhone(t)
	p.open(fragment)
	require.Contains(t, p.part("title"), "Rosa")
	file := ""
	require.Less(t, allocated(func() { file = p.fileOf("all") }), uint64(200<<20), "two requests")
	require.Equal(t, plan.MaxDates/repeat.MaxCount, strings.Count(file, "STATUS:CANCELLED"))
}

// crammed gives a plan as many duties with as many dates as a link can hold, all Luis's.
func crammed(q plan.Plan) plan.Plan {
	q.Helpers = []string{"Luis"}
	r := repeat.Rule{First: q.Surgery, At: 600, Freq: repeat.Daily, Every: 1, Count: repeat.MaxCount}.Canonical()
	for id := uint32(1); id <= plan.MostDuties; id++ {
		q = q.WithDuty(plan.Duty{ID: id, Kind: plan.PetCare, Who: 1, Length: 10, Rule: r, Ride: plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown}})
	}
	return q
}

// allocated measures what a function takes of memory, in bytes.
func allocated(f func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	f()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}

// A part link may be old, or somebody's invention: a file made from it cancels nothing of
// what a file of the whole plan had, and leaves no trace in what this device remembers.
func TestACalendarFileOfAPartCancelsNothing(t *testing.T) {
	p, old := partLink(t)
	luis := p.opened()
	luis.send("/duty/1/change", therapy("who", "Luis")...)
	whole := luis.fileOf("h2")
	require.Equal(t, "Luis", helperAt(luis, 2))
	less := p.plan()
	for i := range less.Duties {
		less.Duties[i].Who, less.Duties[i].Takes = 0, nil
	}
	kept := maps.Clone(luis.kept)
	for _, fragment := range []string{old, link.EncodePart(less, "Luis")} {
		luis.open(fragment)
		out := luis.send("/calendar", "make", "1", "alarm", "60")
		require.NotNil(t, out.File)
		require.NotContains(t, out.File.Text, "CANCELLED")
		require.NotContains(t, out.File.Text, "Not yours")
		require.NotContains(t, out.File.Text, "TRANSPARENT")
		require.Equal(t, kept, luis.kept)
		require.Contains(t, luis.text(), "The file has what this link says, no more")
		require.NotContains(t, luis.text(), "After a change, make the file again")
		require.Equal(t, "30", luis.opened().offered(), "what was chosen for the whole plan is not looked up")
	}
	luis.open(luis.kept[keyPlan+planKey(less.Number)])
	require.Equal(t, whole, luis.fileOf("h2"), "the whole plan's file comes as it was")
}

// offered is the reminder that the form of a calendar file begins with.
func (p *phone) offered() string {
	p.send("/calendar")
	return p.values()["alarm"]
}

// An entry has one SEQUENCE for each state of its times, whether its file was made from the
// whole plan or from a part (RFC 5546 2.1.4: a lower one is older).
func TestAPartsFileIsAsNewAsTheWholePlans(t *testing.T) {
	p := started(t)
	p.send("/duty/new/pets", "first", "2026-12-01", "at", "07:30", "length", "20", "often", "daily", "every", "1", "month", "day", "ends", "weeks", "weeks", "2", "title", "Feed the cat", "who", "Ann")
	p.send("/who/drive-there", "who", "Ann")
	for _, at := range []string{"08:00", "08:30"} {
		p.send("/duty/1/change", "first", "2026-12-01", "at", at, "length", "20", "often", "daily", "every", "1", "month", "day", "ends", "weeks", "weeks", "2", "title", "Feed the cat", "who", "Ann")
	}
	p.send("/facts", facts("arrival", "06:00")...)
	whole := p.fileOf("h1")
	reader := newPhone(t)
	reader.open(link.EncodePart(p.plan(), "Ann"))
	part := reader.send("/calendar", "make", "1", "alarm", "-1").File.Text
	require.Equal(t, uids(whole), uids(part))
	require.Equal(t, sequences(whole), sequences(part))
	require.Contains(t, sequences(part), "2")
	require.Contains(t, sequences(part), "1")
}

func sequences(file string) []string {
	var all []string
	for line := range strings.Lines(file) {
		if n, ok := strings.CutPrefix(line, "SEQUENCE:"); ok {
			all = append(all, strings.TrimSpace(n))
		}
	}
	return all
}

// A part is as old as its message: where the plan on this device has another day or arrival,
// the notice says so beside the way to it.
func TestAnOldPartBesideANewerPlan(t *testing.T) {
	p, part := partLink(t)
	whole := p.fragment
	p.open(part)
	require.NotContains(t, p.part("notice-part"), "The plan on this device says")
	for date, says := range map[string]string{
		"2026-12-08": "The plan on this device says: Tuesday, December 8, be there at 05:30.",
		"2026-12-03": "The plan on this device says: Thursday, December 3; the arrival time is not known yet.",
	} {
		p.open(whole)
		arrival := "05:30"
		if strings.Contains(says, "not known") {
			arrival = ""
		}
		p.send("/facts", facts("surgery", date, "arrival", arrival)...)
		p.open(part)
		require.Contains(t, p.part("notice-part"), says+" Open the whole plan on this device")
	}
	q := newPhone(t)
	q.open(part)
	require.NotContains(t, q.text(), "The plan on this device says")
}

// While a question is open, a part would hold one answer of two.
func TestNoPartWhileQuestionsAreOpen(t *testing.T) {
	dana, luis := danaAndLuis(t)
	dana.send("/who/drive-there", "who", "Dana")
	luis.send("/who/drive-there", "who", "Luis")
	luis.open(dana.fragment)
	for _, act := range []string{"", "send", "copy"} {
		out := luis.send("/link/part", "part", "2", "act", act)
		require.Contains(t, luis.part("notice-part"), "have to be answered first")
		require.NotContains(t, out.HTML, `action="/link/part"`)
		require.Nil(t, out.Send)
		require.NotContains(t, out.HTML, `id="address"`)
	}
	luis.send("/")
	luis.answer("Luis")
	luis.send("/link/part", "part", "2")
	require.NotEmpty(t, luis.attribute("address", "value"))
	require.Contains(t, luis.last.HTML, `data-path="/link">Send the whole plan instead</a>`)
	luis.send("/link/lock")
	require.Contains(t, luis.last.HTML, `data-path="/link">Send it without a lock</a>`)
}
