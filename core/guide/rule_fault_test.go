package guide

import (
	"errors"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"newel/core/repeat"
)

// Each code has its own sentence, which says what to do and which nobody needs to
// know calendar files for.
func TestEveryFaultOfARuleHasItsSentence(t *testing.T) {
	v := Voice{Book: Open("en")}
	said := map[string]string{}
	for _, code := range faultCodes(t) {
		for _, typed := range []string{"", "FREQ=FORTNIGHTLY"} {
			text := v.RuleFault(repeat.Fault{Code: code}, typed)
			require.NotContains(t, text, "{")
			require.NotContains(t, text, `""`, "an empty text is not quoted: %s", code)
			require.Regexp(t, `[.?] [A-Z][^.]+\.$`, text, "what is wrong, and then what to do")
			require.NotRegexp(t, `(?i)rrule|recur|rfc|interval|occurrence|byday|exdate|iso|utc|parse|invalid|syntax`, text, code)
			if before, ok := said[text]; ok {
				require.Equal(t, before, code, text)
			}
			said[text] = code
		}
	}
}

// What somebody pasted is answered with what was not understood in it.
func TestFaultsOfPastedRules(t *testing.T) {
	v := Voice{Book: Open("en")}
	first, _ := moment(t, "2027-03-15 10:30")
	for text, want := range map[string]string{
		"":                                  "There is no repeating rule here. Choose the days and the time in the form instead.",
		"every monday":                      `"every monday" is not a repeating rule that this page can read. Choose the days and the time in the form instead.`,
		"FREQ=SECONDLY":                     "It repeats several times a day, and a plan repeats once a day at most. Add one for each time of the day.",
		"FREQ=YEARLY;BYWEEKNO=20":           "It holds only in some months, or counts the days or weeks of the year. Choose days, weeks or months in the form, or add the dates one by one.",
		"FREQ=MONTHLY;BYSETPOS=-1":          `The page has no words for this part of the rule: "BYSETPOS=-1". Choose the days in the form, or add the dates one by one.`,
		"FREQ=DAILY;BYHOUR=9,17":            "It names another time of day than its first date has. Add one for each time of the day.",
		"FREQ=DAILY;INTERVAL=1000000000":    "Every how many days, weeks or months? Put in a whole number from 1 to 99.",
		"FREQ=DAILY;COUNT=1000000000":       "How many times? Put in a whole number from 1 to 1000.",
		"FREQ=DAILY;UNTIL=20270101":         "The last day has to be on or after the first day, and at most 5 years after it. Choose another last day.",
		"FREQ=DAILY;UNTIL=20270401;COUNT=3": "It has two ends: a number of times and a last day. Keep one and empty the other.",
	} {
		_, err := repeat.Parse(text, first, time.UTC)
		var fault repeat.Fault
		require.True(t, errors.As(err, &fault), text)
		typed := text
		if strings.EqualFold(fault.Value, text) {
			fault.Value = "" // the whole text is wrong; it is shown as it was typed
		}
		require.Equal(t, want, v.RuleFault(fault, typed), text)
	}
}

// A long text is cut, never within a character.
func TestALongTextIsShownInPart(t *testing.T) {
	v := Voice{Book: Open("en")}
	for n := range 8 {
		text := v.RuleFault(repeat.Fault{Code: repeat.NotARule}, strings.Repeat("x", 55+n)+strings.Repeat("é", 400))
		require.True(t, utf8.ValidString(text))
		require.Contains(t, text, `…" is not a repeating rule`)
		require.Less(t, len(text), 200)
	}
	require.Contains(t, v.RuleFault(repeat.Fault{Code: repeat.NotARule}, strings.Repeat("é", 30)), strings.Repeat("é", 30)+`" is`)
	require.Contains(t, v.RuleFault(repeat.Fault{Code: repeat.NotARule}, " {n} {typed} "), `"{n} {typed}" is not`)
}
