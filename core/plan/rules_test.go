package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/wall"
)

const kebab = `^[a-z0-9]+(-[a-z0-9]+)*$`

func TestTheTableOfRules(t *testing.T) {
	keys := map[string]bool{}
	for r, info := range Rules {
		require.Regexp(t, kebab, info.Key)
		require.False(t, keys[info.Key], "the key %s stands twice", info.Key)
		keys[info.Key] = true
		if noPractice := info.Common == 0 && (Rule(r) == Fever || Rule(r) == BowelDays); !noPractice {
			require.LessOrEqual(t, info.Min, info.Common, info.Key)
		}
		require.LessOrEqual(t, info.Common, info.Max, info.Key)
		require.GreaterOrEqual(t, info.Min, 0, "%s: links hold no negative numbers", info.Key)
		require.LessOrEqual(t, info.Max, math.MaxInt16, info.Key)
		require.LessOrEqual(t, info.Unit, Degrees, info.Key)
		switch info.Unit {
		case YesNo:
			require.Equal(t, []int{0, 1}, []int{info.Min, info.Max}, info.Key)
		case ClockTime:
			require.True(t, wall.Clock(info.Min).Known() && wall.Clock(info.Max).Known(), info.Key)
		}
		found, ok := RuleByKey(info.Key)
		require.True(t, ok)
		require.Equal(t, Rule(r), found)
	}
	_, ok := RuleByKey("no-such-rule")
	require.False(t, ok)
	require.LessOrEqual(t, len(Rules), 64, "the set of a hospital's own rules is 64 bits")
}

func TestTheTwoEndsOfARangeFit(t *testing.T) {
	for _, ends := range Ranges {
		least, most := Rules[ends.Min], Rules[ends.Max]
		require.Equal(t, least.Unit, most.Unit, least.Key)
		require.LessOrEqual(t, least.Common, most.Common, least.Key)
		require.LessOrEqual(t, least.Min, most.Max, "%s: no pair of values would do", least.Key)
	}
	for _, o := range []Operation{First, Revision, BothSides} {
		least, most := SurgeryRange(o)
		require.Contains(t, Ranges, struct{ Min, Max Rule }{least, most})
	}
}

// A rule's place goes into links and may never change. The order is that of link
// version 1, written down by hand.
func TestTheNumbersOfRulesAreFixed(t *testing.T) {
	order := []string{
		"wash-days", "wash-morning", "no-shave-hours", "food-stop", "liquids-before", "prep-minutes", "first-min", "first-max",
		"revision-min", "revision-max", "both-min", "both-max", "recovery-min", "recovery-max", "discharge-there",
		"discharge-leave", "stay-with-hours", "drive-slack", "car-minutes", "equipment-days", "home-days", "meals-days",
		"hardest-days", "clot-days", "presence-hours", "fever", "bowel-days",
	}
	require.GreaterOrEqual(t, len(Rules), len(order))
	for r, key := range order {
		require.Equal(t, key, Rules[r].Key)
	}
}

// Common practice, no published source: the table of what the trade usually does,
// as the project was given it.
func TestCommonPractice(t *testing.T) {
	for _, c := range []struct {
		rule Rule
		want int
		says string
	}{
		{WashDays, 4, "surgical soap daily from the fourth day before"},
		{WashMorning, 1, "plus the morning itself: five washes"},
		{NoShaveHours, 48, "no shaving in the 48 hours before surgery"},
		{FoodStop, 23 * 60, "no food after 23:00 the night before"},
		{LiquidsBefore, 2 * 60, "clear liquids until two hours before arrival"},
		{PrepMinutes, 60, "getting ready takes about 1 h"},
		{FirstMin, 60, "surgery 1 h"},
		{FirstMax, 90, "to 1 h 30"},
		{RevisionMin, 120, "revision about 2 h"},
		{RevisionMax, 120, "revision about 2 h"},
		{BothMin, 150, "both sides 2 h 30"},
		{BothMax, 180, "to 3 h"},
		{RecoveryMin, 60, "recovery room 1 h"},
		{RecoveryMax, 180, "to 3 h"},
		{DischargeThere, 8*60 + 30, "a helper at the hospital by 08:30"},
		{DischargeLeave, 10 * 60, "most leave by 10:00"},
		{HardestDays, 14, "the first two weeks are the hardest"},
	} {
		require.Equal(t, c.want, Rules[c.rule].Common, c.says)
	}
}

// CDC Guideline for the Prevention of Surgical Site Infection, JAMA Surg
// 2017;152(8):784-791: bathe on at least the night before the operative day
// (category IB). So no program may go below one wash day.
func TestNoProgramGoesBelowTheNightBefore(t *testing.T) {
	require.Equal(t, 1, Rules[WashDays].Min)
}

// ASA Practice Guidelines for Preoperative Fasting, Anesthesiology
// 2017;126(3):376-393, kept by the 2023 update (138(2):132-151): clear liquids
// until 2 h before the procedure. Counted from arrival the built-in rule may not
// be laxer.
func TestTheBuiltInDrinkingRuleIsNotLaxerThanTheGuideline(t *testing.T) {
	require.GreaterOrEqual(t, Rules[LiquidsBefore].Common, 120)
}

// ASA, Anesthesia for Ambulatory Surgery: for 24 h after anesthesia no driving,
// no alcohol, no important decisions; so somebody stays for 24 h.
func TestSomebodyStaysForADay(t *testing.T) {
	require.Equal(t, 24, Rules[StayWithHours].Common)
}

// Falck-Ytter Y, et al. ACCP 9th edition, Chest 2012;141(2 Suppl):e278S-e325S (the
// number from memory): clot prevention up to 35 days, so the signs stay in view
// for 35 days at least.
func TestClotSignsStayInView(t *testing.T) {
	require.GreaterOrEqual(t, Rules[ClotDays].Common, 35)
}
