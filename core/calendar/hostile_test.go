package calendar

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/emersion/go-ical"
	"github.com/stretchr/testify/require"

	"newel/build/hostile"
	"newel/core/plan"
)

// outline is a file without its values: the components, each with the names of its properties and parameters.
func outline(c *ical.Component, depth string) string {
	var props []string
	for _, list := range c.Props {
		for _, p := range list {
			name := depth + " " + p.Name
			for param := range p.Params {
				name += ";" + param
			}
			props = append(props, name)
		}
	}
	slices.Sort(props)
	text := depth + c.Name + "\n" + strings.Join(props, "\n") + "\n"
	for _, child := range c.Children {
		text += outline(child, depth+" ")
	}
	return text
}

// content is a content line as RFC 5545 3.1 writes it: a name, parameters, and no control in the value.
var content = regexp.MustCompile("^[A-Z-]+(;[A-Z-]+=(\"[^\"\\x00-\\x1f]*\"|[^\";:,\\x00-\\x1f]*))*:[^\\x00-\\x08\\x0a-\\x1f\\x7f]*$")

func dressedUp(t *testing.T, text string) plan.Plan {
	fit := func(s string, most int) string {
		letters := []rune(plan.Clean(s))
		return plan.Clean(string(letters[:min(len(letters), most)]))
	}
	return family(t, func(p *plan.Plan) {
		p.Patient, p.Program.Hospital, p.Program.Address = text, text, text
		for i := range p.Helpers {
			p.Helpers[i] = fit(text, plan.MaxName-1) + string(rune('a'+i))
		}
		for i := range p.Duties {
			p.Duties[i].Title, p.Duties[i].Place, p.Duties[i].Note = text, text, text
		}
		for i := range p.Lines {
			p.Lines[i].Text = text + "x"
		}
	})
}

// Each hostile text wherever a plan has one, cleaned by nobody before: the file has the components and properties
// of the same plan with a harmless text, no line that is none, and what go-ical reads of it holds the text itself.
func TestHostileTextsAddNothingToAFile(t *testing.T) {
	texts, names, err := hostile.Texts("../..")
	require.NoError(t, err)
	tree := func(text string) (string, string) {
		file, _ := write(t, dressedUp(t, text), everything(), "")
		cal, err := ical.NewDecoder(strings.NewReader(file)).Decode()
		require.NoError(t, err, "%q", text)
		return outline(cal.Component, ""), file
	}
	want, _ := tree("Text")
	require.Greater(t, strings.Count(want, "VEVENT"), 5)
	for _, name := range names {
		text := texts[name]
		if plan.Clean(text) == "" {
			continue // a plan cannot tell it from no text, and then lines are left out
		}
		got, file := tree(text)
		require.Equal(t, want, got, name)
		for part := range strings.SplitSeq(strings.TrimSuffix(file, "\r\n"), "\r\n") {
			require.LessOrEqual(t, len(part), 75, name)
			require.NotContains(t, part, "\r", name)
			require.NotContains(t, part, "\n", name)
		}
		for _, l := range unfold(file) {
			require.Regexp(t, content, l, name)
			require.NotRegexp(t, hostile.Unseen, l, name)
		}
		said := map[string]int{}
		for _, e := range allEvents(t, file) {
			for _, prop := range []string{"SUMMARY", "LOCATION"} {
				if value, err := e.Props.Text(prop); err == nil && strings.Contains(plan.Clean(value), plan.Clean(text)) {
					said[prop]++
				}
			}
		}
		require.Greater(t, said["SUMMARY"], 1, "%s: the text is cut off", name)
		require.Greater(t, said["LOCATION"], 1, "%s: the text is cut off", name)
	}
}

func allEvents(t *testing.T, file string) []*ical.Component {
	cal, err := ical.NewDecoder(strings.NewReader(file)).Decode()
	require.NoError(t, err)
	return slices.DeleteFunc(cal.Children, func(c *ical.Component) bool { return c.Name != ical.CompEvent })
}
