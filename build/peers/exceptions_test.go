package peers

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/repeat"
)

// A peer's own mistakes: where it contradicts a sentence of RFC 5545, it is asked in
// words that it does not get wrong, and a test here shows that it still needs them.
// Once a peer is mended, its test fails and the exception goes.

// mixed tells whether a monthly rule has numbered weekdays beside plain ones, such as
// every Friday and the first Monday (BYDAY=FR,1MO).
//
// rrule.js 2.8.1 and dateutil 2.8.2 (and rrule-go, which follows them) list only days
// that are both, which is none. RFC 5545 3.3.10 has each entry of the list stand for
// itself: "If an integer modifier is not present, it means all days of this type
// within the specified frequency."
func mixed(r repeat.Rule) bool {
	plain := slices.ContainsFunc(r.Nth, func(n repeat.Nth) bool { return n.N == 0 })
	return plain && slices.ContainsFunc(r.Nth, func(n repeat.Nth) bool { return n.N != 0 })
}

// spelledOut writes every Friday as the first to the fifth, which is the same days.
func spelledOut(r repeat.Rule) repeat.Rule {
	var list []repeat.Nth
	for _, n := range r.Nth {
		if n.N != 0 {
			list = append(list, n)
			continue
		}
		for i := range int8(5) {
			list = append(list, repeat.Nth{N: i + 1, Day: n.Day})
		}
	}
	r.Nth = list
	return r
}

func TestRruleJSAndDateutilLoseWeekdaysNextToNumberedOnes(t *testing.T) {
	const text = "FREQ=MONTHLY;UNTIL=20270228T235900Z;BYDAY=FR,1MO"
	right := []string{
		"2027-01-01T10:30", "2027-01-04T10:30", "2027-01-08T10:30", "2027-01-15T10:30", "2027-01-22T10:30", "2027-01-29T10:30",
		"2027-02-01T10:30", "2027-02-05T10:30", "2027-02-12T10:30", "2027-02-19T10:30", "2027-02-26T10:30",
	}
	for name, want := range map[string][]string{IcalJS: right, Libical: right, RruleJS: {}, Dateutil: {}} {
		dates, err := start(t, name).Expand(text, right[0], 20)
		require.NoError(t, err)
		require.Equal(t, want, dates, name)
	}
	first, err := time.Parse("2006-01-02T15:04", right[0])
	require.NoError(t, err)
	ours, err := repeat.Parse(text, momentOf(first), time.UTC)
	require.NoError(t, err)
	dates, _ := patternOf(ours)
	require.Equal(t, right, dates)
}
