package link

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"newel/core/merge"
	"newel/core/plan"
	"newel/core/wall"
)

// anyStarter draws a plan as a desk makes it, with what stands in the head and what does not.
func anyStarter(t *rapid.T) plan.Plan {
	p := plan.Plan{
		Number: rapid.Uint32().Draw(t, "number"), Surgery: wall.Date(rapid.IntRange(int(wall.FirstDate), int(wall.LastDate)).Draw(t, "day")),
		Arrival: wall.Clock(rapid.IntRange(-1, 1439).Draw(t, "arrival")), Drive: plan.Unknown, Parking: plan.Unknown,
		Joint: plan.Joint(rapid.IntRange(0, 1).Draw(t, "joint")), Operation: plan.Operation(rapid.IntRange(0, 2).Draw(t, "operation")),
		Stay:  plan.Stay(rapid.IntRange(0, 2).Draw(t, "stay")),
		Facts: rapid.SampledFrom([]plan.Facts{0, plan.SoapGiven, plan.ParkingPass | plan.TeamTimes}).Draw(t, "facts"),
		Zone:  rapid.SampledFrom([]string{"America/Chicago", "America/New_York", "Europe/Madrid"}).Draw(t, "zone"),
	}
	if rapid.Bool().Draw(t, "known") {
		known := plan.BaseOf(1)
		p.Program, p.Zone = known.Program, known.Zone
	} else if rapid.Bool().Draw(t, "own") {
		p.Program.Hospital = rapid.SampledFrom([]string{"Alder Ferry Hospital", "St. Elsewhere"}).Draw(t, "hospital")
		p.Program.Set(plan.WashDays, rapid.IntRange(1, 5).Draw(t, "wash"))
	}
	return p
}

// One Starters and one Reader, used for many plans, write and read as Encode and Decode do.
func TestStartersAndReader(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var s Starters
		var r Reader
		for range rapid.IntRange(1, 8).Draw(t, "plans") {
			p := anyStarter(t)
			fragment := s.Encode(&p)
			require.Equal(t, Encode(merge.New(p)), fragment)
			require.NotEmpty(t, fragment)
			want, err := Decode(fragment)
			require.NoError(t, err)
			got, err := r.Decode(fragment)
			require.NoError(t, err)
			require.True(t, want.Equal(got))
			later := want.Change(100, func() plan.Plan { n := want.Plan(); n.Surgery = wall.FirstDate + 7; return n }())
			changed := Encode(later)
			got, err = r.Decode(changed)
			require.NoError(t, err)
			require.True(t, later.Equal(got))
		}
	})
}

// What Decode refuses the Reader refuses in the same words, also when it has the body.
func TestTheReaderRefusesWhatDecodeDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyStarter(t)
		fragment := Encode(merge.New(p))
		var r Reader
		_, err := r.Decode(fragment)
		require.NoError(t, err)
		damaged := []byte(fragment)
		for range rapid.IntRange(1, 3).Draw(t, "changes") {
			damaged[rapid.IntRange(0, len(damaged)-1).Draw(t, "at")] = rapid.SampledFrom([]byte("AZaz09-_ \n%")).Draw(t, "to")
		}
		text := string(damaged[:rapid.IntRange(0, len(damaged)).Draw(t, "cut")])
		_, want := Decode(text)
		_, got := r.Decode(text)
		require.Equal(t, want, got)
	})
}

// Older links have no body that could be one of another's.
func TestTheReaderReadsOlderLinksOneByOne(t *testing.T) {
	var r Reader
	for _, name := range []string{"v1/family", "v1/starter", "v2/family", "v1/family"} {
		fragment := vector(t, name+".txt")
		want, err := Decode(fragment)
		require.NoError(t, err)
		got, err := r.Decode(fragment)
		require.NoError(t, err)
		require.True(t, want.Equal(got), name)
	}
}
