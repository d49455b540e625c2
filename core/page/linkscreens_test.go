package page_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/app"
	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
)

// vector gives the fragment of one of the files that Go and TypeScript share.
func vector(t *testing.T, file string) string {
	text, err := os.ReadFile("../../testdata/link/" + file)
	require.NoError(t, err)
	_, fragment, ok := strings.Cut(string(text), "\nfragment: ")
	require.True(t, ok)
	return strings.TrimSpace(fragment)
}

// adder is what the screens of links are added with, see requests.
type adder struct {
	add    func(name string, days int, change func(*plan.Plan), more func(*app.Request))
	family func(*plan.Plan)
	path   func(path string, fields ...app.Field) func(*app.Request)
}

// asking is the link of a plan whose arrival two people changed apart from each other.
func asking(t *testing.T, x texts) string {
	p := x.plan(t)
	first := merge.New(p)
	sooner, later := p, p
	sooner.Arrival, later.Arrival = p.Arrival-30, p.Arrival+30
	both, err := merge.Join(first.Change(merge.FirstActor, sooner), first.Change(merge.FirstActor+1, later))
	require.NoError(t, err)
	require.Len(t, both.Questions(), 1)
	return link.Encode(both)
}

// linkScreens are those of handing a link over and of opening one that is no plan.
func linkScreens(t *testing.T, x texts, a adder) {
	lockedLink := vector(t, "locked/starter.txt")
	p := x.plan(t)
	a.family(&p)
	parts := [...]string{1: link.EncodePart(p, p.Helper(1)), 2: link.EncodePart(p, p.Helper(2))}
	part := func(who int) func(*app.Request) {
		return func(r *app.Request) { r.Fragment = parts[who] }
	}
	for name, act := range map[string]string{"": "", ", sent": "send", ", copied": "copy"} {
		a.add("link"+name, -9, a.family, a.path("/link", app.Field{Name: "act", Value: act}))
		a.add("helper's link"+name, -9, a.family, a.path("/link/part", app.Field{Name: "part", Value: "1"}, app.Field{Name: "act", Value: act}))
		a.add("locked link"+name, -9, a.family, a.path("/link", app.Field{Name: "locked", Value: lockedLink}, app.Field{Name: "act", Value: act}))
	}
	a.add("link asked for", -9, a.family, a.path("/link"))
	a.add("link of a plan with nobody", -9, nil, a.path("/link"))
	a.add("helper's link asked for", -9, a.family, a.path("/link/part"))
	a.add("helper's link of a plan with nobody", -9, nil, a.path("/link/part"))
	a.add("lock asked for", -9, a.family, a.path("/link/lock"))
	a.add("lock with a text", -9, a.family, a.path("/link/lock", app.Field{Name: "phrase", Value: "long enough " + x.typed}))
	a.add("lock with too short a text", -9, a.family, a.path("/link/lock", app.Field{Name: "phrase", Value: fitting(x.typed, 6)}))
	a.add("lock that cannot be", -9, a.family, a.path("/link", app.Field{Name: "unable", Value: x.typed}))
	a.add("locked link with its phrase", -9, a.family, a.path("/link", app.Field{Name: "locked", Value: lockedLink}, app.Field{Name: "phrase", Value: x.typed}))
	a.add("locked with a text", -9, a.family, a.path("/link", app.Field{Name: "locked", Value: x.typed}))
	a.add("afresh asked for", -9, a.family, a.path("/link/afresh"))
	a.add("afresh", -9, a.family, a.path("/link/afresh", app.Field{Name: "sure", Value: x.typed + "1"}))
	a.add("afresh while a question is open", -9, nil, func(r *app.Request) { r.Fragment, r.Path = asking(t, x), "/link/afresh" })
	a.add("started afresh from", -9, nil, func(r *app.Request) {
		r.Kept["plan.abc"], r.Kept["afresh.abc"], r.Kept["plan.abd"] = fragment(x.plan(t)), "abd", fragment(x.plan(t))
	})
	a.add("locked link opened", -9, nil, func(r *app.Request) { r.Fragment = lockedLink })
	for _, field := range []string{"wrong", "damaged", "unable", "phrase"} {
		a.add("locked link, "+field, -9, nil, func(r *app.Request) {
			r.Fragment, r.Path, r.Fields = lockedLink, "/unlock", []app.Field{{Name: field, Value: x.typed}}
		})
	}
	a.add("one helper's part", -9, nil, part(1))
	a.add("one helper's part on the day", 0, nil, part(1))
	a.add("one helper's part with the whole plan here", 8, nil, func(r *app.Request) { part(1)(r); r.Kept["plan.abc"] = fragment(x.plan(t)) })
	a.add("one helper's part, long after", 500, nil, part(1))
	a.add("the other helper's part", 8, nil, part(2))
	a.add("one helper's part in another zone", -9, nil, func(r *app.Request) { part(1)(r); r.Zone = "Pacific/Auckland" })
	a.add("one helper's calendar", -9, nil, func(r *app.Request) { part(1)(r); r.Path = "/calendar" })
	a.add("one helper's calendar file", -9, nil, func(r *app.Request) {
		part(1)(r)
		r.Path, r.Fields = "/calendar", append(everyField(x.typed), app.Field{Name: "make", Value: "1"}, app.Field{Name: "alarm", Value: "30"})
	})
	a.add("a form sent with one helper's part", -9, nil, func(r *app.Request) { part(1)(r); r.Path, r.Fields = "/facts", everyField(x.typed) })
	a.add("cut link of a plan that is here", -9, nil, func(r *app.Request) {
		r.Kept["plan.abc"] = fragment(x.plan(t))
		r.Fragment = r.Kept["plan.abc"][:len(r.Kept["plan.abc"])-2]
	})
	a.add("newer link with its day", -9, nil, func(r *app.Request) {
		r.Fragment, r.Kept["plan.8f1c02d7"] = vector(t, "heads/newer-next.txt"), withNumber(x.plan(t), 0x8f1c02d7)
	})
	a.add("pasted", -9, nil, func(r *app.Request) {
		r.Path, r.Fragment, r.Fields = "/open", "", []app.Field{{Name: "text", Value: x.typed}}
	})
	a.add("pasted message", -9, nil, func(r *app.Request) {
		r.Path, r.Fields = "/open", []app.Field{{Name: "text", Value: x.patient + "\nhttps://alder.example/#" + r.Fragment + " " + x.typed}}
		r.Fragment = ""
	})
}

func withNumber(p plan.Plan, number uint32) string {
	p.Number = number
	return fragment(p)
}
