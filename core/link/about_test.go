package link

import (
	"math/rand"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/merge"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// anyTold tells something of the helpers, gives slots away, and says how much duties are needed.
func anyTold(r *rand.Rand, p plan.Plan) plan.Plan {
	for i := range p.Helpers {
		a := plan.About{
			Told: true, Out: r.Intn(5) == 0, Can: plan.Abilities(r.Intn(int(plan.AllAbilities) + 1)), Away: r.Intn(plan.MaxDrive+2) - 1,
			Offer: plan.Offer(r.Intn(3)), Likes: plan.Tasks(r.Intn(int(plan.AllTasks) + 1)),
		}
		a.Avoids = plan.Tasks(r.Intn(int(plan.AllTasks)+1)) &^ a.Likes
		for range r.Intn(3) {
			rule := anyRule(r)
			rule.Skipped, rule.Moved, rule.Extra = nil, nil, nil
			a.Times = append(a.Times, plan.Times{Use: plan.TimesUse(r.Intn(3)), Rule: rule.Canonical(), Length: 1 + r.Intn(plan.MaxTimesLength)})
		}
		if r.Intn(2) == 0 {
			p = p.WithAbout(uint8(i+1), a)
		}
	}
	for range r.Intn(4) {
		p = p.WithShift(plan.Slot(r.Intn(int(plan.MaxSlot)+1)), uint8(r.Intn(len(p.Helpers)+1)))
	}
	for i := range p.Duties {
		p.Duties[i].Need, p.Duties[i].Steady = plan.Need(r.Intn(4)), r.Intn(2) == 0
	}
	return p
}

// What four helpers who said when they can add to a family's link: measured, and bounded so
// that it does not grow unseen. The registers are written as they are (doc.go, "Versions"):
// nine bytes for the key, the name, and a sign of the text a byte.
func TestWhatFourHelpersAdd(t *testing.T) {
	p := withFamily(t)
	for _, name := range []string{"Ann", "Grandma"} {
		p, _ = p.WithHelper(name)
	}
	before := len(Encode(docOf(p)))
	first := p.Surgery - 14
	work := repeat.Rule{First: first, At: 8*60 + 30, Freq: repeat.Weekly, Every: 1, Days: 0b0111110}
	away := repeat.Rule{First: p.Surgery + 12, At: 0, Every: 1}
	for who := uint8(1); who <= 4; who++ {
		work.At += wall.Clock(who) * 15
		p = p.WithAbout(who, plan.About{
			Told: true, Can: plan.CanDrive | plan.CanSteady, Away: 5 * int(who), Times: []plan.Times{
				{Use: plan.Work, Rule: work.Canonical(), Length: 8 * 60}, {Use: plan.Gone, Rule: away, Length: 3 * 24 * 60},
			},
		})
	}
	more := len(Encode(docOf(p))) - before
	t.Logf("four helpers, each with working hours and three days away, add %d characters", more)
	require.Less(t, more, 180)
	before += more
	for slot := range plan.Slot(9) {
		p = p.WithShift(slot+3, uint8(1+slot%4))
	}
	more = len(Encode(docOf(p))) - before
	t.Logf("nine slots, each somebody's, add %d characters", more)
	require.Less(t, more, 200)
}

// manyAbouts is as many helpers as can be, each with the heaviest times that can be told, so
// often.
func manyAbouts(t testing.TB, n int) *merge.Doc {
	a := plan.About{Told: true, Away: plan.Unknown}
	rule, ok := merge.ReadRule(monthlyText)
	require.True(t, ok)
	for range plan.MaxTimes {
		a.Times = append(a.Times, plan.Times{Rule: rule, Length: 15})
	}
	d := docOf(starter(t))
	for i := range plan.MostHelpers {
		var versions []merge.Version
		for v := range min(n, mostVersions) {
			a.Offer = plan.Offer(v % 3)
			versions = append(versions, merge.Version{Stamp: merge.Stamp{N: uint32(v + 1)}, Value: merge.AboutText(a)})
		}
		d.Set(merge.Key{Field: merge.About, Name: "h" + strconv.Itoa(i)}, versions)
	}
	d.SetSeen(merge.Stamp{N: mostVersions})
	return d
}

// A part has the way of the helper whose it is, and nothing of what the others can do.
func TestAPartTellsOnlyTheHelpersOwnWay(t *testing.T) {
	p := withFamily(t)
	p = p.WithAbout(1, plan.About{Told: true, Away: 25, Can: plan.CanPets, Times: []plan.Times{{Rule: p.Duties[0].Rule, Length: 60}}})
	p = p.WithAbout(2, plan.About{Told: true, Out: true, Away: 40})
	p = p.WithShift(4, 1).WithShift(5, 2)
	part, _, err := DecodePart(EncodePart(p, p.Helpers[0]))
	require.NoError(t, err)
	require.Equal(t, 25, part.AboutOf(1).Away)
	require.Empty(t, part.AboutOf(1).Times)
	require.False(t, part.AboutOf(2).Known())
	require.EqualValues(t, 1, part.WhoHasSlot(4))
	require.False(t, Mine(part.Helper(part.WhoHasSlot(5))))
}

// Another's night takes the place of staying with the patient also in the part of whoever
// stays, and no more is told of it; who does not stay does not hear of it.
func TestAPartKnowsOfTheNightsThatOthersHave(t *testing.T) {
	p := withFamily(t)
	night := repeat.Rule{First: p.Surgery + 1, At: 20 * 60, Every: 1}
	p = p.WithDuty(plan.Duty{ID: 900, Kind: plan.Nights, Title: "My night", Note: "the key", Who: 2, Rule: night, Length: 12 * 60,
		Ride: plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown}})
	p = p.WithCover(plan.StayWith, 1)
	part, _, err := DecodePart(EncodePart(p, p.Helpers[0]))
	require.NoError(t, err)
	got := part.Duty(900)
	require.NotNil(t, got)
	require.Empty(t, got.Title+got.Place+got.Note)
	require.False(t, got.Has(1))
	part, _, err = DecodePart(EncodePart(p.WithCover(plan.StayWith, 0), p.Helpers[0]))
	require.NoError(t, err)
	require.Nil(t, part.Duty(900))
}
