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
	keySeen  = "seen."  // + N: marks of the facts that this device has had, oldest first
	keyDemo  = "demo."  // + N: an example, not a real plan
	keyClock = "clock"  // 12 or 24
)

// planKey is a plan's number as it stands in the keys of the device.
func planKey(n uint32) string { return strconv.FormatUint(uint64(n), 16) }

// keep stores a text on the device, and lets the rest of this request see it.
func (s *session) keep(key, value string) {
	if s.in.Kept[key] == value {
		return
	}
	kept := map[string]string{key: value}
	for k, v := range s.in.Kept {
		if k != key {
			kept[k] = v
		}
	}
	s.in.Kept = kept
	s.out.Keep = append(s.out.Keep, Entry{key, value})
}

func (s *session) drop(key string) {
	if _, ok := s.in.Kept[key]; !ok {
		return
	}
	kept := map[string]string{}
	for k, v := range s.in.Kept {
		if k != key {
			kept[k] = v
		}
	}
	s.in.Kept = kept
	s.out.Drop = append(s.out.Drop, key)
}

// keepPlan makes p the plan as it stands on this device.
func (s *session) keepPlan(p plan.Plan) {
	s.keep(keyPlan+planKey(p.Number), link.Encode(p))
	if !s.hasSeen(p) {
		marks := append(strings.Fields(s.in.Kept[keySeen+planKey(p.Number)]), factsMark(p))
		s.keep(keySeen+planKey(p.Number), strings.Join(marks[max(0, len(marks)-seenMost):], " "))
	}
}

// seenMost bounds the marks that are kept of one plan.
const seenMost = 64

func (s *session) hasSeen(p plan.Plan) bool {
	return slices.Contains(strings.Fields(s.in.Kept[keySeen+planKey(p.Number)]), factsMark(p))
}

// factsMark tells two states of a plan's facts apart, ticks and edition aside: the
// end of a link is its checksum.
func factsMark(p plan.Plan) string {
	p.Ticked, p.Edition = nil, 0
	fragment := link.Encode(p)
	return fragment[len(fragment)-6:]
}

// kept gives a stored plan. A copy that cannot be read any more counts as none.
func (s *session) kept(prefix string, number uint32) (plan.Plan, bool) {
	fragment, ok := s.in.Kept[prefix+planKey(number)]
	if !ok {
		return plan.Plan{}, false
	}
	p, err := link.Decode(fragment)
	return p, err == nil && p.Number == number
}

func (s *session) isDemo(p plan.Plan) bool { return s.in.Kept[keyDemo+planKey(p.Number)] != "" }

// keptPlans lists the plans of this device, the nearest surgery first.
func (s *session) keptPlans() []page.KeptPlan {
	var plans []plan.Plan
	for key, fragment := range s.in.Kept {
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
	for _, prefix := range []string{keyPlan, keyRead, keyOther, keySeen, keyDemo} {
		s.drop(prefix + n)
	}
}

// forget removes a plan from the device. The next page can put it back.
func (s *session) forget() {
	n := s.field("number")
	fragment := s.in.Kept[keyPlan+n]
	_, err := link.Decode(fragment)
	s.dropPlan(n)
	if err == nil {
		s.notices = append(s.notices, page.Notice{
			ID: "forgotten", Text: s.voice.Say("front.forgotten"),
			Acts: []page.Act{{Path: "/put-back", Button: s.voice.Say("front.put-back"), Name: "plan", Value: fragment}},
		})
		s.out.Say, s.out.Focus = s.voice.Say("front.forgotten"), "notice-forgotten"
	}
	s.out.Fragment = ""
	s.front(page.Front{})
}

// putBack stores a plan again that was just removed.
func (s *session) putBack() {
	if p, err := link.Decode(s.field("plan")); err == nil {
		s.keepPlan(p)
		s.keep(keyRead+planKey(p.Number), link.Encode(p))
		s.out.Say, s.out.Focus = s.voice.Say("saved"), "kept-"+planKey(p.Number)
	}
	s.out.Fragment = ""
	s.front(page.Front{})
}
