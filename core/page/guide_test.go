package page_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/app"
	"newel/core/guide"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// inputOf is what the pages of a plan are made from, at noon so many days after surgery.
func inputOf(t *testing.T, p plan.Plan, days int) page.Input {
	s, err := schedule.Build(p)
	require.NoError(t, err)
	noon, _ := (p.Surgery + wall.Date(days)).At(s.Loc, 12*60)
	return page.Input{Schedule: s, Voice: guide.Voice{Book: guide.Open("en")}, Now: noon, Fragment: fragment(p)}
}

// chapters are all chapters of a plan.
func chapters(t *testing.T, p plan.Plan, days int) []page.Chapter {
	var all []page.Chapter
	for i := range guide.Chapters {
		all = append(all, page.NewChapterView(inputOf(t, p, days), &guide.Chapters[i]).Chapter)
	}
	return all
}

// Each step of a plan, and each line of the table, stands in one chapter and once.
func TestEachStepIsInOneChapter(t *testing.T) {
	p := withFamily(ptr(harmless.plan(t)), "Ana")
	p.Facts = plan.AllFacts
	p.Lines = []plan.Line{{ID: 7, List: plan.Packing, Day: plan.NoDay, Text: "Lamp"}}
	times := map[string]int{}
	for _, c := range chapters(t, p, -9) {
		for _, part := range c.Parts {
			if part.List == nil {
				continue
			}
			for _, g := range part.List.Groups {
				for _, r := range g.Rows {
					times[r.ID]++
				}
			}
		}
	}
	for i := range inputOf(t, p, -9).Schedule.Steps {
		s := &inputOf(t, p, -9).Schedule.Steps[i]
		id := "item-" + number(int(s.Code)) + "-" + number(s.N)
		if s.Line != nil {
			id = page.LineItem(s.Line.ID)
		}
		require.Equal(t, 1, times[id], "%s %s", s.List, s.ID)
		delete(times, id)
	}
	require.Empty(t, times)
}

// Each line of the table and each duty stands in the guide without a plan, once; not what only
// those have to whom it was given.
func TestTheGuideWithoutAPlanIsWhole(t *testing.T) {
	v := guide.Voice{Book: guide.Open("en")}
	rows, duties := map[string]int{}, map[string]int{}
	for i := range guide.Chapters {
		for _, part := range page.NewGeneralChapter(v, page.NewCalls(v, nil, ""), &guide.Chapters[i]).Chapter.Parts {
			duties[part.ID]++
			if part.List == nil {
				continue
			}
			for _, g := range part.List.Groups {
				for _, r := range g.Rows {
					rows[r.ID]++
					require.NotEmpty(t, r.Due, r.Title)
				}
			}
		}
	}
	shown := 0
	for i := range schedule.Kinds {
		want := 1
		if schedule.Kinds[i].ID == "parking-permit-car" {
			want = 0
		}
		require.Equal(t, want, rows["item-"+number(int(schedule.Kinds[i].Code))], schedule.Kinds[i].ID)
		shown += want
	}
	require.Len(t, rows, shown)
	for _, id := range append(slices.Clone(plan.BuiltIn[:]), plan.DutyKeys[:]...) {
		require.Equal(t, 1, duties["guide-"+id], id)
	}
}

// Which chapters count when is common practice, no published source: a home is set up before
// the washing begins, four days before; what is packed is packed on the evening before.
func TestWhatCountsNow(t *testing.T) {
	for day, want := range map[int]string{
		-15: "ready home equipment", -5: "ready home equipment", -4: "ready home equipment washing", -3: "ready washing",
		-1: "washing evening pack", 0: "washing day waiting staying going first", 1: "going first weeks",
		2: "weeks therapy", 3: "weeks therapy", 14: "weeks therapy later", 15: "therapy later", 60: "therapy later",
	} {
		var now []string
		for _, link := range page.NewGuideView(inputOf(t, harmless.plan(t), day)).Now {
			now = append(now, strings.TrimPrefix(link.Path, "/guide/"))
		}
		require.Equal(t, want, strings.Join(now, " "), "%d", day)
	}
	for wash := range 14 {
		p := harmless.plan(t)
		require.True(t, p.Program.Set(plan.WashDays, wash+1))
		for day := -60; day <= 90; day++ {
			require.NotEmpty(t, page.NewGuideView(inputOf(t, p, day)).Now, "nothing counts on day %d with %d days of washing", day, wash+1)
		}
	}
}

// The signs of a clot stay in view for 35 days (ACCP, Chest 2012;141(2 Suppl):e278S-e325S,
// from memory), or as long as the hospital says.
func TestHowLongTheSignsOfAClotStayInView(t *testing.T) {
	set := harmless.plan(t)
	require.True(t, set.Program.Set(plan.ClotDays, 21))
	for _, c := range []struct {
		p    plan.Plan
		days int
	}{{harmless.plan(t), 35}, {set, 21}} {
		for day := -3; day <= 60; day++ {
			v := page.NewView(inputOf(t, c.p, day))
			shown := strings.Contains(page.Plan(v), `id="clots"`)
			require.Equal(t, day >= 0 && day <= c.days, shown, "day %d of %d", day, c.days)
			if shown {
				last := guide.Voice{Book: guide.Open("en"), Today: c.p.Surgery}.Day(c.p.Surgery + wall.Date(c.days))
				require.Contains(t, v.Clots.Until, last)
			}
		}
	}
}

// Signs of a clot in the leg are for the office, those of one in the lung for the ambulance
// (CDC, pages on venous thromboembolism).
func TestEachSignOfAClotHasItsCall(t *testing.T) {
	p := harmless.plan(t)
	p.Program.Texts[plan.EmergencyNumber] = "112"
	for _, language := range guide.Languages {
		in := inputOf(t, p, 3)
		in.Voice.Book = guide.Open(language)
		lines := page.NewView(in).Clots.Lines
		require.Len(t, lines, 2, language)
		require.Equal(t, page.NewTel("555-0142"), lines[0].Call, language)
		require.Equal(t, page.NewTel("112"), lines[1].Call, language)
		require.Equal(t, []bool{false, true}, []bool{lines[0].Now, lines[1].Now}, language)
	}
}

// A box that is ticked in a chapter is shown ticked there, and nothing moves.
func TestATickInAChapterStaysThere(t *testing.T) {
	r := at(harmless.plan(t), -9)
	r.Path, r.Fields = "/tick", []app.Field{{Name: "from", Value: "/guide/home"}, {Name: "code", Value: "10"}, {Name: "n", Value: "0"}, {Name: "done", Value: "1"}}
	out := app.Handle(r)
	require.Equal(t, []any{"/guide/home", false, ""}, []any{out.Path, out.Push, out.Focus})
	require.Contains(t, out.Say, "Clear wide paths")
	require.Regexp(t, `id="item-10-0-box"[^>]* checked>`, out.HTML)
	for _, from := range []string{"", "/", "/guide/", "/guide/nothing", "/facts", `/guide/home"`} {
		r.Fields[0].Value = from
		require.Equal(t, "/", app.Handle(r).Path, from)
	}
}

// What is due first stands first; what has no date stands last. Surgery on 9 March 2027, 05:30,
// so shaving ends on the 7th, the day of the third wash.
func TestAListIsInTheOrderOfItsDays(t *testing.T) {
	p := harmless.plan(t)
	p.Lines = []plan.Line{
		{ID: 1, List: plan.Packing, Day: plan.NoDay, Text: "Some day"}, {ID: 2, List: plan.Packing, Day: -2, Text: "Two days before"},
		{ID: 3, List: plan.Packing, Day: 0, Text: "On the day"}, {ID: 4, List: plan.Equipment, Day: -30, Text: "A month before"},
	}
	v := page.NewView(inputOf(t, p, -9))
	order := func(name string) (all []string) {
		at := slices.IndexFunc(v.Lists, func(l page.List) bool { return l.Name == name })
		for _, g := range v.Lists[at].Groups {
			if g.Title != "" {
				all = append(all, g.Title+":")
			}
			for _, r := range g.Rows {
				all = append(all, r.Title)
			}
		}
		return all
	}
	pack := order("pack")
	require.Equal(t, []string{"Two days before", "On the day", "Some day"}, []string{pack[0], pack[len(pack)-2], pack[len(pack)-1]})
	equipment := order("equipment")
	require.Equal(t, []string{"Added to this list:", "A month before"}, equipment[len(equipment)-2:])
	var washing []string
	for _, title := range order("wash") {
		for _, word := range []string{"Wash 1", "Wash 2", "Wash 3", "Wash 4", "Wash 5", "linen", "shav", "skin"} {
			if strings.Contains(strings.ToLower(title), strings.ToLower(word)) {
				washing = append(washing, word)
				break
			}
		}
	}
	require.Equal(t, "Wash 1, linen, Wash 2, Wash 3, shav, Wash 4, linen, Wash 5, skin", strings.Join(washing, ", "))
}

// Nothing of the guide without a plan counts on a plan, and what is asked for is shown.
func TestTheGuideWithoutAPlanHasItsPages(t *testing.T) {
	for path, want := range map[string]string{
		"/guide": "/guide", "/guide/home": "/guide/home", "/guide/nothing": "/guide", "/sources": "/sources", "/about": "/about", "/elsewhere": "/",
	} {
		r := app.Request{Path: path, Language: "en", Now: time.Date(2027, 3, 1, 12, 0, 0, 0, time.UTC).Unix(), Random: make([]byte, 16)}
		out := app.Handle(r)
		require.Equal(t, []any{want, "", want != "/" && want == path}, []any{out.Path, out.Fragment, out.Push}, path)
		require.NotContains(t, out.HTML, "<input type=\"checkbox\" name=\"done\"", path)
	}
}

func number(n int) string { return strconv.Itoa(n) }
