package app

import "newel/core/plan"

// What is put in for patients goes from form to form, and stays in the tab until it is closed, so
// that a reload, the way back or another language loses none of forty rows. It is never on the
// device. The names are those of the fields.
const (
	tabRows = "rows" // the table of patients that were put in one by one
	tabText = "text" // the table that was pasted
	tabMade = "made" // what came of its rows
)

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
		s.drop(key)
		return
	}
	if s.kept[key] == value {
		return
	}
	s.kept[key] = value
	s.out.Keep = append(s.out.Keep, Entry{key, value})
}

// clearTab forgets all that the desk carries.
func (s *session) clearTab() {
	for _, name := range []string{tabRows, tabText, tabMade} {
		s.drop(keyTab + name)
	}
}
