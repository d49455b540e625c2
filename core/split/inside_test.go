package split

import (
	"math/rand"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/assign"
	"newel/core/plan"
)

// The parts that a proposal is made of, each against the plainest way to say what it is.

// Of any takes in order of their beginning, the two of different needs that end last: the one that is not of a
// need ends as late as any other that is not.
func TestTheLatestOfAnotherNeed(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	for range 2000 {
		var all []taken
		for from := range 2 + r.Intn(7) {
			all = append(all, taken{Take: assign.Take{From: from, To: from + 1 + r.Intn(6)}, need: r.Intn(3)})
		}
		last := latest{-1, -1}
		for i := range all {
			for need := range 3 {
				end := -1
				for _, before := range all[:i] {
					if before.need != need {
						end = max(end, before.To)
					}
				}
				got := last.not(all, need)
				if end < 0 {
					require.Negative(t, got)
					continue
				}
				require.GreaterOrEqual(t, got, 0)
				require.NotEqual(t, need, all[got].need)
				require.Equal(t, end, all[got].To)
			}
			last.add(all, i)
		}
	}
}

// Two items are in one cluster just where a chain of items leads from one to the other, each of which overlaps the
// next from its first minute to its last.
func TestClustersAreChains(t *testing.T) {
	r := rand.New(rand.NewSource(6))
	for range 500 {
		o := &outcome{programme: &programme{}}
		n := 1 + r.Intn(8)
		for range n {
			var it assign.Item
			for range r.Intn(3) {
				from := r.Intn(40)
				it.Takes = append(it.Takes, assign.Take{From: from, To: from + 1 + r.Intn(5)})
			}
			o.Items = append(o.Items, it)
		}
		chained := make([][]bool, n)
		for a := range n {
			chained[a] = make([]bool, n)
			for b := range n {
				from, to, ok := ends(o.Items[a].Takes)
				otherFrom, otherTo, also := ends(o.Items[b].Takes)
				chained[a][b] = a == b || ok && also && from < otherTo && otherFrom < to
			}
		}
		for k := range n {
			for a := range n {
				for b := range n {
					chained[a][b] = chained[a][b] || chained[a][k] && chained[k][b]
				}
			}
		}
		clusters := o.clusters()
		for a := range n {
			for b := range n {
				require.Equal(t, chained[a][b], clusters[a] == clusters[b], "%d and %d of %v: %v", a, b, o.Items, clusters)
			}
		}
	}
}

func ends(takes []assign.Take) (from, to int, ok bool) {
	for i, take := range takes {
		if i == 0 {
			from, to = take.From, take.To
		}
		from, to = min(from, take.From), max(to, take.To)
	}
	return from, to, len(takes) > 0
}

// Of a date that stands twice, as a drive home does in two branches, the worse counts, in whatever order.
func TestTheWorseOfTwoWaysCounts(t *testing.T) {
	s := build(t, family(t))
	report := Look(s, start(s))
	f := report.Findings[0]
	good, bad := f, f
	good.State, bad.State = Covered, Cannot
	after := *report
	after.Findings = []Finding{bad}
	for _, twice := range [][]Finding{{good, bad}, {bad, good}} {
		before := *report
		before.Findings = twice
		lost, kept := Lost(&before, &after)
		require.Empty(t, lost, "it had nobody who could do it in one of the two")
		require.Empty(t, kept)
	}
	before := *report
	before.Findings = []Finding{good, good}
	lost, _ := Lost(&before, &after)
	require.Len(t, lost, 1)
}

// Where only the way back is not known a duty is over with its end; where the end is not, with its day.
func TestWhenADutyIsOver(t *testing.T) {
	s := build(t, family(t, func(p *plan.Plan) { p.Drive = plan.Unknown }))
	seen := 0
	for i := range s.Duties {
		d := &s.Duties[i]
		if !d.Free.IsZero() || d.Open || !d.Ends.Known() {
			continue
		}
		seen++
		require.False(t, over(s, d, d.Ends.To.Add(-time.Minute)), d.ID)
		require.True(t, over(s, d, d.Ends.To), d.ID)
	}
	require.Positive(t, seen)
}

// Whoever has nothing to do any more has still offered what they offer for a week.
func TestAnOfferIsForAWeekAtLeast(t *testing.T) {
	s := build(t, family(t))
	whole, none := Look(s, start(s)), Look(s, start(s).AddDate(1, 0, 0))
	require.Empty(t, none.Findings)
	days := int(s.Duties[len(s.Duties)-1].Day-s.Duties[0].Day) + 1
	require.LessOrEqual(t, days, 7, "the family's own")
	for i := range whole.Loads {
		require.Positive(t, none.Loads[i].Offer)
		require.Equal(t, whole.Loads[i].Offer, none.Loads[i].Offer)
	}
}

// Of what lasts on one side of a minute only: what has to be added so that somebody is free from then on, or until.
func TestWhatAFreeTimeHasToGrowBy(t *testing.T) {
	free := []stretch{{1000, 1100}, {3000, 3200}}
	for _, c := range []struct {
		minute int
		starts bool
		want   []stretch
	}{
		{900, true, []stretch{{900, 1000}}}, {1050, true, nil}, {1100, true, nil}, {2900, true, []stretch{{2900, 3000}}},
		{3000 - mostFar, true, []stretch{{3000 - mostFar, 3000}}}, {3000 - mostFar - 1, true, nil}, {3300, true, nil},
		{1150, false, []stretch{{1100, 1150}}}, {1050, false, nil}, {900, false, nil}, {3300, false, []stretch{{3200, 3300}}},
		{1100 + mostFar, false, []stretch{{1100, 1100 + mostFar}}}, {1101 + mostFar, false, nil}, {3200 + mostFar, false, []stretch{{3200, 3200 + mostFar}}},
	} {
		require.Equal(t, c.want, moreFree(free, c.minute, c.starts), "%+v", c)
	}
}

// Which end of a time would have to be otherwise, for a duty of one span: tried minute by minute.
func TestWhichEndWouldHaveToMove(t *testing.T) {
	s := build(t, family(t))
	v := viewOf(s, start(s))
	base := minuteOf(start(s)) / (24 * 60) * 24 * 60
	seen := map[bool]int{}
	for _, why := range []Why{AtWork, NotThen} {
		for from := 60; from < 400; from += 20 {
			for to := from + 20; to < 420; to += 20 {
				span, in := stretch{base + from, base + to}, stretch{base + 180, base + 300}
				overlaps, inside := span.from < in.to && in.from < span.to, in.from <= span.from && span.to <= in.to
				if why == AtWork && !overlaps || why == NotThen && inside {
					continue // nothing is in the way
				}
				// One end is moved as little as it has to be; the other stays.
				far := map[bool]int{}
				switch {
				case why == AtWork && in.from <= span.from: // work ends earlier
					far[true] = in.to - span.from
				case why == NotThen && span.to <= in.to && span.to > in.from || why == NotThen && span.to <= in.from:
					far[true] = in.from - span.from
				}
				switch {
				case why == AtWork && span.to <= in.to: // work begins later
					far[false] = span.to - in.from
				case why == NotThen && in.from <= span.from:
					far[false] = span.to - in.to
				}
				w, ok := v.wishAtTimes(wish{why: why}, span, obstacle{why, in})
				require.Equal(t, len(far) > 0, ok, "%d: %d to %d", why, from, to)
				if !ok {
					continue
				}
				least := 1 << 30
				for _, f := range far {
					least = min(least, f)
				}
				require.Equal(t, least, w.far, "%d: %d to %d", why, from, to)
				require.Equal(t, least, far[w.starts], "%d: %d to %d", why, from, to)
				seen[w.starts]++
			}
		}
	}
	require.Greater(t, seen[true], 20)
	require.Greater(t, seen[false], 20)
}

// Whoever has begun is not sent away, be it a duty of one span or of two.
func TestWhatHasBegunStays(t *testing.T) {
	now := time.Unix(60*1000, 0)
	pr := &programme{v: &view{now: now}}
	for _, c := range []struct {
		takes []assign.Take
		want  bool
	}{
		{nil, false}, {[]assign.Take{{From: 999, To: 1100}}, true}, {[]assign.Take{{From: 1000, To: 1100}}, false},
		{[]assign.Take{{From: 900, To: 950}, {From: 1100, To: 1200}}, true}, {[]assign.Take{{From: 1100, To: 1200}, {From: 1300, To: 1400}}, false},
	} {
		require.Equal(t, c.want, pr.asked(&need{takes: c.takes}, Ask{}), "%v", c.takes)
	}
}

// Somebody who goes home in between is asked about the part that stands in the way, not about the first one.
func TestTheChangeIsAboutThePartInTheWay(t *testing.T) {
	wednesday := day(t, "2027-03-17")
	p := family(t, func(p *plan.Plan) {
		luis := able()
		// Brings from 09:05 to 10:25 and fetches from 12:25 to 13:45; at work from 12:30.
		luis.Times = []plan.Times{times(plan.Work, p.Surgery, 12*60+30, 17*60, time.Wednesday)}
		p.Helpers, p.About = []string{"Luis"}, []plan.About{luis}
		ride := therapy(1, once(wednesday, 10*60))
		ride.Length, ride.Ride.Leaves = 180, true
		p.Duties = []plan.Duty{ride}
	})
	s := build(t, p)
	place := places(s, "therapy")[0]
	require.True(t, s.Duties[place].Gap.Known(), "there is time at home in between")
	v := viewOf(s, start(s))
	at := slices.IndexFunc(v.needs, func(n need) bool { return n.duty == place })
	w, ok := v.wishFor(0, []int{at})
	require.True(t, ok)
	require.Equal(t, AtWork, w.why)
	require.Equal(t, 13*60+45, w.clock, "when whoever fetches is home again at the latest")
}

// The numbers that the family's duties have, and the order in which they were put in, play no part in the order of
// their series; what they say does.
func TestSeriesAreInTheOrderOfWhatTheySay(t *testing.T) {
	titles := []string{"Cook", "Feed the cat", "Mow", "Shop"}
	first := day(t, "2027-03-18")
	r := rand.New(rand.NewSource(7))
	for range 20 {
		s := build(t, family(t, func(p *plan.Plan) {
			p.Duties = nil
			for n, title := range r.Perm(len(titles)) {
				d := atHome(uint32(3*n+2), plan.OtherDuty, 30, daily(first, 10*60, 2))
				d.Title = titles[title]
				p.Duties = append(p.Duties, d)
			}
		}))
		v := viewOf(s, start(s))
		ranks := seriesRanks(v)
		var said []string
		for name, rank := range ranks {
			for i := range v.needs {
				if d := v.duty(&v.needs[i]); d.Family != nil && seriesOf(s, d) == name {
					said = append(said, string(padded(nil, rank, 2))+" "+d.Family.Title)
					break
				}
			}
		}
		slices.Sort(said)
		for i := range said {
			said[i] = said[i][3:]
		}
		require.Equal(t, titles, said)
	}
}

// What is fixed and in the way is the reason, wherever it stands, also where it is the first of all.
func TestWhatIsFixedIsInTheWay(t *testing.T) {
	s := build(t, family(t))
	for _, places := range [][]int{{0, 1, 2}, {2, 1, 0}} {
		v := &view{s: s, needs: make([]need, 3), fixed: places, people: make([]person, 3)}
		o := &outcome{programme: &programme{v: v, items: make([][]int, 3)}}
		for i := range v.needs {
			take := assign.Take{From: 10 * i, To: 10*i + 5, Uses: 1}
			v.people[i].who = uint8(i + 1)
			v.needs[i] = need{who: uint8(i + 1), duty: i, takes: []assign.Take{take}}
			o.Items = append(o.Items, assign.Item{Takes: []assign.Take{take}})
		}
		for i := range v.needs {
			why := o.whyNot(i, i)
			require.Len(t, why, 1)
			require.Equal(t, HasOther, why[0].Why)
			require.Equal(t, i, why[0].Other)
			require.True(t, timeAt(10*i, s.Loc).Equal(why[0].From))
		}
	}
}
