package merge

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// Two phones with one device number, as after a phone was copied. What has to hold then is
// our own rule (package comment), with no published source: the papers ask for numbers that
// are used once.

// apart lets two phones with one number write so many acts before the one that counts, so
// that each takes the other's for seen.
func apart(t *testing.T, start *Doc, one, other func(p *plan.Plan)) (a, b *Doc) {
	t.Helper()
	a = start.with(luis, one)
	for _, n := range []int{50, 51} {
		a = a.with(ann, func(p *plan.Plan) { p.Drive = n })
	}
	b = start.with(ann, other)
	for _, n := range []int{50, 51} {
		b = b.with(luis, func(p *plan.Plan) { p.Drive = n })
	}
	return a, b
}

func TestANumberUsedTwice(t *testing.T) {
	start := New(rosa(t))
	for name, test := range map[string]struct {
		k          Key
		one, other func(p *plan.Plan)
		values     []string
	}{
		"surgery day": {Key{Field: Surgery}, func(p *plan.Plan) { p.Surgery = 20890 }, func(p *plan.Plan) { p.Surgery = 20900 }, []string{"20890", "20900"}},
		"operation":   {Key{Field: Stay}, func(p *plan.Plan) { p.Stay = plan.SameDay }, func(p *plan.Plan) { p.Stay = plan.Undecided }, []string{"1", "2"}},
		"length":      {ofTherapy(Length), func(p *plan.Plan) { p.Duties[0].Length = 30 }, func(p *plan.Plan) { p.Duties[0].Length = 60 }, []string{"30", "60"}},
	} {
		a, b := apart(t, start, test.one, test.other)
		both := inAnyOrder(t, a, b)
		require.Equal(t, test.values, both.values(test.k), name)
		require.Contains(t, both.asked(), test.k, name)
		same(t, both, joinAll(t, both, a, b, a)) // a link opened again changes nothing
		require.True(t, both.Covers(a) && both.Covers(b), name)
		settled := both.Settle(dana, test.k, test.values[0])
		require.NotContains(t, joinAll(t, settled, a, b, both).asked(), test.k, name)
	}
}

func TestADutyTakenOutAndChangedUnderOneNumber(t *testing.T) {
	a, b := apart(t, New(rosa(t)),
		func(p *plan.Plan) { p.Duties[0].Dropped = true }, func(p *plan.Plan) { p.Duties[0].Length = 60 })
	both := inAnyOrder(t, a, b)
	require.False(t, both.Plan().Duties[0].Dropped)
	require.Contains(t, both.asked(), ofTherapy(Gone))
	same(t, both, joinAll(t, both, a, b, a))
}

// A duty that only one of the two knows comes in whole, with all that was said of it.
func TestADutyAddedUnderOneNumber(t *testing.T) {
	add := func(p *plan.Plan) {
		d := p.Duties[0]
		d.ID, d.Title, d.Who = p.FreshDuty(uint32(luis)), "Night there", 2
		*p = p.WithDuty(d)
	}
	a, b := apart(t, New(rosa(t)), add, func(p *plan.Plan) { p.Parking = 20 })
	later := a.with(otto, func(p *plan.Plan) { p.Duties[2].Note = "back door" })
	for _, known := range []*Doc{a, later} {
		both := inAnyOrder(t, known, b)
		require.Equal(t, known.Plan().Duties, both.Plan().Duties)
	}
	old := FromOld(rosa(t), 5) // links of versions 1 and 2 have all one number
	q := rosa(t)
	add(&q)
	require.Equal(t, q.Duties, inAnyOrder(t, old, FromOld(q, 3)).Plan().Duties)
	require.Equal(t, q.Duties, inAnyOrder(t, old, FromOld(q, 5)).Plan().Duties)
}

// Why Join cannot keep everything: Luis and Ann each add the same tick and take away only
// the other's. Then both copies have one, each has seen the other's taken away, and no tick
// is right: it has to come out the same as where both are away.
func TestTakenAwayCrosswise(t *testing.T) {
	p := rosa(t)
	p.Ticked = nil
	start := New(p)
	tick := func(done bool) func(p *plan.Plan) {
		return func(p *plan.Plan) { *p = p.WithTick(plan.Tick{Code: 3}, done) }
	}
	byLuis, byAnn := start.with(luis, tick(true)), start.with(ann, tick(true))
	notLuis, notAnn := byLuis.with(dana, tick(false)), byAnn.with(otto, tick(false))
	crosswise := inAnyOrder(t, byLuis, byAnn, notLuis, notAnn)
	require.Empty(t, crosswise.Plan().Ticked)
	same(t, crosswise, joinAll(t, joinAll(t, byLuis, notAnn), joinAll(t, byAnn, notLuis)))
}

// The same by chance: whatever several phones under two numbers do, no register that stays
// is lost in a join, each duty stays whole, a link opened again changes nothing, and phones
// that go on exchanging links end on one plan.
func TestNumbersUsedTwiceByChance(t *testing.T) {
	seeds := int64(150)
	if testing.Short() {
		seeds = 75
	}
	for seed := range seeds {
		t := &seeded{t, seed}
		c := fromSeed(seed)
		phones := make([]*Doc, 4)
		for i := range phones {
			phones[i] = New(anyPlan(c)) // even the plan was made twice under one number
		}
		for range 60 {
			i := c(len(phones))
			if c(3) == 0 {
				phones[i] = joinDoubled(t, phones[i], phones[c(len(phones))])
				continue
			}
			a := someActors[c(2)]
			p := copied(phones[i].Plan())
			acts[c(len(acts))].do(c, &p, a)
			phones[i] = phones[i].Change(a, p)
			shows(t, p, phones[i])
		}
		for round := 0; !allEqual(phones); round++ {
			require.Less(t, round, 20, "the copies do not come to an end")
			for i := range phones {
				j := c(len(phones))
				phones[i] = joinDoubled(t, phones[i], phones[j])
			}
			phones[0] = joinAll(t, phones...)
		}
	}
}

// neverAway are the fields that no act takes away: what every plan or every duty has, and
// what goes back to 0 or to an empty text.
var neverAway = []Field{
	Surgery, Joint, Operation, Stay, Patient, Program, Kind, Title, Place, Note, Source, Length, Own, Early, Pattern, Need,
}

func allEqual(docs []*Doc) bool {
	return !slices.ContainsFunc(docs, func(d *Doc) bool { return !d.Equal(docs[0]) })
}

// joinDoubled joins two copies and looks at what has to hold of any two.
func joinDoubled(t require.TestingT, a, b *Doc) *Doc {
	both := joinAll(t, a, b)
	same(t, both, joinAll(t, b, a))
	require.True(t, both.Covers(a) && both.Covers(b))
	require.NoError(t, both.Check())
	for _, k := range a.Keys() {
		if slices.Contains(neverAway, k.Field) && b.Get(k) != nil {
			require.NotEmpty(t, both.Get(k), "register %s", k)
		}
	}
	for _, k := range slices.Concat(a.Keys(), b.Keys()) {
		if k.Field == Kind {
			require.NotNil(t, both.Get(k), "duty %d", k.Of)
		}
	}
	return both
}

// A phone and its copy, each with one act more: both see the same acts and hold other things.
// Two that bring both together agree, and every value stays.
func TestEquallyOften(t *testing.T) {
	start := New(rosa(t)).with(luis, func(p *plan.Plan) { p.Drive = 50 })
	a := start.with(luis, func(p *plan.Plan) { p.Arrival, p.Parking = 345, 7 })
	b := start.with(luis, func(p *plan.Plan) { p.Arrival, p.Cover = 300, [len(p.Cover)]uint8{1, 2} })
	require.False(t, Doubled(start, a))
	require.False(t, Doubled(a, a))
	require.True(t, Doubled(a, b))
	one, other := a.Both(ann, b), b.Both(ann+1, a)
	require.NoError(t, one.Check())
	all := joinAll(t, one, other)
	same(t, all, joinAll(t, other, one))
	for _, d := range []*Doc{one, other, all} {
		require.Subset(t, d.values(Key{Field: Arrival}), []string{"300", "345"})
		require.Contains(t, d.asked(), Key{Field: Arrival})
		p := d.Plan()
		require.Contains(t, d.values(Key{Field: Parking}), "7")
		require.Equal(t, 15, p.Parking, "the longer is shown")
		require.NotZero(t, p.Cover[0])
		require.EqualValues(t, 300, p.Arrival, "the earlier is shown")
	}
	same(t, one, joinAll(t, one, a))
}
