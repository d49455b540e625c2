package page_test

import (
	"testing"

	"newel/core/app"
	"newel/core/guide"
	"newel/core/plan"
)

// guideScreens are those of the guide, of own lines, of paper and of saying it back.
func guideScreens(t *testing.T, x texts, a adder) {
	full := func(p *plan.Plan) {
		a.family(p)
		p.Facts = plan.AllFacts &^ plan.TeamTimes
		p.Lines = []plan.Line{
			{ID: 1, List: plan.Packing, Day: -1, Text: fitting("Lamp "+x.typed, plan.MaxText)},
			{ID: 2, List: plan.Limits, Day: plan.NoDay, Hospital: true, Text: fitting("Knee "+x.typed, plan.MaxText)},
			{ID: 3, List: plan.Ready, Day: plan.NoDay, Hospital: true, Done: true, Text: fitting("Mail "+x.typed, plan.MaxText)},
			{ID: 4, List: plan.CallNow, Day: plan.NoDay, Hospital: true, Text: fitting("Rash "+x.typed, plan.MaxText)},
			{ID: 5, List: plan.CallOffice, Day: plan.NoDay, Hospital: true, Text: fitting("Itch "+x.typed, plan.MaxText)},
		}
		for i := range p.Program.Texts {
			p.Program.Texts[i] = fitting(x.phone, plan.MaxText)
		}
	}
	a.add("plan with own lines", -9, full, nil)
	a.add("guide", -9, full, a.path("/guide"))
	a.add("guide after surgery", 8, full, a.path("/guide"))
	a.add("guide without a plan", -9, nil, func(r *app.Request) { r.Fragment, r.Path = "", "/guide" })
	a.add("chapter of nothing", -9, full, a.path("/guide/"+x.typed))
	for i := range guide.Chapters {
		id := guide.Chapters[i].ID
		a.add("chapter "+id, -9, full, a.path("/guide/"+id))
		a.add("chapter "+id+" without a plan", -9, nil, func(r *app.Request) { r.Fragment, r.Path = "", "/guide/"+id })
	}
	a.add("sources", -9, full, a.path("/sources"))
	a.add("about", -9, full, a.path("/about"))
	a.add("about without a plan", -9, nil, func(r *app.Request) { r.Fragment, r.Path = "", "/about" })
	a.add("sources without a plan", -9, nil, func(r *app.Request) { r.Fragment, r.Path = "", "/sources" })
	a.add("paper of nothing", -9, full, a.path("/print/"+x.typed))
	for _, sheet := range []string{"", "/helper.1", "/helper.2", "/helpers", "/fridge", "/cover", "/pack", "/card", "/guide"} {
		a.add("paper"+sheet, -9, full, a.path("/print"+sheet))
		if sheet != "/guide" && sheet != "/helpers" { // long, and they differ in little
			a.add("paper after surgery"+sheet, 8, full, a.path("/print"+sheet))
		}
	}
	a.add("say it back", -9, full, a.path("/say-back", app.Field{Name: "q", Value: x.typed}, app.Field{Name: "said", Value: "clear"}))
	a.add("say it back, kept", 3, full, func(r *app.Request) { r.Path, r.Kept["said.abc"] = "/say-back", x.typed+"\tclear\t"+x.typed })
	a.add("line added", -9, full, a.path("/line/add", app.Field{Name: "list", Value: "pack"}, app.Field{Name: "text", Value: x.typed}))
	a.add("line with problems", -9, full, a.path("/line/add", everyField(x.typed)...))
	a.add("line", -9, full, a.path("/line/1"))
	a.add("line changed wrongly", -9, full, a.path("/line/1", everyField(x.typed)...))
	a.add("in Spanish", -9, full, func(r *app.Request) { r.Language = "es-US" })
	a.add("language of nothing", -9, full, a.path("/language", app.Field{Name: "language", Value: x.typed}))
}
