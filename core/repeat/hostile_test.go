package repeat

import (
	"fmt"
	"math/rand"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/wall"
)

// wild gives numbers as nobody means them, and some that they do.
func wild(rnd *rand.Rand) int {
	return []int{0, 1, 2, 5, 7, 12, 31, 32, 53, 99, 100, 366, 1000, 1001, 1830, 1831, -1, -5, -6, -31, -32, -128,
		1 << 20, 1 << 31, 1 << 40, -1 << 40, 1<<63 - 1, -1 << 63}[rnd.Intn(28)]
}

// wildRule is a rule in which anything stands that the types allow.
func wildRule(rnd *rand.Rand) Rule {
	r := Rule{
		First: wall.Date(rnd.Intn(40_000)), At: wall.Clock(rnd.Intn(1440)), Freq: Freq(rnd.Intn(4)), Every: 1,
		Days: Days(rnd.Intn(128)), Week: time.Weekday(rnd.Intn(7)),
	}
	for range rnd.Intn(3) {
		wildField(rnd, &r)
	}
	for range rnd.Intn(3) {
		r.MonthDays = append(r.MonthDays, int8(wild(rnd)))
	}
	for range rnd.Intn(3) {
		r.Nth = append(r.Nth, Nth{int8(wild(rnd)), time.Weekday(rnd.Intn(7))})
	}
	if rnd.Intn(4) == 0 {
		wildLists(rnd, &r)
	}
	return r
}

func wildField(rnd *rand.Rand, r *Rule) {
	switch n := wild(rnd); rnd.Intn(9) {
	case 0:
		r.First = wall.Date(n)
	case 1:
		r.At = wall.Clock(n)
	case 2:
		r.Freq = Freq(n)
	case 3, 4:
		r.Every = n
	case 5:
		r.Count = n
	case 6:
		r.Last = r.First + wall.Date(n)
	case 7:
		r.Days = Days(n)
	case 8:
		r.Week = time.Weekday(n)
	}
}

func wildLists(rnd *rand.Rand, r *Rule) {
	for range rnd.Intn(2 * MaxList) {
		r.Skipped = append(r.Skipped, r.First+wall.Date(wild(rnd)))
	}
	for range rnd.Intn(5) {
		r.Moved = append(r.Moved, Move{r.First + wall.Date(wild(rnd)), Moment{r.First + wall.Date(wild(rnd)), wall.Clock(wild(rnd))}})
		r.Extra = append(r.Extra, Moment{r.First + wall.Date(wild(rnd)), wall.Clock(wild(rnd))})
	}
}

// bounded holds a rule that passed Check against what this package promises of it.
func bounded(t *testing.T, r Rule, what string) {
	dates, _ := r.All()
	require.NotEmpty(t, dates, what)
	require.LessOrEqual(t, len(dates), MaxCount+MaxList, what)
	days, _ := r.Pattern()
	require.LessOrEqual(t, days[len(days)-1]-days[0], wall.Date(MaxSpan), what)
	require.Equal(t, r, r.Canonical(), what)
	require.Equal(t, r.First, days[0], what)
}

// Whatever a rule holds, Check and Canonical come to an end, and what passes Check is
// small: its dates are counted here, so that no clock is needed.
func TestWildRulesAreRefusedOrSmall(t *testing.T) {
	rnd := rand.New(rand.NewSource(11))
	passed, codes := 0, map[string]int{}
	for range 30_000 {
		r := wildRule(rnd)
		what := fmt.Sprintf("%+v", r)
		var mended Rule
		var faults [2]error
		soon(t, what, func() { mended, faults[0] = r.Canonical(), r.Check() })
		soon(t, what, func() { faults[1] = mended.Check() })
		for i, r := range []Rule{r, mended} {
			if faults[i] == nil {
				passed++
				bounded(t, r, what)
				continue
			}
			codes[faults[i].(Fault).Code]++
		}
	}
	require.Greater(t, passed, 3000)
	require.Greater(t, len(codes), 7, "%v", codes)
}

// wildText puts the words of the grammar together without sense.
func wildText(rnd *rand.Rand) string {
	names := append(strings.Fields(known), "FREQ", "FREQ", "COUNT", "INTERVAL", "BYDAY", "BYEASTER", "", "X")
	values := []string{"DAILY", "WEEKLY", "MONTHLY", "YEARLY", "HOURLY", "MO", "-1FR", "SU,2TU", "6SA", "20270401", "20270401T103000Z",
		"20280101T000000", "99999999", "", "=", ",", "é"}
	var parts []string
	if rnd.Intn(8) > 0 {
		parts = append(parts, "FREQ="+values[rnd.Intn(4)])
	}
	for range rnd.Intn(5) {
		value := values[rnd.Intn(len(values))]
		if rnd.Intn(2) == 0 {
			value = fmt.Sprint(wild(rnd))
		}
		parts = append(parts, names[rnd.Intn(len(names))]+"="+value)
	}
	return strings.Join(parts, ";")
}

func TestWildTextsAreRefusedOrSmall(t *testing.T) {
	rnd := rand.New(rand.NewSource(12))
	first, passed := Moment{day(t, "2027-03-01"), 10*60 + 30}, 0
	for range 30_000 {
		text := wildText(rnd)
		var r Rule
		var err error
		soon(t, text, func() { r, err = Parse(text, first, time.UTC) })
		if err == nil {
			passed++
			bounded(t, r, text)
			continue
		}
		require.IsType(t, Fault{}, err, text)
	}
	require.Greater(t, passed, 1000)
}
