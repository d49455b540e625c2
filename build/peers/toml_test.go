package peers

import (
	"os"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"newel/core/desk"
	"newel/core/guide"
	"newel/core/plan"
	"newel/core/wall"
)

var tomlToday = func() wall.Date { d, _ := wall.ParseDate("2026-11-26"); return d }()

// lineOfFile is a [[line]] as the library reads it.
type lineOfFile struct {
	List, En, Es string
	Day          *int
}

// github.com/BurntSushi/toml reads what we write, and finds the same in it: texts of any
// characters, numbers, times, boxes and lines.
func TestTOMLLibraryReadsOurFiles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := desk.Settings{Zone: "America/Chicago"}
		p := &s.Program
		text := func(name string, most int) string {
			drawn := rapid.OneOf(rapid.String(), rapid.StringMatching(`[ "'\\#=\[\]a-zñ.]*`)).Draw(t, name)
			runes := []rune(plan.Clean(drawn))
			return plan.Clean(string(runes[:min(len(runes), most)]))
		}
		p.Hospital, p.Address = text("hospital", plan.MaxName), text("address", plan.MaxText)
		if rapid.Bool().Draw(t, "soap") {
			s.Given |= plan.SoapGiven
		}
		for r, info := range plan.Rules {
			if plan.Rule(r) != plan.Fever && rapid.Bool().Draw(t, "own") {
				p.Set(plan.Rule(r), rapid.IntRange(info.Min, info.Max).Draw(t, info.Key))
			}
		}
		l := plan.Line{List: plan.Packing, Day: rapid.IntRange(-9, 9).Draw(t, "day"), Hospital: true, Text: "X" + text("en", 50)}
		l, _ = l.WithWording("es", "Y"+text("es", 50))
		s.Lines = desk.Numbered(0, []plan.Line{l})

		var got struct {
			Hospital, Address, Zone string
			Soap                    bool `toml:"soap-given"`
			Line                    []lineOfFile
		}
		var all map[string]any
		file := desk.WriteFile(&s, guide.Voice{Book: guide.Open("es"), Today: tomlToday})
		_, err := toml.Decode(file, &got)
		require.NoError(t, err, file)
		_, err = toml.Decode(file, &all)
		require.NoError(t, err, file)
		require.Equal(t, []any{p.Hospital, p.Address, s.Zone, s.Given != 0}, []any{got.Hospital, got.Address, got.Zone, got.Soap}, file)
		require.Equal(t, []lineOfFile{{"pack", l.Text, l.Others[0].Text, &l.Day}}, got.Line, file)
		for r, info := range plan.Rules {
			value, there := all[info.Key]
			require.Equal(t, p.Own(plan.Rule(r)), there, info.Key)
			switch {
			case !there:
			case info.Unit == plan.ClockTime:
				require.Equal(t, wall.Clock(p.Get(plan.Rule(r))).String(), value)
			case info.Unit == plan.YesNo:
				require.Equal(t, p.Get(plan.Rule(r)) == 1, value)
			default:
				require.EqualValues(t, p.Get(plan.Rule(r)), value)
			}
		}
	})
}

// The library refuses what we refuse: the example file with one character changed is either
// refused by both, or read by the library and by us without a fault of form. What settings do
// not use (a number in hexadecimal, say) may be refused by us alone.
func TestTOMLLibraryRefusesWhatWeRefuse(t *testing.T) {
	data, err := os.ReadFile("../../testdata/desk/alder-ferry.toml")
	require.NoError(t, err)
	both := 0
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.IntRange(0, len(data)-1).Draw(t, "at")
		by := rapid.SampledFrom([]string{"\"", "=", "[", "]", "#", "\n", "\\", "'", ".", "x", ""}).Draw(t, "by")
		changed := string(data[:at]) + by + string(data[at+1:])
		var into map[string]any
		_, err := toml.Decode(changed, &into)
		_, faults := desk.ReadFile(changed, tomlToday)
		form, unused := false, false
		for _, f := range faults {
			form = form || strings.HasPrefix(f.Code, "toml-") && f.Code != "toml-unused"
			unused = unused || f.Code == "toml-unused"
		}
		if err != nil && !unused {
			require.True(t, form || binary(changed), "only the library refuses %q: %v", changed[max(0, at-20):min(len(changed), at+20)], err)
			both++
		}
		if err == nil && !strings.Contains(changed, `\e`) && !strings.Contains(changed, `\x`) { // TOML 1.1 has these escapes
			require.False(t, form, "only we refuse %q: %v", changed[max(0, at-20):min(len(changed), at+20)], faults)
		}
	})
	require.Positive(t, both)
}

func binary(s string) bool { return strings.ToValidUTF8(s, "") != s }
