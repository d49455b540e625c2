package guide

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/wall"
)

// CDC and NHLBI, venous thromboembolism (3.1, 3.2): the signs of a clot in the lung
// are for the emergency number, never for the office; those of a clot in the leg
// are for the office, and there may be none.
func TestSignsOfAClotStandWhereTheyBelong(t *testing.T) {
	emergency, office := whole(Open("en").Entry("signs-emergency", "")), whole(Open("en").Entry("signs-office", ""))
	for _, lung := range []string{"trouble breathing", "chest pain", "deep breath", "cough", "blood", "faint", "fast or uneven heartbeat"} {
		require.Contains(t, emergency, lung)
		if lung != "blood" { // office names no blood that is coughed up
			require.NotContains(t, office, lung)
		}
	}
	require.Contains(t, emergency, "coughing up blood")
	require.NotRegexp(t, `breath|chest|heart|faint|cough`, office)
	for _, leg := range []string{"pain", "swelling", "warmth", "redness"} {
		require.Contains(t, office, leg)
	}
	require.Regexp(t, `in the calf or thigh: new pain, swelling, warmth, redness or a change in skin color`, office)
	require.Contains(t, office, "or none")
	require.Contains(t, emergency, "{number}")
	require.Contains(t, emergency, "do not wait")
}

// CDC, Surgical Site Infection Basics (3.3): redness and pain at the site, cloudy
// fluid, fever. It gives no number for the fever, so the hospital's holds.
func TestSignsAtTheWound(t *testing.T) {
	office := Open("en").Entry("signs-office", "")
	require.Regexp(t, `at the wound: redness, pain,.* cloudy fluid`, whole(office))
	require.Contains(t, whole(office), "fever")
	require.NotRegexp(t, `\d|degree|°`, whole(office))
	for where, text := range sentences(t, "en") {
		if strings.HasPrefix(where, "words problem.") || where == "words form.fever.hint" {
			continue // how to write one in the hospital's form
		}
		require.NotRegexp(t, `(?i)\d+(\.\d)? ?(°|degrees|fahrenheit|celsius)`, text, where)
	}
}

// The signs that the page was asked for, each in its group and in no other. Those of clots
// and of the wound are published (above); a fall, pain, bowels and urine are common practice,
// no published source.
func TestEachSignStandsInItsGroupAlone(t *testing.T) {
	group := map[string]string{}
	for _, id := range []string{"signs-emergency", "signs-office"} {
		group[id] = whole(Open("en").Entry(id, ""))
	}
	for sign, where := range map[string]string{
		"trouble breathing": "signs-emergency", "chest pain": "signs-emergency", "coughing up blood": "signs-emergency",
		"fainting": "signs-emergency", "fast or uneven heartbeat": "signs-emergency", "hard to wake": "signs-emergency",
		"bleeding that does not stop": "signs-emergency",
		"calf":                        "signs-office", "warmth": "signs-office", "swelling": "signs-office", "leaking": "signs-office", "{fever}": "signs-office",
		"a fall": "signs-office", "pain that the medicine does not help": "signs-office", "{bowels}": "signs-office", "cannot pass urine": "signs-office",
	} {
		for id, text := range group {
			require.Equal(t, id == where, strings.Contains(text, sign), "%s in %s", sign, id)
		}
	}
	require.Contains(t, group["signs-office"], "a blow to the head: call {number}")
	require.Contains(t, group["signs-office"], "weekends")
}

// No number stands where the hospital has given none; where it has, both scales are said.
// 100.4 °F is 38 °C exactly. The converted number is rounded down, never up, so that it is
// not the later one: 101 °F is 38.33 °C.
func TestTheHospitalsNumbersStandInTheSigns(t *testing.T) {
	v := Voice{Book: Open("en")}
	office := func(p *plan.Plan) string { return strings.ReplaceAll(whole(v.Signs(p).Office), "\u00a0", " ") }
	require.Contains(t, office(nil), "fever (ask the team")
	require.Contains(t, office(nil), "as many days as the team told you")
	require.Equal(t, "911", regexp.MustCompile(`\d+`).FindString(office(nil)), "the only number")
	for tenths, want := range map[int]string{
		1004: "a fever of 100.4 °f (38 °c) or more", 380: "a fever of 38 °c (100.4 °f) or more",
		1010: "a fever of 101 °f (38.3 °c) or more", 385: "a fever of 38.5 °c (101.3 °f) or more",
	} {
		var p plan.Plan
		require.True(t, p.Program.Set(plan.Fever, tenths))
		require.Contains(t, office(&p), want)
	}
	for days, want := range map[int]string{1: "no bowel movement for 1 day\n", 3: "no bowel movement for 3 days\n"} {
		var p plan.Plan
		require.True(t, p.Program.Set(plan.BowelDays, days))
		require.Contains(t, office(&p), want)
	}
	var elsewhere plan.Plan
	elsewhere.Program.Texts[plan.EmergencyNumber] = "112"
	signs := v.Signs(&elsewhere)
	require.Equal(t, "112", signs.Number)
	require.Equal(t, "Call 112 now", signs.Emergency.Title)
	for _, e := range []Entry{signs.Emergency, signs.Office, signs.Say, signs.Clots} {
		require.NotContains(t, whole(e), "911")
		require.NotContains(t, whole(e), "{")
	}
}

// What to say on the phone: the operation, the day, what has changed and since when. Common
// practice, no published source.
func TestWhatToSayIsASentenceToReadOut(t *testing.T) {
	v := Voice{Book: Open("en")}
	p := plan.Plan{Patient: "Rosa", Surgery: wall.Date(20_886), Operation: plan.Revision, Joint: plan.Hip}
	say := v.Signs(&p).Say
	require.Equal(t, `"I am calling for Rosa. Surgery: hip revision, `+v.Day(p.Surgery)+`."`, say.How[1].Text)
	for _, e := range []Entry{say, v.Signs(nil).Say} {
		require.Regexp(t, `surgery: (?s:.*)this is new: (?s:.*)it began`, whole(e))
		require.Contains(t, whole(e), "the address first")
		require.NotContains(t, whole(e), "{")
	}
	require.Contains(t, whole(v.Signs(nil).Say), "which operation, and on which day")
}

// The signs of a clot that stay in view are the same as in the two groups, and each says whom
// to call. CDC and NHLBI, venous thromboembolism (3.1, 3.2).
func TestTheClotSignsThatStayInViewAreThoseOfTheGroups(t *testing.T) {
	e := Open("en").Entry("signs-clots", "")
	require.Len(t, e.How, 2)
	leg, lung := strings.ToLower(e.How[0].Text), strings.ToLower(e.How[1].Text)
	require.Regexp(t, `pain, swelling, warmth or redness. call the surgeon's office today`, leg)
	require.Regexp(t, `trouble breathing, chest pain, coughing up blood, fainting or a fast heartbeat. call \{number\} now`, lung)
	require.Contains(t, e.Why, "no signs in the leg")
}
