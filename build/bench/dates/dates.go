// Package dates is the piece of work that the benchmark of repeating rules times: all
// dates of the rules in rules.txt, each placed in its zone. The peers are handed the
// same rules as text.
package dates

import (
	_ "embed"
	"errors"
	"strings"
	"time"

	"newel/core/repeat"
	"newel/core/wall"
	"newel/core/zone"
)

// Zone is the zone of all rules.
const Zone = "America/New_York"

//go:embed rules.txt
var table string

// Line is one rule as the peers are handed it. Times are on the wall, written like
// 2027-02-01T10:30:00.
type Line struct {
	Rule    string   `json:"rule"`
	Start   string   `json:"start"`
	Skipped []string `json:"skipped"`
}

// Lines reads the table.
func Lines() []Line {
	var lines []Line
	for row := range strings.Lines(table) {
		start, rest, ok := strings.Cut(strings.TrimSpace(row), " | ")
		rule, skipped, whole := strings.Cut(rest, " |")
		if strings.HasPrefix(row, "#") {
			continue
		}
		if !ok || !whole {
			panic("build/bench/dates/rules.txt: not a rule: " + row)
		}
		line := Line{Rule: rule, Start: start + ":00", Skipped: []string{}}
		for _, s := range strings.Fields(skipped) {
			line.Skipped = append(line.Skipped, s+":00")
		}
		lines = append(lines, line)
	}
	return lines
}

// Rules gives the lines as our rules.
func Rules(lines []Line) ([]repeat.Rule, *time.Location, error) {
	loc, err := zone.Load(Zone)
	if err != nil {
		return nil, nil, err
	}
	var rules []repeat.Rule
	for _, line := range lines {
		first, errFirst := moment(line.Start)
		rule, err := repeat.Parse(line.Rule, first, loc)
		if err := errors.Join(errFirst, err); err != nil {
			return nil, nil, err
		}
		for _, s := range line.Skipped {
			skipped, err := moment(s)
			if err != nil {
				return nil, nil, err
			}
			rule.Skipped = append(rule.Skipped, skipped.Day)
		}
		if err := rule.Check(); err != nil {
			return nil, nil, err
		}
		rules = append(rules, rule)
	}
	return rules, loc, nil
}

func moment(iso string) (repeat.Moment, error) {
	t, err := time.Parse("2006-01-02T15:04:05", iso)
	return repeat.Moment{Day: wall.DateOf(t), At: wall.Clock(t.Hour()*60 + t.Minute())}, err
}

// List lists all dates of the rules and places them in a zone. It gives their number
// and the sum of their seconds since 1970, which must be the same whoever lists them.
func List(rules []repeat.Rule, loc *time.Location) (dates int, sum int64) {
	for i := range rules {
		all, _ := rules[i].All()
		for _, date := range all {
			placed, _ := date.Place(loc)
			sum += placed.Unix()
		}
		dates += len(all)
	}
	return dates, sum
}
