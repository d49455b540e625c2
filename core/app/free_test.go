package app

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What somebody's part says of today and tomorrow. Home is Friday, December 4; slot 5 is the night
// to Saturday.
func TestThePartSaysWhichDaysAreFree(t *testing.T) {
	const both, tomorrow = "You are not down for anything today or tomorrow.", "You are not down for anything tomorrow."
	p := started(t)
	p.send("/who/drive-there", "who", "Dana")
	p.send("/who/stay-with.5", "who", "Luis")
	for _, c := range []struct{ now, dana, luis string }{
		{"2026-11-25T09:00:00-06:00", both, both},
		{"2026-12-01T09:00:00-06:00", both, both},
		{"2026-12-02T09:00:00-06:00", "", both},         // the drive is tomorrow
		{"2026-12-03T03:00:00-06:00", tomorrow, ""},     // it is today, and Luis has tomorrow's night
		{"2026-12-04T09:00:00-06:00", "none", ""},       // Dana's is over; the night is today's and goes on tomorrow
		{"2026-12-05T06:00:00-06:00", "none", tomorrow}, // it still goes on
	} {
		for name, want := range map[string]string{"Dana": c.dana, "Luis": c.luis} {
			one := p.opened().at(c.now).is(name)
			one.send("/")
			mine := one.part("mine")
			if want == "none" {
				require.Contains(t, mine, "You have nothing to do so far.", "%s at %s", name, c.now)
				want = ""
			}
			if want == "" {
				require.NotContains(t, mine, "You are not down", "%s at %s", name, c.now)
			} else {
				require.Contains(t, mine, want, "%s at %s", name, c.now)
			}
			if want == tomorrow {
				require.NotContains(t, mine, both)
			}
		}
	}
}

// While it is not settled which of two people has a date, neither is told to be free on it.
func TestNobodyIsFreeWhileItIsNotSettled(t *testing.T) {
	dana, luis := danaAndLuis(t)
	dana.send("/who/drive-there", "who", "Dana")
	luis.send("/who/drive-there", "who", "Luis")
	exchange(dana, luis)
	for _, p := range []*phone{dana, luis} {
		p.at("2026-12-02T09:00:00-06:00").send("/")
		require.Contains(t, p.question(), "both took")
		require.NotContains(t, p.part("mine"), "You are not down")
		p.at("2026-12-01T09:00:00-06:00").send("/")
		require.Contains(t, p.part("mine"), "You are not down for anything today or tomorrow.")
	}
}
