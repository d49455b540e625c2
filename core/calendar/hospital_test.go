package calendar

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
	"newel/core/plan"
)

// The drive to the surgery says where to park and to check in, and both numbers; another entry
// says the numbers alone, and where nothing was given nothing is said. That a description (RFC
// 5545 3.8.1.5) holds it is ours.
func TestTheDriveSaysWhereToParkAndCheckIn(t *testing.T) {
	file, _ := write(t, family(t, func(p *plan.Plan) {
		p.Facts |= plan.ParkingPass
		p.Program.Phone = "555-0142"
		texts := &p.Program.Texts
		texts[plan.PhoneHours], texts[plan.AfterPhone], texts[plan.AfterHours] = "weekdays 8 to 4:30", "555-0143", "nurse on call"
		texts[plan.ParkAt], texts[plan.CheckIn] = "the garage on Mill Street", "main entrance"
	}), everything(), "")
	drives := 0
	for _, c := range parse(t, file).Children {
		if c.Name != "VEVENT" {
			continue
		}
		text := strings.NewReplacer(`\,`, ",", `\;`, ";").Replace(line(c, "DESCRIPTION")) // RFC 5545 3.3.11
		if strings.Contains(text, "Questions?") {
			require.Contains(t, text, "555-0142, weekdays 8 to 4:30; at other times 555-0143, nurse on call")
		}
		if strings.Contains(text, "the garage on Mill Street") {
			drives++
			require.Contains(t, line(c, "SUMMARY"), "Drive")
			require.Contains(t, text, "Take the parking permit along.")
			require.Contains(t, text, "Check-in: main entrance")
		}
	}
	require.Equal(t, 1, drives)
	file, _ = write(t, family(t), everything(), "")
	for _, words := range []string{"Parking:", "Check-in:", "permit along", "at other times"} {
		require.NotContains(t, strings.Join(unfold(file), "\n"), words)
	}
}

// A line has the words of the reader's language and one UID in all (RFC 5545 3.8.4.7); what the
// device remembers of it for a cancellation are the words that stood there.
func TestALineInTheReadersLanguage(t *testing.T) {
	lamp, ok := plan.Line{ID: 5, List: plan.Packing, Day: -4, Text: "Reading lamp"}.WithWording("es", "Lámpara")
	require.True(t, ok)
	in := func(language string, before string, lines ...plan.Line) (file, memory string) {
		p := family(t, with(lines...))
		return Write(Input{Schedule: build(t, p), Now: now, Choice: everything(), Before: before, Voice: guide.Voice{Book: guide.Open(language), Today: p.Surgery}})
	}
	english, _ := in("en", "", lamp)
	spanish, memory := in("es", "", lamp)
	require.Equal(t, line(one(t, english, "Reading lamp"), "UID"), line(one(t, spanish, "Lámpara"), "UID"))
	require.NotContains(t, spanish, "Reading lamp")
	plain, plainMemory := write(t, family(t, with(plan.Line{ID: 5, List: plan.Packing, Day: -4, Text: "Reading lamp"})), everything(), "")
	again, againMemory := in("en", "", lamp)
	require.Equal(t, plain, again, "other wordings change nothing for who reads the first")
	require.Equal(t, plainMemory, againMemory)
	gone, _ := in("es", memory)
	require.Contains(t, strings.Join(unfold(gone), "\n"), "Lámpara")
}
