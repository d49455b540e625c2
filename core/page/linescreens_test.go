package page_test

import (
	"newel/core/app"
	"newel/core/plan"
)

// lineScreens adds the screens on which own lines and the hospital's settings stand, with one
// text wherever one can stand. What is asked of every screen names its sources in structure_test.go;
// which screens there are is ours.
func lineScreens(x texts, a adder) {
	own := func(p *plan.Plan) {
		long, short := fitting(x.typed, plan.MaxLineBytes/4), fitting(x.typed, plan.MaxName)
		if long == "" {
			long = "x"
		}
		p.Lines = []plan.Line{
			{ID: 1, List: plan.Packing, Day: plan.NoDay, Text: long},
			{ID: 2, List: plan.Ready, Day: -5, Hospital: true, Done: true, Text: long},
			{ID: 3, List: plan.Limits, Day: plan.NoDay, Hospital: true, Text: long},
			{ID: 4, List: plan.CallNow, Day: plan.NoDay, Hospital: true, Text: long},
			{ID: 5, List: plan.CallOffice, Day: plan.NoDay, Hospital: true, Text: long},
		}
		p.Program.Set(plan.Fever, 1010)
		p.Program.Set(plan.BowelDays, 3)
		p.Program.Texts = [len(p.Program.Texts)]string{"", short, "2027-02-01", short, "2027-02-02", short, fitting(x.phone, plan.MaxName), short, short, short}
	}
	field := func(name, value string) app.Field { return app.Field{Name: name, Value: value} }
	a.add("plan with own lines", -9, own, nil)
	a.add("plan with own lines, later", 3, own, nil)
	a.add("form of a plan with own lines", -9, own, a.path("/facts"))
	a.add("own line", -9, own, a.path("/line/2"))
	a.add("own line from the guide", -9, own, a.path("/line/2/in-guide"))
	a.add("own line with all problems", -9, own, a.path("/line/2", everyField(x.typed+"x")...))
	a.add("own line ticked", -9, own, a.path("/tick", field("line", "1"), field("done", "1")))
	a.add("own line that is not there", -9, own, a.path("/line/77", field("text", x.typed)))
	a.add("own line added with problems", -9, own, a.path("/line/add", field("list", "pack"), field("from", x.typed), field("text", ""), field("day", x.typed)))
	a.add("own line added", -9, own, a.path("/line/add", field("list", "pack"), field("from", "/guide/pack"), field("text", fitting(x.typed, plan.MaxLineBytes/4-1)+"x")))
	a.add("own line taken out", -9, own, a.path("/line/1/out", field("from", "")))
}
