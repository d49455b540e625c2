package desk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
	"newel/core/plan"
)

func laxOf(t *testing.T, r plan.Rule, n int, more ...int) string {
	t.Helper()
	s := Settings{Zone: "America/Chicago"}
	require.True(t, s.Program.Set(r, n))
	if len(more) > 0 {
		require.True(t, s.Program.Set(plan.PrepMinutes, more[0]))
	}
	found := Lax(&s, voiceOf("en"))
	require.LessOrEqual(t, len(found), 1)
	if len(found) == 0 {
		return ""
	}
	require.Equal(t, r, found[0].Rule)
	return found[0].Code
}

// ASA 2017 (Anesthesiology 126:376) and 2023 (138:132): clear liquids until 2 hours before the
// procedure, a light meal until 6 hours. 42 CFR 416.52(c)(3) and ASA: 24 hours. WHO 2016/2018,
// recommendation 8: shaving discouraged at all times. ACCP 2012 (Chest 141:e278S, from memory):
// at least 10 to 14 days, up to 35.
func TestRulesLaxerThanGuidance(t *testing.T) {
	require.Equal(t, "", laxOf(t, plan.LiquidsBefore, 120))
	require.Equal(t, "liquids-before.ready", laxOf(t, plan.LiquidsBefore, 119))
	require.Equal(t, "liquids-before.ready", laxOf(t, plan.LiquidsBefore, 60), "60 minutes to get ready make it two hours")
	require.Equal(t, "liquids-before", laxOf(t, plan.LiquidsBefore, 59))
	require.Equal(t, "liquids-before", laxOf(t, plan.LiquidsBefore, 60, 59))
	require.Equal(t, "", laxOf(t, plan.FoodStop, 23*60), "six hours before five in the morning")
	require.Equal(t, "food-stop.ready", laxOf(t, plan.FoodStop, 23*60+30))
	require.Equal(t, "food-stop.ready", laxOf(t, plan.FoodStop, 24*60))
	require.Equal(t, "food-stop", laxOf(t, plan.FoodStop, 24*60, 30))
	require.Equal(t, "", laxOf(t, plan.StayWithHours, 24))
	require.Equal(t, "stay-with-hours", laxOf(t, plan.StayWithHours, 23))
	require.Equal(t, "", laxOf(t, plan.NoShaveHours, 48))
	require.Equal(t, "no-shave-hours", laxOf(t, plan.NoShaveHours, 24))
	require.Equal(t, "", laxOf(t, plan.ClotDays, 35))
	require.Equal(t, "clot-days", laxOf(t, plan.ClotDays, 34))
	require.Equal(t, "clot-days", laxOf(t, plan.ClotDays, 14))
	require.Equal(t, "clot-days.least", laxOf(t, plan.ClotDays, 13))
}

// Common practice is never warned about, nor is what is stricter.
func TestWhatIsNotLax(t *testing.T) {
	require.Empty(t, Lax(&Settings{}, voiceOf("en")))
	var s Settings
	for r, info := range plan.Rules {
		if info.Common >= info.Min {
			require.True(t, s.Program.Set(plan.Rule(r), info.Common))
		}
	}
	require.Empty(t, Lax(&s, voiceOf("en")))
}

// Each warning names its source, says that the hospital's rule holds, and has all its words.
func TestWarningsNameTheirSource(t *testing.T) {
	var s Settings
	for r, n := range map[plan.Rule]int{plan.LiquidsBefore: 0, plan.FoodStop: 24 * 60, plan.StayWithHours: 0, plan.NoShaveHours: 0, plan.ClotDays: 7} {
		require.True(t, s.Program.Set(r, n))
	}
	for _, language := range guide.Languages {
		v := voiceOf(language)
		found := Lax(&s, v)
		require.Len(t, found, 5)
		for _, l := range found {
			text := LaxText(v, l)
			require.Regexp(t, `(Source|Fuente)[^:]*: .*\d{4}|416\.52`, text)
			require.NotContains(t, text, "{")
			require.NotContains(t, text, "settings.")
			require.Contains(t, text, v.Say("settings.lax.holds"))
		}
	}
	require.Contains(t, LaxText(voiceOf("en"), Lax(&s, voiceOf("en"))[0]), "food stops 5 hours before it")
}
