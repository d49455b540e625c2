package page

import (
	"newel/core/picture"
	"newel/core/wall"
)

// FastClock is when to stop eating and drinking, as clock faces of twelve hours each, with the
// same in words.
type FastClock struct {
	Faces []FastFace
	Lines []FastLine
	There FastLine // the arrival
	Team  string   // whose times win
}

// FastFace is one face, and which twelve hours it shows.
type FastFace struct {
	Hours   string
	Picture picture.Clock
}

// FastLine is one stretch in words.
type FastLine struct {
	Pattern    picture.ArcPattern
	Mark       string
	When, Text string
}

// stretch is a part of the time before the arrival, in minutes on the wall.
type stretch struct {
	from, to int
	pattern  picture.ArcPattern
}

// The least that is shown before the first stop, and the hour with which the face begins
// where that is enough: the evening before as people speak of it.
const (
	leastBefore = 60
	eveningHour = 18 * 60
)

// fastClock draws the times of the Fasting; nil where none was worked out.
func (m *maker) fastClock(id string) *FastClock {
	f := &m.s.Fasting
	if f.TeamTimes || f.LiquidStop.IsZero() || f.FoodStop.IsZero() {
		return nil
	}
	there := onWall(m.s.Arrival)
	liquids := min(onWall(f.LiquidStop), there)
	food := min(onWall(f.FoodStop), there)
	if liquids < food { // a hospital's own rules, which a picture of three parts cannot show: the list does
		return nil
	}
	start := m.faceStart(food, there)
	c := &FastClock{There: FastLine{When: m.timeOn(m.p.Surgery-1, m.s.Arrival), Text: m.v.Say("dayrail.there")}, Team: m.v.Say("team-first")}
	faces := max((there-start+picture.Turn-1)/picture.Turn, 1)
	// The last stretch goes on behind the arrival: nobody may drink in the waiting room.
	end := start + faces*picture.Turn
	var all []stretch
	for _, s := range []stretch{{start, food, picture.Plain}, {food, liquids, picture.Dotted}, {liquids, end, picture.Closed}} {
		if s.from < s.to {
			all = append(all, s)
			c.Lines = append(c.Lines, m.fastLine(s.pattern, number(len(all)), food == liquids))
		}
	}
	for n := range faces {
		face := m.fastFace(id+"-"+number(n+1), start+n*picture.Turn, all)
		face.Picture.Name = m.v.Say("fastclock.name", arg("hours", face.Hours))
		c.Faces = append(c.Faces, face)
	}
	return c
}

// faceStart is the hour with which the first face begins: six in the evening before where the
// face then holds all, else the last full hour that still shows some time before the first stop.
func (m *maker) faceStart(first, there int) int {
	evening := int(m.p.Surgery-1)*24*60 + eveningHour
	if evening <= first-leastBefore && there <= evening+picture.Turn {
		return evening
	}
	return (first - leastBefore) / 60 * 60
}

// fastFace cuts the stretches to one face.
func (m *maker) fastFace(id string, start int, all []stretch) FastFace {
	end := start + picture.Turn
	face := FastFace{
		Hours:   m.v.Say("fastclock.hours", arg("from", m.faceTime(start)), arg("to", m.faceTime(end))),
		Picture: picture.Clock{ID: id, Start: start % picture.Turn, Post: -1, Now: -1},
	}
	for n, s := range all {
		if from, to := max(s.from, start), min(s.to, end); from < to {
			face.Picture.Arcs = append(face.Picture.Arcs, picture.Arc{From: from - start, To: to - start, Pattern: s.pattern, Mark: number(n + 1)})
		}
	}
	if there := onWall(m.s.Arrival); there > start && there <= end {
		face.Picture.Post = there - start
	}
	if now := onWall(m.Now); now >= start && now < end {
		face.Picture.Now = now - start
	}
	return face
}

// faceTime writes a day of the week and a full hour.
func (m *maker) faceTime(minutes int) string {
	date, hour := wall.Date(minutes/(24*60)), minutes/60%24
	return m.v.Say("day.time", arg("day", m.v.Weekday(date)), arg("time", hourOf(m.v, hour)))
}

// fastLine says a stretch. both: eating and drinking end at one time.
func (m *maker) fastLine(p picture.ArcPattern, mark string, both bool) FastLine {
	f := &m.s.Fasting
	eve := m.p.Surgery - 1
	food, liquids := m.timeOn(eve, f.FoodStop), m.timeOn(eve, f.LiquidStop)
	line := FastLine{Pattern: p, Mark: mark}
	switch p {
	case picture.Plain:
		line.When, line.Text = m.v.Say("label.until")+" "+food, m.v.Say("fastclock.light", arg("heavy", m.v.Time(f.HeavyStop)))
		if !f.HeavyStop.Before(f.FoodStop) {
			line.Text = m.v.Say("fastclock.light.no-heavy")
		}
	case picture.Dotted:
		line.When, line.Text = m.v.Say("span.days", arg("from", food), arg("to", liquids)), m.v.Say("fastclock.liquids")
	default:
		line.When, line.Text = m.v.Say("label.from")+" "+liquids, m.v.Say("fastclock.nothing")
		if both {
			line.Text = m.v.Say("fastclock.nothing.both")
		}
	}
	return line
}

// still takes the hand of now away: paper has none.
func (c *FastClock) still() {
	if c == nil {
		return
	}
	for i := range c.Faces {
		c.Faces[i].Picture.Now = -1
	}
}
