package schedule

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/wall"
)

// day reads an ISO date or fails.
func day(t *testing.T, iso string) wall.Date {
	t.Helper()
	d, err := wall.ParseDate(iso)
	require.NoError(t, err)
	return d
}

// family is an invented plan that the tests vary: first knee replacement on
// Tuesday 9 March 2027, arrival 05:30, one night, 40 minutes' drive.
func family(t *testing.T, change ...func(*plan.Plan)) plan.Plan {
	t.Helper()
	p := plan.Plan{
		Number: 7, Surgery: day(t, "2027-03-09"), Arrival: 5*60 + 30, Zone: "America/New_York",
		Drive: 40, Parking: 15, Facts: plan.SoapGiven | plan.DrinkGiven,
	}
	for _, c := range change {
		c(&p)
	}
	return p
}

func build(t *testing.T, p plan.Plan) *Schedule {
	t.Helper()
	require.True(t, plan.Usable(plan.Check(&p, p.Surgery)), "the test's own plan is wrong: %v", plan.Check(&p, p.Surgery))
	s, err := Build(p)
	require.NoError(t, err)
	return s
}

// local writes an instant as the plan's wall shows it; empty for none.
func local(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format("2006-01-02 15:04")
}

func span(s Span) string {
	if s.Single() {
		return local(s.From)
	}
	return local(s.From) + " to " + local(s.To)
}

func (s *Schedule) duty(t *testing.T, id string) Duty {
	t.Helper()
	for _, d := range s.Duties {
		if d.ID == id {
			return d
		}
	}
	require.Fail(t, "no duty "+id)
	return Duty{}
}

func (s *Schedule) byID(id string) []Step {
	var found []Step
	for _, st := range s.Steps {
		if st.ID == id {
			found = append(found, st)
		}
	}
	return found
}

func (s *Schedule) one(t *testing.T, id string) Step {
	t.Helper()
	found := s.byID(id)
	require.Len(t, found, 1, id)
	return found[0]
}
