package merge

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// Devices of the invented family. Dana made the plan.
const (
	dana = Maker
	luis = FirstActor
	ann  = FirstActor + 1
	otto = LastActor
)

const therapyID, catID = 1, 2

func day(t require.TestingT, iso string) wall.Date {
	d, err := wall.ParseDate(iso)
	require.NoError(t, err)
	return d
}

// rosa is a small family's plan: rides to therapy on Tuesdays and Fridays, and the cat.
func rosa(t require.TestingT) plan.Plan {
	p := plan.Plan{
		Number: 11259375, Patient: "Rosa", Surgery: day(t, "2027-03-09"), Arrival: 5*60 + 30,
		Zone: "America/Chicago", Drive: 40, Parking: 15, Facts: plan.SoapGiven | plan.HomeAnswered | plan.Pets,
		Program: plan.Program{Hospital: "Alder Ferry Hospital", Address: "12 Millrace Road", Phone: "555-0142"},
		Helpers: []string{"Dana", "Luis", "Ann"}, Ticked: []plan.Tick{{Code: 1}, {Code: 40, N: 2}},
	}
	p.Cover[0] = 1
	p.Program.Set(plan.WashDays, 3)
	therapy := repeat.Rule{First: day(t, "2027-03-16"), At: 10*60 + 30, Freq: repeat.Weekly, Every: 1, Days: repeat.DaysOf(2, 5), Count: 12}
	cat := repeat.Rule{First: day(t, "2027-03-09"), At: 8 * 60, Freq: repeat.Daily, Every: 1, Count: 14}
	p.Duties = []plan.Duty{
		{ID: therapyID, Kind: plan.TherapyRide, Place: "Alder Ferry therapy", Rule: therapy.Canonical(), Length: 45,
			Ride: plan.Ride{Own: 10, Drive: 25, Parking: 5, Early: 10}},
		{ID: catID, Kind: plan.PetCare, Title: "Feed the cat", Rule: cat.Canonical(), Length: 20,
			Ride: plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown}},
	}
	return p
}

// with is a copy of the document after a device changed its plan.
func (d *Doc) with(a Actor, change func(p *plan.Plan)) *Doc {
	p := copied(d.Plan())
	change(&p)
	return d.Change(a, p)
}

// copied is a plan whose lists are its own.
func copied(p plan.Plan) plan.Plan {
	p.Helpers, p.Ticked, p.Duties = slices.Clone(p.Helpers), slices.Clone(p.Ticked), slices.Clone(p.Duties)
	p.About, p.Shifts = slices.Clone(p.About), slices.Clone(p.Shifts)
	for i := range p.Duties {
		d := &p.Duties[i]
		d.Takes = slices.Clone(d.Takes)
		d.Rule.Skipped, d.Rule.Moved, d.Rule.Extra = slices.Clone(d.Rule.Skipped), slices.Clone(d.Rule.Moved), slices.Clone(d.Rule.Extra)
	}
	return p
}

// joinAll joins copies of one plan from left to right.
func joinAll(t require.TestingT, copies ...*Doc) *Doc {
	all := copies[0]
	for _, d := range copies[1:] {
		joined, err := Join(all, d)
		require.NoError(t, err)
		all = joined
	}
	return all
}

// inAnyOrder joins copies in every order and asks for one result.
func inAnyOrder(t *testing.T, copies ...*Doc) *Doc {
	t.Helper()
	want := joinAll(t, copies...)
	require.NoError(t, want.Check())
	orders(len(copies), func(order []int) {
		inOrder := make([]*Doc, len(order))
		for i, at := range order {
			inOrder[i] = copies[at]
		}
		same(t, want, joinAll(t, inOrder...))
	})
	return want
}

// orders calls f with every order of 0 to n-1.
func orders(n int, f func([]int)) {
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	var next func(from int)
	next = func(from int) {
		if from == n {
			f(order)
		}
		for i := from; i < n; i++ {
			order[from], order[i] = order[i], order[from]
			next(from + 1)
			order[from], order[i] = order[i], order[from]
		}
	}
	next(0)
}

// same asks for two equal documents that show the same plan.
func same(t require.TestingT, want, got *Doc) {
	if !want.Equal(got) {
		require.Equal(t, want, got)
	}
	require.True(t, want.Equal(got))
	shows(t, want.Plan(), got)
}

// shows asks for a plan that a document shows.
func shows(t require.TestingT, want plan.Plan, d *Doc) {
	if got := d.Plan(); !samePlan(&want, &got) {
		require.Equal(t, want, got)
		require.Fail(t, "two plans differ")
	}
}

// values are what the versions of a register say, in their order.
func (d *Doc) values(k Key) []string {
	var all []string
	for _, v := range d.Get(k) {
		all = append(all, v.Value)
	}
	return all
}

// asked lists the registers that are asked about.
func (d *Doc) asked() []Key {
	var all []Key
	for _, q := range d.Questions() {
		all = append(all, q.Key)
	}
	return all
}

func ofTherapy(f Field) Key { return Key{Field: f, Of: therapyID} }
