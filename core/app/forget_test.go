package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// Between removing a plan and putting it back, the link was opened again in another tab and
// something was changed there. Both are in the plan that comes back.
func TestAPlanIsPutBackIntoWhatCameMeanwhile(t *testing.T) {
	p := withTherapy(t).opened().is("Dana")
	sent, n := p.opened(), planKey(p.plan().Number)
	sent.send("/who/drive-there", "who", "Luis")
	p.send("/tick", "code", "11", "n", "0", "done", "1")
	hand := p.kept[keyHand+n]
	p.open("")
	p.send("/forget", "number", n)
	back := p.hidden("/put-back")
	p.open(sent.fragment)
	p.send("/tick", "code", "3", "n", "0", "done", "1")
	since := p.kept[keyHand+n]
	require.NotEqual(t, hand, since)
	p.send("/put-back", back...)
	require.Equal(t, since, p.kept[keyHand+n], "the number of what was done last")
	require.Equal(t, "Dana", p.kept[keyMe+n])
	p.open(p.kept[keyPlan+n])
	require.Equal(t, "Luis", helperOf(p.plan(), 0))
	require.True(t, p.plan().Has(plan.Tick{Code: 11}) && p.plan().Has(plan.Tick{Code: 3}))
}

// The button is tapped a second time, in another tab, after the device went on under its
// number: the number is not taken back, since acts were made under it that the form does
// not know.
func TestAPlanIsPutBackTwice(t *testing.T) {
	p := withTherapy(t).opened().is("Dana")
	n := planKey(p.plan().Number)
	p.open("")
	p.send("/forget", "number", n)
	back := p.hidden("/put-back")
	p.send("/put-back", back...)
	hand := p.kept[keyHand+n]
	p.open(p.kept[keyPlan+n])
	p.send("/tick", "code", "11", "n", "0", "done", "1")
	delete(p.kept, keyHand+n)
	p.send("/put-back", back...)
	require.NotContains(t, p.kept, keyHand+n)
	require.NotEmpty(t, hand)
	p.open(p.kept[keyPlan+n])
	require.True(t, p.plan().Has(plan.Tick{Code: 11}))
}

// What was not read stays to be read, what waits goes on waiting, and what was not sent is
// still not sent.
func TestWhatStoodBesideAPlanComesBack(t *testing.T) {
	nurse := withTherapy(t)
	dana, luis := nurse.opened().is("Dana"), nurse.opened().is("Luis")
	luis.send("/facts", facts("arrival", "05:00")...)
	dana.open(luis.fragment)
	news, n := dana.news(), planKey(dana.plan().Number)
	require.Contains(t, news, "05:00")
	dana.kept[keyOther+n] = luis.fragment + " " + nurse.fragment // as if they had not fitted
	own := dana.kept[keyOwn+n]
	require.NotEmpty(t, own)
	dana.open("")
	dana.send("/forget", "number", n)
	dana.send("/put-back", dana.hidden("/put-back")...)
	dana.open(dana.kept[keyPlan+n])
	require.Equal(t, news, dana.news())
	require.Equal(t, own, dana.kept[keyOwn+n])
	require.NotContains(t, dana.kept, keyOther+n, "both are in the plan")

	a := started(t)
	b := a.opened()
	long := []string{"first", "2026-12-04", "at", "07:30", "length", "20", "often", "daily", "every", "1", "month", "day", "ends", "times", "times", "900"}
	for range 2 {
		a.send("/duty/new/pets", long...)
		b.send("/duty/new/pets", long...)
	}
	a.open(b.fragment)
	n = planKey(a.plan().Number)
	before := a.keys(n)
	require.Contains(t, before, keyOther+n)
	waits := a.kept[keyOther+n]
	a.open("")
	a.send("/forget", "number", n)
	a.send("/put-back", a.hidden("/put-back")...)
	require.Equal(t, before, a.keys(n))
	require.Equal(t, waits, a.kept[keyOther+n])
}

// What was said back is there again too, mark by mark.
func TestWhatWasSaidBackComesBack(t *testing.T) {
	p := started(t)
	n := planKey(p.plan().Number)
	p.send("/say-back", "q", "wash", "said", "clear")
	p.send("/say-back", "q", "food", "said", "again")
	said := p.kept[keySaid+n]
	require.Len(t, readMarks(said), 2)
	p.open("")
	p.send("/forget", "number", n)
	require.NotContains(t, p.kept, keySaid+n)
	back := p.hidden("/put-back")
	for i := range back {
		back[i] = strings.ReplaceAll(back[i], "\n", "\r\n") // as a form sends it (WHATWG HTML, 4.10.21.4)
	}
	p.send("/put-back", back...)
	require.Equal(t, said, p.kept[keySaid+n])
}

// A plan that is put back knows what was in its calendar files: what is taken out later is cancelled there.
func TestWhatIsPutBackCancels(t *testing.T) {
	p := withTherapy(t)
	first := p.fileOf("h1")
	n := planKey(p.plan().Number)
	memories := func() map[string]string {
		all := map[string]string{}
		for key, value := range p.kept {
			if strings.HasPrefix(key, keyCalendar+n+".") {
				all[key] = value
			}
		}
		return all
	}
	before, link := memories(), p.fragment
	require.NotEmpty(t, before)
	p.open("")
	p.send("/forget", "number", n)
	require.Empty(t, memories())
	p.send("/put-back", p.hidden("/put-back")...)
	require.Equal(t, before, memories())
	p.open(link)
	p.send("/duty/1/drop")
	last := p.fileOf("h1")
	require.Equal(t, "CANCELLED", valueOf(last, "STATUS"))
	require.Equal(t, valueOf(first, "UID"), valueOf(last, "UID"))
}

// A plan whose copy is damaged, and which is known from what was read of it, opens from the list, and comes back
// when it was removed.
func TestADamagedPlanOpensFromTheList(t *testing.T) {
	p := started(t)
	n := planKey(p.plan().Number)
	p.send("/facts", facts("drive", "55")...)
	p.kept[keyPlan+n] = p.kept[keyPlan+n][:15]
	p.open("")
	listed := func() string {
		_, rest, ok := strings.Cut(p.last.HTML, `id="kept-`+n+`"`)
		require.True(t, ok)
		_, rest, _ = strings.Cut(rest, `href="#`)
		fragment, _, _ := strings.Cut(rest, `"`)
		return fragment
	}
	fragment := listed()
	p.send("/forget", "number", n)
	require.Contains(t, p.part("notice-forgotten"), "Put it back")
	p.send("/put-back", p.hidden("/put-back")...)
	require.Equal(t, fragment, listed())
	require.NotContains(t, p.kept, keyHand+n, "acts that are lost may have had this number")
	p.open(fragment)
	require.Equal(t, 55, p.plan().Drive)
}
