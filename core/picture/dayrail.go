package picture

// Day is a day drawn to scale as one upright rail. Time runs down in elapsed minutes from the
// top of the drawing, so that a night of a clock change is as long as it is.
type Day struct {
	ID    string // of the element, and what its other ids begin with
	Name  string // what is heard of it
	Long  int    // minutes from its top to its bottom; at least one
	Hours []Hour
	Posts []Post
	Spans []Span
	Now   int // minutes; below 0: it is not to be seen
	Word  string
}

// Hour is a time of the scale at the left.
type Hour struct {
	At   int // minutes
	Text string
}

// Post is a thing that has one time.
type Post struct {
	At          int // minutes
	Duty        bool
	Time, Title string
}

// Span is a thing that lasts from some time to another, neither of which anybody can promise.
// Where the latest beginning is after the earliest end, nothing of it is certain.
type Span struct {
	Begins, Ends [2]int // the earliest and the latest, in minutes
	Open         bool   // nobody knows when it ends: it begins at Begins[0] and runs out of the drawing
	Second       bool   // beside the others: what is before or after it may overlap with it
	Title, When  string
}

// The measures of the drawing, in its units.
const (
	dayTop    = 14 // of the first minute
	hourHigh  = 44 // the most that an hour is high
	hourLow   = 12 // the least
	dayHigh   = 400
	laneWide  = 11
	lineHigh  = 18
	labelGap  = 7
	capHeight = 5 // from the middle of a small letter to the line that it stands on
)

// dayLayout is where everything stands.
type dayLayout struct {
	High        int
	Rail, Lane  int // the middle of the rail, the left edge of the first lane
	Text        int // where labels begin
	perHour     int
	Scale       []Hour // At is where its middle stands
	Ticks       []int
	Bars        []dayBar
	Posts       []dayKnob
	Labels      []dayLabel
	Filled, Now int // the end of what is past, and the marker; 0: none
}

// dayBar is a piece of a span. Sure: it is usual at that time.
type dayBar struct {
	X, Y, High int
	Sure, Open bool
}

type dayKnob struct {
	Y    int
	Duty bool
}

// dayLabel is the words of a post or a span, and the line that leads to them.
type dayLabel struct {
	FromX, FromY int
	Top, ToY     int
	Lines        []dayWords
}

// dayWords is one line of a label: what stands out, and what does not.
type dayWords struct {
	Y             int
	Strong, Plain string
}

// y is where a minute stands.
func (l *dayLayout) y(minute int) int { return dayTop + (minute*l.perHour+30)/60 }

// layout places everything. Nothing is random in it, and it is the same for the same day.
func (d *Day) layout() dayLayout {
	l := dayLayout{perHour: max(hourLow, min(hourHigh, dayHigh*60/max(1, d.Long)))}
	left := Width(d.Word, Letter) * 1.1
	for _, h := range d.Hours {
		left = max(left, Width(h.Text, Letter))
	}
	l.Rail = int(left) + 16
	l.Lane = l.Rail + 12
	l.Text = l.Lane + 2*laneWide + 17
	l.High = l.y(d.Long) + 10
	l.scale(d)
	for i := range d.Spans {
		l.Bars = append(l.Bars, l.bars(&d.Spans[i], d.Long)...)
	}
	for _, p := range d.Posts {
		l.Posts = append(l.Posts, dayKnob{l.y(p.At), p.Duty})
	}
	l.label(d)
	return l
}

// scale places the hours, without those that the marker of now would cover.
func (l *dayLayout) scale(d *Day) {
	if d.Now >= 0 && d.Now <= d.Long {
		l.Now = l.y(d.Now)
	}
	l.Filled = dayTop
	if d.Now > 0 {
		l.Filled = min(l.y(d.Now), l.y(d.Long))
	}
	for _, h := range d.Hours {
		at := l.y(h.At)
		l.Ticks = append(l.Ticks, at)
		if l.Now == 0 || at-l.Now >= lineHigh || l.Now-at >= lineHigh {
			l.Scale = append(l.Scale, Hour{at, h.Text})
		}
	}
}

// bars are the pieces of a span: when it may have begun, when it is usual, when it may still last.
func (l *dayLayout) bars(s *Span, long int) []dayBar {
	x := l.Lane
	if s.Second {
		x += laneWide + 3
	}
	piece := func(from, to int, sure, open bool) []dayBar {
		if from >= to {
			return nil
		}
		return []dayBar{{x, l.y(from), max(2, l.y(to)-l.y(from)), sure, open}}
	}
	if s.Open {
		return piece(s.Begins[0], long, false, true)
	}
	if s.Begins[1] >= s.Ends[0] {
		return piece(s.Begins[0], s.Ends[1], false, false)
	}
	all := piece(s.Begins[0], s.Begins[1], false, false)
	all = append(all, piece(s.Begins[1], s.Ends[0], true, false)...)
	return append(all, piece(s.Ends[0], s.Ends[1], false, false)...)
}

// middle is the minute at which the words of a span belong: that of what is usual of it.
func (s *Span) middle() int {
	switch {
	case s.Open:
		return s.Begins[0]
	case s.Begins[1] < s.Ends[0]:
		return (s.Begins[1] + s.Ends[0]) / 2
	}
	return (s.Begins[0] + s.Ends[1]) / 2
}
