package page_test

import (
	"strings"
	"testing"
	"time"

	"newel/core/app"
	"newel/core/plan"
	"newel/core/repeat"
)

// splitScreens are the screens of helpers and of who does what. The helpers have the text as
// their names; one works when there are rides, has what the form cannot say, and another one
// can no longer help.
func splitScreens(x texts, a adder) {
	told := func(p *plan.Plan) {
		a.family(p)
		*p, _ = p.WithHelper(fitting("y"+x.typed, plan.MaxName))
		work := repeat.Rule{First: p.Surgery - 20, At: 360, Freq: repeat.Weekly, Every: 1, Days: repeat.DaysOf(1, 2, 3, 4, 5), Week: time.Monday}.Canonical()
		odd := repeat.Rule{First: p.Surgery + 2, At: 700, Every: 1}
		*p = p.WithAbout(1, plan.About{Told: true, Can: plan.AllAbilities, Away: 10, Likes: plan.RideTask, Avoids: plan.PetsTask, Times: []plan.Times{
			{Use: plan.Work, Rule: work, Length: 600}, {Use: plan.Work, Rule: odd, Length: 90}}})
		*p = p.WithAbout(2, plan.About{Out: true})
		*p = p.WithAbout(3, plan.About{Told: true, Can: plan.CanDrive | plan.CanPets, Offer: plan.Light})
		*p = p.WithShift(plan.SlotOf(1, plan.Night), 1)
	}
	mine := func(path string, fields ...app.Field) func(*app.Request) {
		return func(r *app.Request) {
			a.path(path, fields...)(r)
			r.Kept["me.abc"] = fitting(x.typed, plan.MaxName)
			r.Kept["fill.abc"] = x.typed
		}
	}
	sent := func(name, value string) app.Field { return app.Field{Name: name, Value: value} }
	a.add("plan with helpers who said when they can", -9, told, a.path("/"))
	a.add("plan of a helper's own", -9, told, mine("/"))
	a.add("a new helper", -9, told, a.path("/helper/new"))
	a.add("a new helper, all wrong", -9, told, a.path("/helper/new", everyHelperField(x.typed)...))
	a.add("a new helper, too long", -9, told, a.path("/helper/new", sent("name", x.typed+strings.Repeat("x", 50)), sent("offer", "usual"), sent("when", "any")))
	a.add("a helper", -9, told, a.path("/helper/1"))
	a.add("a helper, all wrong", -9, told, a.path("/helper/1", everyHelperField(x.typed)...))
	a.add("a helper who is out", -9, told, a.path("/helper/2"))
	a.add("no such helper", -9, told, a.path("/helper/"+x.typed, sent("of", "zz"+x.typed)))
	a.add("a helper drops out", -9, told, a.path("/helper/1/out", sent("of", fitting(x.typed, plan.MaxName))))
	a.add("a helper is back", -9, told, a.path("/helper/2/back", sent("of", fitting("x"+x.typed, plan.MaxName))))
	a.add("who does what", -9, told, a.path("/split"))
	a.add("who does what, stay undecided", -9, func(p *plan.Plan) { told(p); p.Stay = plan.Undecided }, mine("/split"))
	a.add("who does what, later weeks", -9, told, mine("/split/from/1"))
	a.add("who does what, weeks that are none", -9, told, a.path("/split/from/"+x.typed))
	a.add("who does what, of a plan alone", -9, nil, a.path("/split"))
	a.add("a suggestion", -9, told, a.path("/split/suggest"))
	a.add("a suggestion for all", -9, told, mine("/split/anew"))
	a.add("another suggestion than was read", -9, told, a.path("/split/accept", sent("digest", x.typed), sent("act", x.typed)))
	a.add("filled", -9, told, a.path("/split/fill", sent("from", x.typed)))
	a.add("filled from its page", -9, told, a.path("/split/fill", sent("from", "split")))
	a.add("undone too late", -9, told, mine("/split/undo", sent("from", x.typed)))
}

// everyHelperField sends one text from every field of a helper's form.
func everyHelperField(value string) []app.Field {
	var all []app.Field
	for name := range strings.FieldsSeq("name can-drive away offer when a-day-1 a-from a-to a-since b-day-0 b-from b-to b-since " +
		"gone-a-from gone-a-to gone-b-from gone-b-to keep-0 keep-1 rather-ride rather-pets") {
		all = append(all, app.Field{Name: name, Value: value})
	}
	return append(all, app.Field{Name: value, Value: value})
}

// The screens that are looked at for texts that break out have all their parts.
func TestTheScreensOfTheSplitAreFull(t *testing.T) {
	for name, text := range screens(t, harmless) {
		if name == "a suggestion" && !strings.Contains(text, `name="digest"`) {
			t.Error("the suggestion is empty, so that nothing of it is looked at")
		}
		if name == "who does what" && (!strings.Contains(text, `id="clash"`) || !strings.Contains(text, `id="open"`) || !strings.Contains(text, `id="gaps"`)) {
			t.Error("who does what shows not all that it can")
		}
		if name == "a helper" && !strings.Contains(text, `id="group-other"`) {
			t.Error("the form shows no other times")
		}
	}
}
