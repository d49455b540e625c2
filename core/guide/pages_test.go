package guide_test

import (
	"regexp"
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
	"newel/core/wall"
)

// requests are screens that between them say nearly every word: plans of every
// sort, seen from before the lists begin to long after, and forms with problems.
func requests(t *testing.T) map[string]app.Request {
	surgery, err := wall.ParseDate("2027-03-09")
	require.NoError(t, err)
	all := map[string]app.Request{}
	ask := func(name string, p plan.Plan, days int, change func(*app.Request)) {
		noon := time.Date(2027, 3, 9+days, 18, 0, 0, 0, time.UTC)
		r := app.Request{
			Path: "/", Fragment: fragment(p), Zone: "America/New_York", Language: "en-US", Now: noon.Unix(),
			Clock12: true, Random: make([]byte, 16), Kept: map[string]string{},
		}
		if change != nil {
			change(&r)
		}
		all[name] = r
	}
	facts := []plan.Facts{0, plan.SoapGiven | plan.DrinkGiven | plan.HomeAnswered, plan.AllFacts, plan.TeamTimes}
	for i, f := range facts {
		for stay := plan.OneNight; stay <= plan.Undecided; stay++ {
			p := plan.Plan{
				Number: 5, Surgery: surgery, Arrival: 330, Zone: "America/Chicago", Drive: 40, Parking: 15, Facts: f, Stay: stay,
			}
			unknown := p
			unknown.Arrival, unknown.Drive = wall.NoClock, plan.Unknown
			for _, days := range []int{-40, -9, -1, 0, 1, 20, 90} {
				name := strings.Join([]string{"plan", string(rune('a' + i)), string(rune('0' + stay)), time.Duration(days).String()}, " ")
				ask(name, p, days, nil)
				ask(name+" unknown", unknown, days, nil)
			}
			// Everything moved since it was read; and a newer copy on the device.
			later := p
			later.Surgery, later.Arrival, later.Operation = surgery+7, 600, plan.Revision
			moved := merge.New(p).WithHand(64, "Dana").Change(64, later)
			apart := later
			apart.Surgery, apart.Arrival = surgery+8, 601
			both, err := merge.Join(moved, merge.New(p).Change(65, apart))
			require.NoError(t, err)
			ask("moved "+string(rune('a'+i))+string(rune('0'+stay)), later, -9, func(r *app.Request) {
				r.Fragment = link.Encode(both)
				r.Kept["plan.5"], r.Kept["read.5"] = fragment(p), fragment(p)
			})
			ask("older "+string(rune('a'+i))+string(rune('0'+stay)), p, -9, func(r *app.Request) {
				r.Kept["plan.5"], r.Kept["read.5"] = link.Encode(moved), fragment(p)
			})
			ask("facts "+string(rune('a'+i))+string(rune('0'+stay)), p, -9, func(r *app.Request) { r.Path = "/facts" })
			ask("send "+string(rune('a'+i))+string(rune('0'+stay)), p, -9, func(r *app.Request) { r.Path = "/send" })
		}
	}
	wrong := plan.Plan{Number: 5, Surgery: surgery, Arrival: 150, Zone: "America/New_York", Drive: plan.Unknown, Parking: plan.Unknown}
	wrong.Surgery += 5 // the night of the clock change, at an hour that is skipped
	ask("skipped arrival", wrong, -9, nil)
	wrong.Zone = "Atlantis/Lemuria"
	ask("unknown zone", wrong, -9, nil)
	lax := plan.Plan{Number: 5, Surgery: surgery, Arrival: 330, Zone: "America/Chicago", Drive: 40, Parking: 15}
	lax.Program.Set(plan.LiquidsBefore, 60)
	lax.Program.Set(plan.FoodStop, 1440)
	ask("laxer than guidance", lax, -9, func(r *app.Request) { r.Path = "/facts" })
	ask("front", lax, -9, func(r *app.Request) { r.Fragment, r.Kept["plan.5"] = "", fragment(lax) })
	ask("demo", lax, -9, func(r *app.Request) { r.Fragment = "demo" })
	ask("start", lax, -9, func(r *app.Request) { r.Fragment = "start" })
	ask("damaged", lax, -9, func(r *app.Request) { r.Fragment = "AQAAAAAAAAAA" })
	for _, code := range []string{"1", "40", "104", "105"} {
		ask("tick "+code, lax, -9, func(r *app.Request) {
			r.Path, r.Fields = "/tick", []app.Field{{Name: "code", Value: code}, {Name: "n", Value: map[bool]string{true: "1"}[code == "40"]}, {Name: "done", Value: "1"}}
		})
	}
	for value, fields := range map[string][]string{
		"-5": {"drive", "parking", "rule.wash-days"}, "x": {"surgery", "arrival", "joint", "operation", "stay", "drive", "zone", "rule.food-stop", "rule.wash-days"},
		"9999": {"drive", "parking", "rule.wash-days", "rule.drive-slack", "rule.recovery-min"}, "2020-02-02": {"surgery"}, "2099-02-02": {"surgery"}, "": {"surgery"},
		"2027-03-14": {"surgery"}, strings.Repeat("W", 200): {"patient", "hospital", "address", "phone"}, "13:00": {"rule.food-stop", "rule.discharge-there"},
	} {
		ask("form with "+value, lax, -9, func(r *app.Request) {
			r.Path, r.Fragment = "/start", "start"
			for _, name := range fields {
				r.Fields = append(r.Fields, app.Field{Name: name, Value: value})
			}
		})
	}
	return all
}

func fragment(p plan.Plan) string { return link.Encode(merge.New(p)) }

var tag = regexp.MustCompile(`<[^>]*>`)

// A {name} that is left on a page is one that no code fills; a text that looks like
// a key is one that has no words.
func TestNoNameIsLeftUnfilledOnAnyPage(t *testing.T) {
	key := regexp.MustCompile(`^[a-z]+(-[a-z]+)*(\.[a-z0-9-]+)+$`)
	wrong := map[string]string{} // text → a screen it stands on
	look := func(name, text string) {
		if strings.ContainsAny(text, "{}") || key.MatchString(strings.TrimSpace(text)) {
			wrong[text] = name
		}
	}
	for _, language := range guide.Languages {
		if testing.Short() && language == guide.Languages[0] {
			continue // in WebAssembly, the longer of them
		}
		for name, r := range requests(t) {
			r.Language, name = language, language+" "+name
			out := app.Handle(r)
			require.NotEmpty(t, out.HTML, name)
			for _, text := range append(tag.Split(out.HTML, -1), out.Title, out.Say) {
				look(name, text)
			}
			if out.Send != nil {
				look(name, out.Send.Title)
				look(name, out.Send.Text)
			}
		}
		for _, text := range tag.Split(page.Frame(language, page.Assets{}), -1) {
			look("the static page in "+language, text)
		}
	}
	require.Empty(t, wrong)
}
