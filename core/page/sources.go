package page

import (
	"slices"

	"newel/core/guide"
	"newel/core/schedule"
)

// SourcesView is the page that says where the text comes from.
type SourcesView struct {
	Voice    guide.Voice
	Fragment string
	Calls    Calls
	Sources  []SourceLine
}

// SourceLine is a source with what leans on it.
type SourceLine struct {
	Practice string // that there is no published source
	Works    []guide.Citation
	For      string // what leans on it besides steps
	Steps    []string
}

// NewSourcesView makes the view of the page.
func NewSourcesView(v guide.Voice, c Calls) SourcesView {
	view := SourcesView{Voice: v, Fragment: c.Fragment, Calls: c}
	for _, source := range guide.Sources() {
		line := SourceLine{Works: source.Citations, For: usesOf(v, &source), Steps: stepsFrom(v, source.Key)}
		if len(line.Works) == 0 {
			line.Practice = v.Say("sources.practice")
		}
		view.Sources = append(view.Sources, line)
	}
	return view
}

// usesOf says what leans on a source besides steps.
func usesOf(v guide.Voice, source *guide.Source) string {
	said := ""
	for _, use := range source.For {
		if use != "steps" {
			said = joined(said, v.Say("sources.for."+use))
		}
	}
	return capital(said)
}

// stepsFrom are the titles of the steps that name a source in steps.txt.
func stepsFrom(v guide.Voice, key string) []string {
	var titles []string
	for i := range schedule.Kinds {
		if k := &schedule.Kinds[i]; slices.Contains(k.Source, key) {
			titles = append(titles, v.General(k).Title)
		}
	}
	return titles
}

// SourcesPage makes the page.
func SourcesPage(v SourcesView) string { return sourcesPage(&v) }
