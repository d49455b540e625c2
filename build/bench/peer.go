package bench

import (
	"bytes"
	"fmt"
	"html/template"

	"newel/build/bench/timing"
)

// The peer for rendering is Go's own html/template, filled with as many
// entries as our page has, each with the parts that an entry of ours usually
// has and about as long, so that the two pages are of about one size. It is
// handed its values ready made; ours computes them first.

// entry is one line of the schedule or of a list.
type entry struct {
	ID, Kind, Title, Due, Why string
	Code                      int
	Done                      bool
}

// day is the entries of one date.
type day struct {
	Name    string
	Entries []entry
}

var peerTemplate = template.Must(template.New("page").Parse(`<h1>{{.Title}}</h1>
<p class="next">{{.Next}}</p>
{{range .Days}}<section><h2>{{.Name}}</h2>
<ol>
{{range .Entries}}<li class="item {{.Kind}}" id="{{.ID}}" tabindex="-1">
<form action="/tick" method="post"><input type="hidden" name="code" value="{{.Code}}">
<label><input type="checkbox" name="done" value="1" id="{{.ID}}-box"{{if .Done}} checked{{end}}><span class="title">{{.Title}}</span></label></form>
<p class="due">{{.Due}}</p>
{{if .Why}}<details id="{{.ID}}-more"><summary>Why</summary><p>{{.Why}}</p></details>{{end}}
</li>
{{end}}</ol>
</section>
{{end}}`))

// perDay is how many entries the peer puts under one heading.
const perDay = 10

func peerData(entries int) any {
	data := struct {
		Title, Next string
		Days        []day
	}{Title: "Schedule", Next: "Leave at 04:35"}
	for i := range entries {
		if i%perDay == 0 {
			data.Days = append(data.Days, day{Name: fmt.Sprintf("Day %d", i/perDay+1)})
		}
		e := entry{ID: fmt.Sprintf("entry-%d", i), Kind: "duty", Code: i, Done: i%3 == 0,
			Title: "Be at the hospital for going home", Due: "Thursday, 08:30"}
		if i%2 == 0 {
			e.Why = "Most leave by 10:00 & need somebody beside them."
		}
		last := &data.Days[len(data.Days)-1]
		last.Entries = append(last.Entries, e)
	}
	return data
}

// peerTimes measures the peer, in milliseconds per page.
func peerTimes(entries int) []float64 {
	data := peerData(entries)
	return timing.Rounds(perRound, func() int {
		var page bytes.Buffer
		if err := peerTemplate.Execute(&page, data); err != nil {
			panic(err) // the template and its data are both ours
		}
		return page.Len()
	})
}
