package app

import (
	"slices"

	"newel/core/desk"
	"newel/core/page"
	"newel/core/plan"
)

// What is put in for patients goes from form to form, and the page holds it for as long as it is
// open, so that another screen, the way back or another language loses none of forty rows. It is in
// no storage of the device (web/kept.ts). The names are those of the fields.
const (
	tabRows = "rows" // the table of patients that were put in one by one
	tabText = "text" // the table that was pasted
	tabMade = "made" // what came of its rows

	tabRowsFor = "rows-for" // the address of the settings that the first of the links in rows was made with
	tabMadeFor = "made-for" // and of those in made
)

var tabNames = []string{tabRows, tabText, tabMade, tabRowsFor, tabMadeFor}

// tab gives what was sent under a name, else what the tab has.
func (s *session) tab(name string) string {
	for _, f := range s.in.Fields {
		if f.Name == name {
			return s.lines(name)
		}
	}
	return plan.CleanLines(s.kept[keyTab+name])
}

// keepTab has the tab keep a text; an empty one is dropped.
func (s *session) keepTab(name, value string) {
	key := keyTab + name
	if value == "" {
		if !s.leftOut(key) { // what there was no room for was not seen
			s.drop(key)
		}
		return
	}
	if s.kept[key] == value {
		return
	}
	s.kept[key] = value
	s.out.Keep = append(s.out.Keep, Entry{key, value})
}

// clearTab forgets all that the desk carries, and gives it, so that it can be put back.
func (s *session) clearTab() []page.Hidden {
	var had []page.Hidden
	for _, name := range tabNames {
		if value := s.kept[keyTab+name]; value != "" {
			had = append(had, page.Hidden{Name: "cleared-" + name, Value: value})
		}
		s.drop(keyTab + name)
	}
	lastRead.Store(nil)
	return had
}

// putBackTab takes what was cleared back.
func (s *session) putBackTab() {
	for _, name := range tabNames {
		if value := s.lines("cleared-" + name); value != "" {
			s.keepTab(name, value)
		}
	}
}

// otherSettings tells whether links that the tab has were made with other settings than those
// that hold: they, and their cards, say another phone number and other rules. field is the one
// that has their table.
func (s *session) otherSettings() (field string, other bool) {
	for _, t := range []struct{ field, made, of string }{{tabText, tabMade, tabMadeFor}, {tabRows, tabRows, tabRowsFor}} {
		if of := s.kept[keyTab+t.of]; s.tab(t.made) != "" && of != "" && of != s.in.Fragment {
			return t.field, true
		}
	}
	return "", false
}

// keepMade has the tab keep a table and what came of it. Where a link of before is among them,
// they count as made with the settings of then.
func (s *session) keepMade(text string, made []desk.Done, fresh bool) {
	s.keepTab(tabText, text)
	s.keepTab(tabMade, desk.PackDone(made))
	old := slices.ContainsFunc(made, func(d desk.Done) bool { return d.State == desk.SameLink || d.State == desk.MovedLink })
	if of := s.kept[keyTab+tabMadeFor]; fresh && (of == "" || !old) {
		s.keepTab(tabMadeFor, s.in.Fragment)
	}
}
