package families

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
)

func named(t *testing.T, name string) Plan {
	for _, p := range All() {
		if p.Name == name {
			return p
		}
	}
	t.Fatalf("there is no plan %s", name)
	return Plan{}
}

// The sizes are only worth something for plans of the sizes that the rows promise: these
// numbers stand beside the rows in the issue that asked for them.
func TestThePlansAreOfThePromisedSize(t *testing.T) {
	near := func(want, got int, what string) { require.InDelta(t, want, got, float64(want)/20, what) }
	settings := Count(named(t, "settings").Doc)
	near(200, settings.Letters, "letters of settings")
	require.Equal(t, 3+10+3, settings.Registers, "day, arrival and zone, ten rules, three texts")
	family, merged := named(t, "family").Doc, named(t, "family-merge").Doc
	for _, d := range []*merge.Doc{family, merged} {
		c := Count(d)
		near(110, c.Dates, "dates")
		near(550, c.Letters, "letters")
		require.Equal(t, 20, c.Ticks)
		require.Len(t, d.Plan().Helpers, 5)
	}
	c := Count(merged)
	near(165, c.Registers, "registers")
	near(60, c.Acts, "acts")
	require.Equal(t, 5, c.Devices)
	require.Equal(t, 1, Count(family).Acts)
}

// Every plan is one that people can use, with nothing left to settle, and survives its link.
func TestThePlansAreSound(t *testing.T) {
	for _, p := range All() {
		q := p.Doc.Plan()
		require.Empty(t, plan.Check(&q, surgery-30), p.Name)
		require.NoError(t, p.Doc.Check(), p.Name)
		require.Empty(t, p.Doc.Questions(), p.Name)
		require.Empty(t, p.Doc.Idle(), p.Name)
		for i := range q.Duties {
			require.Less(t, int(q.Duties[i].Rule.First-surgery), 12*7+1, "within twelve weeks")
		}
		back, err := link.Decode(link.Encode(p.Doc))
		require.NoError(t, err, p.Name)
		require.True(t, p.Doc.Equal(back), p.Name)
	}
}

// The family's plan is the same with and without its history, but for the numbers of the
// duties, which are those of their devices.
func TestTheFamilyIsTheSameWithAndWithoutStamps(t *testing.T) {
	without := func(name string) Natural {
		n := ToNatural(named(t, name).Doc.Plan())
		for i := range n.Duties {
			n.Duties[i].ID = 0
		}
		slices.SortFunc(n.Duties, func(a, b NaturalDuty) int { return strings.Compare(a.Kind+a.First, b.Kind+b.First) })
		return n
	}
	require.Equal(t, without("family"), without("family-merge"))
}

// What the peers are handed tells every plan and every stamp apart.
func TestNaturalHoldsEveryRegister(t *testing.T) {
	for _, p := range All() {
		n := Stamped(p.Doc)
		require.Len(t, n.Stamps, Count(p.Doc).Registers, p.Name)
		require.Len(t, n.Devices, Count(p.Doc).Devices, p.Name)
	}
	one := ToNatural(named(t, "starter").Doc.Plan())
	text, err := json.Marshal(one)
	require.NoError(t, err)
	require.JSONEq(t, `{"version":1,"number":2400977623,"surgery":"2027-03-09","arrival":"05:30",
		"joint":"knee","operation":"first","stay":"one-night","program":1}`, string(text))
}

// The limits are those of the issue that asked for the small link, in characters.
func TestTheLinksAreAsSmallAsAsked(t *testing.T) {
	limits := map[string]int{"starter": 20, "settings": 200, "family": 410, "family-merge": 550}
	for _, p := range All() {
		require.LessOrEqual(t, len(link.Encode(p.Doc)), limits[p.Name], p.Name)
	}
}
