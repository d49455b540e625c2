package app

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Asking shows; only the answer removes, and then no plan is left in the address.
func TestRemovingEverythingIsAskedTwice(t *testing.T) {
	p := started(t)
	before := p.fragment
	for _, path := range []string{"/device", "/device/wipe"} {
		out := p.send(path)
		require.False(t, out.Wipe, path)
		require.Equal(t, before, out.Fragment, path)
	}
	require.Contains(t, p.text(), "This cannot be undone")
	out := p.send("/device/wipe", "sure", "1")
	require.True(t, out.Wipe)
	require.Empty(t, out.Fragment)
	require.NotContains(t, out.HTML, before)
	require.Equal(t, "/device", out.Path, "a reload does not ask for it again")
	require.True(t, shows(out.Path))
	require.Empty(t, out.Keep)
}

// A copy that was damaged or lost is made up for by what the person knew last, joined with the link.
func TestADamagedCopyIsMadeUpFor(t *testing.T) {
	for _, damage := range []func(string) string{
		func(f string) string { return f[:len(f)/2] },
		func(string) string { return "\x00\ufffd no link" },
		func(string) string { return "" },
	} {
		p := started(t)
		link := p.fragment
		n := planKey(p.plan().Number)
		p.send("/facts", facts("drive", "55")...)
		if value := damage(p.kept[keyPlan+n]); value == "" {
			delete(p.kept, keyPlan+n)
		} else {
			p.kept[keyPlan+n] = value
			p.open("")
			require.Contains(t, p.last.HTML, "kept-"+n, "the front lists it as it was known last")
		}
		p.open(link)
		require.Equal(t, 55, p.plan().Drive, "what was changed here is there")
		require.Equal(t, p.fragment, p.kept[keyPlan+n])
		require.NotContains(t, p.kept, keyHand+n, "acts that are lost may have had this number")
	}
}

// Where nothing of it can be read, the front says so, and it can be removed or opened again.
func TestACopyThatCannotBeReadIsSaid(t *testing.T) {
	p := started(t)
	link, n := p.fragment, planKey(p.plan().Number)
	p.kept[keyPlan+n], p.kept[keyRead+n] = p.kept[keyPlan+n][:15], "x"
	p.open("")
	require.Contains(t, p.part("notice-damaged-here"), "Open its link again")
	kept := len(p.kept)
	p.send("/forget", "number", n)
	require.Less(t, len(p.kept), kept)
	require.NotContains(t, p.last.HTML, "notice-damaged-here")
	p.open(link)
	require.Equal(t, p.fragment, p.kept[keyPlan+n])
}

// Removing ends with the plan itself: half of it leaves a plan that is listed, and can be removed again.
func TestThePlanIsRemovedLast(t *testing.T) {
	p := started(t)
	n := planKey(p.plan().Number)
	out := p.send("/forget", "number", n)
	require.Equal(t, keyPlan+n, out.Drop[len(out.Drop)-1])
}
