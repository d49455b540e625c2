package guide

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// Whom to call, and when, in one line. The sentences are ours; no published source.
func TestWhomToCallInOneLine(t *testing.T) {
	for _, c := range []struct{ phone, hours, after, afterHours, en, es string }{
		{"", "", "", "", "", ""},
		{"555-0142", "", "", "", "555-0142", "555-0142"},
		{"555-0142", "weekdays 8 to 4:30", "", "", "555-0142, weekdays 8 to 4:30", "555-0142, weekdays 8 to 4:30"},
		{"555-0142", "weekdays 8 to 4:30", "555-0143", "nurse on call", "555-0142, weekdays 8 to 4:30; at other times 555-0143, nurse on call",
			"555-0142, weekdays 8 to 4:30; a otras horas, 555-0143, nurse on call"},
		{"555-0142", "", "", "ask for the surgeon on call", "555-0142; at other times ask for the surgeon on call", "555-0142; a otras horas, ask for the surgeon on call"},
		{"", "hours of no number", "555-0143", "", "555-0143", "555-0143"},
	} {
		p := plan.Program{Phone: c.phone}
		p.Texts[plan.PhoneHours], p.Texts[plan.AfterPhone], p.Texts[plan.AfterHours] = c.hours, c.after, c.afterHours
		require.Equal(t, c.en, Voice{Book: Open("en")}.PhoneText(&p))
		require.Equal(t, c.es, Voice{Book: Open("es")}.PhoneText(&p))
	}
}

func TestWhatToKnowOnArriving(t *testing.T) {
	v := Voice{Book: Open("en")}
	var p plan.Plan
	require.Empty(t, v.There(&p))
	p.Facts, p.Program.Texts[plan.ParkAt], p.Program.Texts[plan.CheckIn] = plan.ParkingPass, "level 2", "main entrance"
	require.Equal(t, []string{"Parking: level 2", "Take the parking permit along.", "Check-in: main entrance"}, v.There(&p))
}
