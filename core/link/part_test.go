package link

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/merge"
	"newel/core/plan"
)

func TestAPartHoldsOneHelpersDutiesOnly(t *testing.T) {
	p := withFamily(t)
	require.GreaterOrEqual(t, len(p.Helpers), 2)
	p.Revision = 2
	for i := range p.Duties {
		p.Duties[i].Revision = uint16(3 + i)
	}
	for _, name := range p.Helpers {
		fragment := EncodePart(p, name)
		require.Less(t, len(fragment), len(Encode(docOf(p))))
		part, helper, err := DecodePart(fragment)
		require.NoError(t, err)
		require.Equal(t, name, helper)
		require.Equal(t, name, part.Helpers[0])
		require.Equal(t, p.Surgery, part.Surgery)
		require.Equal(t, p.Arrival, part.Arrival)
		require.Equal(t, p.Program, part.Program)
		require.EqualValues(t, 2, part.Revision, "files of a part and of the whole have one SEQUENCE (RFC 5546 2.1.4)")
		require.Empty(t, part.Ticked)
		require.Zero(t, part.Facts)
		had := 0
		for i := range p.Duties {
			d := &p.Duties[i]
			who := uint8(1 + indexOf(p.Helpers, name))
			nightInstead := d.Kind == plan.Nights && !d.Dropped && p.Cover[plan.StayWith] == who
			if got := part.Duty(d.ID); nightInstead && !d.Has(who) {
				require.NotNil(t, got)
				require.Empty(t, got.Title+got.Place+got.Note)
				had++
			} else if d.Dropped || !d.Has(who) {
				require.Nil(t, got, d.Title)
			} else {
				had++
				require.True(t, got.Has(1), d.Title)
				require.True(t, d.Rule.Equal(got.Rule))
				require.Equal(t, d.Revision, got.Revision)
			}
		}
		require.Len(t, part.Duties, had)
		for _, other := range p.Helpers {
			if other != name {
				require.NotContains(t, strings.Join(part.Helpers, " "), other)
			}
		}
		for _, other := range part.Helpers[1:] {
			require.False(t, Mine(other))
		}
	}
}

func indexOf(names []string, name string) int {
	for i := range names {
		if names[i] == name {
			return i
		}
	}
	return -1
}

// The two kinds of link are never taken for each other: a part would join as a plan that
// lost nearly everything.
func TestAPartIsNoPlan(t *testing.T) {
	p := withFamily(t)
	_, err := Decode(EncodePart(p, p.Helpers[0]))
	require.ErrorIs(t, err, ErrPart)
	_, _, err = DecodePart(Encode(docOf(p)))
	require.ErrorIs(t, err, ErrPart)
	h, err := ReadHead(EncodePart(p, p.Helpers[0]))
	require.NoError(t, err)
	require.True(t, h.Part)
	require.Equal(t, p.Number, h.Number)
}

func TestAPartOfSomebodyWithoutDuties(t *testing.T) {
	part, helper, err := DecodePart(EncodePart(withFamily(t), "Nobody in the plan"))
	require.NoError(t, err)
	require.Equal(t, "Nobody in the plan", helper)
	require.Empty(t, part.Duties)
}

// A later page adds fields, facts, settings and kinds of duties that every plan has. This
// one keeps what it does not know, joins it, and gives it back, also after a change.
func TestWhatALaterPageAddsIsGivenBack(t *testing.T) {
	p := withFamily(t)
	later := docOf(p)
	actor := merge.FirstActor + 5
	stamp := merge.Stamp{Actor: actor, N: 2}
	later.SetSeen(stamp)
	unknown := map[merge.Key]string{
		{Field: merge.FirstUnknown}:                                     "any bytes \x00\xff at all",
		{Field: merge.FirstUnknown + 7, Of: p.Duties[0].ID, Sub: 20521}: "",
		{Field: 255, Name: "a name of any kind"}:                        "3",
		{Field: merge.Fact, Sub: 31}:                                    "1",
		{Field: merge.Setting, Sub: 63}:                                 "45",
		{Field: merge.Cover, Sub: 9}:                                    "Dana",
	}
	for k, v := range unknown {
		later.Set(k, []merge.Version{{Stamp: merge.Stamp{Actor: actor, N: 1}, Value: v}})
	}
	require.NoError(t, later.Check())

	read, err := Decode(Encode(later))
	require.NoError(t, err)
	require.True(t, read.Equal(later))
	require.True(t, read.Newer(), "the person should be told")
	require.Equal(t, p, read.Plan(), "what is not known changes nothing that is shown")

	next := read.Plan()
	next.Patient = "Rosa B."
	changed := read.Change(merge.FirstActor+9, next)
	joined, err := merge.Join(changed, docOf(p))
	require.NoError(t, err)
	back, err := Decode(Encode(joined))
	require.NoError(t, err)
	require.Equal(t, "Rosa B.", back.Plan().Patient)
	for k, v := range unknown {
		require.Equal(t, []merge.Version{{Stamp: merge.Stamp{Actor: actor, N: 1}, Value: v}}, back.Get(k), k.String())
	}
}

// What another helper has is somebody's, so that it does not stand open in the part; whose, is not told.
func TestWhatOthersHaveIsSomebodysInAPart(t *testing.T) {
	p := withFamily(t)
	for i := range p.Cover {
		p.Cover[i] = uint8(1 + i%2)
	}
	p.Duties[0].Who, p.Duties[0].On = 1, [7]uint8{2, 1, 0, 2}
	part, helper, err := DecodePart(EncodePart(p, p.Helpers[0]))
	require.NoError(t, err)
	require.Equal(t, p.Helpers[0], helper)
	require.Equal(t, []string{p.Helpers[0], someoneElse}, part.Helpers)
	for i, who := range p.Cover {
		require.Equal(t, who, part.Cover[i])
	}
	require.Equal(t, [7]uint8{2, 1, 0, 2}, part.Duty(p.Duties[0].ID).On)

	for i := range p.Cover {
		p.Cover[i] = 0
	}
	p.Duties, p.Shifts = p.Duties[:1], nil
	p.Duties[0].On, p.Duties[0].Takes = [7]uint8{}, nil
	part, _, err = DecodePart(EncodePart(p, p.Helpers[0]))
	require.NoError(t, err)
	require.Equal(t, p.Helpers[:1], part.Helpers, "nobody else has anything")
}

// Whoever has a single part of the staying has to know of the nights that somebody else has, which take its place.
func TestAPartOfOneShiftKnowsOfTheNights(t *testing.T) {
	p := withFamily(t)
	p.Cover, p.Shifts = [len(p.Cover)]uint8{}, nil
	night := p.Duties[0]
	night.Kind, night.Who, night.On, night.Takes, night.Title = plan.Nights, 2, [7]uint8{}, nil, "Otto stays"
	p.Duties = []plan.Duty{night}
	part, _, err := DecodePart(EncodePart(p, p.Helpers[0]))
	require.NoError(t, err)
	require.Empty(t, part.Duties, "they have nothing to do with it")
	p = p.WithShift(plan.SlotOf(2, plan.Night), 1)
	part, _, err = DecodePart(EncodePart(p, p.Helpers[0]))
	require.NoError(t, err)
	require.Len(t, part.Duties, 1)
	require.Empty(t, part.Duties[0].Title)
}
