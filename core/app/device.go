package app

import (
	"slices"
	"sort"
	"strconv"
	"strings"

	"newel/core/merge"
	"newel/core/page"
	"newel/core/plan"
)

// What is stored on the device, and under which names. N is the plan's number in
// hexadecimal; a value is a link's fragment where nothing else is said.
const (
	keyPlan   = "plan."   // + N: the plan as it stands on this device
	keyRead   = "read."   // + N: the plan as the person knows it: what they read, and what they did themselves
	keyBefore = "before." // + N: the plan whose times the person has seen last, where facts were changed here since
	keyOther  = "other."  // + N: a link that does not fit into the plan as it stands
	keyHand   = "hand."   // + N: the number under which this device changes the plan, in decimal
	keyMe     = "me."     // + N: the first name of the helper whose device this is; empty: no helper's
	keyOwn    = "own."    // + N: 1 while something was changed here and not sent yet
	keyDemo   = "demo."   // + N: 1 for an example that is no real plan
	keyAfresh = "afresh." // + N: the number, as in keys, of the plan that was started afresh from this one
	keyClock  = "clock"   // 12 or 24

	// + N + "." + whose: what calendar files made here hold, see core/calendar/memory.go
	keyCalendar = "calendar."
)

// planKeys are the names under which something of a plan is stored. The last two are of
// earlier pages, which told copies apart by marks.
var planKeys = []string{keyPlan, keyRead, keyBefore, keyOther, keyHand, keyMe, keyOwn, keyDemo, keyAfresh, "seen.", "was."}

// planKey is a plan's number as it stands in the keys of the device.
func planKey(n uint32) string { return strconv.FormatUint(uint64(n), 16) }

// keep stores a text on the device, and lets the rest of this request see it.
func (s *session) keep(key, value string) {
	if had, ok := s.kept[key]; ok && had == value {
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

// keepDoc makes d the plan of this request and of this device. It is the only place that
// stores one. A plan that is more than a link or a page can hold is not stored, and false
// given: the one before stays.
func (s *session) keepDoc(d *merge.Doc) bool {
	if !s.holds(d) {
		return false
	}
	s.doc = d
	s.keep(keyPlan+planKey(d.Number), s.encode(d))
	return true
}

// holds tells whether a plan's link opens again, and whether its dates are few enough to
// be laid out. What is stored has been looked at before.
func (s *session) holds(d *merge.Doc) bool {
	if d.Check() != nil {
		return false
	}
	fragment := s.encode(d)
	if s.kept[keyPlan+planKey(d.Number)] == fragment {
		return true
	}
	if _, err := s.decode(fragment); err != nil {
		return false
	}
	p := d.Plan()
	return !slices.ContainsFunc(plan.Check(&p, s.voice.Today), func(problem plan.Problem) bool {
		return problem.Code == plan.DutiesMany || problem.Code == plan.HelpersMany
	})
}

// stored gives a stored plan. A copy that cannot be read any more counts as none.
func (s *session) stored(prefix string, number uint32) (*merge.Doc, bool) {
	fragment, ok := s.kept[prefix+planKey(number)]
	if !ok {
		return nil, false
	}
	d, err := s.decode(fragment)
	if err != nil || d.Number != number {
		return nil, false
	}
	return d, true
}

// isEarlier tells whether a plan was started afresh here, and the new one is here too.
func (s *session) isEarlier(p plan.Plan) bool {
	return s.kept[keyPlan+s.kept[keyAfresh+planKey(p.Number)]] != ""
}

func (s *session) isDemo(p plan.Plan) bool { return s.kept[keyDemo+planKey(p.Number)] != "" }

// keptPlans lists the plans of this device, the nearest surgery first.
func (s *session) keptPlans() []page.KeptPlan {
	var plans []plan.Plan
	for key, fragment := range s.kept {
		if !strings.HasPrefix(key, keyPlan) {
			continue
		}
		if d, err := s.decode(fragment); err == nil && key == keyPlan+planKey(d.Number) {
			plans = append(plans, d.Plan())
		}
	}
	sort.Slice(plans, func(i, j int) bool {
		if plans[i].Surgery != plans[j].Surgery {
			return plans[i].Surgery < plans[j].Surgery
		}
		return plans[i].Number < plans[j].Number
	})
	var shown []page.KeptPlan
	for i := range plans {
		shown = append(shown, s.keptPlan(&plans[i]))
	}
	return shown
}

// dropPlan removes all that is stored of the plan with that key.
func (s *session) dropPlan(n string) {
	for _, prefix := range planKeys {
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

// restored are the keys of a plan that come back with it, apart from the plan. Without its
// number this device would be a new one among the others, and without its name a nameless one.
var restored = []string{keyHand, keyMe, keyDemo, keyAfresh}

// forget removes a plan from the device. The next page can put it back.
func (s *session) forget() {
	n := s.field("number")
	fragment := s.kept[keyPlan+n]
	back := []page.Hidden{{Name: "plan", Value: fragment}}
	for _, prefix := range restored {
		if value, ok := s.kept[prefix+n]; ok {
			back = append(back, page.Hidden{Name: strings.TrimSuffix(prefix, "."), Value: value})
		}
	}
	_, err := s.decode(fragment)
	s.dropPlan(n)
	if err == nil {
		s.notices = append(s.notices, page.Notice{
			ID: "forgotten", Text: s.voice.Say("front.forgotten"),
			Acts: []page.Act{{Path: "/put-back", Button: s.voice.Say("front.put-back"), Fields: back}},
		})
		s.out.Say, s.out.Focus = s.voice.Say("front.forgotten"), "notice-forgotten"
	}
	s.out.Fragment = ""
	s.front(page.Front{})
}

// putBack stores a plan again that was just removed.
func (s *session) putBack() {
	if d, err := s.decode(s.field("plan")); err == nil && s.keepDoc(d) {
		n := planKey(d.Number)
		for _, prefix := range restored {
			if name := strings.TrimSuffix(prefix, "."); s.sent(name) {
				s.keep(prefix+n, s.field(name))
			}
		}
		s.haveRead()
		s.out.Say, s.out.Focus = s.voice.Say("saved"), "kept-"+n
	}
	s.doc, s.out.Fragment = nil, ""
	s.front(page.Front{})
}
