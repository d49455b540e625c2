package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestEveryFactButHomeAnsweredHasOneKey(t *testing.T) {
	var seen Facts
	keys := map[string]bool{}
	for _, f := range FactKeys {
		require.Regexp(t, kebab, f.Key)
		require.False(t, keys[f.Key], "the key %s stands twice", f.Key)
		require.Zero(t, f.Fact&(f.Fact-1), "%s is more than one bit", f.Key)
		require.Zero(t, seen&f.Fact, "the bit of %s has two keys", f.Key)
		keys[f.Key], seen = true, seen|f.Fact
		found, ok := FactByKey(f.Key)
		require.True(t, ok)
		require.Equal(t, f.Fact, found)
	}
	require.Equal(t, AllFacts&^HomeAnswered, seen)
	_, ok := FactByKey("home-answered")
	require.False(t, ok)
}

// A bit goes into links and may never get another meaning. The numbers are those
// of link version 1, written down by hand.
func TestTheBitsOfFactsAreFixed(t *testing.T) {
	for fact, bit := range map[Facts]int{
		SoapGiven: 0, DrinkGiven: 1, NoSurgicalSoap: 2, TeamTimes: 3, HomeAnswered: 4, Stairs: 5, Pets: 6, BreathingMachine: 7,
		Glasses: 8, Contacts: 9, HearingAids: 10, Dentures: 11, OwnWalker: 12, Tub: 13, Shower: 14,
	} {
		require.Equal(t, Facts(1)<<bit, fact)
	}
}

func TestWhatAppliesAtHome(t *testing.T) {
	for name, c := range map[string]struct {
		facts, line Facts
		want        bool
	}{
		"nobody has answered: every line":           {0, Pets, true},
		"answered, and so":                          {HomeAnswered | Pets, Pets, true},
		"answered, and not so":                      {HomeAnswered, Pets, false},
		"answered, something else is so":            {HomeAnswered | Stairs, Pets, false},
		"not answered, but named":                   {Pets, Pets, true},
		"neither tub nor shower named: the tub":     {HomeAnswered | Pets, Tub, true},
		"neither tub nor shower named: the shower":  {HomeAnswered | Pets, Shower, true},
		"only a tub: the tub":                       {HomeAnswered | Tub, Tub, true},
		"only a tub: not the shower":                {HomeAnswered | Tub, Shower, false},
		"only a shower: not the tub":                {HomeAnswered | Shower, Tub, false},
		"only a shower: the shower":                 {HomeAnswered | Shower, Shower, true},
		"both":                                      {HomeAnswered | Tub | Shower, Tub, true},
		"a tub named, but the rest not answered":    {Tub, Shower, true},
		"no tub or shower does not bring back pets": {HomeAnswered, Pets, false},
	} {
		require.Equal(t, c.want, c.facts.Applies(c.line), name)
	}
}

func TestHasAsksForAll(t *testing.T) {
	f := SoapGiven | Pets
	require.True(t, f.Has(SoapGiven|Pets))
	require.False(t, f.Has(SoapGiven|Stairs))
	require.True(t, f.Has(0))
}
