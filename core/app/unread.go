package app

import (
	"slices"
	"strings"

	"newel/core/merge"
	"newel/core/page"
	"newel/core/plan"
)

// news lists what the others changed since the person last looked, and what moved because
// facts were changed here.
func (s *session) news(in page.Input) []page.Notice {
	now := in.Schedule
	number := now.Plan.Number
	read, ok := s.stored(keyRead, number)
	if !ok {
		s.haveRead()
		return nil
	}
	seen, ok := s.stored(keyBefore, number)
	if !ok {
		seen = read
	}
	if seen.Equal(s.doc) {
		return nil
	}
	times, err := layOut(planOf(seen))
	if err != nil {
		return nil // its zone is not known here; the form has said so
	}
	notice, ok := page.NewsNotice(page.News{People: s.people(), Read: read, Times: times, Now: now})
	if !ok {
		s.haveRead()
		return nil
	}
	if lost := page.LostText(in, times); lost != "" { // before all else: it is what somebody has to do something about
		notice.Text = lost + "\n" + notice.Text
	}
	s.movedSay = strings.ReplaceAll(notice.Text, "\n", " ")
	return []page.Notice{notice}
}

// people names who changed what.
func (s *session) people() page.People {
	me, known := s.keptHand(s.doc.Number)
	return page.People{Voice: s.voice, Doc: s.doc, Me: me, Known: known}
}

// markRead takes note that the person has read what is new. Where more has come in another tab than the screen
// shows that the button stands on, it is shown, and has not been read.
func (s *session) markRead(p plan.Plan) {
	if s.stale(p) {
		s.plan(p)
		s.out.Focus = "notice-moved"
		return
	}
	s.haveRead()
	s.plan(p)
	s.out.Focus, s.out.Say = "next", s.voice.Say("saved")
}

// haveRead makes the plan of this request the one that the person knows.
func (s *session) haveRead() {
	n := planKey(s.doc.Number)
	s.keep(keyRead+n, s.fragment())
	s.drop(keyBefore + n)
}

// haveDone adds what was just changed here to what the person knows: nobody has to be told
// what they did themselves. What the others changed and was not read stays to be read.
func (s *session) haveDone(before *merge.Doc) {
	read, ok := s.stored(keyRead, s.doc.Number)
	if !ok {
		s.haveRead()
		return
	}
	if !read.Equal(before) {
		read = knowing(read, before, s.doc)
	} else {
		read = s.doc
	}
	if s.holds(read) {
		s.keep(keyRead+planKey(read.Number), s.encode(read))
	}
}

// knowing gives what was read, with what is different between two states of the plan as
// it is in the later one. A duty that was not read about comes as a whole.
func knowing(read, before, after *merge.Doc) *merge.Doc {
	out := merge.NewDoc(read.Number)
	seen := map[merge.Actor]uint32{}
	set := func(k merge.Key, versions []merge.Version) {
		out.Set(k, versions)
		for _, v := range versions {
			seen[v.Actor] = max(seen[v.Actor], v.N)
		}
	}
	for _, k := range read.Keys() {
		set(k, read.Get(k))
	}
	for _, k := range bothKeys(before, after) {
		unread := k.Of != 0 && len(read.Get(merge.Key{Field: merge.Kind, Of: k.Of})) == 0
		if slices.Equal(before.Get(k), after.Get(k)) {
			continue
		}
		set(k, after.Get(k))
		for _, l := range after.Keys() {
			if unread && l.Of == k.Of {
				set(l, after.Get(l))
			}
		}
	}
	for _, s := range read.Seen() {
		seen[s.Actor] = max(seen[s.Actor], s.N)
	}
	for a, n := range seen {
		out.SetSeen(merge.Stamp{Actor: a, N: n})
	}
	return out
}

// bothKeys lists the registers of two documents; those of both come twice.
func bothKeys(a, b *merge.Doc) []merge.Key { return append(a.Keys(), b.Keys()...) }
