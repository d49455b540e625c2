package merge

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// The form is our own, with no published source but for the signs: base64url of RFC 4648
// section 5. The texts were worked out by hand, bit by bit, and go into links: they never
// change.
func TestAboutByHand(t *testing.T) {
	work := repeat.Rule{First: day(t, "2027-03-01"), At: 9 * 60, Freq: repeat.Weekly, Every: 1, Days: workdays, Week: time.Monday}
	for text, about := range map[string]plan.About{
		// 0011 00 0000010101 0 0
		"MBU": {Told: true, Can: plan.CanDrive | plan.CanNight, Away: 20},
		// 0000 01 0000000000 1 0001000 0110011 0
		"BACIZg": {Told: true, Offer: plan.Light, Away: plan.Unknown, Likes: plan.MealsTask, Avoids: plan.RideTask | plan.HospitalTask | plan.NightTask | plan.CompanyTask},
		// 0011 00 0000010101 0 then 1 00 0 0101000110001110 1 0100100 00 0100000 10 1 1 00 then 0
		"MBVCjHUggsA": {Told: true, Can: plan.CanDrive | plan.CanNight, Away: 20, Times: []plan.Times{{Use: plan.Work, Rule: work, Length: 8 * 60}}},
	} {
		require.Equal(t, text, AboutText(about))
		got, ok := ReadAbout(text)
		require.True(t, ok)
		require.True(t, about.Equal(got), "%+v", got)
	}
}

func TestAboutThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAbout(fromRapid(t))
		if !a.Told {
			return
		}
		a.Out = false
		require.Empty(t, plan.CheckAbout(&a))
		text := AboutText(a)
		require.LessOrEqual(t, len(text), MaxUnknown)
		got, ok := ReadAbout(text)
		require.True(t, ok, text)
		require.True(t, a.Equal(got), "%+v is not %+v", a, got)
	})
}

// A text that is read is the one that would be written; everything else is refused.
func TestAboutIsStrict(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := fromRapid(t)
		text := []byte(AboutText(anyAbout(c)))
		for range 1 + c(3) {
			text[c(len(text))] = aboutSigns[c(len(aboutSigns))]
		}
		if a, ok := ReadAbout(string(text)); ok {
			require.Equal(t, string(text), AboutText(a))
			require.Empty(t, plan.CheckAbout(&a))
		}
	})
	for name, text := range map[string]string{
		"nothing": "", "too short": "M", "cut": "MB", "a sign more": "MBUA", "padding that is not zero": "MBVCjHUgQLB", "another alphabet": "MB+",
		"two lines": "MBU\n", "endless": strings.Repeat("_", MaxUnknown), "too long": strings.Repeat("A", MaxUnknown+1), "offer that is none": "PBU",
	} {
		_, ok := ReadAbout(text)
		require.False(t, ok, name)
	}
}

// The most that can be told of somebody is within what older pages take for a value.
func TestTheLongestAbout(t *testing.T) {
	a := plan.About{Told: true, Can: plan.AllAbilities, Away: 1, Offer: plan.ALot, Likes: 1, Avoids: 2}
	for i := range plan.MaxTimes {
		r := repeat.Rule{First: 20900, At: wall.Clock(601 + i), Freq: repeat.Monthly, Every: 2, Nth: []repeat.Nth{{N: 1, Day: 2}, {N: -1, Day: 4}}, Last: 21601}
		a.Times = append(a.Times, plan.Times{Use: plan.TimesUse(i % 3), Rule: r.Canonical(), Length: 24*60 + 7*121})
	}
	require.Empty(t, plan.CheckAbout(&a))
	require.LessOrEqual(t, len(AboutText(a)), MaxUnknown)
	// The parts of the form added up, each at its longest.
	require.LessOrEqual(t, (17+14+1+plan.MaxTimes*(1+2+17+12+19+2+8+1+77+13)+5)/6, MaxUnknown)
}

// Somebody is taken off the list while another tells of them, says that they are out, or gives
// them a slot: they are back, with that.
func TestAHelperTakenOffAndToldOf(t *testing.T) {
	start := New(rosa(t))
	off := start.with(luis, func(p *plan.Plan) { p.Helpers = p.Helpers[:2] })
	told := plan.About{Told: true, Can: plan.CanPets, Away: 5}
	for name, change := range map[string]func(p *plan.Plan){
		"told":  func(p *plan.Plan) { *p = p.WithAbout(3, told) },
		"out":   func(p *plan.Plan) { *p = p.WithAbout(3, plan.About{Out: true}) },
		"shift": func(p *plan.Plan) { *p = p.WithShift(4, 3) },
	} {
		want := start.with(dana, change).Plan()
		both := inAnyOrder(t, off, start.with(dana, change)).Plan()
		require.Equal(t, []string{"Dana", "Luis", "Ann"}, both.Helpers, name)
		require.True(t, want.AboutOf(3).Equal(both.AboutOf(3)), name)
		require.Equal(t, want.Shifts, both.Shifts, name)
	}
}

// Two who tell of one helper, or take one slot, are asked about; what each of two tells of
// different helpers is not.
func TestToldTwice(t *testing.T) {
	start := New(rosa(t))
	tell := func(a Actor, who uint8, away int) *Doc {
		return start.with(a, func(p *plan.Plan) { *p = p.WithAbout(who, plan.About{Told: true, Away: away}).WithShift(4, who) })
	}
	both := inAnyOrder(t, tell(luis, 2, 10), tell(ann, 3, 20))
	require.Equal(t, []Key{{Field: Shift, Sub: 4}}, both.asked())
	p := both.Plan()
	require.Equal(t, 10, p.AboutOf(2).Away)
	require.Equal(t, 20, p.AboutOf(3).Away)
	both = inAnyOrder(t, tell(luis, 2, 10), tell(ann, 2, 20))
	require.Equal(t, []Key{{Field: About, Name: "Luis"}}, both.asked())
	settled := both.Settle(dana, Key{Field: About, Name: "Luis"}, AboutText(plan.About{Told: true, Away: 10}))
	require.Empty(t, settled.asked())
	p = settled.Plan()
	require.Equal(t, 10, p.AboutOf(2).Away)
}

// Until somebody settles it, nobody is given what one of two said that they cannot do, nor at a
// time at which one of two said that they cannot; also where the two wrote one name with other
// capitals.
func TestToldTwiceIsReadCarefully(t *testing.T) {
	start := New(rosa(t))
	works := plan.Times{Use: plan.Work, Length: 6 * 60, Rule: repeat.Rule{First: day(t, "2027-03-10"), At: 6 * 60, Freq: repeat.Weekly, Every: 1, Days: repeat.DaysOf(3)}.Canonical()}
	noCar := plan.About{Told: true, Can: plan.AllAbilities &^ plan.CanDrive}
	busy := plan.About{Told: true, Can: plan.AllAbilities &^ plan.CanPets, Times: []plan.Times{works}}
	tell := func(a Actor, name string, about plan.About) *Doc {
		return start.with(a, func(p *plan.Plan) {
			next, who := p.WithHelper(name)
			*p = next.WithAbout(who, about)
		})
	}
	for _, names := range [][2]string{{"Luis", "Luis"}, {"Tom", "tom"}} {
		both := inAnyOrder(t, tell(luis, names[0], noCar), tell(ann, names[1], busy))
		p := both.Plan()
		_, who := p.WithHelper(names[0])
		shown := p.AboutOf(who)
		require.Equal(t, plan.CanNight|plan.CanSteady, shown.Can, names)
		require.Equal(t, []plan.Times{works}, shown.Times, names)
	}
}

// What a later page tells in a form of its own is kept and given back, and said to be newer.
func TestALaterAbout(t *testing.T) {
	d := New(rosa(t)).put(Key{Field: About, Name: "Dana"}, by(Maker, 1, ".anything"))
	require.NoError(t, d.Check())
	require.True(t, d.Newer())
	p := d.Plan()
	require.False(t, p.AboutOf(1).Known())
	changed := d.with(luis, func(p *plan.Plan) { p.Drive = 41 })
	require.Equal(t, []string{".anything"}, changed.values(Key{Field: About, Name: "Dana"}))
	need := New(rosa(t)).put(ofTherapy(Need), by(Maker, 1, "9"))
	require.True(t, need.Newer())
	require.Equal(t, plan.ByKind, need.Plan().Duties[0].Need)
}
