package schedule

import (
	"os"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// The table is part of the program, so its faults must stop the first test.
func TestTableIsSound(t *testing.T) {
	ids, codes := map[string]bool{}, map[uint16]bool{}
	for _, k := range Kinds {
		require.False(t, ids[k.ID], "id twice: "+k.ID)
		require.False(t, codes[k.Code], "code twice: %d", k.Code)
		ids[k.ID], codes[k.Code] = true, true
		require.NotEmpty(t, k.Source)
	}
	require.Panics(t, func() { readKinds("1 a b") }, "a short line")
	require.Panics(t, func() { readKinds("x a ready coach - on:0 practice") }, "a code that is no number")
	require.Panics(t, func() { readKinds("1 a ready nobody - on:0 practice") }, "a step for nobody")
	bad := Kind{ID: "a", When: "dragon"}
	require.Panics(t, func() { bad.applies(0) }, "an unknown fact")
	s := build(t, family(t))
	require.Panics(t, func() { s.computed(&Kind{ID: "a"}) })
	for _, due := range []string{"when:ever", "on:never", "by:never", "by:no-shave-hours", "from:0..never", "from:x..3", "from:0..drive-slack", "on"} {
		require.Panics(t, func() { readTiming(due) }, due)
	}
	require.Equal(t, Timing{Text: "from:-14..0", How: From, From: -14}, readTiming("from:-14..0"))
	require.Equal(t, Timing{Text: "on:-3", How: On, From: -3}, readTiming("on:-3"))
}

// Codes go into links when a step is ticked. One that was given out stays with its
// step for ever, also when the step is gone: testdata/schedule/codes.txt only grows.
func TestCodesStay(t *testing.T) {
	data, err := os.ReadFile("../../testdata/schedule/codes.txt")
	require.NoError(t, err)
	given := map[string]string{}
	for _, line := range strings.Split(strings.TrimSpace(string(data)), "\n") {
		if code, id, ok := strings.Cut(line, " "); ok && code != "#" {
			given[id] = code
		}
	}
	for _, k := range Kinds {
		require.Equal(t, given[k.ID], strconv.Itoa(int(k.Code)),
			"%s: a new step is added to testdata/schedule/codes.txt; an old one keeps its code", k.ID)
	}
}

// Every rule of the program changes something, or it would be a setting for show.
func TestEveryRuleCounts(t *testing.T) {
	for r, info := range plan.Rules {
		switch plan.Rule(r) {
		case plan.Fever, plan.BowelDays:
			continue // they are said in the signs, which core/guide's tests have
		}
		changed := false
		for _, op := range []plan.Operation{plan.First, plan.Revision, plan.BothSides} {
			for _, v := range []int{info.Min, info.Max} {
				p := family(t, func(p *plan.Plan) { p.Operation, p.Stay = op, plan.Undecided })
				before, err := Build(p)
				require.NoError(t, err)
				p.Program.Set(plan.Rule(r), v)
				after, err := Build(p)
				require.NoError(t, err)
				before.Plan, after.Plan = plan.Plan{}, plan.Plan{}
				changed = changed || !reflect.DeepEqual(before, after)
			}
		}
		require.True(t, changed, "%s changes no schedule", info.Key)
	}
}

func TestFactsTrimTheLists(t *testing.T) {
	lines := map[string]plan.Facts{
		"pet-care": plan.Pets, "pets-underfoot": plan.Pets, "stairs-tell": plan.Stairs, "stairs-rails": plan.Stairs,
		"mat-tub": plan.Tub, "mat-shower": plan.Shower, "own-walker-look": plan.OwnWalker,
		"pack-glasses": plan.Glasses, "pack-contacts": plan.Contacts, "pack-hearing-aids": plan.HearingAids,
		"pack-dentures": plan.Dentures, "pack-breathing": plan.BreathingMachine,
	}
	with := func(f plan.Facts) *Schedule {
		return build(t, family(t, func(p *plan.Plan) { p.Facts = f }))
	}
	for id, fact := range lines {
		require.Len(t, with(0).byID(id), 1, "nobody has answered: %s is shown", id)
		require.Len(t, with(plan.HomeAnswered|fact).byID(id), 1, id)
		others := plan.HomeAnswered | plan.AllFacts&^fact
		require.Empty(t, with(others).byID(id), "%s is left out where it does not apply", id)
	}
	require.Len(t, with(0).byID("walker"), 1)
	require.Empty(t, with(plan.OwnWalker).byID("walker"), "has one already")
	bare := with(plan.HomeAnswered)
	require.Len(t, bare.byID("mat-tub"), 1, "every home has a tub or a shower; neither was named")
	require.Len(t, bare.byID("mat-shower"), 1)
}

// The days of the lists. Common practice, no published source.
func TestCallBeforeAMonday(t *testing.T) {
	for date, want := range map[string]string{
		"2027-03-08": "2027-03-05 2027-03-07 weekend", // Monday: Friday to Sunday
		"2027-03-07": "2027-03-05 2027-03-06 weekend", // Sunday: Friday and Saturday
		"2027-03-09": "2027-03-08 2027-03-08 ",
	} {
		s := build(t, family(t, func(p *plan.Plan) { p.Surgery = day(t, date) }))
		call := s.one(t, "hospital-call")
		require.Equal(t, want, call.First.String()+" "+call.Last.String()+" "+call.Variant)
	}
}

func TestDueDays(t *testing.T) {
	s := build(t, family(t))
	for id, want := range map[string]string{
		"choose-coach": "2027-02-23", "walker": "2027-02-23", "practise": "2027-03-02", "throw-rugs": "2027-03-02",
		"clean-house": "2027-03-04", "wash-linen": "2027-03-04", "groceries": "2027-03-07", "meals-ahead": "2027-03-07",
		"hospital-call": "2027-03-08", "bag": "2027-03-08", "supper": "2027-03-08", "parking-permit": "2027-03-09",
		"check-in": "2027-03-09", "home-check-vital": "2027-03-10",
	} {
		require.Equal(t, want, s.one(t, id).Last.String(), id)
	}
	hardest := s.one(t, "hardest-weeks")
	require.Equal(t, "2027-03-09 2027-03-23", hardest.First.String()+" "+hardest.Last.String(), "two weeks")
	require.Equal(t, Onward, s.one(t, "walk-often").Due, "until the therapist or the surgeon says otherwise")
	require.Equal(t, Onward, s.one(t, "coach-drives").Due, "until the surgeon says otherwise")
}

// The first night is got ready for in the evening of the day of going home, whichever that is.
// Common practice, no published source.
func TestTheFirstNightIsInTheEvening(t *testing.T) {
	for stay, want := range map[plan.Stay]string{plan.SameDay: "2027-03-09 20:00", plan.OneNight: "2027-03-10 20:00"} {
		s := build(t, family(t, func(p *plan.Plan) { p.Stay = stay }))
		night := s.one(t, "first-night")
		require.True(t, night.Evening)
		require.Equal(t, want, night.Around.In(s.Loc).Format("2006-01-02 15:04"))
	}
	undecided := build(t, family(t, func(p *plan.Plan) { p.Stay = plan.Undecided })).one(t, "first-night")
	require.True(t, undecided.Evening && undecided.Around.IsZero(), "on one of two evenings")
}

// What was handed out is packed by those who have it, and by nobody else, answered or not; a
// fact of the home that nobody has told yet leaves its line in. Common practice, no published source.
func TestTheParkingPermitIsPackedWhereItWasGiven(t *testing.T) {
	for facts, want := range map[plan.Facts]int{0: 0, plan.HomeAnswered: 0, plan.SoapGiven: 0, plan.ParkingPass: 1, plan.ParkingPass | plan.HomeAnswered: 1} {
		s, found := build(t, family(t, func(p *plan.Plan) { p.Facts = facts })), 0
		for _, step := range s.Steps {
			if step.Kind.ID == "parking-permit-car" {
				found++
				require.Equal(t, "pack 2027-03-08", step.List+" "+step.Last.String())
			}
		}
		require.Equal(t, want, found, facts)
	}
	k := KindByID("parking-permit-car")
	require.False(t, k.General(0))
	require.True(t, k.General(plan.ParkingPass))
	require.True(t, KindByID("stairs-tell").General(0))
}

// What the hospital says of movements and of when to call is no step; a list after those is.
func TestWhatIsToldIsNoStep(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) {
		for list := range plan.ListEnd {
			*p = p.WithLine(plan.Line{ID: uint32(list) + 1, List: list, Day: plan.NoDay, Hospital: true, Text: "x"})
		}
	}))
	own := 0
	for _, step := range s.Steps {
		if step.Line != nil {
			own++
			require.False(t, step.Line.List.Told())
		}
	}
	require.Equal(t, int(plan.ListEnd)-3, own)
}
