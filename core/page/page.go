// Package page turns views into HTML.
//
// A view is a plain value made from a schedule and a voice (this file, rows.go,
// duties.go, days.go, next.go, lead.go, lists.go; guide.go,
// guidechapter.go, guidepart.go and guidegeneral.go for the guide; calls.go for what stands at the foot
// of every page; family.go and duty.go for what the
// family shares out; question.go, news.go and familynews.go for what others changed, in the
// words of said.go; form.go, dutyform.go and me.go; link.go and part.go for handing a plan
// over); a template (*.qtpl) prints it and decides nothing but where things stand. The same templates serve the page on the device
// and the static page that the build writes, which is readable before the core has
// loaded.
//
// The rules of the templates:
//   - every value is printed with {%s %} or {%d %}, which escape, and always inside
//     quoted attributes or element text: the escaping does not know its context;
//   - an address is never printed from text: "#" and an id of ours or a link, a Tel, or
//     what message.SMS wrote;
//   - what is tapped is a real link, button or field; what is an action is a form,
//     with the path in action and the rest in fields;
//   - an id is made from codes and numbers, never from what somebody typed.
package page

import (
	"strconv"
	"strings"
	"sync/atomic"
	"time"
	"unicode/utf8"

	"newel/core/guide"
	"newel/core/markup"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/split"
	"newel/core/wall"
)

// View is everything that the plan's page shows.
type View struct {
	Voice    guide.Voice
	Fragment string // of the plan, for links that must work in a new tab too
	From     string // the path of this page, where a box that is ticked leads back to it; empty: the plan's

	Title       string
	Day         string
	DayISO      string
	ToGo        string
	Arrival     string
	Over        bool   // all of it lies behind
	Place       string // the hospital and its address, as far as known
	Calls       Calls
	Demo        bool
	ReadOnly    bool     // for one helper
	Questions   []Notice // what was changed apart from each other: the most pressing
	MoreAsked   []Notice // the other questions, behind a fold
	Notices     []Notice
	Later       []Notice // what can wait until what is next has been read
	Whose       string   // whose device it is; empty: nobody has said
	Unsent      bool     // something was changed here that the others may not have
	EitherOr    bool
	OverdueOpen int  // how many of the overdue are open
	OverdueLast bool // they stand folded after today, not before it
	DailyNow    bool // the days after surgery have begun

	Next Next
	Part *MyPart // of the helper whose device it is

	PartFirst bool // it stands before Next
	Clots     *Clots
	Cover     Cover
	Loads     []LoadLine
	Family    []FamilyDuty
	Dropped   []FamilyDuty // taken out of the plan
	Overdue   []Row        // what should have been done, ticked or not, while any of it is open
	Past      []Day
	Days      []Day
	Near      int    // so many of Days stand open, the others behind a fold; 0: all do
	Far       string // what the fold says
	Folds     Folds  // which of the folds have their inside
	Daily     []Row  // kept up every day after surgery
	Lists     []List
}

// Tel is a telephone number as a link may hold it: a plus sign and digits. The
// zero value is no link.
type Tel struct{ Shown, Dial string }

// NewTel makes a number that can be tapped from a typed one. What no phone can dial
// (plan.Dial) is only shown.
func NewTel(typed string) Tel { return Tel{Shown: typed, Dial: plan.Dial(typed)} }

// Input is what a plan's page is made from.
type Input struct {
	Schedule  *schedule.Schedule
	Voice     guide.Voice
	Now       time.Time
	Device    *time.Location // the device's zone; nil where it is not known
	Fragment  string
	Demo      bool
	Questions []Notice
	Unsettled []merge.Question // what the questions are about
	Notices   []Notice
	Later     []Notice      // what can wait until what is next has been read
	Whose     string        // whose device it is
	Unsent    bool          // something was changed here that the others may not have
	Me        uint8         // 1 + the place of the helper whose device it is; 0: nobody's
	Report    *split.Report // of who does what; nil: it is worked out where it is needed
	Fills     bool          // one tap would give some date without somebody who can to somebody
	Open      []string      // the folds whose inside is wanted, see folds.go; nil: all
}

// questionsMost is how many questions are asked at once; the others can be unfolded.
const questionsMost = 4

// maker carries the input through the making of a view.
type maker struct {
	Input
	s       *schedule.Schedule
	p       *plan.Plan
	v       guide.Voice
	today   wall.Date
	folds   Folds
	fillFar func()                            // makes the days that are far, where they were left out of the view
	reads   bool                              // a page for one helper, on which nothing can be changed
	said    map[*schedule.Step]guide.Entry    // the words of a step, which stand in its day and its list
	found   map[*schedule.Duty]*split.Finding // what there is to say of a duty
}

// newMaker takes the plan's own clock for "today".
func newMaker(in Input) *maker {
	in.Now = in.Now.In(in.Schedule.Loc)
	in.Voice.Today = wall.DateOf(in.Now)
	return &maker{
		Input: in, s: in.Schedule, p: &in.Schedule.Plan, v: in.Voice, today: in.Voice.Today,
		said: map[*schedule.Step]guide.Entry{}, folds: Folds{in.Open},
	}
}

// NewView makes the view of a plan's page.
func NewView(in Input) View {
	m := newMaker(in)
	v := m.viewOfDay()
	v.Folds = m.folds
	most := min(len(in.Questions), questionsMost)
	v.Questions, v.MoreAsked = in.Questions[:most], in.Questions[most:]
	v.Whose, v.Unsent = in.Whose, in.Unsent
	v.Notices = append(append(v.Notices, m.behind()...), in.Notices...)
	v.Notices = append(v.Notices, m.clockNotices()...)
	v.Later = in.Later
	m.fillDays(&v)
	v.Family, v.Dropped = m.family(), m.dropped()
	v.Cover, v.Loads, v.Part = m.cover(), m.loads(m.report().Loads, nil, false), m.myPart()
	v.Lists, v.Clots = m.lists(), m.clotCard()
	if v.Over = Over(m.s, m.today); v.Over {
		v.Daily = nil
	}
	v.Next = m.next(&v)
	v.PartFirst = m.partFirst(&v)
	return v
}

// viewOfDay makes what every page of a plan says about the day itself.
func (m *maker) viewOfDay() View {
	return View{
		Voice: m.v, Fragment: m.Fragment, Demo: m.Demo,
		Title: Title(m.v.Book, m.p), Day: m.v.Day(m.p.Surgery), DayISO: m.p.Surgery.String(), ToGo: m.toGo(),
		Arrival: m.arrival(), Place: joined(m.p.Program.Hospital, m.p.Program.Address),
		Calls: m.calls(), EitherOr: m.p.Stay == plan.Undecided, DailyNow: m.recovered(),
	}
}

// Title names the plan: "Rosa: knee replacement".
func Title(b *guide.Book, p *plan.Plan) string {
	key := "title."
	switch p.Operation {
	case plan.Revision:
		key += "revision."
	case plan.BothSides:
		key += "both."
	}
	if p.Joint == plan.Hip {
		key += "hip"
	} else {
		key += "knee"
	}
	what := b.Say(key)
	if p.Patient == "" {
		_, first := utf8.DecodeRuneInString(what)
		return strings.ToUpper(what[:first]) + what[first:]
	}
	return b.Say("title.of", arg("name", p.Patient), arg("what", what))
}

func (m *maker) toGo() string {
	n := int(m.p.Surgery - m.today)
	switch {
	case n == 0:
		return m.v.Say("to-go.today")
	case n == 1:
		return m.v.Say("to-go.tomorrow")
	case n < 0:
		return m.v.Count("to-go.after", -n)
	}
	return m.v.Count("to-go", n)
}

// arrival is the head's line about it; once it has passed it would only look like
// another appointment.
func (m *maker) arrival() string {
	if m.arrived() {
		return ""
	}
	if m.s.Arrival.IsZero() {
		return m.v.Say("arrival.unknown")
	}
	if m.reads { // most helpers do not have to be there then
		return m.v.Say("part.arrival", arg("time", m.v.Time(m.s.Arrival)))
	}
	return m.v.Say("arrival.at", arg("time", m.v.Time(m.s.Arrival)))
}

// arrived tells whether the patient is at the hospital, or was.
func (m *maker) arrived() bool {
	if m.s.Arrival.IsZero() {
		return m.today > m.p.Surgery
	}
	return !m.Now.Before(m.s.Arrival)
}

// differs tells whether the device's clock shows another time than the hospital's
// at t. It is asked for each time anew: two zones may agree today and differ after
// the next clock change.
func (m *maker) differs(t time.Time) bool {
	if m.Device == nil || t.IsZero() {
		return false
	}
	_, here := t.In(m.s.Loc).Zone()
	_, there := t.In(m.Device).Zone()
	return here != there
}

// theirs is a time on the device's own clock, where that differs.
func (m *maker) theirs(t time.Time) string {
	if !m.differs(t) {
		return ""
	}
	there := t.In(m.Device)
	text := m.v.Time(there)
	if wall.DateOf(there) != wall.DateOf(t) {
		text = m.v.ShortDayTime(there)
	}
	return m.v.Say("zone.yours", arg("time", text))
}

// theirSpan is a range on the device's own clock, where that differs.
func (m *maker) theirSpan(s schedule.Span) string {
	if !m.differs(s.From) && !m.differs(s.To) || s.Single() {
		return m.theirs(s.From)
	}
	return m.v.Say("zone.yours", arg("time", m.v.Span(s.From.In(m.Device), s.To.In(m.Device))))
}

// joined puts a comma between two texts where there are two.
func joined(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + ", " + b
}

func number(n int) string { return strconv.Itoa(n) }

func arg(name, value string) guide.Arg { return guide.Arg{Name: name, Value: value} }

// Frame makes the static page in a language, around the files of the build.
func Frame(language string, a Assets) string {
	return frame(guide.Voice{Book: guide.Open(language)}, a)
}

// planTook is how many bytes the last page of a plan had. The next one is mostly the same plan's,
// after a tap, so that it takes about as many; what is in here changes no page.
var planTook atomic.Int64

// firstPlan is room enough for the page of most families.
const firstPlan = 1 << 18

// Plan makes the page of a plan.
func Plan(v View) string {
	var w markup.Writer
	if took := planTook.Load(); took == 0 {
		w.Room(firstPlan)
	} else {
		w.Room(int(took * 17 / 16))
	}
	streamplanPage(&w, &v)
	html := w.String()
	planTook.Store(int64(len(html)))
	return html
}

// FrontPage makes the page without a plan.
func FrontPage(f Front) string { return frontPage(&f) }
