package repeat

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/build/hostile"
	"newel/core/wall"
)

// FuzzParse: whatever is pasted as a rule, on whatever day, it is refused with a Fault, or it is a rule within
// the bounds of this package, which reads the same again from the text that it is written as.
func FuzzParse(f *testing.F) {
	for _, text := range []string{"", "RRULE:FREQ=WEEKLY;BYDAY=MO,WE,FR;COUNT=18", "FREQ=MONTHLY;BYDAY=-1FR;UNTIL=20280101T000000Z", "FREQ=MONTHLY;BYMONTHDAY=2,-15;INTERVAL=3",
		"FREQ=DAILY;INTERVAL=1000;COUNT=1000", "FREQ=MONTHLY;BYDAY=MO,TU,WE;BYSETPOS=2;WKST=SU", "FREQ=HOURLY", "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=29", "FREQ=DAILY;UNTIL=99991231"} {
		f.Add(text, int32(20_888), uint16(630))
	}
	f.Fuzz(func(t *testing.T, text string, day int32, minute uint16) {
		defer hostile.Watch("reading the rule " + text)()
		r, err := Parse(text, Moment{wall.Date(day), wall.Clock(minute)}, time.UTC)
		if err != nil {
			require.IsType(t, Fault{}, err)
			return
		}
		bounded(t, r, text)
		again, err := Parse(r.Recur(time.UTC), Moment{r.First, r.At}, time.UTC)
		require.NoError(t, err, "%q is written as %q", text, r.Recur(time.UTC))
		require.Equal(t, r, again, text)
	})
}
