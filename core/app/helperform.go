package app

import (
	"slices"
	"strconv"

	"newel/core/page"
	"newel/core/plan"
)

// The codes of problems of a helper's form, beside those of core/plan.
const (
	helperMissing = "helper-missing"
	helperTaken   = "helper-taken"
	daysMissing   = "days-missing"
	timesMissing  = "times-missing"
	timesSame     = "times-same"
	goneTurned    = "gone-turned"
	goneLong      = "gone-long" // over plan.MaxTimesLength
)

// The answers of the form's choices.
var (
	offerAnswers = []string{"usual", "light", "lot"} // by plan.Offer
	whenAnswers  = []string{"any", "work", "only"}
)

// freshAboutValues are what the form begins with for somebody who has not been asked. Nothing
// is ticked of what they can do: whoever saves a name in a hurry has not said that an old
// sister can lift.
func freshAboutValues() map[string]string { return map[string]string{"offer": "usual", "when": "any"} }

// aboutValues writes what is known of a helper as the fields of the form. rest are the
// places in About.Times of what the controls cannot say.
func aboutValues(a plan.About) (v map[string]string, rest []int) {
	if !a.Told {
		v = freshAboutValues()
	} else {
		v = map[string]string{"offer": "usual", "when": "any", "away": minutes(a.Away)}
		for i, key := range page.AbilityKeys {
			if a.Can&(1<<i) != 0 {
				v["can-"+key] = "1"
			}
		}
		if int(a.Offer) < len(offerAnswers) {
			v["offer"] = offerAnswers[a.Offer]
		}
		for i, key := range page.TaskKeys {
			switch bit := plan.Tasks(1 << i); {
			case a.Likes&bit != 0:
				v["rather-"+key] = "yes"
			case a.Avoids&bit != 0:
				v["rather-"+key] = "no"
			}
		}
	}
	rest = timesValues(v, a.Times)
	for _, i := range rest {
		v[keepName(i)] = "1"
	}
	return v, rest
}

// keepName is the box that keeps a time that the controls cannot say.
func keepName(i int) string { return "keep-" + strconv.Itoa(i) }

// about reads the form into what is known of a helper. What it does not ask for stays.
func (e *entry) about(old plan.About, anchor anchor) plan.About {
	a := plan.About{Told: true, Out: old.Out, Away: e.minutes("away")}
	if a.Away > plan.MaxDrive {
		e.problems = append(e.problems, plan.Problem{Field: "away", Code: plan.AwayLong})
	}
	for i, key := range page.AbilityKeys {
		if e.values["can-"+key] != "" {
			a.Can |= 1 << i
		}
	}
	a.Offer = plan.Offer(e.choice("offer", offerAnswers))
	for i, key := range page.TaskKeys {
		switch e.values["rather-"+key] {
		case "yes":
			a.Likes |= 1 << i
		case "no":
			a.Avoids |= 1 << i
		}
	}
	a.Times = e.times(old.Times, anchor)
	if len(a.Times) > plan.MaxTimes {
		e.problems = append(e.problems, plan.Problem{Field: "when", Code: plan.TimesMany, High: plan.MaxTimes})
	}
	return a
}

// helperName reads the name of a new helper.
func (e *entry) helperName(p *plan.Plan) string {
	name := e.values["name"]
	switch {
	case name == "" || name == "-": // a dash in a field for a name means nobody
		e.wrong("name", helperMissing)
	case len([]rune(name)) > plan.MaxName:
		e.problems = append(e.problems, plan.Problem{Field: "name", Code: plan.TextLong, High: plan.MaxName})
	case slices.ContainsFunc(p.Helpers, func(known string) bool { return sameName(known, name) }):
		e.wrong("name", helperTaken)
	}
	return name
}
