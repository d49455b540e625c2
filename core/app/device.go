package app

import (
	"slices"
	"sort"
	"strconv"
	"strings"

	"newel/core/link"
	"newel/core/page"
	"newel/core/plan"
)

// What is stored on the device, and under which names. N is the plan's number in
// hexadecimal; a value is a link's fragment where nothing else is said.
const (
	keyPlan  = "plan."  // + N: the plan as it stands on this device
	keyRead  = "read."  // + N: the plan whose times the person has seen last
	keyOther = "other." // + N: a link that was opened but not taken over
	keySeen  = "seen."  // + N: marks of the links that were opened here, oldest first
	keyWas   = "was."   // + N: marks of the states that the plan had here, oldest first
	keyOwn   = "own."   // + N: 1 while facts were changed here and not sent yet
	keyDemo  = "demo."  // + N: 1 for an example that is no real plan
	keyClock = "clock"  // 12 or 24

	// + N + "." + whose: what calendar files made here hold, see core/calendar/memory.go
	keyCalendar = "calendar."
)

// marksMost bounds the marks that are kept under one name.
const marksMost = 64

// planKey is a plan's number as it stands in the keys of the device.
func planKey(n uint32) string { return strconv.FormatUint(uint64(n), 16) }

// keep stores a text on the device, and lets the rest of this request see it.
func (s *session) keep(key, value string) {
	if s.kept[key] == value {
		return
	}
	s.kept[key] = value
	s.out.Drop = slices.DeleteFunc(s.out.Drop, func(k string) bool { return k == key })
	s.out.Keep = append(s.out.Keep, Entry{key, value})
}

func (s *session) drop(key string) {
	if _, ok := s.kept[key]; !ok {
		return
	}
	delete(s.kept, key)
	s.out.Keep = slices.DeleteFunc(s.out.Keep, func(e Entry) bool { return e.Key == key })
	s.out.Drop = append(s.out.Drop, key)
}

// keepPlan makes p the plan as it stands on this device, and gives the plan to go on
// with. It is the only place that stores one: a plan whose link would not open again is
// not stored, the one before stays, and the page says why.
func (s *session) keepPlan(p plan.Plan) plan.Plan {
	fragment := link.Encode(p)
	if _, err := link.Decode(fragment); err != nil {
		if before, ok := s.stored(keyPlan, p.Number); ok {
			s.full = true
			return before
		}
	}
	s.keep(keyPlan+planKey(p.Number), fragment)
	s.addMark(keyWas+planKey(p.Number), fragment)
	return p
}

// mark tells two links apart: the end of a link is its checksum.
func mark(fragment string) string { return fragment[len(fragment)-6:] }

func (s *session) addMark(key, fragment string) {
	marks := strings.Fields(s.kept[key])
	if slices.Contains(marks, mark(fragment)) {
		return
	}
	marks = append(marks, mark(fragment))
	s.keep(key, strings.Join(marks[max(0, len(marks)-marksMost):], " "))
}

// had tells whether the address's very link has its mark under a name.
func (s *session) had(key string) bool {
	return slices.Contains(strings.Fields(s.kept[key]), mark(s.in.Fragment))
}

// stored gives a stored plan. A copy that cannot be read any more counts as none.
func (s *session) stored(prefix string, number uint32) (plan.Plan, bool) {
	fragment, ok := s.kept[prefix+planKey(number)]
	if !ok {
		return plan.Plan{}, false
	}
	p, err := link.Decode(fragment)
	return p, err == nil && p.Number == number
}

func (s *session) isDemo(p plan.Plan) bool { return s.kept[keyDemo+planKey(p.Number)] != "" }

// keptPlans lists the plans of this device, the nearest surgery first.
func (s *session) keptPlans() []page.KeptPlan {
	var plans []plan.Plan
	for key, fragment := range s.kept {
		if !strings.HasPrefix(key, keyPlan) {
			continue
		}
		if p, err := link.Decode(fragment); err == nil && key == keyPlan+planKey(p.Number) {
			plans = append(plans, p)
		}
	}
	sort.Slice(plans, func(i, j int) bool {
		if plans[i].Surgery != plans[j].Surgery {
			return plans[i].Surgery < plans[j].Surgery
		}
		return plans[i].Number < plans[j].Number
	})
	var shown []page.KeptPlan
	for _, p := range plans {
		shown = append(shown, page.KeptPlan{
			Fragment: link.Encode(p), Title: page.Title(s.voice.Book, &p), Day: s.voice.Day(p.Surgery), Number: planKey(p.Number),
		})
	}
	return shown
}

// dropPlan removes all that is stored of the plan with that key.
func (s *session) dropPlan(n string) {
	for _, prefix := range []string{keyPlan, keyRead, keyOther, keySeen, keyWas, keyOwn, keyDemo} {
		s.drop(prefix + n)
	}
	var files []string
	for key := range s.kept {
		if strings.HasPrefix(key, keyCalendar+n+".") {
			files = append(files, key)
		}
	}
	sort.Strings(files) // a map has no order, and the same request gives the same bytes
	for _, key := range files {
		s.drop(key)
	}
}

// forget removes a plan from the device. The next page can put it back.
func (s *session) forget() {
	n := s.field("number")
	fragment, name := s.kept[keyPlan+n], "plan"
	if s.kept[keyDemo+n] != "" {
		name = "demo"
	}
	_, err := link.Decode(fragment)
	s.dropPlan(n)
	if err == nil {
		s.notices = append(s.notices, page.Notice{
			ID: "forgotten", Text: s.voice.Say("front.forgotten"),
			Acts: []page.Act{{Path: "/put-back", Button: s.voice.Say("front.put-back"), Name: name, Value: fragment}},
		})
		s.out.Say, s.out.Focus = s.voice.Say("front.forgotten"), "notice-forgotten"
	}
	s.out.Fragment = ""
	s.front(page.Front{})
}

// putBack stores a plan again that was just removed.
func (s *session) putBack() {
	demo := s.field("demo")
	if p, err := link.Decode(s.field("plan") + demo); err == nil {
		if demo != "" {
			s.keep(keyDemo+planKey(p.Number), "1")
		}
		s.keepPlan(p)
		s.keep(keyRead+planKey(p.Number), link.Encode(p))
		s.out.Say, s.out.Focus = s.voice.Say("saved"), "kept-"+planKey(p.Number)
	}
	s.out.Fragment = ""
	s.front(page.Front{})
}
