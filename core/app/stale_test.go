package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A link in a message opens in another tab. A form that stands open in the first one holds
// every field as it was; sending it changes what was changed in it, and nothing else.
func TestAFormThatStoodOpen(t *testing.T) {
	dana, luis := danaAndLuis(t)
	luis.send("/facts")
	before := luis.fragment
	dana.send("/facts", facts("arrival", "05:00", "patient", "Rosa M.")...)
	luis.open(dana.fragment)
	luis.fragment = before // the first tab
	luis.send("/facts", facts("drive", "50")...)
	p := luis.plan()
	require.Equal(t, "05:00", p.Arrival.String(), "Dana’s arrival stays")
	require.Equal(t, "Rosa M.", p.Patient)
	require.Equal(t, 50, p.Drive)
	require.Empty(t, luis.question())
	dana.open(luis.fragment)
	require.Equal(t, "05:00", dana.plan().Arrival.String())
	require.NotContains(t, dana.news(), "Arrival")
}

// What was changed in both is asked about: whoever sent the form saw the older state.
func TestAFormThatStoodOpenAndChangesTheSame(t *testing.T) {
	dana, luis := danaAndLuis(t)
	before := luis.fragment
	dana.send("/facts", facts("arrival", "05:00")...)
	luis.open(dana.fragment)
	luis.fragment = before
	luis.send("/facts", facts("arrival", "06:15", "drive", "50")...)
	require.Contains(t, luis.question(), "Dana says 05:00 and Luis says 06:15")
	require.Equal(t, "05:00", luis.plan().Arrival.String(), "the earlier")
	require.Equal(t, 50, luis.plan().Drive)
	luis.answer("06:15")
	dana.open(luis.fragment)
	require.Empty(t, dana.question())
	require.Equal(t, "06:15", dana.plan().Arrival.String())
}

// The same for who has a duty, in two tabs of one phone.
func TestTwoTabsThatGiveADuty(t *testing.T) {
	dana, _ := danaAndLuis(t)
	before := dana.fragment
	dana.send("/who/stay-with", "who", "Dana")
	dana.fragment = before
	dana.send("/who/stay-with", "who", "Luis")
	require.Contains(t, dana.question(), "Luis")
	require.Contains(t, strings.ToLower(dana.question()), "dana")
}

func TestADutysFormThatStoodOpen(t *testing.T) {
	dana, luis := danaAndLuis(t)
	before := luis.fragment
	dana.send("/duty/1/change", therapy("at", "09:00", "who", "Rosa")...)
	luis.open(dana.fragment)
	luis.fragment = before
	luis.send("/duty/1/change", therapy("note", "bring water")...)
	p := luis.plan()
	d := p.Duty(1)
	require.Equal(t, "09:00", d.Rule.At.String())
	require.Equal(t, "Rosa", p.Helper(d.Who))
	require.Equal(t, "bring water", d.Note)
	dana.open(luis.fragment)
	require.Equal(t, luis.plan(), dana.plan())
	require.Empty(t, dana.question())
}

// A third answer came in another tab after the question was read: it is not settled over.
func TestAQuestionThatGrewMeanwhile(t *testing.T) {
	dana, luis := danaAndLuis(t)
	nurse := dana.opened().is("Nurse")
	dana.send("/arrival", "arrival", "05:00")
	luis.send("/arrival", "arrival", "06:00")
	nurse.send("/arrival", "arrival", "04:30")
	luis.open(dana.fragment)
	read := luis.fragment
	luis.open(nurse.fragment)
	require.Contains(t, luis.question(), "04:30")
	screen := luis.last
	luis.fragment, luis.last = read, screen
	out := luis.answer("06:00")
	require.Contains(t, out.Say, "Somebody has answered differently meanwhile")
	require.Contains(t, luis.question(), "04:30")
	out = luis.answer("06:00")
	require.Contains(t, out.Say, "Settled")
	require.Equal(t, "06:00", luis.plan().Arrival.String())
}
