package calendar

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/wall"
)

// Whoever moves or takes out their part in their own calendar moves nobody else's dates.
func TestAPartThatWasChangedInACalendarIsLeft(t *testing.T) {
	p := sharedRides(t)
	file, _ := write(t, p, Choice{Who: 2, Alarm: -1}, "")
	moved := strings.NewReplacer("T093000", "T103000", "T120500", "T130500").Replace(file)
	gone := strings.ReplaceAll(file, "STATUS:CONFIRMED", "STATUS:CANCELLED")
	for name, text := range map[string]string{"moved": moved, "taken out": gone, "moved, without our properties": withoutOurs(moved)} {
		found, err := Read(text, &p, load(t, p.Zone))
		require.NoError(t, err)
		require.Len(t, found.Duties, 1, name) // the dog's
		require.Equal(t, []Left{{"10:30 Ride to therapy (leave 09:30)", LeftShared, ""}}, found.Left, name)
	}
	// An old file says nothing new, and a copy of the plan that has the duty no longer learns that.
	older := sharedRides(t, func(d *plan.Duty) { d.Revision++ })
	found, err := Read(file, &older, load(t, p.Zone))
	require.NoError(t, err)
	require.Equal(t, "older", why(found))
	dropped := sharedRides(t, func(d *plan.Duty) { d.Dropped, d.Revision = true, d.Revision+1 })
	file, _ = write(t, dropped, Choice{Who: 2, Alarm: -1}, "")
	found, err = Read(file, &p, load(t, p.Zone))
	require.NoError(t, err)
	require.Empty(t, found.Left)
	require.Equal(t, []bool{true, false}, []bool{found.Duties[0].Dropped || found.Duties[1].Dropped, found.Duties[0].Dropped && found.Duties[1].Dropped})
}

// Who has what may have changed since a file was made, and another program may have taken
// our properties out of it: it still makes no second ride.
func TestAPartIsKnownAgainAfterTheSharingChanged(t *testing.T) {
	p := sharedRides(t)
	file, _ := write(t, p, Choice{Who: 2, Alarm: -1}, "")
	now := family(t, func(p *plan.Plan) { p.Helpers = []string{"Ann", "LEE"} })
	for _, text := range []string{file, withoutOurs(file)} {
		found, err := Read(text, &now, load(t, p.Zone))
		require.NoError(t, err)
		for _, d := range found.Duties {
			require.NotZero(t, d.ID)
			require.True(t, d.Equal(*now.Duty(d.ID)))
		}
	}
}

// Another plan takes over the dates of the part alone, once.
func TestAnotherPlansPart(t *testing.T) {
	p := sharedRides(t)
	_, memory := write(t, family(t), Choice{Who: 1, Alarm: -1}, "")
	file, _ := write(t, p, Choice{Who: 1, Alarm: -1}, memory)
	notes := events(t, file, "Not yours now: ")
	require.Len(t, notes, 2, "and the moved date that is in her own part now")
	require.Equal(t, []string{"CONFIRMED", "CANCELLED"}, []string{line(notes[0], "STATUS"), line(notes[1], "STATUS")})
	other := family(t, func(p *plan.Plan) { p.Number, p.Duties = 99, nil })
	for range 2 {
		found, err := Read(file, &other, load(t, p.Zone))
		require.NoError(t, err)
		require.Len(t, found.Duties, 1)
		d := found.Duties[0]
		require.Equal(t, []any{plan.TherapyRide, "10:30", 20, uint8(0)}, []any{d.Kind, d.Rule.At.String(), d.Ride.Drive, d.Who})
		var got []wall.Date
		dates, _ := d.Rule.All()
		for _, o := range dates {
			got = append(got, o.Day)
		}
		require.Len(t, got, 11, "twelve Mondays and Fridays, one of them Ann's and one left out, and the one that was added")
		if d.ID == 0 {
			d.ID = other.FreshDuty(0)
		}
		other = other.WithDuty(d)
		require.Len(t, other.Duties, 1)
	}
}

// strings.EqualFold is what a plan tells names apart by (its documentation: Unicode's
// simple case-folding).
func TestNamesThatAPlanTakesForOneGiveOneKey(t *testing.T) {
	names := []string{"Dana", "DANA", "dana", "Dané", "DANÉ", "Kim", "\u212aim", "Joſé", "JOSÉ", "Iğdır", "Σας", "σασ", ""}
	for _, a := range names {
		for _, b := range names {
			require.Equal(t, strings.EqualFold(a, b), NameKey(a) == NameKey(b), "%s %s", a, b)
		}
	}
	require.Equal(t, "dana", NameKey("Dana"))
	require.NotEqual(t, shareMark(7, "Dana"), shareMark(8, "Dana"))
}

// What version 1 and 2 of the link numbered keeps its UID: these were written down when
// numbers still had 16 bits.
func TestUIDsOfOldNumbersStay(t *testing.T) {
	for key, want := range map[string]string{dutyKey(1): "400eda99-80ae-8a6e-8c3e-17445ff45e4c", dutyKey(65535): "009b8eb3-4c20-8160-a1db-e5de3ae80cb6"} {
		require.Equal(t, want, uid(77, key))
	}
	require.Equal(t, "f4294967295", dutyKey(1<<32-1))
}
