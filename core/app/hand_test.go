package app

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
)

// The plan is gone from the storage and the device's number is not: which acts were made
// under it nobody knows. Another act under the same stamp would be lost on the other phones.
func TestANumberWithoutItsPlanIsNotUsedAgain(t *testing.T) {
	nurse := withTherapy(t)
	start := nurse.fragment
	luis := nurse.opened().is("Luis")
	luis.send("/tick", "code", "11", "n", "0", "done", "1")
	nurse.open(luis.fragment)
	n := planKey(luis.plan().Number)
	hand := luis.kept[keyHand+n]
	delete(luis.kept, keyPlan+n)
	luis.open(start) // the first message is tapped again
	require.NotContains(t, luis.kept, keyHand+n)
	luis.send("/who/drive-there", "who", "Luis")
	require.NotEqual(t, hand, luis.kept[keyHand+n])
	nurse.open(luis.fragment)
	require.Equal(t, "Luis", helperOf(nurse.plan(), 0))
	require.True(t, nurse.plan().Has(plan.Tick{Code: 11}))
}

// A number that chance gives twice is never that of a plan that is here.
func TestANewPlanTakesNoOthersPlace(t *testing.T) {
	p := started(t)
	first, n := p.fragment, p.plan().Number
	p.random -= 2 // so that the next form comes with the chance of the one that made the plan
	p.open("start")
	p.send("/start", facts("patient", "Otto")...)
	require.Equal(t, n+1, p.plan().Number)
	require.Equal(t, first, p.kept[keyPlan+planKey(n)])
	require.Len(t, p.plans(), 2)
	p.random--
	p.open("demo")
	require.Equal(t, n+2, p.plan().Number)
}

// crowded is a phone with a plan in which as many devices have written as a plan can name,
// so that no change of another fits.
func crowded(t *testing.T) *phone {
	t.Helper()
	d := withTherapy(t).doc()
	for i := merge.Actor(0); len(d.Seen()) < merge.MaxActors; i++ {
		next := d.Plan()
		next.Drive = 10 + int(i)%100
		d = d.Change(merge.FirstActor+i, next)
	}
	p := newPhone(t)
	p.open(link.Encode(d))
	require.Len(t, p.doc().Seen(), merge.MaxActors)
	return p
}

// What could not be stored is said, in place of "Saved" or "Done", whatever was tapped.
func TestWhatDoesNotFitIsNotSaidToBeSaved(t *testing.T) {
	p := crowded(t)
	before := p.fragment
	for _, c := range []struct {
		path   string
		fields []string
	}{
		{"/tick", []string{"code", "11", "n", "0", "done", "1"}},
		{"/facts", facts("drive", "55")},
		{"/arrival", []string{"arrival", "06:00"}},
		{"/who/drive-there", []string{"who", "Dana"}},
		{"/me", []string{"who", "other", "name", "Ann"}},
	} {
		p.fragment = before
		out := p.send(c.path, c.fields...)
		require.Contains(t, out.Say, "That is more than a plan can hold", c.path)
		require.NotContains(t, out.Say, "Saved", c.path)
		require.Equal(t, before, p.fragment, c.path)
		require.Equal(t, "notice-full", out.Focus, c.path)
		require.Contains(t, p.part("notice-full"), "more than a plan can hold", c.path)
		require.NotContains(t, p.kept, keyMe+planKey(p.plan().Number), "%s: whose device it is goes with the plan or not at all", c.path)
	}
	p.fragment = before
	p.send("/duty/1/date", "act", "give", "day", "2026-12-16", "who", "Ann")
	require.Contains(t, p.part("problem-date"), "more than a plan can hold")
}
