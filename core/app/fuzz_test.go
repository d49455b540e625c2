package app

import (
	"errors"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"golang.org/x/net/html"

	"newel/build/hostile"
	"newel/core/desk"
	"newel/core/link"
	"newel/core/merge"
	"newel/core/page"
	"newel/core/wall"
)

// script gives the choices of a run, one byte each; where it ends, the first choice of all.
type script struct{ left []byte }

func (s *script) n(most int) int {
	if len(s.left) == 0 || most < 1 {
		return 0
	}
	b := int(s.left[0])
	s.left = s.left[1:]
	return b % most
}

// fuzzPaths are paths as a form or the history may have them. New ones go to the end: the corpus counts.
var fuzzPaths = strings.Fields("/ /start /forget /put-back /clock /language /open /facts /arrival /way /tick /read /join /settle /me /undo /send " +
	"/link /link/part /link/lock /link/afresh /unlock /duty/1 /duty/1/change /duty/1/date /duty/1/days /duty/1/drop /duty/1/put-back /duty/new/therapy " +
	"/duty/new/visit /duty/new/other /who/drive-there /who/stay-with.3 /helper /helper/1 /helper/1/days /split /split/take /split/suggest /split/apply " +
	"/split/more /split/wide /calendar /calendar/duty/1 /calendar/who/drive-there /import /import/add /guide /guide/pack /sources /print /print/fridge " +
	"/print/card /print/helper.1 /print/guide /say-back /line /line/new /line/1 /desk /desk/rows /desk/cards /desk/moved /desk/settings /desk/class " +
	"/desk/settings/file /desk/rows/step /helper/99999 /duty/4294967295 /duty/-1 //// /print/helper.999 /who/stay-with.255 /nowhere")

// fuzzNames are fields that no form of the page needs to have.
var fuzzNames = strings.Fields("surgery arrival patient zone home text rows made done line day who act on-1 key value code n number plan path language " +
	"clock name locked phrase part sent add make whose file first at rule often every ends last limits list from wide fact.stairs rule.wash-days can told")

// fuzzValues are what forms send, and what they never do.
var fuzzValues = []string{"1", "0", "-1", "2027-03-09", "9999-12-31", "0000-00-00", "05:30", "24:00", "99999999999999999999", "x", "all", "other", "Dana",
	"FREQ=DAILY;COUNT=1000", "FREQ=MONTHLY;BYDAY=-1FR", "Date\tLabel\tJoint\n11/30/2026\tA1\tknee\n", "surgery = 1\n[[line]]\ntext = \"x\"\n",
	"BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nUID:1\r\nDTSTART:20270320T100000\r\nSUMMARY:x\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n", "\x00\xff\u202e"}

// starts are the fragments that a run may begin with, each once.
func starts(f *testing.F) []string {
	now := wall.Date(20_780)
	p := DemoPlan(now, 0xabc)
	d := merge.New(p)
	one, other := p, p
	one.Arrival, other.Arrival, other.Surgery = 300, 360, p.Surgery+1
	joined, _ := merge.Join(d.Change(merge.FirstActor, one), d.Change(merge.FirstActor+1, other))
	bare := p
	bare.Helpers, bare.About, bare.Cover, bare.Duties, bare.Lines, bare.Shifts = nil, nil, [len(p.Cover)]uint8{}, nil, nil, nil
	return []string{"", wordStart, wordDemo, link.Encode(d), link.Encode(merge.New(bare)), link.Encode(joined), link.EncodePart(p, "Dana"),
		desk.Word, desk.Address(&desk.Settings{Zone: "America/Chicago"}), "said.a", "signs", vectorOf(f, "locked/starter.txt"), vectorOf(f, "heads/newer-next.txt"),
		vectorOf(f, "heads/older.txt")}
}

func vectorOf(f *testing.F, file string) string {
	return fileLine(f, "../../testdata/link/"+file, "fragment")
}

// device is what a run goes through: a phone that does whatever the script says.
type device struct {
	script *script
	text   string
	in     Request
	out    Response
}

// FuzzHandle has a phone open links, fill in and send forms, send what no form would, and lose or spoil what
// it had kept, as the bytes say. Whatever comes, each answer ends, is a page that the templates wrote, stands at
// an address that opens, and fits through the border to the shell.
func FuzzHandle(f *testing.F) {
	fragments := starts(f)
	pages, err := hostile.ReadPages("../..")
	if err != nil {
		f.Fatal(err)
	}
	for i := range fragments {
		for _, path := range []byte{0, 22, 36, 42, 60} {
			f.Add([]byte{byte(i), 0, 0, 0, 0, path, 0, 1, 5, 2, 3, 4, 5, 3, 1, 2, 3, 2, 0, 9, 8, 7}, `<b onclick="x">`+"\u202e\x00=1")
		}
	}
	f.Fuzz(func(t *testing.T, choices []byte, text string) {
		s := &script{choices[:min(len(choices), 200)]}
		d := &device{script: s, text: text[:min(len(text), 4000)]}
		d.in = Request{Path: "/", Fragment: fragments[s.n(len(fragments))], Page: pageAddress, Random: []byte("0123456789abcdef"), Kept: map[string]string{}, Open: []string{}}
		d.in.Zone = []string{"America/Chicago", "Pacific/Apia", "Europe/London", "", d.text}[s.n(5)]
		d.in.Language = []string{"en-US", "es-US", "he", d.text}[s.n(4)]
		d.in.Now = int64(wall.Date(20_780))*86400 + []int64{0, 8 * 86400, 9*86400 + 40000, 30 * 86400, -400 * 86400, 1 << 40, -1 << 40}[s.n(7)]
		if s.n(2) == 1 {
			d.in.Random = nil
		}
		for range 5 {
			d.ask(t, pages)
			if len(s.left) == 0 {
				return
			}
			d.act(t, fragments)
		}
	})
}

// act does something with the page as it stands.
func (d *device) act(t *testing.T, fragments []string) {
	s := d.script
	d.in.Fields, d.in.Open = nil, []string{}
	switch s.n(6) {
	case 0:
		d.in.Path = fuzzPaths[s.n(len(fuzzPaths))]
	case 1, 2:
		d.press()
	case 3:
		d.in.Path = fuzzPaths[s.n(len(fuzzPaths))]
		for range s.n(8) {
			d.in.Fields = append(d.in.Fields, Field{fuzzNames[s.n(len(fuzzNames))], d.value()})
		}
	case 4:
		d.in.Path, d.in.Fragment = "/", fragments[s.n(len(fragments))]
		if s.n(4) == 3 {
			d.in.Fragment = d.text
		}
	case 5:
		keys := slices.Sorted(maps.Keys(d.in.Kept))
		if len(keys) == 0 {
			keys = []string{keyPlan + "abc"}
		}
		d.in.Kept[keys[s.n(len(keys))]] = []string{"", d.text, "1", d.in.Fragment, fragments[s.n(len(fragments))]}[s.n(5)]
	}
	switch s.n(4) { // mostly with closed folds: a page that is half as long is judged twice as often
	case 1:
		d.in.Open = []string{"far", d.text}
	case 2:
		d.in.Open = nil
	}
	d.in.Now += int64(s.n(20)) * 20_000
}

// value is one that is typed.
func (d *device) value() string {
	if n := d.script.n(len(fuzzValues) + 4); n < len(fuzzValues) {
		return fuzzValues[n]
	}
	return d.text
}

// press sends one of the page's forms, with some fields filled in.
func (d *device) press() {
	root, err := html.Parse(strings.NewReader(d.out.HTML))
	if err != nil {
		return // the answer was judged before
	}
	var forms []*html.Node
	for n := range root.Descendants() {
		if n.Type == html.ElementNode && n.Data == "form" {
			forms = append(forms, n)
		}
	}
	if len(forms) == 0 {
		return
	}
	form := forms[(d.script.n(256)+d.script.n(2)*256)%len(forms)]
	d.in.Path = attributeOf(form, "action")
	filled := d.script.n(256)
	for n := range form.Descendants() {
		name := attributeOf(n, "name")
		if n.Type != html.ElementNode || name == "" {
			continue
		}
		value := attributeOf(n, "value")
		if attributeOf(n, "type") != "hidden" || filled == 255 {
			if filled%3 == 0 || len(d.in.Fields)%7 == filled%7 {
				value = d.value()
			}
		}
		d.in.Fields = append(d.in.Fields, Field{name, value})
	}
}

func attributeOf(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

// ask asks, holds the answer to what is promised of each, and keeps what it stores.
func (d *device) ask(t *testing.T, pages *hostile.Pages) {
	asked := d.in
	asked.Kept = maps.Clone(d.in.Kept)
	stop := hostile.Watch("answering " + strconv.Quote(asked.Path) + " at " + strconv.Quote(asked.Fragment))
	out := Handle(asked)
	stop()
	fail := func(what string) { t.Fatalf("%s %q at %q: %s", asked.Path, asked.Fields, asked.Fragment, what) }
	if fault := pages.Judge(out.HTML); fault != "" {
		fail(fault)
	}
	switch {
	case out.Elsewhere || out.HTML == "" || out.Title == "" || !strings.HasPrefix(out.Path, "/"):
		fail("an answer without a page, a title or a path")
	case !utf8.ValidString(out.HTML + out.Title + out.Say + out.Path):
		fail("broken UTF-8")
	case hostile.Unseen.MatchString(out.Title+out.Say) && !hostile.Unseen.MatchString(asked.Zone):
		fail("what nobody sees is in the title or is read out")
	case out.Focus != "" && !strings.Contains(out.HTML, ` id="`+out.Focus+`"`):
		fail("the focus goes to " + out.Focus + ", which is not there")
	case len(WriteResponse(out)) > 2*RequestLimit:
		fail("the answer is too long")
	case !opens(out.Fragment) && out.Fragment != asked.Fragment:
		fail("the new address " + out.Fragment + " opens nothing")
	}
	for _, e := range out.Keep {
		if strings.HasPrefix(e.Key, keyPlan) && !opens(e.Value) {
			fail("a plan was kept that does not open: " + e.Value)
		}
		d.in.Kept[e.Key] = e.Value
	}
	for _, key := range out.Drop {
		delete(d.in.Kept, key)
	}
	d.out = out
	d.in.Fragment, d.in.Path = out.Fragment, out.Path
}

// opens tells whether an address shows something.
func opens(fragment string) bool {
	if slices.Contains([]string{"", wordStart, wordDemo}, fragment) || page.IsSaid(fragment) || desk.IsAddress(fragment) {
		return true
	}
	_, err := link.Decode(fragment)
	return err == nil || errors.Is(err, link.ErrPart) || errors.Is(err, link.ErrLocked) || errors.Is(err, link.ErrNewer)
}
