package page_test

import (
	"strings"
	"testing"

	"newel/core/app"
	"newel/core/desk"
	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
)

// deskScreens are those of the navigator's desk for one patient, for a table and for a link that
// is corrected.
func deskScreens(t *testing.T, x texts, a adder) {
	settings := plan.BaseOf(0)
	settings.Zone = "America/Chicago"
	settings.Program.Hospital, settings.Program.Address = fitting(x.hospital, plan.MaxText), fitting(x.address, plan.MaxText)
	settings.Program.Phone = fitting(x.phone, plan.MaxText)
	at := func(path string, fields ...app.Field) func(*app.Request) {
		return func(r *app.Request) { r.Path, r.Fragment, r.Fields = path, desk.Address(&settings), fields }
	}
	field := func(name, value string) app.Field { return app.Field{Name: name, Value: value} }
	patient := func(more ...app.Field) []app.Field {
		return append([]app.Field{field("surgery", "2027-03-20"), field("arrival", "05:30"), field("joint", "hip"), field("operation", "both"),
			field("stay", "undecided"), field("language", "es"), field("label", fitting(x.typed, plan.MaxName))}, more...)
	}
	a.add("desk without settings", -9, nil, func(r *app.Request) { r.Fragment = "desk" })
	a.add("desk that cannot be read", -9, nil, func(r *app.Request) { r.Fragment = "desk." + x.typed })
	a.add("desk", -9, nil, at("/"))
	a.add("desk with all problems", -9, nil, at("/desk", everyField(x.typed)...))
	a.add("desk, made", -9, nil, at("/desk", patient()...))
	rows := "Label\tDate\tArrival\n" + tableCell(x.typed) + "\t2027-03-20\t\n"
	a.add("desk, made the second", -9, nil, at("/desk", patient(field("rows", rows))...))
	a.add("desk, mended", -9, nil, at("/desk", field("act", "mend"), field("made", "x"), field("rows", rows)))
	made := link.Encode(merge.New(desk.PlanOf(&settings, desk.Patient{Surgery: x.plan(t).Surgery, Arrival: 330}, 7)))
	a.add("desk, copied", -9, nil, at("/desk", field("act", "copy-text"), field("made", made), field("language", x.typed), field("rows", x.typed)))
	a.add("desk, made of nothing", -9, nil, at("/desk", field("act", "copy"), field("made", x.typed)))
	a.add("table", -9, nil, at("/desk/rows"))
	a.add("table that cannot be read", -9, nil, at("/desk/rows", everyField(x.typed)...))
	table := "Label,Date,Arrival,Joint,Link," + tableCell("Col "+x.typed) + "\n" + tableCell(x.typed) + ",2027-03-20,5:30 AM,hip,,x\n" +
		tableCell("b"+x.typed) + "," + tableCell("no "+x.typed) + "," + tableCell("no "+x.typed) + "," + tableCell("no "+x.typed) + "," + tableCell("no "+x.typed) + ",x\nc,2027-03-22,,,,y\n"
	a.add("table checked", -9, nil, at("/desk/rows", field("act", "check"), field("text", table)))
	a.add("table mended", -9, nil, at("/desk/rows", field("act", "again"), field("text", table), field("cell-3-1", x.typed), field("cell-9-99", x.typed), field("cell-"+x.typed, "x")))
	a.add("table with links of nothing", -9, nil, at("/desk/rows", field("text", table), field("made", "1\t"+x.typed+"\t\t"+x.typed+"\n"+x.typed), field("from", x.typed)))
	a.add("table begun", -9, nil, at("/desk/rows", field("act", "check"), field("text", "Date\n"+strings.Repeat("2027-03-20\n", 450))))
	a.add("table in parts", -9, nil, at("/desk/rows", field("from", "100"), field("text", "Date\n"+strings.Repeat("2027-03-20\n", 150))))
	a.add("table with rows left out", -9, nil, at("/desk/rows", field("act", "copy-all"), field("text", table), field("leave", "3"), field("leave", x.typed), field("cell-2-0", x.typed)))
	a.add("links of other settings", -9, nil, func(r *app.Request) {
		at("/desk/rows")(r)
		r.Kept = map[string]string{"tab.rows": rows, "tab.rows-for": x.typed, "tab.text": table, "tab.made": x.typed, "tab.made-for": x.typed}
	})
	for _, path := range []string{"/desk/settings", "/desk/settings/file", "/desk/settings/check", "/desk/settings/keep"} {
		a.add("settings "+path, -9, nil, at(path))
		a.add("settings with all problems "+path, -9, nil, at(path, append(everyField(x.typed), field("file", x.typed), field("text", x.typed+"\n"+x.typed+" = "+x.typed))...))
	}
	a.add("link to correct", -9, nil, at("/desk/moved"))
	a.add("link to correct, not found", -9, nil, at("/desk/moved", field("text", x.typed)))
	theirs := x.plan(t)
	a.family(&theirs)
	old := fragment(theirs)
	a.add("link to correct, read", -9, nil, at("/desk/moved", field("text", "https://x.example/#"+old)))
	a.add("link to correct, with all problems", -9, nil, at("/desk/moved", append(everyField(x.typed), field("link", old), field("act", "correct"))...))
	a.add("link corrected", -9, nil, at("/desk/moved", patient(field("link", old), field("act", "correct"))...))
	a.add("link corrected, copied", -9, nil, at("/desk/moved", field("link", old), field("made", made), field("act", "copy-text")))
}

// tableCell is a cell in quotation marks (RFC 4180 2.7), whatever is in it.
func tableCell(text string) string { return `"` + strings.ReplaceAll(text, `"`, `""`) + `"` }
