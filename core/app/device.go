package app

import (
	"errors"
	"slices"
	"sort"
	"strconv"
	"strings"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/wall"
)

// What is stored on the device, and under which names. N is the plan's number in
// hexadecimal; a value is a link's fragment where nothing else is said. What did not fit into
// a request comes with its key and no value (web/kept.ts).
const (
	keyPlan   = "plan."   // + N: the plan as it stands on this device
	keyRead   = "read."   // + N: the plan as the person knows it: what they read, and what they did themselves
	keyBefore = "before." // + N: the plan whose times the person has seen last, where facts were changed here since
	keyOther  = "other."  // + N: links that do not fit into the plan as it stands, a space between them
	keyHand   = "hand."   // + N: the number under which this device changes the plan, in decimal
	keyMe     = "me."     // + N: the first name of the helper whose device this is; empty: no helper's
	keyOwn    = "own."    // + N: what was changed here and not sent yet, see handed.go
	keyFill   = "fill."   // + N: what was last filled in, see splitfill.go
	keyUndo   = "undo."   // + N: what was taken out last, see undo.go
	keyDemo   = "demo."   // + N: 1 for an example that is no real plan
	keyAfresh = "afresh." // + N: the number, as in keys, of the plan that was started afresh from this one
	keySaid   = "said."   // + N: what was clear when it was said back, see sayback.go
	keyClock  = "clock"   // 12 or 24
	keyDesk   = "desk"    // the fragment of the desk with its settings, where somebody asked to keep them

	// + name: what the desk carries from screen to screen, see desktab.go. The page holds these, in no
	// storage (web/kept.ts).
	keyTab = "tab."

	keyLanguage = "language" // of the page, by its tag; without it the page speaks the device's

	// + N + "." + whose: what calendar files made here hold, see core/calendar/memory.go
	keyCalendar = "calendar."
)

// planKeys are the names under which something of a plan is stored. The last two are of
// earlier pages, which told copies apart by marks.
var planKeys = []string{keyPlan, keyRead, keyBefore, keyOther, keyHand, keyMe, keyOwn, keyFill, keyUndo, keyDemo, keyAfresh, keySaid, "seen.", "was."}

// planKey is a plan's number as it stands in the keys of the device.
func planKey(n uint32) string { return strconv.FormatUint(uint64(n), 16) }

// keep stores a text on the device, and lets the rest of this request see it. What did not
// come with the request stays as it is.
func (s *session) keep(key, value string) {
	if had, ok := s.kept[key]; ok && (had == value || s.leftOut(key)) {
		return
	}
	s.kept[key] = value
	s.out.Drop = slices.DeleteFunc(s.out.Drop, func(k string) bool { return k == key })
	s.out.Keep = append(s.out.Keep, Entry{key, value})
}

// leftOut tells whether there was no room for what is stored under a key. An empty name is
// a name: nobody's.
func (s *session) leftOut(key string) bool {
	value, ok := s.in.Kept[key]
	return ok && value == "" && !strings.HasPrefix(key, keyMe)
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
// given: the one before stays. So does a copy that cannot be read here.
func (s *session) keepDoc(d *merge.Doc) bool {
	if s.unreadable(d.Number) != nil || !s.holds(d) {
		return false
	}
	s.doc = d
	s.keep(keyPlan+planKey(d.Number), s.encode(d))
	return true
}

// holds tells whether a plan's link opens again, and whether its dates are few enough to
// be laid out. What is stored has been looked at before.
func (s *session) holds(d *merge.Doc) bool {
	fragment := s.encode(d) // "" for what merge.Doc.Check refuses
	if fragment == "" {
		return false
	}
	if s.kept[keyPlan+planKey(d.Number)] == fragment {
		return true
	}
	if !s.opens(fragment, d) {
		return false
	}
	p := planOf(d)
	return s.canLayOut(&p)
}

// opens tells whether the link that was just made of a plan opens again. The document itself is
// kept as what was read from it then.
func (s *session) opens(fragment string, d *merge.Doc) bool {
	if s.known[fragment] == nil && link.Opens(fragment, d) {
		s.known[fragment] = d
		remember(fragment, d)
	}
	_, err := s.decode(fragment)
	return err == nil
}

// canLayOut tells whether a plan has few enough helpers, duties and dates. Three hundred
// characters of a link can ask for more dates than a phone has memory for, so every plan
// that comes from outside goes through here before anything is made of it.
func (s *session) canLayOut(p *plan.Plan) bool {
	return !slices.ContainsFunc(plan.Check(p, s.voice.Today), func(problem plan.Problem) bool {
		return problem.Code == plan.DutiesMany || problem.Code == plan.HelpersMany
	})
}

// errLeftOut says that this device has a plan that did not come with the request.
var errLeftOut = errors.New("the device stores more than a request can hold, and left this plan out; plans that are over have to be removed")

// unreadable says why a plan's copy on this device cannot be read in this request, so that
// nothing may be stored in its place: link.ErrNewer where a later page wrote it, errLeftOut
// where there was no room for it. It is nil where there is none or it can be read, and where
// it is damaged.
func (s *session) unreadable(number uint32) error {
	fragment, ok := s.kept[keyPlan+planKey(number)]
	if !ok {
		return nil
	}
	if fragment == "" {
		return errLeftOut
	}
	if _, err := s.decode(fragment); errors.Is(err, link.ErrNewer) {
		return err
	}
	return nil
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

// ownCopy gives this device's copy of a plan. Where that is damaged or lost it gives the plan as the
// person knew it last, which is stored beside it; a plan that was removed has neither. What was changed since under this device's number nobody
// can tell then, so the number is not used again.
func (s *session) ownCopy(number uint32) (*merge.Doc, bool) {
	n := planKey(number)
	if d, ok := s.stored(keyPlan, number); ok || s.leftOut(keyPlan+n) {
		return d, ok
	}
	d, ok := s.stored(keyRead, number)
	if ok {
		s.drop(keyHand + n)
	}
	return d, ok
}

// isDamaged tells whether a plan's copy on this device cannot be read by any page.
func (s *session) isDamaged(n string) bool {
	fragment := s.kept[keyPlan+n]
	if fragment == "" || s.leftOut(keyPlan+n) {
		return false
	}
	d, err := s.decode(fragment)
	return err != nil && !errors.Is(err, link.ErrNewer) || err == nil && planKey(d.Number) != n
}

// isEarlier tells whether a plan was started afresh here, and the new one is here too.
func (s *session) isEarlier(p plan.Plan) bool {
	_, here := s.kept[keyPlan+s.kept[keyAfresh+planKey(p.Number)]]
	return here
}

func (s *session) isDemo(p plan.Plan) bool { return s.kept[keyDemo+planKey(p.Number)] != "" }

// keptPlans lists the plans of this device, the nearest surgery first. One that a later
// page wrote is listed by its head. leftOut counts those that did not come with the request;
// damaged are the keys of those that cannot be read any more, nor as the person knew them last.
func (s *session) keptPlans() (shown []page.KeptPlan, leftOut int, damaged []string) {
	type row struct {
		day  wall.Date
		plan page.KeptPlan
	}
	var rows []row
	for key, fragment := range s.kept {
		n, ok := strings.CutPrefix(key, keyPlan)
		if !ok {
			continue
		}
		d, err := s.decode(fragment)
		switch {
		case fragment == "":
			leftOut++
		case errors.Is(err, link.ErrNewer):
			head, _ := link.ReadHead(fragment)
			rows = append(rows, row{head.Surgery, s.newerPlan(n, head)})
		case err == nil && n == planKey(d.Number):
			p := planOf(d)
			rows = append(rows, row{p.Surgery, s.keptPlan(&p)})
		case s.isDamaged(n):
			if d, ok := s.lastKnown(n); ok {
				p := planOf(d)
				rows = append(rows, row{p.Surgery, s.keptPlan(&p)})
			} else if n == plan.Clean(n) { // else no form could name it
				damaged = append(damaged, n)
			}
		}
	}
	sort.Strings(damaged)
	sort.Slice(rows, func(i, j int) bool {
		if rows[i].day != rows[j].day {
			return rows[i].day < rows[j].day
		}
		return rows[i].plan.Number < rows[j].plan.Number
	})
	for _, r := range rows {
		shown = append(shown, r.plan)
	}
	return shown, leftOut, damaged
}

// lastKnown gives a plan as the person knew it last, by its key.
func (s *session) lastKnown(n string) (*merge.Doc, bool) {
	number, err := strconv.ParseUint(n, 16, 32)
	if err != nil || planKey(uint32(number)) != n {
		return nil, false
	}
	return s.stored(keyRead, uint32(number))
}

// soundCopy is the link of a plan by its key: the one that is stored, or, where that is damaged, the one of the plan as
// the person knew it last. A damaged one would open nothing, and could not be put back once it is removed.
func (s *session) soundCopy(n string) string {
	if s.isDamaged(n) {
		if d, ok := s.lastKnown(n); ok {
			return s.encode(d)
		}
	}
	return s.kept[keyPlan+n]
}

// calendarKeys are the keys of what was in the calendar files of a plan. They are in order, which a map has not: the
// same request gives the same bytes.
func (s *session) calendarKeys(n string) (keys []string) {
	for key := range s.kept {
		if strings.HasPrefix(key, keyCalendar+n+".") {
			keys = append(keys, key)
		}
	}
	sort.Strings(keys)
	return keys
}

// dropPlan removes all that is stored of the plan with that key.
func (s *session) dropPlan(n string) {
	for _, key := range s.calendarKeys(n) {
		s.drop(key)
	}
	// The plan goes last: should the page be closed half-way, it is still listed, and can be removed again.
	for i := len(planKeys) - 1; i >= 0; i-- {
		s.drop(planKeys[i] + n)
	}
}
