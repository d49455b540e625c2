package guide

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Intl.ListFormat("en-GB") of Node v20.20.2 (CLDR 48.0). For "en" it has a comma
// before "and"; ours has none, which is a choice of the house.
func TestListsAreJoinedAsCLDRDoes(t *testing.T) {
	v := Voice{Book: Open("en")}
	require.Equal(t, "", v.List(nil))
	require.Equal(t, "A", v.List([]string{"A"}))
	require.Equal(t, "A and B", v.List([]string{"A", "B"}))
	require.Equal(t, "A, B and C", v.List([]string{"A", "B", "C"}))
	require.Equal(t, "A, B, C and D", v.List([]string{"A", "B", "C", "D"}))
	require.Equal(t, "{item} and {list}", v.List([]string{"{item}", "{list}"}), "what was typed is not looked through again")
}

// Numbers with units as Intl.NumberFormat("en", unit, long) of Node v20.20.2 (CLDR
// 48.0) writes them, put together as Intl.ListFormat("en", unit, narrow) does.
func TestLengthsOfTime(t *testing.T) {
	v := Voice{Book: Open("en")}
	for n, want := range map[int]string{
		0: "0 minutes", 1: "1 minute", 45: "45 minutes", 59: "59 minutes", 60: "1 hour", 61: "1 hour 1 minute",
		90: "1 hour 30 minutes", 120: "2 hours", 150: "2 hours 30 minutes", 1440: "24 hours",
	} {
		require.Equal(t, want, v.Minutes(n))
	}
}

// Intl.PluralRules("en", ordinal) of Node v20.20.2 (CLDR 48.0): all numbers below
// 100 that are not "other".
func TestOrdinalsHaveCLDRsForms(t *testing.T) {
	forms := map[string]string{}
	for form, list := range map[string]string{
		"st": "1 21 31 41 51 61 71 81 91", "nd": "2 22 32 42 52 62 72 82 92", "rd": "3 23 33 43 53 63 73 83 93",
	} {
		for n := range strings.FieldsSeq(list) {
			forms[n] = form
		}
	}
	v := Voice{Book: Open("en")}
	for n := range 100 {
		text, form := strconv.Itoa(n), "th"
		if f, ok := forms[text]; ok {
			form = f
		}
		require.Equal(t, text+form, v.ordinal(n))
	}
}
