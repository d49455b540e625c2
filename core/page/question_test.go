package page

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// The devices of the tests: Dana's and Luis's, and one that has not said whose it is.
const dana, luis, unnamed merge.Actor = 100, 200, 300

func shared() plan.Plan {
	p := plan.Plan{
		Number: 7, Patient: "Rosa", Surgery: 20790, Arrival: 330, Zone: "America/Chicago", Drive: 40, Parking: 15,
		Helpers: []string{"Dana", "Luis", "Ann"},
	}
	rule := repeat.Rule{First: 20800, At: 630, Freq: repeat.Weekly, Every: 1, Days: repeat.DaysOf(time.Monday, time.Tuesday), Count: 8}
	p.Duties = []plan.Duty{
		{ID: 1, Kind: plan.TherapyRide, Rule: rule.Canonical(), Length: 45, Ride: plan.Ride{Drive: 20, Parking: 10}},
		{ID: 2, Kind: plan.PetCare, Rule: rule.Canonical(), Length: 20, Ride: plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown}},
	}
	return p
}

// base is the shared plan on two phones that have said whose they are.
func base() *merge.Doc {
	return merge.New(shared()).WithHand(dana, "Dana").WithHand(luis, "Luis")
}

// apart makes a change on each of two phones, and joins them.
func apart(t *testing.T, one, two func(p *plan.Plan)) *merge.Doc {
	t.Helper()
	start := base()
	edit := func(a merge.Actor, f func(p *plan.Plan)) *merge.Doc {
		p := start.Plan()
		p.Duties = append([]plan.Duty(nil), p.Duties...)
		f(&p)
		d := start.Change(a, p)
		require.NotSame(t, start, d)
		return d
	}
	joined, err := merge.Join(edit(dana, one), edit(luis, two))
	require.NoError(t, err)
	return joined
}

func people(d *merge.Doc) People {
	return People{Voice: guide.Voice{Book: guide.Open("en"), Today: 20780}, Doc: d}
}

func asked(d *merge.Doc) []Notice {
	p := d.Plan()
	return Questions(people(d), &p)
}

func setDuty(f func(d *plan.Duty, second bool)) [2]func(p *plan.Plan) {
	set := func(second bool) func(p *plan.Plan) {
		return func(p *plan.Plan) { f(&p.Duties[0], second) }
	}
	return [2]func(p *plan.Plan){set(false), set(true)}
}

// Whatever two people change apart from each other is asked about with both values, and
// with a button for each: nothing is lost without a word. A field without a case here
// fails, so that a new one cannot be forgotten.
func TestEachConflictShowsBothValues(t *testing.T) {
	pick := func(second bool, one, two int) int {
		if second {
			return two
		}
		return one
	}
	plan2 := func(f func(p *plan.Plan, second bool)) [2]func(p *plan.Plan) {
		return [2]func(p *plan.Plan){func(p *plan.Plan) { f(p, false) }, func(p *plan.Plan) { f(p, true) }}
	}
	text := func(second bool) string { return []string{"the first text", "the second text"}[pick(second, 0, 1)] }
	texts := [2]string{"the first text", "the second text"}
	cases := map[merge.Field]struct {
		edits [2]func(p *plan.Plan)
		want  [2]string
	}{
		merge.Surgery:   {plan2(func(p *plan.Plan, s bool) { p.Surgery += wall.Date(pick(s, 1, 2)) }), [2]string{"Friday, December 4", "Saturday, December 5"}},
		merge.Arrival:   {plan2(func(p *plan.Plan, s bool) { p.Arrival = wall.Clock(pick(s, 360, 420)) }), [2]string{"06:00", "07:00"}},
		merge.Zone:      {plan2(func(p *plan.Plan, s bool) { p.Zone = []string{"America/Denver", "America/New_York"}[pick(s, 0, 1)] }), [2]string{"America/Denver", "America/New_York"}},
		merge.Joint:     {[2]func(p *plan.Plan){func(p *plan.Plan) { p.Joint = plan.Hip }, nil}, [2]string{"Hip", "Knee"}},
		merge.Operation: {plan2(func(p *plan.Plan, s bool) { p.Operation = plan.Operation(pick(s, 1, 2)) }), [2]string{"Revision of an earlier one", "Both sides at once"}},
		merge.Stay:      {plan2(func(p *plan.Plan, s bool) { p.Stay = plan.Stay(pick(s, 1, 2)) }), [2]string{"Home the same day", "Not decided yet"}},
		merge.Drive:     {plan2(func(p *plan.Plan, s bool) { p.Drive = pick(s, 50, 60) }), [2]string{"50 minutes", "1 hour"}},
		merge.Parking:   {plan2(func(p *plan.Plan, s bool) { p.Parking = pick(s, 20, 25) }), [2]string{"20 minutes", "25 minutes"}},
		merge.Patient:   {plan2(func(p *plan.Plan, s bool) { p.Patient = []string{"Mom", ""}[pick(s, 0, 1)] }), [2]string{"Mom", "none"}},
		merge.Program:   {plan2(func(p *plan.Plan, s bool) { p.Program.Number = uint16(pick(s, 1, 9)) }), [2]string{"Alder Ferry Hospital", "9"}},
		merge.Hospital:  {plan2(func(p *plan.Plan, s bool) { p.Program.Hospital = text(s) }), texts},
		merge.Address:   {plan2(func(p *plan.Plan, s bool) { p.Program.Address = text(s) }), texts},
		merge.Phone:     {plan2(func(p *plan.Plan, s bool) { p.Program.Phone = text(s) }), texts},
		merge.Setting:   {plan2(func(p *plan.Plan, s bool) { p.Program.Set(plan.WashDays, pick(s, 2, 3)) }), [2]string{"2 days", "3 days"}},
		merge.Cover:     {plan2(func(p *plan.Plan, s bool) { p.Cover[0] = uint8(pick(s, 1, 3)) }), [2]string{"Dana", "Ann"}},
		merge.Kind:      {setDuty(func(d *plan.Duty, s bool) { d.Kind = plan.DutyKind(pick(s, 1, 2)) }), [2]string{"Ride to a visit", "Another ride"}},
		merge.Title:     {setDuty(func(d *plan.Duty, s bool) { d.Title = text(s) }), texts},
		merge.Place:     {setDuty(func(d *plan.Duty, s bool) { d.Place = text(s) }), texts},
		merge.Note:      {setDuty(func(d *plan.Duty, s bool) { d.Note = text(s) }), texts},
		merge.Source:    {setDuty(func(d *plan.Duty, s bool) { d.Source = uint32(pick(s, 4711, 4712)) }), [2]string{"4711", "4712"}},
		merge.Length:    {setDuty(func(d *plan.Duty, s bool) { d.Length = pick(s, 50, 55) }), [2]string{"50 minutes", "55 minutes"}},
		merge.Own:       {setDuty(func(d *plan.Duty, s bool) { d.Ride.Own = pick(s, 5, 6) }), [2]string{"5 minutes", "6 minutes"}},
		merge.Way:       {setDuty(func(d *plan.Duty, s bool) { d.Ride.Drive = pick(s, 25, 26) }), [2]string{"25 minutes", "26 minutes"}},
		merge.Walk:      {setDuty(func(d *plan.Duty, s bool) { d.Ride.Parking = pick(s, 7, 8) }), [2]string{"7 minutes", "8 minutes"}},
		merge.Early:     {setDuty(func(d *plan.Duty, s bool) { d.Ride.Early = pick(s, 5, 15) }), [2]string{"5 minutes", "15 minutes"}},
		merge.Pattern:   {setDuty(func(d *plan.Duty, s bool) { d.Rule.At = wall.Clock(pick(s, 660, 720)) }), [2]string{"at 11:00", "at 12:00"}},
		merge.Date: {setDuty(func(d *plan.Duty, s bool) {
			if days, _ := d.Rule.Pattern(); s {
				d.Rule.Skipped = days[2:3]
			} else {
				d.Rule.Moved = []repeat.Move{{From: days[2], To: repeat.Moment{Day: days[2] + 1, At: 840}}}
			}
		}), [2]string{"at 14:00", "not on this date"}},
		merge.Who: {setDuty(func(d *plan.Duty, s bool) { d.Who = uint8(pick(s, 1, 3)) }), [2]string{"Dana", "Ann"}},
		merge.On:  {setDuty(func(d *plan.Duty, s bool) { d.On[time.Tuesday] = uint8(pick(s, 3, 2)) }), [2]string{"Ann", "Luis"}},
		merge.Takes: {setDuty(func(d *plan.Duty, s bool) {
			days, _ := d.Rule.Pattern()
			d.Takes = []plan.Take{{Day: days[1], Who: uint8(pick(s, 3, 0))}}
		}), [2]string{"Ann", "nobody"}},
		merge.About: {plan2(func(p *plan.Plan, s bool) {
			*p = p.WithAbout(2, plan.About{Told: true, Can: plan.Abilities(pick(s, 1, 2)), Away: pick(s, 20, 25)})
		}), [2]string{"20 minutes away", "25 minutes away"}},
		merge.Shift: {plan2(func(p *plan.Plan, s bool) { *p = p.WithShift(5, uint8(pick(s, 1, 3))) }), [2]string{"Dana", "Ann"}},
		merge.Line: {plan2(func(p *plan.Plan, s bool) {
			*p = p.WithLine(plan.Line{ID: 9, List: plan.Packing, Day: plan.NoDay, Text: text(s)})
		}), texts},
		merge.HospitalText: {plan2(func(p *plan.Plan, s bool) { p.Program.Texts[plan.ReviewedBy] = text(s) }), texts},
		merge.Need:         {setDuty(func(d *plan.Duty, s bool) { d.Need = plan.Need(pick(s, 2, 3)) }), [2]string{"it should be", "it is nice to have"}},
		merge.Gone:         {[2]func(p *plan.Plan){func(p *plan.Plan) { p.Duties[0].Dropped = true }, func(p *plan.Plan) { p.Duties[0].Note = "new" }}, [2]string{"Take it out", "Leave it in the plan"}},
	}
	// What only counts as being there has no second value, and the others put themselves right.
	never := []merge.Field{merge.Fact, merge.Helper, merge.Tick, merge.Hand, merge.Moves, merge.Alive, merge.Extra, merge.Leaves, merge.Out, merge.Steady, merge.LineDone, merge.LineWords}
	for f := merge.Surgery; f < merge.FirstUnknown; f++ {
		c, ok := cases[f]
		if !ok {
			require.Contains(t, never, f, "no case for field %d", f)
			continue
		}
		t.Run(strconv.Itoa(int(f)), func(t *testing.T) {
			if c.edits[1] == nil { // there are only two values: one says hip, the other hip and then knee again
				c.edits[1] = c.edits[0]
				hip := base()
				p := hip.Plan()
				p.Joint = plan.Hip
				one := hip.Change(dana, p)
				two := hip.Change(luis, p)
				p.Joint = plan.Knee
				joined, err := merge.Join(one, two.Change(luis, p))
				require.NoError(t, err)
				checkAsked(t, asked(joined), c.want)
				return
			}
			checkAsked(t, asked(apart(t, c.edits[0], c.edits[1])), c.want)
		})
	}
}

// checkAsked wants a question with both values in its words and on its buttons.
func checkAsked(t *testing.T, all []Notice, want [2]string) {
	t.Helper()
	for _, n := range all {
		labels := ""
		for _, a := range n.Acts {
			labels += a.Button + "|"
		}
		has := func(text string) bool {
			return strings.Contains(n.Text, text) || strings.HasPrefix(labels, "Take it out")
		}
		if strings.Contains(strings.ToLower(labels), strings.ToLower(want[0])) && strings.Contains(strings.ToLower(labels), strings.ToLower(want[1])) {
			require.Len(t, n.Acts, 2)
			require.True(t, has(want[0]) || strings.Contains(n.Text, "took this out while"), n.Text)
			require.True(t, has(want[1]) || strings.Contains(n.Text, "took this out while"), n.Text)
			require.Contains(t, n.Text, "Dana")
			require.Contains(t, n.Text, "Luis")
			require.NotRegexp(t, `\{|\b(question|thing|form|people)\.[a-z]`, n.Text+labels)
			return
		}
	}
	require.Fail(t, "no question has both values", "%v in %+v", want, all)
}

// The sentences themselves, in the order of what hangs on them.
func TestQuestionsInPlainWords(t *testing.T) {
	joined := apart(t, func(p *plan.Plan) {
		p.Surgery, p.Arrival = p.Surgery+2, 330+30
		p.Program.Phone, p.Cover[0] = "555-0101", 1
		p.Duties[0].On[time.Tuesday], p.Duties[1].Dropped = 1, true
	}, func(p *plan.Plan) {
		p.Surgery, p.Arrival = p.Surgery+1, 330+60
		p.Program.Phone, p.Cover[0] = "555-0102", 2
		p.Duties[0].On[time.Tuesday], p.Duties[1].Note = 2, "the blue bowl"
	})
	var texts []string
	for _, n := range asked(joined) {
		texts = append(texts, n.Text)
	}
	require.Equal(t, []string{
		"When is the surgery? Luis says Friday, December 4 and Dana says Saturday, December 5. Until this is settled, the plan goes by the earlier day.",
		"Luis and Dana both took Drive to the hospital. Who does it? Until this is settled, the plan says: Luis.",
		"Luis and Dana both took Ride to therapy: Tuesdays. Who drives? Until this is settled, the plan says: Luis.",
		"Dana took this out while Luis changed it: Look after the pets. It stays in the plan until this is settled.",
		"Phone number for questions: Luis says 555-0102 and Dana says 555-0101. What is right? Until this is settled, the plan says: 555-0102.",
	}, texts)
}

// Two people who took one night, and two who told of one helper.
func TestQuestionsAboutHelpersAndParts(t *testing.T) {
	at9 := repeat.Rule{First: base().Plan().Surgery, At: 9 * 60, Freq: repeat.Weekly, Every: 1, Days: 0b0111110}
	joined := apart(t, func(p *plan.Plan) {
		*p = p.WithShift(plan.SlotOf(1, plan.Night), 1).WithAbout(3, plan.About{Told: true, Can: plan.CanDrive, Away: 10})
	}, func(p *plan.Plan) {
		*p = p.WithShift(plan.SlotOf(1, plan.Night), 2).WithAbout(3, plan.About{
			Told: true, Away: plan.Unknown, Offer: plan.ALot, Likes: plan.PetsTask, Times: []plan.Times{{Use: plan.Work, Rule: at9.Canonical(), Length: 8 * 60}}})
	})
	all := asked(joined)
	require.Len(t, all, 2)
	require.Equal(t, "Luis and Dana both took Stay with Rosa at home: Fri, Dec 4, overnight. Who does it? Until this is settled, the plan says: Luis.", all[0].Text)
	require.Contains(t, all[1].Text, "What Ann can do, and when")
	require.Contains(t, all[1].Text, "no car, no nights, no lifting, no pets, A lot: about 12 hours a week")
	require.Contains(t, all[1].Text, "Drives, and has a car that Rosa can get into, 10 minutes away")
	require.Contains(t, all[1].Text, "would rather: Pets")
}

// Which arrival time is right hangs on the day, so the day is asked alone, and it is said which
// time came with which day: whoever answers the day answers the time. Whoever is not sure is told
// whom to call.
func TestDayIsAskedBeforeTheArrival(t *testing.T) {
	joined := apart(t, func(p *plan.Plan) { p.Surgery, p.Arrival, p.Program.Phone = p.Surgery+2, 360, "555-0142" },
		func(p *plan.Plan) { p.Surgery, p.Arrival = p.Surgery+1, 390 })
	require.Len(t, joined.Questions(), 2)
	all := asked(joined)
	require.Len(t, all, 1)
	require.Len(t, all[0].Acts, 2, "no button answers the time")
	require.Equal(t, "The arrival time goes with the day: 06:00 for Saturday, December 5 and 06:30 for Friday, December 4.", all[0].Then)
	require.Contains(t, notice(&all[0]), all[0].Then)

	settled := joined.Settle(dana, merge.Key{Field: merge.Surgery}, "20792")
	require.Empty(t, asked(settled))
	require.EqualValues(t, 360, settled.Plan().Arrival)

	times := apart(t, func(p *plan.Plan) { p.Arrival, p.Program.Phone = 360, "555-0142" }, func(p *plan.Plan) { p.Arrival = 390 })
	all = asked(times)
	require.Len(t, all, 1)
	require.Equal(t, "When do you have to be at the hospital for Thursday, December 3? Dana says 06:00 and Luis says 06:30."+
		" Until this is settled, the plan goes by the earlier time.", all[0].Text)
	for _, d := range []*merge.Doc{joined, times} {
		n := asked(d)[0]
		require.Contains(t, notice(&n), `If you are not sure, ask the hospital: <a class="tel" href="tel:5550142" dir="ltr"><bdi>555-0142</bdi></a>`)
		n.Phones = nil
		require.Contains(t, notice(&n), "If you are not sure, ask the hospital.</p>")
	}
}

// While the day is open, what of the arrival belongs to no day, or is not shown, is said.
func TestWhatIsSaidOfTheArrivalWhileTheDayIsOpen(t *testing.T) {
	moved := func(days wall.Date, arrival wall.Clock) func(p *plan.Plan) {
		return func(p *plan.Plan) { p.Surgery, p.Arrival = p.Surgery+days, arrival }
	}
	kept := func(days wall.Date) func(p *plan.Plan) { return func(p *plan.Plan) { p.Surgery += days } }
	for _, c := range []struct {
		one, other func(p *plan.Plan)
		want       string
	}{
		{moved(1, wall.NoClock), moved(2, wall.NoClock), ""},
		{moved(1, wall.NoClock), moved(2, 390), "The arrival time goes with the day: 06:30 for Saturday, December 5. Until this is settled, the plan shows no arrival time."},
		{kept(1), kept(2), "Ask the hospital too whether the arrival time 05:30 holds for that day."},
		{kept(1), moved(2, 390), "The arrival time goes with the day: 06:30 for Saturday, December 5. Until this is settled, the plan shows no arrival time."},
	} {
		require.Equal(t, c.want, asked(apart(t, c.one, c.other))[0].Then)
	}
}

// Who it was is said as far as anybody has said: you, somebody, whoever made the plan.
func TestNamesInQuestions(t *testing.T) {
	start := base()
	set := func(a merge.Actor, day wall.Date) *merge.Doc {
		p := start.Plan()
		p.Surgery += day
		return start.Change(a, p)
	}
	both, err := merge.Join(set(merge.Maker, 1), set(unnamed, 2))
	require.NoError(t, err)
	all, err := merge.Join(both, set(dana, 2))
	require.NoError(t, err)
	p := all.Plan()
	who := people(all)
	require.Contains(t, Questions(who, &p)[0].Text, "? Whoever made the plan says Friday, December 4 and Dana and somebody say Saturday, December 5.")
	who.Me, who.Known = dana, true
	require.Contains(t, Questions(who, &p)[0].Text, "and you and somebody say Saturday")
	who.Me = merge.Maker
	require.Contains(t, Questions(who, &p)[0].Text, "? You say Friday, December 4 and")
}
