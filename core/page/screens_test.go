package page_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/app"
	"newel/core/guide"
	"newel/core/link"
	"newel/core/merge"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/schedule"
	"newel/core/wall"
)

// texts is every text that a person or a link can give.
type texts struct{ patient, hospital, address, phone, zone, typed string }

var harmless = texts{"Rosa", "Alder Ferry Hospital", "12 Millrace Road", "555-0142", "Atlantis/Lemuria", "x yz"}

func same(s string) texts { return texts{s, s, s, s, s, s} }

// fitting is a text as a link can hold it: clean, and no longer than allowed.
func fitting(s string, most int) string {
	letters := []rune(plan.Clean(s))
	return plan.Clean(string(letters[:min(len(letters), most)]))
}

func (x texts) plan(t *testing.T) plan.Plan {
	surgery, err := wall.ParseDate("2027-03-09")
	require.NoError(t, err)
	p := plan.Plan{
		Number: 0xabc, Patient: fitting(x.patient, plan.MaxName), Surgery: surgery, Arrival: 330, Zone: "America/Chicago",
		Drive: 40, Parking: 15, Facts: plan.SoapGiven | plan.DrinkGiven,
		Program: plan.Program{
			Hospital: fitting(x.hospital, plan.MaxName), Address: fitting(x.address, plan.MaxText), Phone: fitting(x.phone, plan.MaxName),
		},
	}
	return p.WithTick(plan.Tick{Code: 1}, true).WithTick(plan.Tick{Code: 40, N: 2}, true)
}

// at asks for a plan's page so many days after surgery, at 05:00 in its own zone.
func at(p plan.Plan, days int) app.Request {
	return app.Request{
		Path: "/", Fragment: fragment(p), Zone: "America/Chicago", Language: "en-US", Clock12: true, Random: make([]byte, 16),
		Now: time.Date(2027, 3, 9+days, 11, 0, 0, 0, time.UTC).Unix(), Kept: map[string]string{},
	}
}

// fragments remembers the links of plans: writing one takes a millisecond, and the screens
// of a text show a handful of plans again and again.
var fragments = map[string]string{}

func fragment(p plan.Plan) string {
	key := fmt.Sprintf("%+v", p)
	if fragments[key] == "" {
		fragments[key] = link.Encode(merge.New(p))
	}
	return fragments[key]
}

// made and asked remember the screens and the requests of each set of texts, which several
// tests look at.
var (
	made  = map[texts]map[string]string{}
	asked = map[texts]map[string]app.Request{}
)

// screens are all screens, each with the given texts wherever one can stand.
func screens(t *testing.T, x texts) map[string]string {
	if made[x] == nil {
		made[x] = makeScreens(t, x)
	}
	return made[x]
}

func makeScreens(t *testing.T, x texts) map[string]string {
	all := map[string]string{"static page": page.Frame("en", page.Assets{Style: "style.css", Begin: "begin.js", Ahead: "ahead.js", Script: "page.js", Core: "core.wasm", Whole: "whole.wasm", Font: "type.woff2"})}
	for name, r := range requests(t, x) {
		out := app.Handle(r)
		require.NotEmpty(t, out.HTML, name)
		all[name] = out.HTML
	}
	// The same texts as they are, too long and not cleaned: the templates do not
	// count on what the borders let in.
	p := x.plan(t)
	p.Patient, p.Program.Hospital, p.Program.Address, p.Program.Phone = x.patient, x.hospital, x.address, x.phone
	s, err := schedule.Build(p)
	require.NoError(t, err)
	all["plan, not cleaned"] = page.Plan(page.NewView(page.Input{
		Schedule: s, Voice: guide.Voice{Book: guide.Open("en")}, Now: s.Arrival.Add(-48 * time.Hour), Fragment: fragment(p), Demo: true,
		Notices: []page.Notice{{ID: "x", Text: x.typed, Lines: []string{x.typed}, Acts: []page.Act{{Path: "/put-back", Button: "x" + x.typed, Fields: []page.Hidden{{Name: "plan", Value: x.typed}}}}}},
	}))
	return all
}

func requests(t *testing.T, x texts) map[string]app.Request {
	if asked[x] == nil {
		asked[x] = makeRequests(t, x)
	}
	return asked[x]
}

func makeRequests(t *testing.T, x texts) map[string]app.Request {
	all := map[string]app.Request{}
	add := func(name string, days int, change func(*plan.Plan), more func(*app.Request)) {
		p := x.plan(t)
		if change != nil {
			change(&p)
		}
		r := at(p, days)
		if more != nil {
			more(&r)
		}
		all[name] = r
	}
	newer := x.plan(t)
	newer.Surgery, newer.Operation, newer.Facts = newer.Surgery+7, plan.Revision, plan.AllFacts
	moved := link.Encode(merge.New(x.plan(t)).Change(merge.FirstActor, newer))

	add("plan", -9, nil, nil)
	add("plan with all facts", -2, func(p *plan.Plan) { p.Facts = plan.AllFacts }, nil)
	add("plan without names", -9, func(p *plan.Plan) { p.Patient, p.Program = "", plan.Program{} }, nil)
	add("arrival not known", -9, func(p *plan.Plan) { p.Arrival = wall.NoClock }, nil)
	add("drive not known", -9, func(p *plan.Plan) { p.Drive = plan.Unknown }, nil)
	add("nothing known, stay undecided", -9, func(p *plan.Plan) {
		p.Arrival, p.Drive, p.Parking, p.Stay = wall.NoClock, plan.Unknown, plan.Unknown, plan.Undecided
	}, nil)
	add("stay undecided", -1, func(p *plan.Plan) { p.Stay = plan.Undecided }, nil)
	add("home the same day", 0, func(p *plan.Plan) { p.Stay = plan.SameDay }, nil)
	add("day of surgery", 0, nil, nil)
	add("after surgery", 3, nil, nil)
	add("long after", 200, nil, nil)
	add("device in another zone", -9, nil, func(r *app.Request) { r.Zone = "Pacific/Auckland" })
	add("device in no zone", -9, nil, func(r *app.Request) { r.Zone, r.Language, r.Path = x.zone, x.typed, x.typed })
	add("repeated arrival", -9, func(p *plan.Plan) { p.Surgery, p.Arrival = p.Surgery+243, 90 }, nil)
	add("moved", -9, nil, func(r *app.Request) {
		r.Fragment = moved
		r.Kept["plan.abc"], r.Kept["read.abc"] = fragment(x.plan(t)), fragment(x.plan(t))
	})
	add("older link", -9, nil, func(r *app.Request) { r.Kept["plan.abc"], r.Kept["read.abc"] = moved, moved })
	add("unknown zone", -9, func(p *plan.Plan) { p.Zone = fitting(x.zone, 64) }, nil)
	add("form of a plan", -9, nil, func(r *app.Request) { r.Path = "/facts" })
	add("form laxer than guidance", -9, func(p *plan.Plan) { p.Program.Set(plan.LiquidsBefore, 30) }, func(r *app.Request) { r.Path = "/facts" })
	add("empty form", -9, nil, func(r *app.Request) { r.Fragment, r.Zone = "start", plan.Clean(x.zone) })
	add("form with all problems", -9, nil, func(r *app.Request) { r.Path, r.Fragment, r.Fields = "/start", "start", everyField(x.typed) })
	add("form of a plan with all problems", -9, nil, func(r *app.Request) { r.Path, r.Fields = "/facts", everyField(x.typed) })
	add("asked about", -9, nil, func(r *app.Request) {
		r.Path, r.Fields = "/facts", append(everyField(""), app.Field{Name: "surgery", Value: "2026-01-02"}, app.Field{Name: "patient", Value: x.typed})
	})
	add("arrival typed wrong on the page", -9, nil, func(r *app.Request) { r.Path, r.Fields = "/arrival", []app.Field{{Name: "arrival", Value: x.typed}} })
	add("drive typed wrong on the page", -9, nil, func(r *app.Request) { r.Path, r.Fields = "/way", []app.Field{{Name: "drive", Value: x.typed}} })
	add("tick of nothing", -9, nil, func(r *app.Request) { r.Path, r.Fields = "/tick", everyField(x.typed) })
	add("front", -9, nil, func(r *app.Request) {
		r.Fragment = ""
		r.Kept["plan.abc"], r.Kept["plan."+x.typed], r.Kept["clock"] = fragment(x.plan(t)), x.typed, x.typed
	})
	add("forgotten", -9, nil, func(r *app.Request) {
		r.Path, r.Fields = "/forget", []app.Field{{Name: "number", Value: "abc"}}
		r.Kept["plan.abc"] = fragment(x.plan(t))
	})
	add("forgotten something else", -9, nil, func(r *app.Request) {
		r.Path, r.Fields = "/forget", []app.Field{{Name: "number", Value: x.typed}}
		r.Kept["plan."+plan.Clean(x.typed)] = plan.Clean(x.typed)
	})
	for name, what := range map[string]string{"a plan": "plan", "everything": "all", "something else": x.typed} {
		add("removed in another tab: "+name, -9, nil, func(r *app.Request) {
			r.Fragment, r.Fields = "", []app.Field{{Name: "elsewhere", Value: what}}
		})
	}
	add("put back", -9, nil, func(r *app.Request) { r.Path, r.Fields = "/put-back", []app.Field{{Name: "plan", Value: x.typed}} })
	add("damaged link", -9, nil, func(r *app.Request) { r.Fragment = x.typed })
	add("newer link", -9, nil, func(r *app.Request) { r.Fragment = "AwAAAAAAAAAAAAAA" })
	family := func(p *plan.Plan) { *p = withFamily(p, x.typed) }
	path := func(path string, fields ...app.Field) func(*app.Request) {
		return func(r *app.Request) { r.Path, r.Fields = path, fields }
	}
	add("plan with the family's duties", -9, family, nil)
	add("family's duties after surgery", 8, family, nil)
	add("a duty", -9, family, path("/duty/1"))
	add("a duty that is over", 300, family, path("/duty/1"))
	add("a duty with one weekday", -9, family, path("/duty/4"))
	add("a date given to somebody", -9, family, path("/duty/1/date", app.Field{Name: "act", Value: "give"}, app.Field{Name: "day", Value: "2027-03-17"}, app.Field{Name: "who", Value: fitting(x.typed, plan.MaxName)}))
	add("a date given to too long a name", -9, family, path("/duty/1/date", app.Field{Name: "act", Value: "give"}, app.Field{Name: "day", Value: "2027-03-17"}, app.Field{Name: "who", Value: x.typed + strings.Repeat("x", 50)}))
	add("no such date given", -9, family, path("/duty/1/date", append(everyField(x.typed), app.Field{Name: "act", Value: "give"})...))
	add("weekdays shared out", -9, family, path("/duty/1/days", append(everyField(fitting(x.typed, plan.MaxName)), app.Field{Name: "act", Value: "days"})...))
	add("weekdays shared out to too long a name", -9, family, path("/duty/1/days", app.Field{Name: "act", Value: "days"}, app.Field{Name: "on-1", Value: x.typed + strings.Repeat("x", 50)}))
	add("a dropped duty", -9, family, path("/duty/2"))
	add("no such duty", -9, family, path("/duty/"+x.typed+"/"+x.typed))
	add("a date typed wrong", -9, family, path("/duty/1/date", append(everyField(x.typed), app.Field{Name: "act", Value: "move"})...))
	add("an extra date typed wrong", -9, family, path("/duty/1/date", append(everyField(x.typed), app.Field{Name: "act", Value: "add"})...))
	guideScreens(t, x, adder{add, family, path})
	lineScreens(x, adder{add, family, path})
	linkScreens(t, x, adder{add, family, path})
	splitScreens(x, adder{add, family, path})
	deskScreens(t, x, adder{add, family, path})
	for _, kind := range plan.DutyKeys {
		add("form of a new "+kind, -9, family, path("/duty/new/"+kind))
	}
	add("form of a duty", -9, family, path("/duty/1/change"))
	add("form of a duty with all problems", -9, family, path("/duty/1/change", everyField(x.typed)...))
	add("form of a duty with a wrong rule", -9, family, path("/duty/1/change", app.Field{Name: "often", Value: "text"},
		app.Field{Name: "first", Value: "2027-03-15"}, app.Field{Name: "at", Value: "10:30"}, app.Field{Name: "rule", Value: x.typed}))
	add("who has a duty", -9, family, path("/who/drive-there"))
	add("who has a duty, typed too long", -9, family, path("/who/drive-there", app.Field{Name: "who", Value: x.typed + strings.Repeat("x", 50)}))
	add("calendar", -9, family, path("/calendar/duty/1"))
	add("calendar made", -9, family, path("/calendar", app.Field{Name: "make", Value: "1"}, app.Field{Name: "whose", Value: "all"}, app.Field{Name: "steps", Value: "1"}))
	add("calendar of nobody", -9, family, path("/calendar", app.Field{Name: "make", Value: "1"}, app.Field{Name: "whose", Value: x.typed}))
	add("import", -9, family, path("/import"))
	add("import of something else", -9, family, path("/import", app.Field{Name: "text", Value: x.typed}))
	add("import of a clinic's file", -9, family, path("/import", app.Field{Name: "text", Value: clinicFile(x.typed)}))
	apart, old := changedApart(t, x)
	joined := func(path string, fields ...app.Field) func(*app.Request) {
		return func(r *app.Request) {
			r.Path, r.Fields, r.Fragment = path, fields, apart
			r.Kept["plan.abc"], r.Kept["read.abc"], r.Kept["hand.abc"], r.Kept["me.abc"] = old, old, "64", fitting(x.typed, plan.MaxName)
		}
	}
	add("questions and news", -9, nil, joined("/"))
	add("answered wrong", -9, nil, joined("/settle", append(everyField(x.typed), app.Field{Name: "key", Value: x.typed})...))
	add("whose device", -9, nil, joined("/me"))
	add("whose device, typed wrong", -9, nil, joined("/me", append(everyField(x.typed), app.Field{Name: "name", Value: x.typed + strings.Repeat("x", 50)}, app.Field{Name: "who", Value: "other"})...))
	add("whose device, answered", -9, nil, joined("/me", app.Field{Name: "who", Value: "other"}, app.Field{Name: "name", Value: fitting(x.typed, plan.MaxName)}))
	add("a link that does not fit", -9, nil, func(r *app.Request) { r.Kept["other.abc"] = fragment(x.plan(t)) })
	add("example", -9, nil, func(r *app.Request) { r.Fragment = "demo" })
	return all
}

// withFamily gives a plan helpers and duties, with one text wherever one can stand.
func withFamily(p *plan.Plan, text string) plan.Plan {
	q, who := p.WithHelper(fitting(text, plan.MaxName))
	q, other := q.WithHelper(fitting("x"+text, plan.MaxName))
	first := p.Surgery + 6
	weekly := repeat.Rule{First: first, At: 630, Freq: repeat.Weekly, Every: 1, Days: repeat.DaysOf(1, 3, 5), Week: 1, Count: 18}.Canonical()
	weekly.Skipped = []wall.Date{weekly.First + 7}
	weekly.Moved = []repeat.Move{{From: weekly.First + 14, To: repeat.Moment{Day: weekly.First + 15, At: 840}}}
	weekly.Extra = []repeat.Moment{{Day: weekly.First + 5, At: 540}}
	short, long := fitting(text, plan.MaxName), fitting(text, plan.MaxText)
	q.Cover[0] = who
	q.Duties = []plan.Duty{
		{ID: 1, Kind: plan.TherapyRide, Title: short, Place: long, Note: long, Who: who, Rule: weekly, Length: 45,
			On: [7]uint8{time.Wednesday: other}, Takes: []plan.Take{{Day: weekly.First + 2, Who: 0}, {Day: weekly.First + 14, Who: other}},
			Ride: plan.Ride{Own: 10, Drive: 70, Parking: 5, Early: 10, Leaves: true}},
		{ID: 2, Kind: plan.VisitRide, Dropped: true, Rule: repeat.Rule{First: first, At: 600, Every: 1}, Length: 30,
			Ride: plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown}},
		{ID: 3, Kind: plan.PetCare, Title: short, Who: who, Rule: repeat.Rule{First: first, At: 450, Freq: repeat.Daily, Every: 1}, Length: 20,
			Ride: plan.Ride{Own: 5, Drive: plan.Unknown, Parking: plan.Unknown}},
		{ID: 4, Kind: plan.Meals, Rule: repeat.Rule{First: first, At: 720, Freq: repeat.Weekly, Every: 1, Days: repeat.DaysOf(first.Weekday()), Week: 1, Count: 4}, Length: 20,
			On: [7]uint8{time.Monday: other}, Ride: plan.Ride{Drive: plan.Unknown, Parking: plan.Unknown}},
	}
	return q
}

// clinicFile is a calendar file with one text wherever one can stand.
func clinicFile(text string) string {
	text = strings.NewReplacer("\\", "\\\\", ";", "\\;", ",", "\\,", "\r", "", "\n", "\\n").Replace(text)
	return "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\n" +
		"BEGIN:VEVENT\r\nUID:1\r\nDTSTAMP:20270101T000000Z\r\nDTSTART:20270320T100000\r\nDTEND:20270320T103000\r\nSUMMARY:" + text +
		"\r\nLOCATION:" + text + "\r\nEND:VEVENT\r\n" +
		"BEGIN:VEVENT\r\nUID:2\r\nDTSTAMP:20270101T000000Z\r\nDTSTART;VALUE=DATE:20270320\r\nSUMMARY:" + text + "\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"
}

// everyField sends one text from every field of the form.
func everyField(value string) []app.Field {
	var all []app.Field
	for name := range strings.FieldsSeq("patient surgery arrival joint operation stay drive parking home hospital address phone zone confirm number code n done clock " +
		"on-1 on-3 on-5 title who place note first at length again often days every month ends weeks times last rule own early leaves day to " +
		"emergency reviewed-by reviewed-on translated-by translated-on phone-hours after-phone after-hours park-at check-in text list line from") {
		all = append(all, app.Field{Name: name, Value: value})
	}
	// A field of several lines, of which one is too long whatever the others are.
	all = append(all, app.Field{Name: "limits", Value: value + "\n" + strings.Repeat("x", plan.MaxText+1)})
	for _, f := range plan.FactKeys {
		all = append(all, app.Field{Name: "fact." + f.Key, Value: value})
	}
	for _, r := range plan.Rules {
		all = append(all, app.Field{Name: "rule." + r.Key, Value: value})
	}
	return append(all, app.Field{Name: value, Value: value}, app.Field{Name: "rule." + value, Value: value})
}
