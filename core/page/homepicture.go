package page

import (
	"newel/core/guide"
	"newel/core/picture"
)

// homePlaces says where in the drawing of the home each step of its list is done. The rooms
// are the parts of the list in steps.txt.
var homePlaces = map[string]picture.HomePlace{
	"uneven-floors":   picture.Sill,
	"throw-rugs":      picture.Rug,
	"clear-paths":     picture.FreeWay,
	"cords":           picture.Cord,
	"stairs-tell":     picture.StairsFoot,
	"stairs-rails":    picture.StairsRail,
	"firm-chair":      picture.Chair,
	"pets-underfoot":  picture.Pet,
	"waist-height":    picture.Shelf,
	"mattress-height": picture.Bed,
	"night-light":     picture.NightLight,
	"mat-tub":         picture.Tub,
	"mat-shower":      picture.Shower,
	"grab-bars":       picture.GrabBar,
}

// HomePlace is where in the drawing of the home a step of steps.txt is done, NoPlace for what
// has no place in it.
func HomePlace(id string) picture.HomePlace { return homePlaces[id] }

// draw numbers the lines of the home's list that have a place, in their order, and draws the
// home with a post at each. Another list is left as it is.
func (l *List) draw(v guide.Voice) {
	if l.Name != "home" {
		return
	}
	h := &picture.Home{Name: v.Say("home.picture"), Rooms: picture.HomeRooms{
		Bedroom: v.Say("part.bedroom"), Bathroom: v.Say("part.bathroom"), Ways: v.Say("part.ways"),
		Sitting: v.Say("part.sitting"), Kitchen: v.Say("part.kitchen"),
	}}
	for g := range l.Groups {
		for i := range l.Groups[g].Rows {
			r := &l.Groups[g].Rows[i]
			if r.spot == picture.NoPlace {
				continue
			}
			r.Number = len(h.Posts) + 1
			h.Posts = append(h.Posts, picture.HomePost{Place: r.spot, Number: r.Number, Done: r.Tick != nil && r.Tick.Done})
		}
	}
	if len(h.Posts) > 0 {
		l.Home = h
	}
}
