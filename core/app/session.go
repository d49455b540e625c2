package app

import (
	"maps"
	"strconv"
	"time"

	"newel/core/guide"
	"newel/core/link"
	"newel/core/merge"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/split"
	"newel/core/wall"
	"newel/core/zone"
)

// refreshSeconds is how often a page that shows "now" is made anew.
const refreshSeconds = 60

// session is the state of one request.
type session struct {
	rooms    *rooms // what this core can answer
	in       Request
	out      Response
	kept     map[string]string // the device's storage, as this request leaves it
	voice    guide.Voice
	now      time.Time
	device   *time.Location // nil where the device's zone is not known
	notices  []page.Notice
	movedSay string // what moved, in a sentence for screen readers
	asked    bool   // the person asked for the form of a plan itself
	full     bool   // what was changed does not fit into a link any more
	isPart   bool   // the link is one helper’s part, and nothing in it can be changed

	doc   *merge.Doc            // the plan of this request; nil where there is none
	base  *merge.Doc            // the plan of the fragment: what the screen showed that the request comes from
	known map[string]*merge.Doc // by fragment: what was read or written in this request already
	spelt map[*merge.Doc]string // its fragment
	acted act                   // the last one that was tried
}

func newSession(r Request) *session {
	s := &session{in: r, now: time.Unix(r.Now, 0).UTC(), kept: maps.Clone(r.Kept)}
	if s.kept == nil {
		s.kept = map[string]string{}
	}
	if loc, err := zone.Load(r.Zone); err == nil {
		s.device = loc
		s.now = s.now.In(loc)
	}
	s.voice = guide.Voice{Book: guide.Open(s.language()), Clock12: r.Clock12, Today: wall.DateOf(s.now)}
	switch s.kept[keyClock] {
	case "12":
		s.voice.Clock12 = true
	case "24":
		s.voice.Clock12 = false
	}
	s.known, s.spelt = map[string]*merge.Doc{}, map[*merge.Doc]string{}
	s.out = Response{Fragment: r.Fragment, Path: "/"}
	return s
}

func arg(name, value string) guide.Arg { return guide.Arg{Name: name, Value: value} }

// field gives the last value that was sent under a name, cleaned.
func (s *session) field(name string) string {
	value := ""
	for _, f := range s.in.Fields {
		if f.Name == name {
			value = plan.Clean(f.Value)
		}
	}
	return value
}

// lines gives a field of several lines, cleaned.
func (s *session) lines(name string) string {
	for _, f := range s.in.Fields {
		if f.Name == name {
			return plan.CleanLines(f.Value)
		}
	}
	return ""
}

// number gives a small whole number that was sent, or 0.
func (s *session) number(name string) int {
	n, err := strconv.ParseUint(s.field(name), 10, 16)
	if err != nil {
		return 0
	}
	return int(n)
}

// decode reads a fragment, once in a request.
func (s *session) decode(fragment string) (*merge.Doc, error) {
	if d := s.known[fragment]; d != nil {
		return d, nil
	}
	d := recall(fragment)
	if d == nil {
		if !s.rooms.old && link.IsOld(fragment) {
			s.out.Elsewhere = true
			return nil, link.ErrDamaged
		}
		var err error
		if d, err = link.Decode(fragment); err != nil {
			return nil, err
		}
		remember(fragment, d)
	}
	s.known[fragment] = d
	if head, err := link.ReadHead(fragment); err == nil && head.Version != 0 {
		s.spelt[d] = fragment // a link that is not an older one is the only way of writing its plan
	}
	return d, nil
}

// encode writes a document as a fragment, once in a request: also where the same change was made
// twice, to see whether it fits and then to keep it.
func (s *session) encode(d *merge.Doc) string {
	if s.spelt[d] != "" {
		return s.spelt[d]
	}
	for other, fragment := range s.spelt {
		if other.Equal(d) {
			s.spelt[d] = fragment
			return fragment
		}
	}
	s.spelt[d] = link.Encode(d)
	return s.spelt[d]
}

// fragment is that of the plan as it stands now.
func (s *session) fragment() string {
	if s.doc == nil {
		return s.in.Fragment
	}
	return s.encode(s.doc)
}

// plan shows a plan's page.
func (s *session) plan(p plan.Plan) {
	sched, err := layOut(p)
	if err != nil {
		s.repair(p)
		return
	}
	fragment := s.fragment()
	ticked, _ := s.unsent(p)
	s.out.Fragment, s.out.Path = fragment, "/"
	s.out.Refresh = refreshSeconds
	s.out.Title = page.Title(s.voice.Book, &p) + " · " + s.voice.Say("app.name")
	in := page.Input{
		Schedule: sched, Voice: s.voice, Now: s.now, Device: s.device, Fragment: fragment,
		Demo: s.isDemo(p), Questions: page.Questions(s.people(), &p), Unsettled: s.doc.Questions(), Whose: s.whoseDevice(),
		Unsent: ticked, Me: s.myPlace(&p), Report: split.Look(sched, s.now), Open: s.in.Open,
	}
	in.Notices, in.Later = s.toKnow(p, in), s.later(p, in)
	s.out.HTML = page.Plan(page.NewView(in))
}

// toKnow gathers what to know before reading on, the most pressing first.
func (s *session) toKnow(p plan.Plan, in page.Input) []page.Notice {
	var all []page.Notice
	if s.full {
		all = append(all, page.Notice{ID: "full", Text: s.voice.Say("problem.duties-many")})
	}
	if s.doc.Newer() {
		all = append(all, page.Notice{ID: "newer", Text: s.voice.Say("link.newer.parts")})
	}
	if s.isEarlier(p) {
		all = append(all, page.Notice{
			ID: "earlier", Text: s.voice.Say("afresh.earlier"),
			Open: s.kept[keyPlan+s.kept[keyAfresh+planKey(p.Number)]], OpenTitle: s.voice.Say("afresh.open"),
		})
	}
	all = append(all, s.notices...)
	all = append(all, s.undoNotice("")...)
	all = append(all, s.waiting()...)
	if !s.pressing(p) {
		all = append(all, s.whoAreYou(p, in)...)
	}
	all = append(all, s.toSend(p)...)
	all = append(all, page.RangesNotice(s.voice, &p)...)
	return append(all, s.news(in)...)
}

// later gathers what can wait until what is next has been read: from the day before surgery on
// nothing of it may push the time to leave off the screen. Before that, whose device it is comes
// first: what to do tomorrow is one tap away then.
func (s *session) later(p plan.Plan, in page.Input) []page.Notice {
	all := s.toFill(p, in)
	if s.pressing(p) {
		all = append(s.whoAreYou(p, in), all...)
	}
	return all
}

// pressing tells whether the drive to the hospital is tomorrow, today, or just over.
func (s *session) pressing(p plan.Plan) bool {
	days := p.Surgery - s.voice.Today
	return days >= -1 && days <= 1
}

// repair shows the form for a plan that cannot be laid out here.
func (s *session) repair(p plan.Plan) { s.visit(s.rooms.repair, p, "", "") }

// front shows the page without a plan.
func (s *session) front(f page.Front) {
	f.Voice = s.voice
	kept, leftOut, damaged := s.keptPlans()
	f.Kept = kept
	if leftOut > 0 {
		s.notices = append(s.notices, page.Notice{ID: "left-out", Text: s.voice.Count("front.left-out", leftOut)})
	}
	if len(damaged) > 0 {
		s.notices = append(s.notices, page.Notice{
			ID: "damaged-here", Text: s.voice.Count("front.damaged", len(damaged)),
			Acts: []page.Act{{Path: "/forget", Button: s.voice.Say("front.forget"), Fields: []page.Hidden{{Name: "number", Value: damaged[0]}}}},
		})
	}
	f.Notices = s.notices
	s.out.Path = "/"
	s.out.Title = s.voice.Say("app.name")
	if f.Trouble != "" {
		s.out.Title = f.Trouble + " · " + s.out.Title
		s.out.Say = f.Trouble
	}
	s.out.HTML = page.FrontPage(f)
}

// stepTitle gives the title of the step with that tick, or nothing where the plan
// has no such step, or one that is kept up and not ticked.
func (s *session) stepTitle(p plan.Plan, t plan.Tick) string {
	sched, err := layOut(p)
	if err != nil {
		return ""
	}
	for i := range sched.Steps {
		st := &sched.Steps[i]
		if st.Line == nil && st.Tick() == t && st.Once() {
			return s.voice.Entry(st.ID, st.Variant, s.voice.Fills(&p, st.N, st.Of)...).Title
		}
	}
	return ""
}
