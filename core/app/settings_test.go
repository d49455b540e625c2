package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
)

// A temperature is read as people write it. Which scale is meant follows from the number: no
// body is at 38 °F or 101 °C. Common practice, no published source.
func TestAFeverAsPeopleWriteIt(t *testing.T) {
	for typed, want := range map[string]int{
		"101": 1010, "101.5": 1015, "101,5": 1015, "101 F": 1010, "101°F": 1010, "101 ° f": 1010, "100.4 °F": 1004,
		"38": 380, "38.3": 383, "38,3": 383, "38.3 °C": 383, "38,3c": 383, "38.": 380, "38.6 ºC": 386,
	} {
		p := newPhone(t)
		p.fragment = "start"
		p.send("/start", facts("rule.fever", typed)...)
		require.Equal(t, "/", p.path, "%s: %s", typed, p.part("problems"))
		program := p.plan().Program
		require.Equal(t, want, program.Get(plan.Fever), typed)
		p.send("/facts")
		p.send("/facts", facts("rule.fever", p.values()["rule.fever"])...)
		program = p.plan().Program
		require.Equal(t, want, program.Get(plan.Fever), "the form shows what it reads")
	}
	for typed, want := range map[string]string{
		"10": "is not a fever", "hot": "is not a fever", "1010": "is not a fever", "38.33": "is not a fever", "70": "is not a fever", "-38": "is not a fever",
		"38.3.1": "is not a fever", "38 CF": "is not a fever", "99999999999999999999": "is not a fever", "43": "is not a fever", "109": "is not a fever",
		"38 F": "cannot be", "101 °C": "cannot be", "37": "lower than most hospitals say. Is that right?", "98.6 °F": "lower than most hospitals say. Is that right?",
		"38.7": "higher than most hospitals say. Then the office hears late of a fever. Is that right?", "101.6 °F": "higher than most", "107": "higher than most",
	} {
		p := newPhone(t)
		p.fragment = "start"
		p.send("/start", facts("rule.fever", typed)...)
		require.Equal(t, "/start", p.path, typed)
		require.Contains(t, p.part("problem-rule.fever"), want, typed)
		require.Equal(t, typed, p.values()["rule.fever"], "nothing that was typed is lost")
	}
	p := newPhone(t)
	p.fragment = "start"
	p.send("/start", facts("rule.fever", "37", "confirm", "37")...)
	require.Equal(t, "/", p.path)
}

func TestProblemsOfTheHospitalsSettings(t *testing.T) {
	for _, c := range []struct{ field, value, with, also, want string }{
		{"emergency", "nine one one", "", "", `"nine one one" is no number that a phone can call`},
		{"emergency", "9", "", "", "is no number that a phone can call"},
		{"rule.bowel-days", "0", "", "", "it has to be between 1 day and 14 days"},
		{"rule.bowel-days", "three", "", "", "is not a whole number"},
		{"reviewed-on", "", "reviewed-by", "Ward 3", "please put in the day, or empty the name"},
		{"reviewed-on", "2026-11-20", "", "", "there is a day, and no name"},
		{"reviewed-on", "1999-01-01", "reviewed-by", "Ward 3", "is too long ago or too far ahead"},
		{"reviewed-on", "2026-02-30", "reviewed-by", "Ward 3", "is not a day of the calendar"},
		{"reviewed-on", "2026-12-24", "reviewed-by", "Ward 3", "is still to come. Is that right?"},
		{"translated-on", "2026-11-20", "", "", "there is a day, and no name"},
		{"reviewed-by", strings.Repeat("x", 81), "reviewed-on", "2026-11-20", "Use at most 80 characters"},
		{"limits", "Do not kneel.\n" + strings.Repeat("x", 121), "", "", "line 2 is too long. Use at most 120 characters in each line"},
		{"limits", strings.Repeat("no\n", 41), "", "", "This list is full"},
	} {
		p := newPhone(t)
		p.fragment = "start"
		fields := facts(c.field, c.value)
		if c.with != "" {
			fields = facts(c.field, c.value, c.with, c.also)
		}
		p.send("/start", fields...)
		require.Equal(t, "/start", p.path, c.want)
		require.Contains(t, p.part("problem-"+c.field), c.want)
		if c.field == "limits" {
			require.Contains(t, p.last.HTML, "\n"+strings.TrimSpace(c.value), "nothing that was typed is lost")
		} else {
			require.Equal(t, c.value, p.values()[c.field], "nothing that was typed is lost")
		}
		require.NotContains(t, p.last.HTML, `<details class="group " id="group-calls"`, "the group is open")
	}
}

// What the hospital says is stored, shown again as it was typed, and told to the others.
func TestTheHospitalsSettings(t *testing.T) {
	dana, luis := danaAndLuis(t)
	luis.send("/facts", facts("emergency", "112", "rule.fever", "38,3", "rule.bowel-days", "3", "limits", "Do not kneel.\r\n\n  Do not   twist. ",
		"reviewed-by", "Ward 3", "reviewed-on", "2026-11-20", "translated-by", "Ana Ode", "translated-on", "2026-11-21")...)
	require.Equal(t, "/", luis.path, luis.part("problems"))
	q := luis.plan()
	require.Equal(t, "112", q.Program.Emergency())
	require.Equal(t, [len(q.Program.Texts)]string{"112", "Ward 3", "2026-11-20", "Ana Ode", "2026-11-21"}, q.Program.Texts)
	limits := plan.LinesOf(&q, plan.Limits)
	require.Len(t, limits, 2)
	require.Equal(t, []string{"Do not kneel.", "Do not twist."}, []string{limits[0].Text, limits[1].Text})
	require.True(t, limits[0].Hospital)

	dana.open(luis.fragment)
	dana.send("/facts")
	require.Contains(t, dana.last.HTML, "\nDo not kneel.\nDo not twist.</textarea>")
	require.Equal(t, "38.3 °C", dana.values()["rule.fever"])
	for _, want := range []string{
		"Number to call in an emergency: now 112 (changed by Luis)", "now 38.3 °C", "now 3 days", "now Friday, November 20",
		"Luis added to Movement limits from the hospital: Do not kneel.",
	} {
		dana.send("/")
		require.Contains(t, dana.news(), want)
	}
	dana.send("/read")
	dana.send("/facts", facts("limits", "Do not twist.\nDo not kneel on it.", "emergency", "")...)
	p := dana.plan()
	limits = plan.LinesOf(&p, plan.Limits)
	require.Equal(t, []string{"Do not kneel on it.", "Do not twist."}, []string{limits[0].Text, limits[1].Text}, "a changed one keeps its place")
	require.Equal(t, "911", p.Program.Emergency())
	require.False(t, p.Program.Own(plan.Fever), "an emptied field is nobody's number")
	luis.open(dana.fragment)
	require.Contains(t, luis.news(), "Changed: Do not kneel. It now says: Do not kneel on it.")
	require.Contains(t, luis.news(), "Call about a fever from which temperature on: now none (changed by Dana)")
	dana.send("/facts", append(facts(), "limits", "")...)
	p = dana.plan()
	require.Empty(t, plan.LinesOf(&p, plan.Limits))
}

// Limits are changed with the settings and nowhere else.
func TestLimitsAreNoLinesOfAList(t *testing.T) {
	p := started(t)
	p.send("/facts", facts("limits", "Do not kneel.")...)
	id := number(p.plan().Lines[0].ID)
	was := p.plan().Lines
	p.send("/line/"+id, "text", "Kneel.", "day", "")
	p.send("/line/"+id+"/out", "from", "")
	p.send("/tick", "line", id, "done", "1")
	require.Equal(t, was, p.plan().Lines)
	require.Equal(t, "/", p.path)
}

// Two sound copies never stand in the way of the arrival time: whoever puts it in is not
// asked who has reviewed the text.
func TestAReviewStandsInNobodysWay(t *testing.T) {
	dana, luis := danaAndLuis(t)
	dana.send("/facts", facts("reviewed-by", "Ward 3", "reviewed-on", "2026-11-20", "arrival", "")...)
	luis.open(dana.fragment)
	dana.send("/facts", facts("reviewed-by", "", "reviewed-on", "", "arrival", "")...)
	luis.send("/facts", facts("reviewed-by", "Ward 4", "reviewed-on", "2026-11-20", "arrival", "")...)
	dana.open(luis.fragment)
	p := dana.plan()
	require.Equal(t, [...]string{"Ward 4", "2026-11-20"}, [2]string(p.Program.Texts[plan.ReviewedBy:plan.TranslatedBy]))
	dana.send("/arrival", "arrival", "06:00")
	require.Equal(t, "/", dana.path, dana.part("problems"))
	require.EqualValues(t, 360, dana.plan().Arrival)
}

// Nor does a name without a day that is in the plan already, such as of an older link; in the
// form of the facts, whoever changes it is asked.
func TestANameWithoutADayIsAskedWhereItIsChanged(t *testing.T) {
	p := started(t)
	p.send("/facts", facts("reviewed-by", "Ward 3", "reviewed-on", "2026-11-20", "arrival", "")...)
	d := p.doc().Settle(merge.Maker, merge.Key{Field: merge.HospitalText, Sub: uint32(plan.ReviewedOn)}, "")
	p.open(link.Encode(d))
	require.Empty(t, p.plan().Program.Texts[plan.ReviewedOn])
	p.send("/arrival", "arrival", "06:00")
	require.Equal(t, "/", p.path, p.part("problems"))
	require.EqualValues(t, 360, p.plan().Arrival)
	p.send("/facts", facts("reviewed-by", "Ward 4", "reviewed-on", "")...)
	require.Contains(t, p.part("problem-reviewed-on"), "put in the day")
}

// Every number for an ambulance that is taken can be tapped. 15 is SAMU in France, 112 the
// European one (from memory).
func TestTheEmergencyNumberCanBeTapped(t *testing.T) {
	for _, n := range []string{"15", "112", "911", "+1 911", "9 1 1"} {
		p := started(t)
		p.send("/facts", facts("emergency", n)...)
		require.Equal(t, "/", p.path, n)
		require.Contains(t, p.last.HTML, `href="tel:`+strings.ReplaceAll(n, " ", "")+`"`, n)
	}
}

// Until it is settled, the number by which the office is called sooner is on the page.
func TestTheCarefulNumbersAreShown(t *testing.T) {
	for _, c := range []struct{ rule, one, two, shown string }{
		{"fever", "100.4", "101.5", "100.4 °F"}, {"fever", "101.5", "38", "38 °C"}, {"bowel-days", "2", "5", "2"}, {"bowel-days", "5", "2", "2"},
	} {
		dana, luis := danaAndLuis(t)
		dana.send("/facts", facts("rule."+c.rule, c.one)...)
		luis.send("/facts", facts("rule."+c.rule, c.two)...)
		dana.open(luis.fragment)
		require.NotEmpty(t, dana.question())
		dana.send("/facts")
		require.Equal(t, c.shown, dana.values()["rule."+c.rule])
	}
}
