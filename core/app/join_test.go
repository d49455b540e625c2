package app

import (
	"bytes"
	"math/rand"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
)

// screen is the page without what is this phone's own: whose it is, and what its person
// has not read yet.
func (p *phone) screen() string {
	p.t.Helper()
	p.send("/")
	root, err := html.Parse(strings.NewReader(p.last.HTML))
	require.NoError(p.t, err)
	var own []*html.Node
	for n := range root.Descendants() {
		for _, a := range n.Attr {
			if a.Key == "id" && (a.Val == "notice-moved" || a.Val == "notice-me" || a.Val == "notice-you" || a.Val == "whose" || a.Val == "mine") ||
				a.Key == "class" && a.Val == "me" {
				own = append(own, n)
			}
		}
	}
	for _, n := range own {
		n.Parent.RemoveChild(n)
	}
	var text bytes.Buffer
	require.NoError(p.t, html.Render(&text, root))
	return strings.Join(strings.Fields(text.String()), " ")
}

// changes are things that people do, each by its name.
var changes = []struct {
	name string
	do   func(p *phone)
}{
	{"arrival", func(p *phone) { p.send("/arrival", "arrival", "06:15") }},
	{"way", func(p *phone) { p.send("/way", "drive", "55", "parking", "20") }},
	{"surgery", func(p *phone) { p.send("/facts", facts("surgery", "2026-12-10")...) }},
	{"tick", func(p *phone) { p.send("/tick", "code", "11", "n", "0", "done", "1") }},
	{"tick another", func(p *phone) { p.send("/tick", "code", "3", "n", "0", "done", "1") }},
	{"untick", func(p *phone) { p.send("/tick", "code", "11", "n", "0") }},
	{"take the drive", func(p *phone) { p.send("/who/drive-there", "who", "Dana") }},
	{"give the drive", func(p *phone) { p.send("/who/drive-there", "who", "Luis") }},
	{"take the therapy", func(p *phone) { p.send("/duty/1/change", therapy("who", "Luis")...) }},
	{"skip a date", func(p *phone) { p.send("/duty/1/date", "act", "skip", "day", "2026-12-16") }},
	{"move a date", func(p *phone) {
		p.send("/duty/1/date", "act", "move", "day", "2026-12-16", "to", "2026-12-17", "at", "14:00")
	}},
	{"other days", func(p *phone) { p.send("/duty/1/change", therapy("day-3", "", "at", "11:00")...) }},
	{"take out", func(p *phone) { p.send("/duty/1/drop") }},
	{"put back", func(p *phone) { p.send("/duty/1/put-back") }},
	{"add the cat", func(p *phone) {
		p.send("/duty/new/pets", "first", "2026-12-04", "at", "07:30", "length", "20", "often", "daily", "every", "1", "month", "day", "ends", "weeks", "weeks", "2", "title", "Feed the cat")
	}},
	{"phone number", func(p *phone) { p.send("/facts", facts("phone", "555-0142")...) }},
	{"settle", func(p *phone) {
		p.send("/")
		if _, form, ok := strings.Cut(p.last.HTML, `<form action="/settle"`); ok {
			_, label, _ := strings.Cut(form, "<button>")
			label, _, _ = strings.Cut(label, "</button>")
			p.answer(html.UnescapeString(label))
		}
	}},
}

// Three people change their copies, send each other what they have now and then, and at
// the end everybody has the same plan on the same screen. The order is drawn by chance,
// with the seed in the message.
func TestThreePhonesEndOnOneScreen(t *testing.T) {
	seeds := int64(5)
	if testing.Short() {
		seeds = 2
	}
	for seed := range seeds {
		r := rand.New(rand.NewSource(seed))
		a := withTherapy(t)
		phones := []*phone{a, a.opened().is("Dana"), a.opened().is("Luis")}
		var done []string
		for range 12 {
			p, c := phones[r.Intn(3)], changes[r.Intn(len(changes))]
			c.do(p)
			done = append(done, c.name)
			if r.Intn(4) == 0 {
				p.open(phones[r.Intn(3)].fragment)
			}
		}
		for _, p := range phones { // what a phone has in its address is what others can be sent
			p.send("/")
		}
		exchange(phones...)
		for _, p := range phones {
			p.send("/")
			for strings.Contains(p.last.HTML, `action="/settle"`) {
				changes[len(changes)-1].do(p)
			}
			exchange(phones...)
		}
		for _, p := range phones[1:] {
			require.Equal(t, phones[0].fragment, p.fragment, "seed %d: %v", seed, done)
			require.Equal(t, phones[0].screen(), p.screen(), "seed %d: %v", seed, done)
		}
		require.NotContains(t, phones[0].last.HTML, `action="/settle"`)
	}
}

// A link opened in either order, twice, or by a detour gives the same plan.
func TestTheOrderOfLinksDoesNotMatter(t *testing.T) {
	start := withTherapy(t)
	var links []string
	for _, c := range []int{0, 3, 6, 9} {
		p := start.opened()
		changes[c].do(p)
		links = append(links, p.fragment)
	}
	var want string
	for seed := range int64(8) {
		r := rand.New(rand.NewSource(seed))
		p := start.opened()
		for _, i := range append(r.Perm(len(links)), r.Perm(len(links))...) {
			p.open(links[i])
		}
		if want == "" {
			want = p.fragment
		}
		require.Equal(t, want, p.fragment)
		require.Equal(t, 6*60+15, int(p.plan().Arrival))
		require.True(t, p.plan().Has(plan.Tick{Code: 11}))
		require.Equal(t, "Dana", helperOf(p.plan(), 0))
		require.Len(t, p.plan().Duties[0].Rule.Skipped, 1)
	}
}

func helperOf(p plan.Plan, i int) string { return p.Helper(p.Cover[i]) }

// Another plan is kept beside, and neither touches the other.
func TestAnotherPlanIsKeptBeside(t *testing.T) {
	p := started(t)
	mine := p.fragment
	other := newPhone(t)
	other.open("start")
	other.random = 100 // chance gives another plan another number
	other.send("/start", facts("patient", "Otto")...)
	require.NotEqual(t, p.plan().Number, other.plan().Number)
	p.open(other.fragment)
	require.Contains(t, p.text(), "Otto")
	require.Empty(t, p.news())
	p.open("")
	require.Contains(t, p.text(), "Rosa: knee replacement")
	require.Contains(t, p.text(), "Otto: knee replacement")
	p.open(mine)
	require.Equal(t, mine, p.fragment)
}

// A joined plan that is more than a plan can hold is put aside, not half taken over; once
// there is room it comes in.
func TestALinkThatDoesNotFitWaits(t *testing.T) {
	a := started(t)
	b := a.opened()
	long := []string{"first", "2026-12-04", "at", "07:30", "length", "20", "often", "daily", "every", "1", "month", "day", "ends", "times", "times", "900"}
	for range 2 {
		a.send("/duty/new/pets", long...)
		b.send("/duty/new/pets", long...)
	}
	require.Len(t, a.plan().Duties, 2)
	mine := a.fragment
	a.open(b.fragment)
	require.Equal(t, mine, a.fragment)
	require.Contains(t, a.part("notice-waiting"), "more than a plan can hold")
	a.send("/join")
	require.Contains(t, a.part("notice-waiting"), "more than a plan can hold")
	require.Equal(t, "notice-waiting", a.last.Focus)
	a.send("/duty/1/drop")
	a.send("/")
	require.Contains(t, a.part("notice-waiting"), "Try again")
	a.send("/join")
	require.Empty(t, a.part("notice-waiting"))
	require.Len(t, a.plan().Duties, 4)
	require.Empty(t, a.kept[keyOther+planKey(a.plan().Number)])

	// On a phone without the plan there is nothing to keep instead.
	full := b.plan()
	full.Number++
	for id := uint32(10); id < 14; id++ {
		d := full.Duties[0]
		d.ID = id
		full = full.WithDuty(d)
	}
	c := newPhone(t)
	c.open(link.Encode(merge.New(full)))
	require.Contains(t, c.text(), "This plan is more than the page can show")
	require.Empty(t, c.plans())
}

// Several links may wait, each from somebody else. None takes another's place, and each
// comes in as soon as there is room for it.
func TestSeveralLinksWait(t *testing.T) {
	a := started(t)
	dana, luis := a.opened().is("Dana"), a.opened().is("Luis")
	long := []string{"first", "2026-12-04", "at", "07:30", "length", "20", "often", "daily", "every", "1", "month", "day", "ends", "times", "times", "900"}
	for range 2 {
		a.send("/duty/new/pets", long...)
		dana.send("/duty/new/pets", long...)
		luis.send("/duty/new/pets", long...)
	}
	dana.send("/who/drive-there", "who", "Dana")
	first := dana.fragment
	dana.send("/who/drive-home", "who", "Dana")
	luis.send("/who/drive-home-morning", "who", "Luis")
	for _, fragment := range []string{first, luis.fragment, dana.fragment, first, luis.fragment} {
		a.open(fragment)
	}
	require.Contains(t, a.part("notice-waiting"), "Nothing was lost")
	require.Len(t, strings.Fields(a.key(keyOther)), 2, "Dana's second link holds all of her first")
	a.send("/duty/1/drop")
	a.send("/join")
	require.Equal(t, []string{"", "", "Luis"}, []string{helperOf(a.plan(), 0), helperOf(a.plan(), 2), helperOf(a.plan(), 3)}, "there is room for one of them")
	require.Equal(t, "notice-waiting", a.last.Focus)
	require.Len(t, strings.Fields(a.key(keyOther)), 1)
	for _, d := range a.plan().Duties {
		a.send(dutyPath(d.ID) + "/drop")
	}
	a.send("/join")
	require.Empty(t, a.part("notice-waiting"))
	require.Equal(t, []string{"Dana", "Dana", "Luis"}, []string{helperOf(a.plan(), 0), helperOf(a.plan(), 2), helperOf(a.plan(), 3)})
	require.Len(t, a.plan().Duties, 6)
	require.NotContains(t, a.kept, keyOther+planKey(a.plan().Number))
}

// Links of versions 1 and 2 that families still have open as the same plan, can be changed,
// and join with what became of it. The links are the golden ones of testdata/link.
func TestOldLinksOpen(t *testing.T) {
	files, err := filepath.Glob("../../testdata/link/v[12]/*.txt")
	require.NoError(t, err)
	old := 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		fragment := lastWord(string(data))
		if head, err := link.ReadHead(fragment); err != nil || head.Version != 0 {
			continue
		}
		old++
		require.Equal(t, Response{Elsewhere: true}, Near(Request{Path: "/", Fragment: fragment}), "%s: the near core reads no such link", file)
		p := newPhone(t)
		p.open(fragment)
		before := p.plan()
		if p.path != "/" {
			continue // its zone is not one that this page knows; the form says so
		}
		p.send("/tick", "code", "11", "n", "0", "done", "1")
		p.send("/who/drive-there", "who", "Dana")
		changed := p.fragment
		p.open(fragment)
		require.Equal(t, changed, p.fragment, "%s: the old message is tapped again", file)
		require.Empty(t, p.news(), file)
		q := newPhone(t)
		q.open(fragment)
		require.Equal(t, before, q.plan(), file)
		q.open(changed)
		require.Equal(t, changed, q.fragment, file)
	}
	require.GreaterOrEqual(t, old, 2)
}

func lastWord(text string) string {
	words := strings.Fields(text)
	return words[len(words)-1]
}

// A dash means nobody: as a name no plan could hold it.
func TestADashIsNobody(t *testing.T) {
	p := withTherapy(t)
	p.send("/who/drive-there", "who", "Luis")
	p.send("/who/drive-there", "who", "-")
	require.Empty(t, helperOf(p.plan(), 0))
	p.send("/duty/1/date", "act", "give", "day", "2026-12-16", "who", "-")
	require.Equal(t, []plan.Take{{Day: p.date("2026-12-16")}}, p.plan().Duties[0].Takes)
	require.NotContains(t, p.text(), "more than a plan can hold")
}

// A link that was made to fill the family's plan up, with what no page shows or with devices that nobody has, is put
// aside: they go on with theirs.
func TestALinkThatFillsThePlanUp(t *testing.T) {
	for name, fill := range map[string]func(d *merge.Doc){
		"what no page shows":         func(d *merge.Doc) { fillUp(d, link.MaxLength-420) },
		"what no page shows, nearly": func(d *merge.Doc) { fillUp(d, link.MaxLength-1500) },
		"devices": func(d *merge.Doc) {
			for a := merge.FirstActor; len(d.Seen()) < merge.MaxActors; a++ {
				d.SetSeen(merge.Stamp{Actor: a, N: 1})
			}
		},
	} {
		p := withTherapy(t).opened()
		filled := p.doc()
		q := newPhone(t)
		q.open(p.fragment)
		fill(filled)
		hostile := link.Encode(filled)
		require.NotEmpty(t, hostile, name)
		q.open(hostile)
		require.Contains(t, q.part("notice-waiting"), "Nothing was lost", name)
		q.send("/facts", facts("arrival", "05:15")...)
		require.EqualValues(t, 5*60+15, q.plan().Arrival, name)
		require.Less(t, len(q.fragment), 1000, name)

		r := newPhone(t) // whoever opens it first has to start afresh, and can
		r.open(hostile)
		r.send("/link/afresh", "sure", "1")
		r.send("/facts", facts("arrival", "05:15")...)
		require.EqualValues(t, 5*60+15, r.plan().Arrival, name)
		require.Less(t, len(r.fragment), 1000, name)
	}
}

// fillUp puts so much into a plan that no page shows that its link is at least so long.
func fillUp(d *merge.Doc, letters int) {
	by := merge.Stamp{Actor: merge.FirstActor + 7, N: 1}
	d.SetSeen(by)
	for i := uint32(0); len(link.Encode(d)) < letters; i++ {
		d.Set(merge.Key{Field: merge.FirstUnknown, Sub: i, Name: "x"}, []merge.Version{{Stamp: by, Value: strings.Repeat(string(rune('a'+i%26)), int(10+i%90))}})
	}
}

// Into a plan that is nearly full a small change still comes.
func TestASmallChangeOfAFullPlan(t *testing.T) {
	d := withTherapy(t).doc()
	fillUp(d, link.MaxLength-700)
	p, q := newPhone(t), newPhone(t)
	p.open(link.Encode(d))
	q.open(link.Encode(d))
	q.send("/facts", facts("arrival", "05:15")...)
	p.open(q.fragment)
	require.Empty(t, p.part("notice-waiting"))
	require.EqualValues(t, 5*60+15, p.plan().Arrival)
}
