package split

import (
	"sort"
	"strconv"

	"newel/core/plan"
	"newel/core/schedule"
)

// seriesOf names what a duty is a date of, within one schedule.
func seriesOf(s *schedule.Schedule, d *schedule.Duty) string {
	switch {
	case d.Family != nil:
		return strconv.Itoa(int(d.Family.ID))
	case overnight(s, d):
		return d.ID + " night"
	}
	return d.ID
}

// seriesRanks numbers the series of a view by what they say, so that the numbers that the
// family's duties have play no part.
func seriesRanks(v *view) map[string]int {
	content := map[string][]byte{}
	var names []string
	for i := range v.needs {
		d := v.duty(&v.needs[i])
		name := seriesOf(v.s, d)
		text, known := content[name]
		if !known {
			names = append(names, name)
			text = append([]byte(name), 0)
			if d.Family != nil {
				text = dutyText(d.Family)
			}
		}
		text = append(text, v.s.Plan.Helper(v.needs[i].who)...)
		content[name] = momentText(append(text, 0), d)
	}
	sort.SliceStable(names, func(i, j int) bool { // they stand in order of time; equal ones stay so
		return string(content[names[i]]) < string(content[names[j]])
	})
	ranks := make(map[string]int, len(names))
	for rank, name := range names {
		ranks[name] = rank
	}
	return ranks
}

// dutyText is what one of the family's duties says, without its rule, its number and who
// has it.
func dutyText(d *plan.Duty) []byte {
	text := append([]byte(d.Title), 0)
	text = append(append(text, d.Place...), 0)
	text = append(append(text, d.Note...), 0)
	r := &d.Ride
	for _, n := range [...]int{int(d.Kind), d.Length, r.Own, r.Drive, r.Parking, r.Early, yes(r.Leaves), int(d.Need), yes(d.Steady)} {
		text = append(strconv.AppendInt(text, int64(n), 10), ' ')
	}
	return text
}

func yes(b bool) int {
	if b {
		return 1
	}
	return 0
}

// momentText appends when a duty is: the same number of characters for each, so that texts
// are in the order of time.
func momentText(text []byte, d *schedule.Duty) []byte {
	at := 0
	if d.There.Known() {
		at = minuteOf(d.There.From)
	}
	text = padded(text, int(d.Day), 6)
	return padded(text, at, 9)
}

// itemKey is the key of an item of a series: by time, then by series, then by which date it
// is, since two can be moved to one time.
func itemKey(d *schedule.Duty, rank int) string {
	key := momentText(nil, d)
	key = padded(key, rank, 4)
	reg := registerOf(d)
	return string(padded(key, int(reg.of)+1, 6))
}

func padded(text []byte, n, width int) []byte {
	digits := strconv.Itoa(max(n, 0))
	for range width - len(digits) {
		text = append(text, '0')
	}
	return append(text, digits...)
}
