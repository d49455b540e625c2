package families

import (
	"strings"
	"time"

	"newel/core/merge"
	"newel/core/plan"
	"newel/core/repeat"
	"newel/core/wall"
)

// fieldNames are the fields as a web developer would call them.
var fieldNames = map[merge.Field]string{
	merge.Surgery: "surgery", merge.Arrival: "arrival", merge.Zone: "zone", merge.Joint: "joint", merge.Operation: "operation",
	merge.Stay: "stay", merge.Drive: "drive", merge.Parking: "parking", merge.Patient: "patient", merge.Fact: "facts",
	merge.Program: "program", merge.Hospital: "hospital", merge.Address: "address", merge.Phone: "phone", merge.Setting: "rules",
	merge.Cover: "cover", merge.Helper: "helpers", merge.Tick: "ticked", merge.Hand: "devices", merge.Moves: "revision",
	merge.Alive: "alive", merge.Gone: "gone", merge.Kind: "kind", merge.Title: "title", merge.Place: "place", merge.Note: "note",
	merge.Source: "source", merge.Length: "length", merge.Own: "own", merge.Way: "drive", merge.Walk: "parking", merge.Early: "early",
	merge.Leaves: "leaves", merge.Pattern: "repeats", merge.Date: "dates", merge.Extra: "extra", merge.Who: "who", merge.On: "on",
	merge.Takes: "takes",
}

// registerName is the path of a register's value, such as duties.3.takes.2027-03-26.
func registerName(k merge.Key) string {
	name := fieldNames[k.Field]
	if name == "" {
		panic("families: no name for the register " + k.String())
	}
	var parts []string
	if k.Of != 0 {
		parts = append(parts, "duties", number(k.Of))
	}
	parts = append(parts, name)
	if sub := subName(k); sub != "" {
		parts = append(parts, sub)
	}
	return strings.Join(parts, ".")
}

func subName(k merge.Key) string {
	switch k.Field {
	case merge.Fact:
		for _, f := range plan.FactKeys {
			if f.Fact == 1<<k.Sub {
				return f.Key
			}
		}
		return "answered"
	case merge.Setting:
		return plan.Rules[k.Sub].Key
	case merge.Cover:
		return plan.BuiltIn[k.Sub]
	case merge.Helper:
		return k.Name
	case merge.Tick:
		return tickName(plan.Tick{Code: uint16(k.Sub >> 8), N: uint8(k.Sub)})
	case merge.Hand, merge.Moves:
		return number(k.Sub)
	case merge.On:
		return weekday(time.Weekday(k.Sub))
	case merge.Date, merge.Takes:
		return wall.Date(k.Sub).String()
	case merge.Extra:
		return moment(repeat.Moment{Day: wall.Date(k.Sub >> 11), At: wall.Clock(k.Sub & (1<<11 - 1))})
	}
	return ""
}
