package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
)

func (p *phone) doc() *merge.Doc {
	p.t.Helper()
	d, err := link.Decode(p.fragment)
	require.NoError(p.t, err)
	return d
}

func (p *phone) key(prefix string) string { return p.kept[prefix+planKey(p.plan().Number)] }

// The question who uses the phone comes after the first change that others will see, and
// stands in nobody's way.
func TestWhoAreYou(t *testing.T) {
	nurse := withTherapy(t)
	p := nurse.opened()
	require.Empty(t, p.part("notice-me"), "only looking")
	p.send("/tick", "code", "11", "n", "0", "done", "1")
	require.Contains(t, p.part("notice-me"), "Who are you? Then the others see whose change it was.")
	p.send("/tick", "code", "3", "n", "0", "done", "1")
	p.send("/me")
	require.Contains(t, p.text(), "Whose device is this?")
	require.Contains(t, p.text(), "Dana")
	p.send("/me", "who", "1")
	require.Empty(t, p.part("notice-me"))
	require.Contains(t, p.part("whose"), "This device: Dana · change")
	require.Equal(t, "Dana", p.key(keyMe))
	p.send("/me")
	require.Equal(t, "1", p.values()["who"])
	other := nurse.opened()
	other.open(p.fragment)
	require.Contains(t, other.news(), "Dana ticked: ", "also what was ticked before the name was known")

	p.send("/me", "who", "none")
	require.Contains(t, p.part("whose"), "This device: no helper's")
	require.Empty(t, p.part("notice-me"))
	p.send("/me")
	require.Equal(t, "none", p.values()["who"])

	p.send("/me", "who", "other", "name", "Ann")
	require.Equal(t, []string{"Dana", "Ann"}, p.plan().Helpers, "whoever helps can be given something")
	p.send("/me", "who", "other", "name", "ANN")
	require.Equal(t, "Ann", p.key(keyMe), "as the others write it")
	for _, wrong := range [][]string{{"who", "other"}, {"who", "9"}, {"who", ""}, {"who", "x"}, {"who", "", "name", "-"}, {"who", "other", "name", strings.Repeat("x", 41)}} {
		p.send("/me", wrong...)
		require.Equal(t, "/me", p.path, wrong)
		require.Equal(t, "problems", p.last.Focus)
		require.Equal(t, "Ann", p.key(keyMe))
	}
}

// A name that was typed is an answer without a choice, and the page asks once.
func TestANameAloneIsAnAnswer(t *testing.T) {
	p := withTherapy(t).opened()
	out := p.send("/me")
	require.Equal(t, 1, strings.Count(p.text(), "Who uses it?"))
	require.NotContains(t, textOf(t, out.HTML, "group-who"), "Whose device")
	p.send("/me", "name", "Ann")
	require.Equal(t, "/", p.path)
	require.Equal(t, "Ann", p.key(keyMe))
	p.send("/me", "who", "none", "name", "Luis")
	require.Contains(t, p.part("whose"), "no helper's", "a choice that was made holds")
}

// Whoever only says that they are no helper leaves no trace in the plan.
func TestNoHelper(t *testing.T) {
	p := withTherapy(t).opened()
	before := p.fragment
	p.send("/me", "who", "none")
	require.Equal(t, before, p.fragment)
	require.Contains(t, p.part("whose"), "no helper's")
}

// A device changes a plan under one number, from the first change on; whoever made the
// plan has the maker's.
func TestTheDevicesNumber(t *testing.T) {
	nurse := started(t)
	require.Equal(t, "0", nurse.key(keyHand))
	require.Empty(t, nurse.part("notice-me"), "making a plan is no change that others ask about")
	p := nurse.opened()
	require.Empty(t, p.key(keyHand), "only looking")
	p.send("/tick", "code", "11", "n", "0", "done", "1")
	hand := p.key(keyHand)
	require.NotEmpty(t, hand)
	p.send("/tick", "code", "11", "n", "0")
	p.send("/duty/new/therapy", therapy()...)
	require.Equal(t, hand, p.key(keyHand))
	require.Len(t, p.doc().Seen(), 2)
	a, ok := (&session{kept: p.kept}).keptHand(p.plan().Number)
	require.True(t, ok)
	require.Equal(t, uint32(a)<<10+1, p.plan().Duties[0].ID, "duties have the number of the device that adds them")
	nurse.send("/duty/new/therapy", therapy()...)
	require.EqualValues(t, 1, nurse.plan().Duties[0].ID)
	nurse.open(p.fragment)
	require.Len(t, nurse.plan().Duties, 2)
}

// A restored or copied phone uses a number that somebody else uses too. As soon as that
// shows, it takes another one, and its name goes along.
func TestANumberUsedTwice(t *testing.T) {
	p := withTherapy(t).opened().is("Dana")
	copied := newPhone(t)
	for k, v := range p.kept {
		copied.kept[k] = v
	}
	copied.fragment = p.fragment
	old := p.key(keyHand)
	p.send("/tick", "code", "11", "n", "0", "done", "1")
	copied.open(p.fragment)
	require.Empty(t, copied.key(keyHand))
	copied.send("/tick", "code", "3", "n", "0", "done", "1")
	require.NotEqual(t, old, copied.key(keyHand))
	p.open(copied.fragment)
	require.Equal(t, old, p.key(keyHand))
	require.Contains(t, p.news(), "Dana ticked: ")
	require.Equal(t, p.plan().Ticked, copied.plan().Ticked)

	// A plan that was removed here: whoever has gone on under its number is somebody else.
	p.send("/tick", "code", "4", "n", "0", "done", "1")
	hand := p.key(keyHand)
	delete(p.kept, keyPlan+planKey(p.plan().Number))
	p.open(p.fragment)
	require.NotEqual(t, hand, p.key(keyHand))
}

// Where the same act was written on two copies of one phone, neither copy's day of surgery
// is lost: the page asks.
func TestOneActWrittenTwice(t *testing.T) {
	p := started(t).opened().is("Dana")
	copied := newPhone(t)
	for k, v := range p.kept {
		copied.kept[k] = v
	}
	copied.fragment = p.fragment
	p.send("/facts", facts("surgery", "2026-12-10")...)
	copied.send("/tick", "code", "11", "n", "0", "done", "1")
	copied.send("/facts", facts("surgery", "2026-12-08")...)
	p.send("/tick", "code", "3", "n", "0", "done", "1")
	p.open(copied.fragment)
	require.Contains(t, p.question(), "Thursday, December 10")
	require.Contains(t, p.question(), "Tuesday, December 8")
	p.answer("Thursday, December 10")
	require.Equal(t, "2026-12-10", p.plan().Surgery.String())
}

// A number whose acts are used up gives way to another.
func TestANumberUsedUp(t *testing.T) {
	p := started(t).opened()
	p.send("/tick", "code", "11", "n", "0", "done", "1")
	s := wholeSession(Request{Kept: p.kept, Random: make([]byte, 16)})
	s.doc = p.doc()
	a := s.hand()
	full := merge.NewDoc(s.doc.Number)
	for _, k := range s.doc.Keys() {
		full.Set(k, s.doc.Get(k))
	}
	for _, seen := range s.doc.Seen() {
		full.SetSeen(seen)
	}
	full.SetSeen(merge.Stamp{Actor: a, N: merge.LastN})
	s.doc = full
	require.NotEqual(t, a, s.hand())
	require.GreaterOrEqual(t, s.hand(), merge.FirstActor)
}

// While the device keeps nothing at all, the link still carries everything: each change
// comes from a new number, and none is lost. (The shell holds what could not be stored for
// as long as the page is open, so that it does not come to this: web/kept.ts.)
func TestStorageThatKeepsNothing(t *testing.T) {
	p := withTherapy(t).opened()
	for _, c := range []int{3, 6, 9, 0} {
		p.kept = map[string]string{}
		changes[c].do(p)
	}
	p.kept = map[string]string{}
	p.send("/")
	require.EqualValues(t, 6*60+15, p.plan().Arrival)
	require.Equal(t, "Dana", helperOf(p.plan(), 0))
	require.Len(t, p.plan().Duties[0].Rule.Skipped, 1)
	require.NotContains(t, p.last.HTML, `"/settle"`)
}

// What people typed stands in questions and news as it is, and is never taken for markup.
func TestHostileNames(t *testing.T) {
	for _, name := range []string{`<script>alert(1)</script>`, `"><img src=x onerror=x>`, "{who} {value}", "O'Neil & Søn", "you", "somebody", "nobody"} {
		dana, luis := danaAndLuis(t)
		dana.is(name)
		dana.send("/who/drive-there", "who", name)
		luis.send("/who/drive-there", "who", name+"2")
		dana.send("/facts", facts("hospital", name, "phone", `"'><b>1`)...)
		luis.send("/facts", facts("hospital", "b"+name, "phone", "2")...)
		luis.open(dana.fragment)
		require.NotContains(t, luis.last.HTML, "<script")
		require.NotContains(t, luis.last.HTML, "<img")
		require.NotContains(t, luis.last.HTML, "<b>1")
		require.Contains(t, luis.question(), name)
		luis.answer(name + "2")
		require.Equal(t, name+"2", helperOf(luis.plan(), 0))
		luis.answer("b" + name)
		require.Equal(t, "b"+name, luis.plan().Program.Hospital)
	}
}
