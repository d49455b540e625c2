package app

import (
	"math/rand"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// helper is the form of a helper as it comes up, with what is given changed or added.
func helper(changed ...string) []string {
	return append([]string{"can-drive", "1", "can-steady", "1", "can-pets", "1", "away", "", "offer", "usual", "when", "any"}, changed...)
}

// workdays are the boxes of Monday to Friday in the first row, with the times.
func workdays(from, to string) []string {
	return []string{"a-day-1", "1", "a-day-2", "1", "a-day-3", "1", "a-day-4", "1", "a-day-5", "1", "a-from", from, "a-to", to}
}

// About is what the plan of the phone knows of a helper.
func (p *phone) about(name string) plan.About {
	q := p.plan()
	return q.AboutOf(placeOf(&q, name))
}

func TestAHelperIsAdded(t *testing.T) {
	p := withTherapy(t)
	p.send("/helper/new")
	require.Equal(t, "/helper/new", p.path)
	values := p.values()
	for _, key := range page.AbilityKeys {
		require.Empty(t, values["can-"+key], "nothing is said of anybody without a tap")
	}
	require.Equal(t, "any", values["when"])

	p.send("/helper/new", helper(append(workdays("07:00", "15:00"), "name", "Luis", "away", "12", "when", "work", "rather-pets", "yes", "rather-meals", "no",
		"gone-a-from", "2026-12-21", "gone-a-to", "2026-12-23")...)...)
	require.Equal(t, "/split", p.path)
	require.Equal(t, "Saved: Luis", p.last.Say)
	luis := p.about("Luis")
	weekdays := repeat.DaysOf(1, 2, 3, 4, 5)
	require.Equal(t, plan.About{
		Told: true, Can: plan.CanDrive | plan.CanSteady | plan.CanPets, Away: 12, Likes: plan.PetsTask, Avoids: plan.MealsTask,
		Times: []plan.Times{
			// 23 November 2026 is the Monday of the week of the phone's day (from a printed calendar).
			{Use: plan.Work, Length: 8 * 60, Rule: repeat.Rule{First: p.date("2026-11-23"), At: 7 * 60, Freq: repeat.Weekly, Every: 1, Days: weekdays, Week: time.Monday}},
			{Use: plan.Gone, Length: 3 * 24 * 60, Rule: repeat.Rule{First: p.date("2026-12-21"), Every: 1}},
		},
	}, luis)

	// Opened a week later and saved as it stands, it changes nothing.
	p.at("2026-12-01T09:00:00-06:00").send("/helper/2")
	require.Contains(t, p.text(), "What Luis can do, and when.")
	before := p.fragment
	p.send("/helper/2", p.pairs()...)
	require.Equal(t, before, p.fragment)
}

// pairs are the fields of the helper's form on the page, as a browser sends them.
func (p *phone) pairs() []string {
	var all []string
	for name, value := range p.values() {
		all = append(all, name, value)
	}
	for _, key := range page.TaskKeys { // a select is no input
		options, _, _ := cutAround(p.last.HTML, `name="rather-`+key+`">`, "</select>")
		for _, value := range []string{"yes", "no"} {
			if strings.Contains(options, `<option value="`+value+`" selected>`) {
				all = append(all, "rather-"+key, value)
			}
		}
	}
	return all
}

// Whatever the controls can say comes back as it was, and what they cannot say is kept, and
// dropped only by its box.
func TestTheFormOfAHelperComesBackAsItWas(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	for range 3000 {
		about := anyAbout(r)
		values, rest := aboutValues(about)
		e := &entry{values: values}
		again := e.about(about, anchorOf(&plan.Plan{Surgery: wall.FirstDate + 9000}, wall.FirstDate+9000+wall.Date(r.Intn(30))))
		require.Empty(t, e.problems, "%+v", about)
		require.Equal(t, about, again, "%+v", values)
		for _, i := range rest {
			values[keepName(i)] = ""
		}
		e = &entry{values: values}
		again = e.about(about, wall.FirstDate+9000)
		require.Len(t, again.Times, len(about.Times)-len(rest))
	}
}

// anyAbout is something that is told of a helper, mostly of a kind that the form can say.
func anyAbout(r *rand.Rand) plan.About {
	a := plan.About{
		Told: true, Can: plan.Abilities(r.Intn(16)), Out: r.Intn(5) == 0, Away: r.Intn(100) - 1, Offer: plan.Offer(r.Intn(3)),
		Likes: plan.Tasks(r.Intn(128)),
	}
	a.Avoids = plan.Tasks(r.Intn(128)) &^ a.Likes
	first := wall.FirstDate + 9000
	for range r.Intn(4) {
		times := plan.Times{Use: plan.TimesUse(r.Intn(3)), Length: 1 + r.Intn(24*60)}
		times.Rule = repeat.Rule{First: first - wall.Date(r.Intn(7)), At: wall.Clock(r.Intn(24 * 60)), Freq: repeat.Freq(r.Intn(4)), Every: 1 + r.Intn(3), Days: repeat.Days(1 + r.Intn(127)), Week: time.Monday}
		switch r.Intn(4) {
		case 0:
			times.Rule.At, times.Length = 0, (1+r.Intn(60))*24*60
		case 1:
			times.Rule.Count = 5
		}
		if times.Rule.Freq == repeat.Monthly {
			times.Rule.MonthDays = []int8{int8(1 + r.Intn(28))}
		}
		times.Rule = times.Rule.Canonical()
		a.Times = append(a.Times, times)
	}
	return a
}

// A shift that ends the next morning, and one in every second week.
func TestTimesOverMidnightAndEverySecondWeek(t *testing.T) {
	p := started(t)
	p.send("/helper/new", helper("name", "Ann", "when", "only", "a-day-5", "1", "a-from", "22:00", "a-to", "06:30", "a-since", "2026-12-09")...)
	got := p.about("Ann").Times
	require.Equal(t, []plan.Times{{
		Use: plan.Free, Length: 8*60 + 30,
		Rule: repeat.Rule{First: p.date("2026-12-11"), At: 22 * 60, Freq: repeat.Weekly, Every: 2, Days: repeat.DaysOf(5), Week: time.Monday},
	}}, got)
	p.send("/helper/1")
	require.Equal(t, "06:30", p.values()["a-to"])
	require.Equal(t, "2026-12-11", p.values()["a-since"])
	require.NotContains(t, p.last.HTML, `<details class="group if-times sub-fold" id="group-fortnight"`, "a fold with something in it is open")
}

func TestWhatIsWrongInAHelpersForm(t *testing.T) {
	for want, fields := range map[string][]string{
		"First name: please put in a first name":                                  helper(),
		"First name: \"dana\" is on the list already":                             helper("name", "dana"),
		"Minutes from their home to the patient's: \"far\" is not a whole number": helper("name", "Ann", "away", "far"),
		"On these days: choose the days, or \"at any time\"":                      helper("name", "Ann", "when", "work"),
		"On these days: choose at least one day":                                  helper("name", "Ann", "when", "work", "a-from", "09:00", "a-to", "10:00"),
		"Until: please put in a time":                                             helper("name", "Ann", "when", "only", "a-day-1", "1", "a-from", "09:00"),
		"Until: it is the same as the beginning":                                  helper("name", "Ann", "when", "only", "b-day-1", "1", "b-from", "09:00", "b-to", "09:00"),
		"To day: it is before the first day":                                      helper("name", "Ann", "gone-b-from", "2026-12-09", "gone-b-to", "2026-12-08"),
		"From day: please put in a date":                                          helper("name", "Ann", "gone-a-to", "2026-12-08"),
		"To day: that is more than 60 days":                                       helper("name", "Ann", "gone-a-from", "2026-12-01", "gone-a-to", "2027-03-08"),
	} {
		p := withTherapy(t)
		before := p.fragment
		p.send("/helper/new", fields...)
		require.Equal(t, "/helper/new", p.path, want)
		require.Equal(t, "problems", p.last.Focus, want)
		require.Contains(t, p.part("problems"), want)
		require.Equal(t, before, p.fragment, want)
	}
}

// Times that came from elsewhere stand there in words.
func TestOtherTimesAreKept(t *testing.T) {
	p := withTherapy(t)
	q := p.plan()
	odd := plan.Times{Use: plan.Work, Length: 90, Rule: repeat.Rule{First: p.date("2026-12-02"), At: 600, Freq: repeat.Monthly, Every: 1, MonthDays: []int8{2}}}
	d := p.doc().Change(0, q.WithAbout(1, plan.About{Told: true, Can: plan.AllAbilities, Times: []plan.Times{odd}}))
	p.open(link.Encode(d))
	p.send("/helper/1")
	require.Contains(t, p.part("group-other"), "At work: On the 2nd of every month at 10:00")
	p.send("/helper/1", helper("keep-0", "1", "when", "any")...)
	require.Equal(t, []plan.Times{odd}, p.about("Dana").Times)
	p.send("/helper/1", helper("when", "any")...)
	require.Empty(t, p.about("Dana").Times)
}

// A name that nothing hangs on can go; places that others hold stay theirs.
func TestANameIsTakenOffTheList(t *testing.T) {
	p := started(t)
	p.send("/helper/new", helper("name", "Ann")...)
	p.send("/helper/new", helper("name", "Luis")...)
	p.send("/duty/new/therapy", therapy("who", "Luis")...)
	p.send("/helper/2")
	require.NotContains(t, p.text(), "Take the name off the list")
	p.send("/helper/2/remove", "of", "Luis")
	require.Len(t, p.plan().Helpers, 2)
	p.send("/helper/1")
	require.Contains(t, p.text(), "Take the name off the list")
	p.send("/helper/1/remove", "of", "Ann")
	require.Equal(t, []string{"Luis"}, p.plan().Helpers)
	require.Equal(t, "Ann is off the list.", p.last.Say)
	require.EqualValues(t, 1, p.plan().Duties[0].Who)
	require.True(t, p.about("Luis").Told)
	p.send("/helper/1/remove", "of", "Ann")
	require.Equal(t, []string{"Luis"}, p.plan().Helpers, "the place is another's now")
}
