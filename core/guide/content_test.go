package guide

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/schedule"
)

// Each step belongs to exactly one chapter, so that who reads the chapters has read all.
func TestEveryListAndDutyIsInOneChapter(t *testing.T) {
	holds := map[string]int{}
	for _, c := range Chapters {
		for _, part := range c.Holds {
			require.Contains(t, []string{"list", "duty", "times", "stages", "limits", "signs"}, part.Kind, c.ID)
			holds[part.Kind+":"+part.Name]++
		}
	}
	for i := range schedule.Kinds {
		require.Equal(t, 1, holds["list:"+schedule.Kinds[i].List], schedule.Kinds[i].List)
	}
	for id := range usedEntries(t) {
		if !strings.Contains(id, ".") && !isStep(id) {
			require.Equal(t, 1, holds["duty:"+id], id)
		}
	}
	for _, one := range []string{"stages:", "limits:", "signs:"} {
		require.Equal(t, 1, holds[one], one)
	}
}

func isStep(id string) bool {
	for i := range schedule.Kinds {
		if schedule.Kinds[i].ID == id {
			return true
		}
	}
	return false
}

// An entry without a how is a heading; the guide has to be enough without the handout.
func TestEveryEntryIsComplete(t *testing.T) {
	for _, language := range Languages {
		b := Open(language)
		for _, id := range b.EntryIDs() {
			base, variant, _ := strings.Cut(id, ".")
			require.NotEmpty(t, b.Entry(base, variant).How, "%s [%s] does not say how", language, id)
		}
		for i := range schedule.Kinds {
			k := &schedule.Kinds[i]
			e := b.Entry(k.ID, "")
			require.Equal(t, k.Who == schedule.Patient, k.Who == schedule.Patient && e.Coach != "", "%s: the patient's step %s has a part for the coach", language, k.ID)
			require.False(t, k.Who == schedule.Coach && e.Coach != "", "%s: %s is the coach's anyway", language, k.ID)
			require.False(t, k.Who == schedule.Patient && e.Patient != "", "%s: %s is the patient's anyway", language, k.ID)
		}
	}
}

// How to get into the car. Common practice, no published source; the therapist's way counts.
func TestTheCar(t *testing.T) {
	seat, in := whole(Open("en").Entry("car-seat", "")), whole(Open("en").Entry("car-in", ""))
	require.Contains(t, seat, "high, firm seat")
	require.Contains(t, seat, "back all the way")
	for _, part := range []string{"backwards", "bottom first", "as the therapist taught", "one after the other", "sit down slowly"} {
		require.Contains(t, in, part)
	}
	require.Regexp(t, `back up(?s:.*)sit down(?s:.*)legs in`, in, "in this order")
}

// Things are explained where the guide names them first, chapter by chapter.
func TestThingsAreExplainedAtFirstUse(t *testing.T) {
	for _, c := range []struct{ thing, means string }{
		{"walker", "frame to hold on to"},
		{"throw rug", "small loose rug"},
		{"grab bar", "strong rail to hold on to"},
		{"raised toilet frame", "armrests and a higher seat"},
		{"hip kit", "five long tools"},
		{"surgical soap", "kills germs"},
		{"anesthesia", "keeps pain away during surgery"},
		{"reflux", "comes up from the stomach"},
		{"living will", "what care a person wants"},
		{"power of attorney", "who decides"},
		{"vital signs", "blood pressure, pulse, breathing and temperature"},
		{"breathing exerciser", "small device to breathe in through"},
		{"incentive spirometer", "small device to breathe in through"},
		{"constipation", "hard stools"},
		{"blood thinner", "makes clots less likely"},
		{"outpatient therapy", "with a therapist at a clinic"},
		{"antibiotics", "medicines against germs"},
		{"coach", "the main helper"},
	} {
		require.Contains(t, firstUse(t, c.thing), c.means, c.thing)
	}
}

// firstUse is the first entry of the guide that names a thing.
func firstUse(t *testing.T, thing string) string {
	t.Helper()
	word := regexp.MustCompile(`\b` + thing)
	for _, text := range inOrder() {
		if word.MatchString(text) {
			return text
		}
	}
	require.Fail(t, "the guide does not name it", thing)
	return ""
}

// inOrder gives the entries of the guide as they are read: each chapter's own, then its steps
// and duties with their variants.
func inOrder() []string {
	b := Open("en")
	var all []string
	add := func(id string) {
		for _, whoever := range b.EntryIDs() {
			if base, variant, _ := strings.Cut(whoever, "."); base == id {
				all = append(all, whole(b.Entry(id, variant)))
			}
		}
	}
	for _, c := range Chapters {
		add("chapter-" + c.ID)
		for _, part := range c.Holds {
			if part.Kind == "duty" {
				add(part.Name)
			}
			for i := range schedule.Kinds {
				if part.Kind == "list" && schedule.Kinds[i].List == part.Name {
					add(schedule.Kinds[i].ID)
				}
			}
		}
	}
	return all
}

// The cautions stand where they belong.
func TestTheCautionsStandWhereTheyBelong(t *testing.T) {
	b := Open("en")
	for _, chapter := range []string{"chapter-washing", "chapter-evening", "chapter-weeks"} {
		require.Contains(t, whole(b.Entry(chapter, "")), "follow the team's own instructions over this page", chapter)
	}
	require.Contains(t, b.words["app.caution"], "follow the hospital")
	require.Contains(t, b.words["app.caution.more"], "not medical advice")
	require.Contains(t, b.words["app.caution.more"], "no doses")
	for _, id := range []string{"pain-medicine", "blood-thinner"} {
		require.Contains(t, b.Entry(id, "").Title, "as prescribed", id)
	}
	require.Contains(t, whole(b.Entry("pain-medicine", "")), "follow the label")
}

// No movement is forbidden by us: hip precautions and the like are the hospital's to give.
// Common practice, no published source.
func TestNoMovementLimitIsAssumed(t *testing.T) {
	limit := regexp.MustCompile(`(?i)degrees|cross (the|your) legs|bend (the hip|past)|twist|pivot|turn the (foot|toes|leg) in|kneel|lie on the side|pillow between|` +
		`weight[- ]bearing|percent of the weight|lift more than`)
	for where, text := range sentences(t, "en") {
		if !strings.HasPrefix(where, "words ") { // a family's or hospital's words are put into those
			require.NotRegexp(t, limit, text, where)
		}
	}
	require.Contains(t, whole(Open("en").Entry("chapter-weeks", "")), "only if your hospital gives them")
}

// A title says what to do, verb first, or names the thing. The second kind stand here.
func TestTitlesBeginWithAVerbOrNameTheThing(t *testing.T) {
	verbs := map[string]bool{}
	for verb := range strings.FieldsSeq("Pack Put Ask Wash Stop Think Take Look Get Keep Eat Drive Stay Note Make Answer Walk Wait Try Tell Set Plan Finish Find " +
		"Drink Do Cook Clear Clean Choose Check Buy Bring Be Call Use Read Say") {
		verbs[verb] = true
	}
	named := map[string]bool{
		"no-shaving": true, "nothing-on-skin": true, "home-check-vital": true, "home-check-urinate": true, "home-check-pain": true,
		"home-check-therapy": true, "no-driving-day": true, "ankle-pumps": true, "breathing-exerciser": true, "ice-legs-up": true,
		"pain-medicine": true, "blood-thinner": true, "coach-drives": true, "dental-work": true, "feeling-ill": true,
		"therapy": true, "visit": true, "ride": true, "other": true, "signs-say": true, "signs-clots": true,
	}
	b := Open("en")
	for _, id := range b.EntryIDs() {
		if base, variant, _ := strings.Cut(id, "."); !strings.HasPrefix(id, "chapter-") {
			first, _, _ := strings.Cut(b.Entry(base, variant).Title, " ")
			require.NotEqual(t, named[base], verbs[first], "%s: %s", id, b.Entry(base, variant).Title)
		}
	}
}
