package plan

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/repeat"
	"newel/core/wall"
)

// What may be told of a helper is our own, with no published source.

func withHelpers() Plan {
	p := usual()
	p.Helpers = []string{"Dana", "Luis", "Ann"}
	return p
}

func usual() Plan {
	return Plan{Surgery: wall.FirstDate + 9000, Arrival: 330, Zone: "America/Chicago", Drive: 40, Parking: 15}
}

func everyDay(times int) repeat.Rule {
	return repeat.Rule{First: wall.FirstDate + 9000, At: 540, Freq: repeat.Daily, Every: 1, Count: times}.Canonical()
}

func TestAboutStaysBesideTheHelpers(t *testing.T) {
	p := withHelpers()
	told := About{Told: true, Can: CanDrive, Away: 20}
	q := p.WithAbout(2, told)
	require.Nil(t, p.About, "the plan it is called on keeps its own")
	require.Equal(t, told, q.AboutOf(2))
	for _, who := range []uint8{0, 1, 3, 4, 255} {
		require.False(t, q.AboutOf(who).Known())
	}
	require.False(t, p.SameFacts(q))
	require.True(t, p.SameFacts(q.WithAbout(2, About{})))
	require.Nil(t, q.WithAbout(2, About{}).About, "equal plans are equal in their fields")
	out := q.WithAbout(2, About{Out: true, Can: CanPets, Away: 9})
	require.Equal(t, About{Out: true}, out.AboutOf(2), "untold, only that counts")
	require.Equal(t, q, q.WithAbout(0, told).WithAbout(9, told), "nobody")

	q, who := q.WithHelper("Mina")
	require.EqualValues(t, 4, who)
	require.Len(t, q.About, 4)
	require.False(t, q.AboutOf(4).Known())
	minutes, ok := q.AboutOf(2).Own()
	require.True(t, ok)
	require.Equal(t, 20, minutes)
	_, ok = q.AboutOf(4).Own()
	require.False(t, ok)
	_, ok = About{Told: true, Away: Unknown}.Own()
	require.False(t, ok)
}

// Where all places are taken, a name that has nothing gives its place, and who is known of
// or has a slot keeps it.
func TestAHelperOfWhomSomethingIsToldKeepsTheirPlace(t *testing.T) {
	p := usual()
	for i := range MaxHelpers {
		p.Helpers = append(p.Helpers, "helper "+strconv.Itoa(i))
	}
	p = p.WithAbout(1, About{Told: true, Away: Unknown}).WithAbout(2, About{Out: true}).WithShift(3, 3)
	q, who := p.WithHelper("Mina")
	require.EqualValues(t, 4, who)
	require.False(t, q.AboutOf(4).Known())
	require.Equal(t, p.AboutOf(1), q.AboutOf(1))
	for i := range uint8(MaxHelpers) {
		p = p.WithAbout(i+1, About{Out: true})
	}
	_, who = p.WithHelper("Mina")
	require.Zero(t, who)
}

func TestCheckAbout(t *testing.T) {
	sound := About{Told: true, Can: AllAbilities, Away: Unknown, Offer: ALot, Likes: RideTask, Avoids: AllTasks &^ RideTask}
	for range MaxTimes {
		sound.Times = append(sound.Times, Times{Use: Free, Rule: everyDay(30), Length: MaxTimesLength})
	}
	require.Empty(t, CheckAbout(&sound))
	skipped := everyDay(9)
	skipped.Skipped = []wall.Date{skipped.First + 1}
	for field, change := range map[string]func(a *About){
		"away AwayLong":           func(a *About) { a.Away = MaxDrive + 1 },
		"away NumberNegative":     func(a *About) { a.Away = -2 },
		"can ChoiceUnknown":       func(a *About) { a.Can = AllAbilities + 1 },
		"offer ChoiceUnknown":     func(a *About) { a.Offer = offerEnd },
		"likes ChoiceUnknown":     func(a *About) { a.Likes = AllTasks + 1 },
		"likes LikesTwice":        func(a *About) { a.Likes = MealsTask },
		"times TimesMany":         func(a *About) { a.Times = append(a.Times, a.Times[0]) },
		"times.1.use Choice":      func(a *About) { a.Times[1].Use = timesUseEnd },
		"times.1.length Long":     func(a *About) { a.Times[1].Length = MaxTimesLength + 1 },
		"times.1.length None":     func(a *About) { a.Times[1].Length = 0 },
		"times.1.length Negative": func(a *About) { a.Times[1].Length = -5 },
		"times.1.first Missing":   func(a *About) { a.Times[1].Rule.First = 0 },
		"times.1.times Count":     func(a *About) { a.Times[1].Rule.Count = repeat.MaxCount + 1 },
		"times.1.often Skipped":   func(a *About) { a.Times[1].Rule = skipped },
	} {
		a := sound
		a.Times = append([]Times{}, sound.Times...)
		change(&a)
		found := CheckAbout(&a)
		require.Len(t, found, 1, field)
		require.Equal(t, field[:len(found[0].Field)], found[0].Field, field)
		p := withHelpers().WithAbout(2, a)
		all := Check(&p, p.Surgery)
		require.Equal(t, "helper.2."+found[0].Field, all[len(all)-1].Field)
		require.False(t, Usable(all), field)
	}
}

// What only a made-up link has: nothing told and yet something, another number of helpers,
// slots out of order or of nobody, and more dates than a phone goes through in a moment.
func TestUnsoundHelpers(t *testing.T) {
	for name, change := range map[string]func(p *Plan){
		"untold and able":    func(p *Plan) { p.About = []About{{Can: CanDrive}, {}, {}} },
		"fewer than helpers": func(p *Plan) { p.About = []About{{Told: true}} },
		"slot too late":      func(p *Plan) { p.Shifts = []Shift{{MaxSlot + 1, 1}} },
		"slot of no helper":  func(p *Plan) { p.Shifts = []Shift{{1, 4}} },
		"slots out of order": func(p *Plan) { p.Shifts = []Shift{{2, 1}, {1, 1}} },
		"slot twice":         func(p *Plan) { p.Shifts = []Shift{{2, 1}, {2, 2}} },
		"too many dates": func(p *Plan) {
			a := About{Told: true}
			for range 7 {
				a.Times = append(a.Times, Times{Rule: everyDay(repeat.MaxCount), Length: 9})
			}
			*p = p.WithAbout(1, a).WithAbout(2, a).WithAbout(3, a)
		},
	} {
		p := withHelpers()
		require.True(t, Usable(Check(&p, p.Surgery)))
		change(&p)
		require.False(t, Usable(Check(&p, p.Surgery)), name)
	}
}

func TestShifts(t *testing.T) {
	p := withHelpers()
	p.Cover[StayWith] = 1
	require.Equal(t, "stay-with", BuiltIn[StayWith])
	q := p.WithShift(4, 2).WithShift(1, 0).WithShift(4, 3).WithShift(9, 1).WithShift(MaxSlot+1, 2)
	require.Equal(t, []Shift{{1, 0}, {4, 3}, {9, 1}}, q.Shifts, "what somebody took stays written, also where they have the rest")
	require.Nil(t, p.Shifts)
	require.EqualValues(t, []uint8{1, 0, 3, 1}, []uint8{q.WhoHasSlot(0), q.WhoHasSlot(1), q.WhoHasSlot(4), q.WhoHasSlot(9)})
	require.False(t, p.SameFacts(q))
	open := q.WithCover(StayWith, 0)
	require.Equal(t, []Shift{{4, 3}, {9, 1}}, open.Shifts, "that nobody has a slot says nothing where nobody has the rest")
	require.Nil(t, open.WithShift(4, 0).WithShift(9, 0).WithShift(7, 0).Shifts)
	require.Equal(t, q.Shifts, q.WithCover(0, 2).Shifts)
	for slot := range MaxSlot + 1 {
		got, ok := SlotNamed(slot.Name())
		require.True(t, ok)
		require.Equal(t, slot, got)
		require.Equal(t, slot, SlotOf(slot.Day(), slot.Part()))
	}
	for _, name := range []string{"stay-with", "stay-with.", "stay-with.60", "stay-with.-1", "stay-with.04", "stay-with.x", "wait.1", "stay-with.256"} {
		_, ok := SlotNamed(name)
		require.False(t, ok, name)
	}
}

// Rides and nights must be, pets and meals should be: common practice, no published source.
func TestNeedOf(t *testing.T) {
	want := map[DutyKind]Need{TherapyRide: MustBe, VisitRide: MustBe, OtherRide: MustBe, Nights: MustBe, PetCare: ShouldBe, Meals: ShouldBe, OtherDuty: NiceToHave}
	for kind := range DutyKindEnd {
		require.Equal(t, want[kind], (&Duty{Kind: kind}).NeedOf())
		for _, n := range []Need{MustBe, ShouldBe, NiceToHave} {
			require.Equal(t, n, (&Duty{Kind: kind, Need: n}).NeedOf())
		}
	}
	d := Duty{Kind: Meals}
	require.False(t, d.Equal(Duty{Kind: Meals, Need: MustBe}))
	require.False(t, d.Equal(Duty{Kind: Meals, Steady: true}))
	require.True(t, d.SameTimes(Duty{Kind: Meals, Need: MustBe, Steady: true}))
}
