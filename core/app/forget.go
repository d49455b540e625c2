package app

import (
	"errors"
	"strings"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/page"
	"newel/core/plan"
)

// restored are the keys of a plan that come back with it, apart from the plan. Without its
// number this device would be a new one among the others, and without its name a nameless one.
var restored = []string{keyRead, keyBefore, keyOther, keyHand, keyMe, keyOwn, keyDemo, keyAfresh, keySaid}

// fieldOf is the name under which a form carries what is stored under a prefix.
func fieldOf(prefix string) string { return strings.TrimSuffix(prefix, ".") }

// forget removes a plan from the device. The next page can put it back.
func (s *session) forget() {
	n := s.field("number")
	fragment := s.soundCopy(n)
	back := []page.Hidden{{Name: "number", Value: n}, {Name: fieldOf(keyPlan), Value: fragment}}
	for _, prefix := range restored {
		if value, ok := s.kept[prefix+n]; ok && !(prefix == keyHand && s.isDamaged(n)) { // see ownCopy
			back = append(back, page.Hidden{Name: fieldOf(prefix), Value: value})
		}
	}
	back = append(back, s.calendars(n)...)
	_, err := s.decode(fragment)
	s.dropPlan(n)
	if err == nil || errors.Is(err, link.ErrNewer) {
		s.notices = append(s.notices, page.Notice{
			ID: "forgotten", Text: s.voice.Say("front.forgotten"),
			Acts: []page.Act{{Path: "/put-back", Button: s.voice.Say("front.put-back"), Fields: back}},
		})
		s.out.Say, s.out.Focus = s.voice.Say("front.forgotten"), "notice-forgotten"
	}
	s.out.Fragment = ""
	s.front(page.Front{})
}

// removedElsewhere says why a tab has turned to the start: another one has removed the plan that it stood
// on, and has the button to put it back; or everything (web/tabs.ts).
func (s *session) removedElsewhere() {
	why := ""
	switch s.field("elsewhere") {
	case "plan":
		why = s.voice.Say("front.elsewhere")
	case "all":
		why = s.voice.Say("front.elsewhere-all")
	default:
		return
	}
	s.notices = append(s.notices, page.Notice{ID: "elsewhere", Text: why})
	s.out.Say, s.out.Focus = why, "notice-elsewhere"
}

// mostCalendars bounds what a form carries of what was in calendar files, in bytes.
const mostCalendars = 128 << 10

// calendars are what was in the calendar files of a plan, each behind the end of its key and a line end. Without
// them nothing that is taken out later would be cancelled in a calendar that has it.
func (s *session) calendars(n string) (all []page.Hidden) {
	room := mostCalendars
	for _, key := range s.calendarKeys(n) {
		if memory := s.kept[key]; len(memory) <= room {
			all = append(all, page.Hidden{Name: fieldOf(keyCalendar), Value: strings.TrimPrefix(key, keyCalendar+n+".") + "\n" + memory})
			room -= len(memory)
		}
	}
	return all
}

// restoreCalendars brings those back that a form holds, where nothing stands.
func (s *session) restoreCalendars(n string) {
	for _, f := range s.in.Fields {
		rest, memory, ok := strings.Cut(strings.ReplaceAll(f.Value, "\r\n", "\n"), "\n")
		key := keyCalendar + n + "." + rest
		if f.Name != fieldOf(keyCalendar) || !ok || plan.Clean(rest) != rest || len(memory) > mostCalendars {
			continue
		}
		if _, have := s.kept[key]; !have {
			s.keep(key, memory)
		}
	}
}

// putBack stores a plan again that was just removed.
func (s *session) putBack() {
	if n := s.field("number"); s.isBack(n) {
		s.restoreCalendars(n)
		s.out.Say, s.out.Focus = s.voice.Say("saved"), "kept-"+n
	}
	s.doc, s.out.Fragment = nil, ""
	s.front(page.Front{})
}

// isBack stores what the form of a removed plan holds. What came of the plan meanwhile, by
// a link or in another tab, is joined with it.
func (s *session) isBack(n string) bool {
	fragment := s.field(fieldOf(keyPlan))
	back, err := s.decode(fragment)
	if _, here := s.kept[keyPlan+n]; errors.Is(err, link.ErrNewer) && !here && n != "" {
		s.keep(keyPlan+n, fragment)
		for _, prefix := range restored {
			s.restore(prefix, n)
		}
		return true
	}
	if err != nil || n != planKey(back.Number) || s.unreadable(back.Number) != nil {
		return false
	}
	if mine, have := s.stored(keyPlan, back.Number); have {
		s.join(mine, back)
	} else if !s.keepDoc(back) {
		return false
	}
	s.restoreAll(n, back)
	return true
}

// restoreAll brings back what was stored beside a plan.
func (s *session) restoreAll(n string, back *merge.Doc) {
	// What was read before the plan was removed goes before what was there since, so that
	// nothing unread is passed over.
	s.drop(keyRead + n)
	s.drop(keyBefore + n)
	for _, fragment := range strings.Fields(s.field(fieldOf(keyOther))) {
		if d, err := s.decode(fragment); err == nil && d.Number == s.doc.Number && !s.doc.Covers(d) {
			s.putAside(d)
		}
	}
	for _, prefix := range restored {
		a, ok := handOf(s.field(fieldOf(keyHand)))
		switch {
		case prefix == keyOther:
		case prefix == keyHand && (!ok || s.doc.Last(a) != back.Last(a)):
			// Somebody used the number since: the form was sent a second time.
		default:
			s.restore(prefix, n)
		}
	}
}

// restore brings back what is stored under one key, where nothing stands there.
func (s *session) restore(prefix, n string) {
	if _, have := s.kept[prefix+n]; !have && s.sent(fieldOf(prefix)) {
		value := s.field(fieldOf(prefix))
		if prefix == keySaid { // it has several lines
			value = s.lines(fieldOf(prefix))
		}
		s.keep(prefix+n, value)
	}
}
