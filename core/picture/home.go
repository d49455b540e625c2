package picture

// HomeTall is how high the drawing of the home is, in its units.
const HomeTall = 356

// HomePlace is where in the drawing of the home a post can stand.
type HomePlace uint8

// The places of the drawing. NoPlace is that of what belongs to no one place.
const (
	NoPlace HomePlace = iota
	Sill
	Rug
	FreeWay
	Cord
	StairsFoot
	StairsRail
	Chair
	Pet
	Shelf
	Bed
	NightLight
	Tub
	Shower
	GrabBar
	homePlaceEnd
)

// HomePlaces is how many places there are, NoPlace among them.
const HomePlaces = int(homePlaceEnd)

// homeAt is the middle of each place's knob; its post stands PostFoot below.
var homeAt = [HomePlaces]struct{ x, y int }{
	Sill: {28, 158}, Rug: {82, 158}, FreeWay: {132, 158}, Cord: {180, 158},
	StairsFoot: {233, 174}, StairsRail: {269, 147},
	Chair: {101, 272}, Pet: {141, 290},
	Shelf: {220, 280},
	Bed:   {104, 62}, NightLight: {140, 62},
	Tub: {190, 62}, GrabBar: {228, 48}, Shower: {262, 72},
}

// Knob is the radius of a post's knob and PostFoot how far below its middle the post stands.
const (
	Knob     = 12
	PostFoot = 28
)

// Home is the drawing of one floor of a home: its rooms from above, what stands in them from
// the side. What has no post and is not in every home is not drawn.
type Home struct {
	Name  string // of the picture, for who does not see it
	Posts []HomePost
	Rooms HomeRooms
}

// HomeRooms is what each room is called.
type HomeRooms struct{ Bedroom, Bathroom, Ways, Sitting, Kitchen string }

// HomePost is a numbered post at a place, filled where what is to be done there is done.
type HomePost struct {
	Place  HomePlace
	Number int
	Done   bool
}

// At is the middle of the post's knob, in units from the start and the top of the drawing.
func (p HomePost) At() (x, y int) { return homeAt[p.Place].x, homeAt[p.Place].y }

func (p HomePost) x() int { return homeAt[p.Place].x }
func (p HomePost) y() int { return homeAt[p.Place].y }

// has tells whether a post stands at one of the places.
func (h *Home) has(places ...HomePlace) bool {
	for _, post := range h.Posts {
		for _, place := range places {
			if post.Place == place {
				return true
			}
		}
	}
	return false
}

// homeLabel is a line of a room's name, around a middle.
type homeLabel struct {
	x, y int
	text string
}

// homeLine is how far apart the lines of a room's name are.
const homeLine = 17

// labels are the names of the rooms, broken to the width of each.
func (h *Home) labels() []homeLabel {
	var all []homeLabel
	add := func(name string, from, to, y int, up bool) {
		lines := Wrapped(name, Letter, float64(to-from))
		for i, line := range lines {
			at := y + i*homeLine
			if up { // the last line stands at y
				at = y - (len(lines)-1-i)*homeLine
			}
			all = append(all, homeLabel{(from + to) / 2, at, line})
		}
	}
	ways := 280
	if h.has(StairsFoot, StairsRail) {
		ways = 212
	}
	add(h.Rooms.Bedroom, 10, 154, 24, false)
	add(h.Rooms.Bathroom, 166, 278, 24, false)
	add(h.Rooms.Ways, 10, ways, 210, true)
	add(h.Rooms.Sitting, 10, 154, 242, false)
	add(h.Rooms.Kitchen, 166, 278, 242, false)
	return all
}
