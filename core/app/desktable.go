package app

import (
	"slices"
	"sync/atomic"

	"newel/core/desk"
	"newel/core/guide"
	"newel/core/plan"
	"newel/core/wall"
)

// lastRead is the table that was read last. A long one goes through many requests, one for each
// step and one for each act on the screen after it, and reading a thousand rows is most of their
// work. It changes nothing that comes out: the key is all that reading depends on.
var lastRead atomic.Pointer[readTable]

type readTable struct {
	key   tableKey
	table desk.Table // nobody changes it
}

// tableKey is what desk.Read looks at.
type tableKey struct {
	text, zone, language string
	clock12              bool
	given                plan.Facts
	today                wall.Date
}

// readTable reads a table by the settings.
func (s *session) readTable(settings *desk.Settings, text string) desk.Table {
	placed := s.placed(settings)
	key := tableKey{text, placed.Zone, s.voice.Language, s.voice.Clock12, placed.Given, s.voice.Today}
	if last := lastRead.Load(); last != nil && last.key == key {
		return last.table
	}
	t := desk.Read(text, placed, s.voice.Today, s.voices())
	lastRead.Store(&readTable{key, t})
	return t
}

// voices are the languages whose words a table may have, the desk's own first.
func (s *session) voices() []guide.Voice {
	all := []guide.Voice{s.voice}
	for _, tag := range guide.Languages {
		if tag != s.voice.Language {
			all = append(all, s.voiceIn(tag))
		}
	}
	return all
}

// The table of the patients that were put in one by one.

// withPatient adds a patient, in place of the one with the link old.
func (s *session) withPatient(settings *desk.Settings, rows string, p *desk.Patient, old string) string {
	all := slices.DeleteFunc(s.patients(settings, rows), func(q desk.Patient) bool { return old != "" && q.Link == old })
	return s.sheet(append(all, *p))
}

func (s *session) sheet(all []desk.Patient) string {
	if len(all) == 0 {
		return ""
	}
	return desk.Sheet(all, s.voice)
}

func (s *session) patients(settings *desk.Settings, rows string) []desk.Patient {
	var all []desk.Patient
	for _, r := range s.readRows(settings, rows).Rows {
		if r.Usable() {
			all = append(all, r.Patient)
		}
	}
	return all
}

func (s *session) readRows(settings *desk.Settings, rows string) desk.Table {
	if rows == "" {
		return desk.Table{}
	}
	return s.readTable(settings, rows)
}
