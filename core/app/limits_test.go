package app

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/wall"
)

// limits gives what the plan says of movements.
func (p *phone) limits() []string {
	q := p.plan()
	return textsOf(plan.LinesOf(&q, plan.Limits), "en")
}

// A form that stood open while a link brought other limits says nothing of those: they stay,
// and nobody is asked where nothing was said twice.
func TestAnOpenFormTakesNoLimitAway(t *testing.T) {
	for _, c := range []struct {
		what              string
		luis, dana, after string
		questions         int
	}{
		{"each adds one", "A,B,C", "A,B,D", "A,B,C,D", 0},
		{"both add the same", "A,B,C", "A,B,C,D", "A,B,C,D", 0},
		{"one takes one out, one adds one", "A", "A,B,C", "A,C", 0},
		{"one adds one, one takes one out", "A,B,C", "A", "A,C", 0},
		{"both change one in the same way", "A,B2", "A,B2,C", "A,B2,C", 0},
		{"one changes one, one takes it out", "A,B2", "A", "A,B2", 0},
		{"both take the same out", "A", "A", "A", 0},
		{"nothing is changed", "A,C", "A,B", "A,C", 0},
		{"both change one", "A,B2", "A,B3", "", 1},
	} {
		form := func(texts string) []string { return facts("limits", strings.ReplaceAll(texts, ",", "\n")) }
		dana, luis := danaAndLuis(t)
		dana.send("/facts", form("A,B")...)
		luis.open(dana.fragment)
		dana.send("/facts")
		open := dana.fragment
		luis.send("/facts", form(c.luis)...)
		dana.open(luis.fragment)
		dana.fragment = open
		dana.send("/facts", form(c.dana)...)
		require.Equal(t, "/", dana.path, c.what)
		if c.after != "" {
			require.ElementsMatch(t, strings.Split(c.after, ","), dana.limits(), c.what)
		}
		require.Equal(t, c.questions > 0, dana.question() != "", "%s: %s", c.what, dana.question())
		luis.open(dana.fragment)
		require.ElementsMatch(t, dana.limits(), luis.limits(), c.what)
	}
}

// What stands on the plan's page itself has no limits in it: it changes none, also where that
// page is older than what came by a link.
func TestTheArrivalChangesNoLimit(t *testing.T) {
	dana, luis := danaAndLuis(t)
	dana.send("/facts", facts("limits", "A\nB", "arrival", "")...)
	luis.open(dana.fragment)
	open := dana.fragment
	luis.send("/facts", facts("limits", "A\nB2\nC", "arrival", "")...)
	dana.open(luis.fragment)
	dana.fragment = open
	dana.send("/arrival", "arrival", "06:00")
	require.Equal(t, []string{"A", "B2", "C"}, dana.limits())
	require.Empty(t, dana.question())
	require.EqualValues(t, 360, dana.plan().Arrival)
}

// More limits than a form takes, as two clinics' can come to, stand in nobody's way, and one
// can be taken out of them.
func TestMoreLimitsThanAFormTakes(t *testing.T) {
	p := started(t)
	q := p.plan()
	q.Arrival = wall.NoClock
	for id := range uint32(plan.MaxPerList + 5) {
		q = q.WithLine(plan.Line{ID: id + 1, List: plan.Limits, Day: plan.NoDay, Hospital: true, Text: "Limit " + number(id)})
	}
	q.Number++
	p.open(link.Encode(merge.New(q)))
	require.Len(t, p.limits(), plan.MaxPerList+5)
	p.send("/arrival", "arrival", "06:00")
	require.Equal(t, "/", p.path, p.part("problems"))
	require.EqualValues(t, 360, p.plan().Arrival)
	p.send("/facts")
	require.Equal(t, "/facts", p.path)
	form := p.values()
	form["limits"] = strings.Join(p.limits()[1:plan.MaxPerList], "\n")
	var fields []string
	for _, name := range slices.Sorted(maps.Keys(form)) {
		fields = append(fields, name, form[name])
	}
	p.send("/facts", fields...)
	require.Equal(t, "/", p.path, p.part("problems"))
	require.Len(t, p.limits(), plan.MaxPerList-1)
}

// A device that has given out all its numbers of lines takes another number of its own.
func TestADeviceThatHasUsedUpItsNumbersOfLines(t *testing.T) {
	p := started(t)
	d := p.doc()
	mine, _ := handOf(p.kept[keyHand+planKey(d.Number)])
	full := merge.NewDoc(d.Number)
	for _, s := range d.Seen() {
		full.SetSeen(s)
	}
	for _, k := range d.Keys() {
		full.Set(k, d.Get(k))
	}
	for n := range uint32(1 << plan.NthBits) {
		if id := uint32(mine)<<plan.NthBits | n; id != 0 { // 1024 are more than a link holds
			full.Set(merge.Key{Field: merge.LineDone, Sub: id}, []merge.Version{{Stamp: merge.Stamp{Actor: merge.Maker, N: 1}, Value: "1"}})
		}
	}
	s := &session{in: Request{Random: make([]byte, 16)}, kept: p.kept, doc: full}
	q := full.Plan()
	ids := s.freshLines(q, 3)
	require.Len(t, ids, 3)
	for _, id := range ids {
		require.NotEqual(t, mine, merge.Actor(id>>plan.NthBits))
	}
}
