package catalogue

import (
	"newel/core/app"
	"newel/core/guide"
	"newel/core/page"
)

// guideStates are the guide, its chapters with and without a plan, own lines and saying it back.
func guideStates(Vectors) []State {
	const group, lines = "The guide", "Own lines, and saying it back"
	on := func(path string, fields ...app.Field) func(*phone) {
		return func(p *phone) { p.of(family()).send(path, fields...) }
	}
	all := []State{
		{Group: group, Name: "guide", What: "The guide's chapters, before.", reach: on("/guide")},
		{Group: group, Name: "guide-in-recovery", What: "The guide's chapters, after.", reach: func(p *phone) { p.at(8, 9, 0).of(family()).send("/guide") }},
		{Group: group, Name: "guide-without-plan", What: "The guide without a plan.", reach: func(p *phone) { p.open("").send("/guide") }},
		{Group: group, Name: "sources", What: "Where the guide's sentences come from.", reach: on("/sources")},
		{Group: group, Name: "about", What: "What the page keeps, who can see it, what it is made of.", reach: on("/about")},
		{Group: group, Name: "about-without-plan", What: "The same without a plan.", reach: func(p *phone) { p.open("").send("/about") }},
	}
	for i := range guide.Chapters {
		id := guide.Chapters[i].ID
		all = append(all, State{Group: group, Name: "chapter-" + id, What: "The chapter " + id + ", with the plan's dates.", reach: on("/guide/" + id)})
	}
	all = append(all, State{Group: group, Name: "chapter-without-plan", What: "A chapter without a plan.",
		reach: func(p *phone) { p.open("").send("/guide/" + guide.Chapters[0].ID) }})
	return append(all,
		State{Group: lines, Name: "line-form", What: "A line of the family's own, to be changed.", reach: on("/line/2")},
		State{Group: lines, Name: "line-changed", What: "It was changed.", reach: func(p *phone) { p.of(family()).send("/line/2").press("/line/2", field("text", "Bring the small lamp")) }},
		State{Group: lines, Name: "line-taken-out", What: "It was taken out.", reach: func(p *phone) { p.of(family()).send("/line/2").press("/line/2/out") }},
		State{Group: lines, Name: "line-put-back", What: "Taking it out was undone.", reach: func(p *phone) { p.of(family()).send("/line/2").press("/line/2/out").press("/undo") }},
		State{Group: lines, Name: "line-in-guide", What: "A line's form that leads back to the guide.", reach: on("/line/2" + page.InGuide)},
		State{Group: lines, Name: "line-added", What: "A line was added to a list.", reach: on("/line/add", field("list", "pack"), field("text", "The blue cushion"))},
		State{Group: lines, Name: "line-problems", What: "A line was added with nothing in it.", reach: on("/line/add", field("list", "pack"), field("text", ""))},
		State{Group: lines, Name: "say-back", What: "Saying the plan back in one's own words.", reach: on("/say-back")},
		State{Group: lines, Name: "say-back-answered", What: "One answer was clear.", reach: func(p *phone) {
			p.of(family()).send("/say-back").press("/say-back", field("said", "clear"))
		}},
		State{Group: lines, Name: "say-back-at-the-desk", What: "What a helper's answers look like at the desk.", reach: func(p *phone) { p.open(page.SaidWord + "ccnc") }},
	)
}

// paperStates are the sheets that are printed.
func paperStates(Vectors) []State {
	const group = "Paper"
	on := func(d int, sheet string) func(*phone) {
		return func(p *phone) { p.at(d, 9, 0).of(family()).send("/print" + sheet) }
	}
	return []State{
		{Group: group, Name: "print", What: "Which sheet to print.", reach: on(-9, "")},
		{Group: group, Name: "print-nobody", What: "The same in a plan without helpers.", reach: func(p *phone) { p.of(starter()).send("/print") }},
		{Group: group, Name: "print-fridge", What: "The sheet for the refrigerator.", reach: on(-9, "/fridge")},
		{Group: group, Name: "print-fridge-later", What: "The same from another day on.", reach: func(p *phone) {
			p.of(family()).send("/print/fridge").press("/print/fridge", field("from", "2027-03-12"))
		}},
		{Group: group, Name: "print-helper", What: "Dana's own sheet.", reach: on(-9, "/helper.1")},
		{Group: group, Name: "print-helpers", What: "All helpers' sheets.", reach: on(-9, "/helpers")},
		{Group: group, Name: "print-cover", What: "The sheet of who does what.", reach: on(-9, "/cover")},
		{Group: group, Name: "print-pack", What: "The sheet for packing.", reach: on(-9, "/pack")},
		{Group: group, Name: "print-card", What: "The card for the wallet.", reach: on(-9, "/card")},
		{Group: group, Name: "print-card-large", What: "The same in large type.", reach: on(-9, "/card-large")},
		{Group: group, Name: "print-guide", What: "The whole guide.", reach: on(-9, "/guide")},
		{Group: group, Name: "print-fridge-recovery", What: "The refrigerator's sheet in recovery.", reach: on(3, "/fridge")},
	}
}
