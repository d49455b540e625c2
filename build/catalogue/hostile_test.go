package catalogue

import (
	"maps"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/hostile"
	"newel/core/app"
	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
)

// wardrobe puts other texts into plans: the one at place i of a plan gets the text i+from of a list. A number
// behind each keeps names apart, and stands for one of which nothing is left.
type wardrobe struct {
	texts []string
	from  int
	phone bool // the hospital's telephone number too
	worn  map[string]string
}

// text is what stands in place of another, the same for the same.
func (w *wardrobe) text(was string, most int) string {
	if w.worn[was] == "" {
		n := len(w.worn)
		mark := strconv.Itoa(n % 1000)
		w.worn[was] = fitting(w.texts[(n+w.from)%len(w.texts)], most-len(mark)) + mark
	}
	return w.worn[was]
}

// freely are the fields whose value somebody types, and how long it may be.
var freely = map[merge.Field]int{
	merge.Patient: plan.MaxName, merge.Hospital: plan.MaxName, merge.Address: plan.MaxName, merge.HospitalText: plan.MaxName,
	merge.Title: plan.MaxName, merge.Place: plan.MaxText, merge.Note: plan.MaxText, merge.LineWords: plan.MaxLineBytes / 4,
}

// dressed is the link of the same plan in other words; what is no plan's link stays as it is.
func (w *wardrobe) dressed(fragment string) string {
	d, err := link.Decode(fragment)
	if err != nil {
		return fragment
	}
	p := d.Plan()
	next := merge.NewDoc(d.Number)
	for _, s := range d.Seen() {
		next.SetSeen(s)
	}
	for _, k := range d.Keys() {
		versions := slices.Clone(d.Get(k))
		for i, v := range versions {
			versions[i].Value = w.value(&p, k.Field, v.Value)
		}
		if slices.Contains(p.Helpers, k.Name) {
			k.Name = w.text(k.Name, plan.MaxName)
		}
		next.Set(k, versions)
	}
	return link.Encode(next)
}

// value is a register's value in other words.
func (w *wardrobe) value(p *plan.Plan, field merge.Field, value string) string {
	most, typed := freely[field]
	switch {
	case typed && value != "":
		return w.text(value, most)
	case field == merge.Phone && w.phone:
		return w.text(value, plan.MaxName)
	case field == merge.Line:
		for _, l := range p.Lines {
			if l.Text != "" {
				value = strings.Replace(value, l.Text, w.text(l.Text, plan.MaxLineBytes/4), 1)
			}
		}
	case slices.Contains(p.Helpers, value):
		return w.text(value, plan.MaxName)
	}
	return value
}

// request is a request in other words.
func (w *wardrobe) request(r app.Request) app.Request {
	r.Fragment, r.Kept = w.dressed(r.Fragment), maps.Clone(r.Kept)
	for _, key := range slices.Sorted(maps.Keys(r.Kept)) {
		value := r.Kept[key]
		r.Kept[key] = w.dressed(value)
		if w.worn[value] != "" {
			r.Kept[key] = w.worn[value]
		}
	}
	r.Fields = slices.Clone(r.Fields)
	for i, f := range r.Fields {
		if w.worn[f.Value] != "" {
			r.Fields[i].Value = w.worn[f.Value]
		}
	}
	return r
}

var svgText = regexp.MustCompile(`(?m)^ *(tspan|text)\b.*\n`)

// shape is a page's elements and attributes without the lines of a drawing's text, of which a long word has more.
func shape(t *testing.T, screen string) string {
	s, err := hostile.Skeleton(screen)
	require.NoError(t, err)
	return svgText.ReplaceAllString(s, "")
}

// uncoded is a shape without what is drawn as a QR code: a link that grew with its texts may be too long for one.
func uncoded(shape string) string {
	var left []string
	within := -1 // how far in the code stands
	for _, line := range strings.Split(shape, "\n") {
		depth := len(line) - len(strings.TrimLeft(line, " "))
		if within >= 0 && depth > within {
			continue
		}
		within = -1
		if strings.Contains(line, "data-qr") {
			within = depth
			continue
		}
		left = append(left, line)
	}
	return strings.Join(left, "\n")
}

// Every screen in every state, on paper too, with hostile texts wherever a plan has one: it has the elements and
// attributes of the same screen with harmless texts, in the same order, and none that the templates did not write
// or that lead elsewhere. With NEWEL_LONG=1 every text is tried in every place.
func TestHostileTextsChangeNoScreen(t *testing.T) {
	texts, names, err := hostile.Texts("../..")
	require.NoError(t, err)
	pages, err := hostile.ReadPages("../..")
	require.NoError(t, err)
	var all []string
	for _, name := range names {
		all = append(all, texts[name])
	}
	step := len(all) / 2
	if os.Getenv("NEWEL_LONG") == "1" {
		step = 1
	}
	tried, dressed := 0, 0
	for name, screen := range screens(t) {
		if len(screen.Sent) == 0 {
			continue
		}
		r := screen.Sent[len(screen.Sent)-1]
		plain := wardrobe{texts: []string{"Text"}, worn: map[string]string{}}
		want := shape(t, app.Handle(plain.request(r)).HTML)
		for from := 0; from < len(all); from += step {
			w := wardrobe{texts: all, from: from, worn: map[string]string{}}
			out := app.Handle(w.request(r))
			require.Empty(t, pages.Judge(out.HTML), name)
			want, got := want, shape(t, out.HTML)
			if strings.Count(got, "data-qr") < strings.Count(want, "data-qr") {
				want, got = uncoded(want), uncoded(got)
			}
			require.Equal(t, want, got, "%s from %d", name, from)
			tried++
			if len(w.worn) > 5 {
				dressed++
			}
			w = wardrobe{texts: all, from: from, phone: true, worn: map[string]string{}}
			require.Empty(t, pages.Judge(app.Handle(w.request(r)).HTML), "%s, with another number to call", name)
		}
	}
	require.Greater(t, tried, 300)
	require.Greater(t, dressed, tried/2, "most screens show a plan")
}

// The judge is none that lets everything through: what is wrong on purpose is found.
func TestTheJudge(t *testing.T) {
	pages, err := hostile.ReadPages("../..")
	require.NoError(t, err)
	for screen, want := range map[string]string{
		`<p>x</p><a href="#x">y</a><a href="tel:5550142">z</a>`: "", `<p onclick="x">`: "onclick", `<script>x</script>`: "<script>", `<img src=x>`: "<img>",
		`<a href="javascript:x">`: "javascript:x", `<a href="https://evil.example/">`: "https", `<a href="#x%22">`: "%22", `<form action="//evil.example">`: "//evil",
		`<p style="x">`: "style", `<!-- x -->`: "comment", `<marquee>`: "<marquee>", `<p id="a b">`: `"a b"`, `<svg><use href="//x#y"></use></svg>`: "//x", `<p class="A">`: `"A"`,
		`<a href="sms:5550142?body=x">`: "sms:555", `<p srcdoc="x">`: "srcdoc",
	} {
		if want == "" {
			require.Empty(t, pages.Judge(screen), screen)
			continue
		}
		require.Contains(t, pages.Judge(screen), want, screen)
	}
}
