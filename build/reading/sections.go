package reading

import (
	"strings"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// Section is a part of the guide that is read in one go: a chapter with everything in it, a
// group of signs, or the cautions.
type Section struct {
	Name    string // the chapter's id, the group's id, or "cautions"
	Signs   bool   // when to call, which has to be easier still
	Entries []Text // in the order of the guide
}

// Text is the words of one entry with its {names} filled in: a line each, and Running, where
// the points of a list run on in one sentence, as somebody would read them who does not see
// that they are points.
type Text struct{ ID, Text, Running string }

// Counts counts a section.
func (s *Section) Counts(language string) Counts {
	var c Counts
	for _, e := range s.Entries {
		c = c.Plus(Count(e.Text, language))
	}
	return c
}

// Running counts a section without taking the points of a list for sentences, which is the
// harder end of the range that CMS asks for.
func (s *Section) Running(language string) Counts {
	var c Counts
	for _, e := range s.Entries {
		c = c.Plus(Count(e.Running, language))
	}
	return c
}

// Sections lists every section of the guide in a language. Each step and duty comes with all
// of its wordings, and with the numbers of common practice.
func Sections(language string) []Section {
	r := reader{guide.Voice{Book: guide.Open(language)}}
	var all []Section
	for i := range guide.Chapters {
		all = append(all, r.chapter(&guide.Chapters[i]))
	}
	for _, group := range []string{"signs-emergency", "signs-office", "signs-say", "signs-clots"} {
		all = append(all, Section{Name: group, Signs: true, Entries: r.entries(group)})
	}
	return append(all, Section{Name: "cautions", Entries: r.words(
		"app.caution", "app.caution.more", "calendar.caution", "review.none", "stage.note", "long-drive", "very-long-drive")})
}

type reader struct{ v guide.Voice }

func (r reader) chapter(c *guide.Chapter) Section {
	s := Section{Name: c.ID, Entries: r.entries("chapter-" + c.ID)}
	var nobody plan.Plan
	for _, part := range c.Holds {
		switch part.Kind {
		case "list":
			for i := range schedule.Kinds {
				if schedule.Kinds[i].List == part.Name {
					s.Entries = append(s.Entries, r.entries(schedule.Kinds[i].ID)...)
				}
			}
		case "duty":
			s.Entries = append(s.Entries, r.entries(part.Name)...)
		case "stages":
			s.Entries = append(s.Entries, plain("stages", r.v.Durations(&nobody)))
		}
	}
	return s
}

// entries gives an entry and its variants.
func (r reader) entries(id string) []Text {
	var all []Text
	for _, whole := range r.v.EntryIDs() {
		if base, variant, _ := strings.Cut(whole, "."); base == id {
			e := r.v.Entry(id, variant, r.fills()...)
			all = append(all, Text{whole, lines(e, "\n"), lines(e, ", ")})
		}
	}
	return all
}

// fills are values of the kind that the page fills in.
func (r reader) fills() []guide.Arg {
	var nobody plan.Plan
	degrees := []guide.Arg{
		{Name: "degrees", Value: r.v.Say("unit.fahrenheit", guide.Number("n", 101))},
		{Name: "other", Value: r.v.Say("unit.celsius", guide.Number("n", 38))},
	}
	return append(r.v.Fills(&nobody, 1, 5),
		guide.Arg{Name: "number", Value: nobody.Program.Emergency()},
		guide.Arg{Name: "fever", Value: r.v.Say("signs.fever", degrees...)},
		guide.Arg{Name: "bowels", Value: r.v.Count("signs.bowels", 3)},
		guide.Arg{Name: "operation", Value: r.v.Operation(&nobody)},
		guide.Arg{Name: "day", Value: r.v.Day(wall.Date(20_000))},
		guide.Arg{Name: "leave", Value: r.v.Clock(10, 0)},
		guide.Arg{Name: "heavy", Value: r.v.Clock(21, 30)},
		guide.Arg{Name: "early", Value: r.v.Clock(5, 0)})
}

// lines puts what stands between them before the points of a list.
func lines(e guide.Entry, beforePoint string) string {
	text := e.Title
	for i, l := range e.How {
		if l.Point && i > 0 {
			text += beforePoint + l.Text
		} else {
			text += "\n" + l.Text
		}
	}
	return strings.Join([]string{text, e.Coach, e.Patient, e.Why}, "\n")
}

func plain(id, text string) Text { return Text{id, text, text} }

// words gives texts of the page that are sentences of their own; a key that a language
// lacks shows as itself, which the tests refuse.
func (r reader) words(keys ...string) []Text {
	var all []Text
	for _, key := range keys {
		all = append(all, plain(key, r.v.Say(key)))
	}
	return all
}
