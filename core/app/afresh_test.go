package app

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
)

func TestAPlanIsStartedAfresh(t *testing.T) {
	p := withTherapy(t).is("Dana")
	p.send("/tick", "code", "11", "n", "0", "done", "1")
	old, before := p.fragment, p.plan()
	other := p.opened()
	p.send("/link")
	require.Contains(t, p.last.HTML, `data-path="/link/afresh"`)
	out := p.send("/link/afresh")
	require.True(t, out.Push)
	require.Equal(t, old, p.fragment, "nothing happens before it is confirmed")
	for _, said := range []string{"The old link keeps working", "Old copies do not join the new plan", "The old plan stays on this device", "Calendar entries"} {
		require.Contains(t, p.text(), said)
	}

	out = p.send("/link/afresh", "sure", "1")
	require.Equal(t, []string{"/link", "notice-fresh"}, []string{out.Path, out.Focus})
	require.True(t, out.Push)
	require.Contains(t, p.part("notice-fresh"), "This is the new plan")
	require.Equal(t, pageAddress+"#"+p.fragment, p.attribute("address", "value"))
	after := p.plan()
	require.NotEqual(t, before.Number, after.Number)
	require.True(t, after.Has(plan.Tick{Code: 11}))
	after.Number = before.Number
	require.Equal(t, before, after, "all that stands in the plan")
	require.Equal(t, strconv.Itoa(int(merge.Maker)), p.key(keyHand), "this device made it")
	require.Equal(t, "Dana", p.key(keyMe))
	require.Equal(t, "Dana", p.doc().HandOf(merge.Maker), "the others see whose changes they are")
	for _, s := range p.doc().Seen() {
		require.Equal(t, merge.Maker, s.Actor, "nobody else's history is in it")
	}
	fresh := p.fragment
	p.send("/")
	require.Empty(t, p.news(), "nothing in it is news here")
	require.Empty(t, p.part("notice-earlier"))

	// An old copy does not join it, and what is changed here does not reach an old copy.
	other.send("/facts", facts("drive", "55")...)
	p.open(other.fragment)
	require.Equal(t, 55, p.plan().Drive, "it joins the old plan, which is here too")
	require.Contains(t, p.part("notice-earlier"), "before it was started afresh")
	require.Contains(t, p.last.HTML, `<a class="second" href="#`+fresh+`" data-path="/">Open the new plan</a>`)
	require.NotContains(t, other.text(), "Open the new plan", "it is not on that phone")
	p.send("/link/afresh", "sure", "1")
	require.Contains(t, p.part("notice-afresh"), "before it was started afresh", "once is enough, also after the browser's way back")
	require.Len(t, p.plans(), 2)
	p.open(fresh)
	require.Equal(t, 40, p.plan().Drive)
	other.open(fresh)
	require.Equal(t, 40, other.plan().Drive, "beside the old one")
	other.open(old)
	require.Equal(t, 55, other.plan().Drive)
	require.Empty(t, other.part("notice-earlier"), "only this device knows which came from which")

	p.open("")
	require.Contains(t, p.part("kept-"+planKey(before.Number)), "from before it was started afresh")
	require.NotContains(t, p.part("kept-"+planKey(p.planOf(fresh).Number)), "afresh")
	p.send("/forget", "number", planKey(before.Number))
	p.send("/put-back", p.hidden("/put-back")...)
	require.Contains(t, p.part("kept-"+planKey(before.Number)), "from before it was started afresh")
	p.send("/forget", "number", planKey(p.planOf(fresh).Number))
	require.NotContains(t, p.part("kept-"+planKey(before.Number)), "afresh", "now it is the only one")
}

// The new plan has no history in which two answers could stand, so they are settled first.
func TestQuestionsAreSettledBeforeAPlanIsStartedAfresh(t *testing.T) {
	a := started(t)
	b := a.opened()
	a.send("/arrival", "arrival", "06:15")
	b.send("/arrival", "arrival", "06:30")
	a.open(b.fragment)
	old := a.fragment
	for _, fields := range [][]string{nil, {"sure", "1"}} {
		out := a.send("/link/afresh", fields...)
		require.Contains(t, a.part("notice-afresh"), "have to be answered first")
		require.NotContains(t, out.HTML, "afresh-sure")
		require.Equal(t, old, a.fragment)
	}
	a.send("/")
	a.answer("06:30")
	a.send("/link/afresh", "sure", "1")
	require.EqualValues(t, 6*60+30, a.plan().Arrival)
	require.NotEqual(t, a.planOf(old).Number, a.plan().Number)
}

// What a later page has written cannot go into a plan that this page makes. It is said, and people decide: a link can
// be made to hold such things until nothing else fits.
func TestAPlanWithSomethingNewerIsStartedAfreshWithoutIt(t *testing.T) {
	p := withTherapy(t)
	d := p.doc()
	d.Set(merge.Key{Field: merge.FirstUnknown, Name: "x"}, []merge.Version{{Stamp: d.Seen()[0], Value: "no weight on the left leg"}})
	q := newPhone(t)
	q.open(link.Encode(d))
	require.True(t, q.doc().Newer())
	before := q.plan()
	out := q.send("/link/afresh")
	require.Contains(t, q.part("notice-lost"), "only a newer page shows")
	require.Contains(t, out.HTML, "afresh-sure")
	require.Len(t, q.plans(), 1)
	q.send("/link/afresh", "sure", "1")
	require.NotEqual(t, before.Number, q.plan().Number)
	require.Equal(t, before.Duties, q.plan().Duties)
	require.False(t, q.doc().Newer())
}

// Whoever puts a plan back is who they were: the same number among the others, the same name.
func TestAPlanThatIsPutBackKnowsWhoseDeviceItIs(t *testing.T) {
	for _, name := range []string{"Dana", ""} {
		p := started(t).opened()
		n := planKey(p.plan().Number)
		p.send("/tick", "code", "11", "n", "0", "done", "1")
		if name == "" {
			p.send("/me", "who", "none")
		} else {
			p.is(name)
		}
		hand := p.kept[keyHand+n]
		require.NotEmpty(t, hand)
		p.open("")
		p.send("/forget", "number", n)
		require.Empty(t, p.keys(n))
		p.send("/put-back", p.hidden("/put-back")...)
		require.Equal(t, hand, p.kept[keyHand+n])
		me, known := p.kept[keyMe+n]
		require.True(t, known)
		require.Equal(t, name, me)
		p.open(p.kept[keyPlan+n])
		require.Empty(t, p.part("notice-me"), "it is not asked again")
		p.send("/tick", "code", "3", "n", "0", "done", "1")
		require.Equal(t, hand, p.kept[keyHand+n])
	}
}
