package merge

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"newel/core/repeat"
	"newel/core/wall"
)

// The texts are our own form; the first are the examples of RuleText's comment. 20521 is
// Monday, 9 March 2026, as `date -u -d @$((20521*86400))` says.
func TestTextsOfPatterns(t *testing.T) {
	for text, want := range map[string]repeat.Rule{
		"20521 630":                   {First: 20521, At: 630, Every: 1},
		"20521 630 d2":                {First: 20521, At: 630, Freq: repeat.Daily, Every: 2},
		"20521 630 w1 18 1":           {First: 20521, At: 630, Freq: repeat.Weekly, Every: 1, Days: repeat.DaysOf(time.Monday, time.Thursday), Week: time.Monday},
		"20527 630 m1 -1,15":          {First: 20527, At: 630, Freq: repeat.Monthly, Every: 1, MonthDays: []int8{-1, 15}},
		"20518 630 n1 -1.2,1.5 x10":   {First: 20518, At: 630, Freq: repeat.Monthly, Every: 1, Nth: []repeat.Nth{{N: -1, Day: time.Tuesday}, {N: 1, Day: time.Friday}}, Count: 10},
		"20521 0 d1 u20600":           {First: 20521, Freq: repeat.Daily, Every: 1, Last: 20600},
		"20521 1439 w99 1 0 x1000":    {},
		"20521 630 w2 3 1 x12":        {First: 20521, At: 630, Freq: repeat.Weekly, Every: 2, Days: repeat.DaysOf(time.Sunday, time.Monday), Week: time.Monday, Count: 12},
		"20521 630 w2 3 0 x12":        {First: 20521, At: 630, Freq: repeat.Weekly, Every: 2, Days: repeat.DaysOf(time.Sunday, time.Monday), Week: time.Sunday, Count: 12},
		"20521 630 w1 18 0":           {}, // every week: where weeks begin says nothing
		"20521 630 x10":               {},
		"20521 630 d1 x10 u20600":     {},
		"20521 630 d1 x0":             {},
		"20521 630 d100":              {},
		"20521 630 d01":               {},
		"20521  630":                  {},
		"20521 630 ":                  {},
		" 20521 630":                  {},
		"20521 1440":                  {},
		"20521 -1":                    {},
		"20521":                       {},
		"":                            {},
		"20521 630 w1 0 1":            {},
		"20521 630 w1 128 1":          {},
		"20521 630 w1 18 7":           {},
		"20521 630 w1 4 1":            {}, // begins on no day of the pattern
		"20521 630 w1 127 1":          {}, // is daily
		"20521 630 m1 9,9":            {},
		"20521 630 m1 9,-23":          {}, // not in order
		"20521 630 m1 0":              {},
		"20521 630 m1 32":             {},
		"20521 630 m1 ":               {},
		"20521 630 n1 6.0":            {},
		"20521 630 n1 1":              {},
		"20521 630 y1":                {},
		"10956 630":                   {}, // before the days that a plan can speak of
		"44187 630":                   {}, // its exceptions could lie behind them
		"20521 630 d1 u20520":         {},
		"20521 630 d1 u22352":         {},
		"20521 630 d1 u20600 u20600":  {},
		"+20521 630":                  {},
		"20521 630 d1 x10 x10":        {},
		"20521\t630":                  {},
		"99999999999999999999999 630": {},
	} {
		got, ok := ReadRule(text)
		require.Equal(t, want.First != 0, ok, text)
		require.Equal(t, want, got, text)
		if ok {
			require.Equal(t, text, RuleText(want))
		}
	}
	_, ok := ReadRule("44186 630")
	require.True(t, ok, "the last day on which a duty may begin")
}

// Every canonical rule comes back from its text, without its exceptions.
func TestPatternsComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := fromRapid(t)
		pattern := anyPattern(c)
		other := pattern
		other.First += wall.Date(pick(c, 0, 0, -9000, 20000))
		other.Last += wall.Date(pick(c, 0, 1)) * other.Last
		if other = other.Canonical(); other.Check() == nil {
			pattern = other
		}
		text := RuleText(withExceptions(c, pattern))
		got, ok := ReadRule(text)
		require.True(t, ok, text)
		require.True(t, pattern.Equal(got), "%s: %v", text, got)
		require.LessOrEqual(t, len(text), maxRuleText)
	})
}

// The longest text is read, and no more.
func TestTheLongestPattern(t *testing.T) {
	r := repeat.Rule{First: 20521, At: 1439, Freq: repeat.Monthly, Every: 99, Count: 10}
	for n := int8(-5); n <= 5; n++ {
		for day := range time.Weekday(7) {
			if n != 0 && n != 5 && n != -5 {
				r.Nth = append(r.Nth, repeat.Nth{N: n, Day: day})
			}
		}
	}
	days := repeat.Rule{First: 20521, At: 1439, Freq: repeat.Monthly, Every: 30, Last: 22351}
	for d := int8(-31); d <= 31; d++ {
		if d != 0 {
			days.MonthDays = append(days.MonthDays, d)
		}
	}
	for _, r := range []repeat.Rule{r.Canonical(), days.Canonical()} {
		require.NoError(t, r.Check())
		got, ok := ReadRule(RuleText(r))
		require.True(t, ok)
		require.True(t, r.Equal(got))
	}
}

// Whatever is read is sound, and has that text and no other.
func FuzzReadRule(f *testing.F) {
	for _, text := range []string{"20521 630", "20521 630 w1 18 1", "20518 630 n1 -1.2,1.5 x10", "20521 0 d1 u20600", "20527 630 m1 -1,15"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, ok := ReadRule(text)
		if !ok {
			require.Equal(t, repeat.Rule{}, r)
			return
		}
		require.Equal(t, text, RuleText(r))
		require.NoError(t, r.Check())
		require.True(t, r.Canonical().Equal(r))
		days, _ := r.Pattern()
		require.NotEmpty(t, days)
		require.Equal(t, r.First, days[0])
	})
}
