package peers

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/repeat"
)

// howMany random rules are compared, and with which seed.
const (
	howMany = 10_000
	seed    = 3
)

// judged is one rule with what every peer said.
type judged struct {
	rule repeat.Rule
	text string
	ours []string
	cut  bool
	said []string // by the peer's place in All: what is wrong with its answer, "" where nothing is
}

func judge(r repeat.Rule) *judged {
	j := &judged{rule: r, text: r.Recur(time.UTC), said: make([]string, len(All))}
	j.ours, j.cut = patternOf(r)
	return j
}

// The random rules go out as RFC 5545 text that other people's programs read: every one
// of the four must find exactly the dates that our own expander gives.
func TestRandomRulesHaveTheDatesThatOthersGiveThem(t *testing.T) {
	chance := seeded(seed)
	var rules []*judged
	kinds, refused := map[string]int{}, map[string]int{}
	for len(rules) < howMany {
		r := randomRule(chance)
		if err := r.Check(); err != nil {
			refused[err.(repeat.Fault).Code]++ // refused_test.go asks the others about those
			continue
		}
		count(kinds, r)
		rules = append(rules, judge(r))
	}
	require.Len(t, kinds, 12, "seed %d", seed)
	for kind, n := range kinds {
		require.Greater(t, n, howMany/100, "seed %d: hardly a rule is %s", seed, kind)
	}
	require.Less(t, len(refused), 3, "seed %d: %v", seed, refused)
	askAll(t, rules)
	for _, j := range rules {
		for i, name := range All {
			if j.said[i] != "" {
				t.Errorf("seed %d, %s: %s: %s", seed, name, describe(j.rule, j.text), j.said[i])
			}
		}
	}
}

// count marks what kind a rule is, so that none goes unlooked at.
func count(kinds map[string]int, r repeat.Rule) {
	mark := func(kind string, is bool) {
		if is {
			kinds[kind]++
		}
	}
	mark("daily", r.Freq == repeat.Daily)
	mark("weekly", r.Freq == repeat.Weekly)
	mark("monthly by the day of the month", len(r.MonthDays) > 0)
	mark("monthly by the weekday", len(r.Nth) > 0)
	mark("from the end of the month", slices.ContainsFunc(r.MonthDays, func(d int8) bool { return d < 0 }) ||
		slices.ContainsFunc(r.Nth, func(n repeat.Nth) bool { return n.N < 0 }))
	mark("weeks that begin on another day", r.Freq == repeat.Weekly && r.Week != time.Monday)
	mark("numbered and plain weekdays", mixed(r))
	mark("rarer than every 50", r.Every > 50)
	mark("without an end", r.Endless())
	mark("until a day", r.Last != 0)
	mark("more than 366 dates", r.Count > 366)
	mark("from a leap day", r.First.String()[5:] == "02-29")
}

func askAll(t *testing.T, rules []*judged) {
	var running []*Peer
	for _, name := range All {
		running = append(running, start(t, name))
	}
	together(running, func(i int, p *Peer) {
		for _, j := range rules {
			j.said[i] = compare(p, j)
		}
	})
}

// compare tells what is wrong with a peer's dates. A rule without an end goes on where
// ours is cut, beyond the year.
func compare(p *Peer, j *judged) string {
	text := j.text
	if mixed(j.rule) && (p.Name == RruleJS || p.Name == Dateutil) {
		text = spelledOut(j.rule).Recur(time.UTC) // exceptions_test.go says why
	}
	dates, err := p.Expand(text, iso(j.rule.First, j.rule.At), len(j.ours)+1)
	if err != nil {
		return err.Error()
	}
	if j.cut {
		if len(dates) <= len(j.ours) {
			return fmt.Sprintf("ends after %d dates", len(dates))
		}
		if next := dates[len(j.ours)]; next <= iso(j.rule.First+repeat.Year, 24*60-1) {
			return "has " + next + " within the year"
		}
		dates = dates[:len(j.ours)]
	}
	return unlike(dates, j.ours)
}

// unlike tells the first difference between a peer's dates and ours, or "".
func unlike(dates, ours []string) string {
	for i := range max(len(dates), len(ours)) {
		switch {
		case i >= len(ours):
			return fmt.Sprintf("goes on with %s", dates[i])
		case i >= len(dates):
			return fmt.Sprintf("ends after %d dates, ours has %d", i, len(ours))
		case dates[i] != ours[i]:
			return fmt.Sprintf("date %d is %s, ours is %s", i+1, dates[i], ours[i])
		}
	}
	return ""
}
