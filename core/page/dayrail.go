package page

import (
	"strings"
	"time"

	"newel/core/guide"
	"newel/core/picture"
	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// DayRail is the day of surgery as a picture, with the words of what is only usual in it.
type DayRail struct {
	Picture picture.Day
	Usual   []Fact // each span in words, for where no list of the day's times follows
}

// dayBefore is how long before the first thing of the day, at the most, an end of eating or
// drinking is drawn; one that is longer before would leave the rail empty for hours.
const dayBefore = 3 * time.Hour

// openFor is how far a thing that nobody can end is drawn.
const openFor = 90 * time.Minute

// timed is a thing of the day before it has its place in a drawing.
type timed struct {
	at           time.Time
	duty         bool
	title, shown string
}

// dayRail draws the day of surgery; nil while the arrival is not known, and where there is
// nothing ahead in it anymore.
func (m *maker) dayRail(id string) *DayRail {
	if m.s.Arrival.IsZero() {
		return nil
	}
	posts := m.dayPosts()
	from, to := m.s.Arrival, m.s.Arrival
	for _, p := range posts {
		from, to = earliest(from, p.at), latest(to, p.at)
	}
	for _, s := range m.s.Stages {
		to = latest(to, s.Ends.To)
	}
	home := m.homeward()
	if home != nil {
		to = latest(to, home.There.From.Add(openFor))
	}
	from = from.Add(-time.Duration(from.Minute()) * time.Minute) // an hour on the wall
	d := &DayRail{Picture: picture.Day{
		ID: id, Name: m.v.Say("dayrail.name"), Long: minutesBetween(from, to) + 10, Now: -1, Word: m.v.Say("dayrail.now"),
	}}
	if now := minutesBetween(from, m.Now); !m.Now.Before(from) {
		d.Picture.Now = now
	}
	for _, p := range posts {
		d.Picture.Posts = append(d.Picture.Posts, picture.Post{At: minutesBetween(from, p.at), Duty: p.duty, Time: p.shown, Title: p.title})
	}
	m.stageSpans(d, from)
	if home != nil {
		m.homeSpan(d, from, home)
	}
	d.Picture.Hours = m.hoursOf(from, d.Picture.Long)
	return d
}

// dayPosts are what has one time: leaving home, being there, and the ends of eating and
// drinking where they are near enough.
func (m *maker) dayPosts() []timed {
	var posts []timed
	add := func(at time.Time, duty bool, title string) {
		posts = append(posts, timed{at, duty, title, m.timeOn(m.p.Surgery, at)})
	}
	first := m.s.Arrival
	for i := range m.s.Duties {
		if d := &m.s.Duties[i]; d.Family == nil && d.ID == plan.BuiltIn[0] && !d.Leave.IsZero() {
			first = d.Leave
			add(d.Leave, true, m.v.Say("dayrail.leave"))
		}
	}
	add(m.s.Arrival, true, m.v.Say("dayrail.there"))
	for i := range m.s.Steps {
		s := &m.s.Steps[i]
		if (s.ID == "food-stop" || s.ID == "liquid-stop") && s.Due == schedule.AtTime && !s.Until.Before(first.Add(-dayBefore)) {
			add(s.Until, false, m.words(s).Title)
		}
	}
	return posts
}

// stageSpans draws the parts of the hospital day.
func (m *maker) stageSpans(d *DayRail, from time.Time) {
	for n, s := range m.s.Stages {
		if !s.Ends.To.After(s.Begins.From) {
			continue
		}
		title := m.v.Say("dayrail." + s.ID)
		when := m.v.Say("dayrail.usually", arg("when", m.v.Span(s.Begins.From, s.Ends.To)))
		d.Picture.Spans = append(d.Picture.Spans, picture.Span{
			Begins: minutesOf(from, s.Begins), Ends: minutesOf(from, s.Ends), Second: n%2 == 1, Title: title, When: when,
		})
		d.Usual = append(d.Usual, Fact{Label: title, Value: when, Yours: m.theirSpan(schedule.Span{From: s.Begins.From, To: s.Ends.To})})
	}
}

// homeward is the drive home on the day of surgery, which nobody can end beforehand.
func (m *maker) homeward() *schedule.Duty {
	for i := range m.s.Duties {
		if d := &m.s.Duties[i]; d.Family == nil && d.Homeward && d.Open && d.There.Known() {
			return d
		}
	}
	return nil
}

func (m *maker) homeSpan(d *DayRail, from time.Time, home *schedule.Duty) {
	begin := minutesBetween(from, home.There.From)
	title := capital(m.v.Say("dayrail.home"))
	if branch := m.branch(home.Branch); branch != "" {
		title = branch + ": " + m.v.Say("dayrail.home")
	}
	when := m.v.Say("dayrail.from", arg("time", m.timeOn(m.p.Surgery, home.There.From)))
	d.Picture.Spans = append(d.Picture.Spans, picture.Span{Begins: [2]int{begin, begin}, Ends: [2]int{begin, begin}, Open: true, Second: true, Title: title, When: when})
	d.Usual = append(d.Usual, Fact{Label: title, Value: when, Yours: m.theirs(home.There.From)})
}

// hoursOf are the hours of a scale: every one where that is little, else every second or so.
func (m *maker) hoursOf(from time.Time, long int) []picture.Hour {
	step := 1
	for _, more := range []int{2, 3, 4, 6} {
		if long > step*5*60 {
			step = more
		}
	}
	var hours []picture.Hour
	for at := 0; at <= long; at += 15 { // zones are a multiple of a quarter of an hour apart
		t := from.Add(time.Duration(at) * time.Minute)
		if t.Minute() == 0 && t.Hour()%step == 0 {
			hours = append(hours, picture.Hour{At: at, Text: hourOf(m.v, t.Hour())})
		}
	}
	return hours
}

// hourOf writes a whole hour in as few letters as it can be read from.
func hourOf(v guide.Voice, hour int) string {
	switch {
	case v.Clock12 && hour%24 == 0:
		return v.Say("dayrail.midnight")
	case v.Clock12 && hour == 12:
		return v.Say("dayrail.noon")
	case v.Clock12:
		return strings.Replace(v.Clock(hour, 0), ":00", "", 1)
	}
	return v.Clock(hour, 0)
}

// still takes the marker of now away: paper has none.
func (d *DayRail) still() {
	if d != nil {
		d.Picture.Now = -1
	}
}

// addPictures puts the pictures of a day above its rows, as long as anything in them is ahead.
func (m *maker) addPictures(d *Day) {
	if m.reads || m.s.Arrival.IsZero() {
		return
	}
	switch d.date {
	case m.p.Surgery:
		if rail := m.dayRail("day-rail"); rail != nil && (d.Today || m.today < d.date || minutesBetween(m.s.Arrival, m.Now) < rail.Picture.Long) {
			d.Rail = rail
		}
	case m.p.Surgery - 1:
		if m.Now.Before(m.s.Arrival) {
			d.Fast = m.fastClock("fast")
		}
	}
}

func minutesBetween(from, to time.Time) int { return int(to.Sub(from) / time.Minute) }

func minutesOf(from time.Time, s schedule.Span) [2]int {
	return [2]int{minutesBetween(from, s.From), minutesBetween(from, s.To)}
}

func earliest(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

func latest(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// onWall is where an instant stands on the calendar and the clock of its zone, in minutes: on
// a clock face the hour that a clock change repeats is one hour.
func onWall(t time.Time) int { return int(wall.DateOf(t))*24*60 + t.Hour()*60 + t.Minute() }
