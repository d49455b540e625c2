package desk

import (
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"newel/core/guide"
	"newel/core/plan"
	"newel/core/wall"
)

var fileToday = func() wall.Date { d, _ := wall.ParseDate("2026-11-26"); return d }()

func voiceOf(language string) guide.Voice {
	return guide.Voice{Book: guide.Open(language), Clock12: true, Today: fileToday}
}

// The example file holds what a hospital gives its patients; every key of it is read.
func TestTheExampleFile(t *testing.T) {
	data, err := os.ReadFile("../../testdata/desk/alder-ferry.toml")
	require.NoError(t, err)
	s, faults := ReadFile(string(data), fileToday)
	require.Empty(t, faults)
	p := &s.Program
	require.Equal(t, "Alder Ferry Hospital", p.Hospital)
	require.Equal(t, "America/Chicago", s.Zone)
	require.Equal(t, uint16(2), p.Number)
	require.Equal(t, plan.Given, s.Given)
	require.Equal(t, 5, p.Get(plan.WashDays))
	require.Equal(t, 22*60, p.Get(plan.FoodStop))
	require.Equal(t, 1010, p.Get(plan.Fever))
	require.False(t, p.Own(plan.ClotDays), "what is not in the file is common practice")
	require.Equal(t, "2026-10-05", p.Texts[plan.ReviewedOn])
	require.Len(t, s.Lines, 3)
	require.Equal(t, "Traiga la carpeta azul de la clase", s.Lines[0].In("es"))
	require.Equal(t, -1, s.Lines[0].Day)
	require.Empty(t, Check(&s, fileToday))
	for _, end := range []string{"\r\n", "\n"} {
		again, faults := ReadFile("\ufeff"+strings.ReplaceAll(string(data), "\n", end), fileToday)
		require.Empty(t, faults)
		require.Equal(t, s, again)
	}
}

// typedText draws a text that a form lets through.
func typedText(t *rapid.T, name string, most int) string {
	r := rapid.OneOf(rapid.Rune(), rapid.SampledFrom([]rune("\"\\'#=[]. é°ñ")))
	text := plan.Clean(string(rapid.SliceOfN(r, 0, most).Draw(t, name)))
	runes := []rune(text)
	return plan.Clean(string(runes[:min(len(runes), most)]))
}

func anySettings(t *rapid.T) Settings {
	s := Settings{Zone: rapid.SampledFrom([]string{"America/Chicago", "America/Puerto_Rico"}).Draw(t, "zone")}
	p := &s.Program
	p.Hospital, p.Address, p.Phone = typedText(t, "hospital", plan.MaxName), typedText(t, "address", plan.MaxText), typedText(t, "phone", plan.MaxName)
	p.Number = rapid.SampledFrom([]uint16{0, 2, plan.MaxProgram}).Draw(t, "number")
	for r, info := range plan.Rules {
		if rapid.Bool().Draw(t, "own") {
			p.Set(plan.Rule(r), rapid.IntRange(info.Min, info.Max).Draw(t, info.Key))
		}
	}
	if _, ok := plan.Celsius(p.Get(plan.Fever)); !ok {
		p.Clear(plan.Fever)
	}
	for _, ends := range plan.Ranges {
		if p.Get(ends.Min) > p.Get(ends.Max) {
			p.Clear(ends.Min)
			p.Clear(ends.Max)
		}
	}
	for i := range p.Texts {
		if text := plan.ProgramText(i); !text.IsDay() && text != plan.EmergencyNumber {
			p.Texts[i] = typedText(t, plan.ProgramTextKeys[i], text.TextMost())
			if i+1 < len(p.Texts) && plan.ProgramText(i+1).IsDay() && p.Texts[i] != "" {
				p.Texts[i+1] = (fileToday - wall.Date(rapid.IntRange(0, 900).Draw(t, "days ago"))).String()
			}
		}
	}
	for _, f := range plan.FactKeys {
		if plan.Given.Has(f.Fact) && rapid.Bool().Draw(t, f.Key) {
			s.Given |= f.Fact
		}
	}
	s.Lines = Numbered(p.Number, rapid.SliceOfN(rapid.Custom(anyLine), 0, 6).Draw(t, "lines"))
	return s
}

func anyLine(t *rapid.T) plan.Line {
	l := plan.Line{
		List: plan.List(rapid.IntRange(0, int(plan.ListEnd)-1).Draw(t, "list")), Day: plan.NoDay, Hospital: true,
		Text: typedText(t, "text", plan.MaxText/2),
	}
	if !l.List.Told() && rapid.Bool().Draw(t, "has a day") {
		l.Day = rapid.IntRange(-plan.MaxLineDays, plan.MaxLineDays).Draw(t, "day")
	}
	if l.Text == "" {
		l.Text = "Ask"
	}
	for _, language := range guide.Languages {
		if rapid.Bool().Draw(t, language) {
			l, _ = l.WithWording(language, typedText(t, language, plan.MaxText/2))
		}
	}
	if rapid.Bool().Draw(t, "alike") && l.Others[0].Text != "" {
		l.Text = l.Others[0].Text
	}
	return l
}

// What is written is read back as it was, in each language of the comments.
func TestWrittenAndReadIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySettings(t)
		require.False(t, slices.ContainsFunc(Check(&s, fileToday), func(p plan.Problem) bool { return !p.Ask }))
		for _, language := range guide.Languages {
			text := WriteFile(&s, voiceOf(language))
			again, faults := ReadFile(text, fileToday)
			require.False(t, Stops(faults), "%v\n%s", faults, text)
			require.Equal(t, s, again, text)
		}
	})
}

// An empty form is a file of notes: nothing in it is set, and each note says what can be.
func TestTheFileOfNoSettings(t *testing.T) {
	for _, language := range guide.Languages {
		text := WriteFile(&Settings{}, voiceOf(language))
		for _, info := range plan.Rules {
			require.Contains(t, text, "\n# "+info.Key+" =")
		}
		_, faults := ReadFile(text, fileToday)
		require.Equal(t, []Fault{{Code: faultEmpty}}, faults, "boxes that are not ticked stand there as notes too")
		uncommented := ""
		for _, line := range strings.Split(text, "\n") {
			if key, _, ok := strings.Cut(strings.TrimPrefix(line, "# "), " ="); ok && !strings.Contains(key, " ") {
				line = strings.TrimPrefix(line, "# ")
			}
			uncommented += line + "\n"
		}
		_, faults = ReadFile(uncommented, fileToday)
		for _, f := range faults {
			ready := []string{plan.ReviewNobody, plan.TextLong}
			if f.Key == "fever" || f.Key == "bowel-days" {
				ready = []string{plan.FeverUnclear, tomlNoValue} // nobody's number comes of taking the # away
			}
			require.Contains(t, ready, f.Code, "each note is ready to be used: %v", f)
		}
	}
}

// Every fault names its line and key; what is right beside it is read.
func TestFaultsOfAFile(t *testing.T) {
	s, faults := ReadFile(strings.Join([]string{
		`hospital = "Alder Ferry Hospital"`,
		`wash-day = 4`,
		`wash-days = 99`,
		`food-stop = 23`,
		`wash-morning = "yes"`,
		`phone = 5550142`,
		`clot-days = 35`,
		`clot-days = 30`,
		`fever = "101 °C"`,
		`first-min = 90`,
		`first-max = 60`,
		`zone = "America/Nowhere"`,
		`reviewed-on = 2026-10-05`,
		`emergency = "call"`,
		`number = 1`,
		`address = "` + strings.Repeat("a", plan.MaxText+1) + `"`,
		`soap-given = 1`,
		`liquids-before = 2.5`,
		`[wash]`,
		`[[line]]`,
		`list = "packing"`,
		`en = "Book"`,
		`[[line]]`,
		`en = "Book"`,
		`[[line]]`,
		`list = "limits"`,
		`day = 1`,
		`en = "Book"`,
		`[[line]]`,
		`list = "pack"`,
		`[[line]]`,
		`list = "pack"`,
		`day = 4000`,
		`en = "Book"`,
		`[[line]]`,
		`list = "pack"`,
		`fi = "Kirja"`,
		`[[line]]`,
		`list = "pack"`,
		`en = "Reading lamp"`,
	}, "\n"), fileToday)
	var got []string
	for _, f := range faults {
		got = append(got, strings.TrimSuffix(strings.Join([]string{f.Key, f.Code}, " "), " ")+" "+string(rune('0'+f.Line/10))+string(rune('0'+f.Line%10)))
	}
	require.Equal(t, []string{
		"wash-day key-unknown 02", "wash-days rule-outside 03", "food-stop want-clock 04", "wash-morning want-yes-no 05", "phone want-text 06",
		"clot-days toml-twice 08", "fever fever-scale 09", "first-min range-turned 10", "zone zone-unknown 12", "reviewed-on review-nobody 13",
		"emergency number-to-call 14", "number number-outside 15", "address text-long 16", "soap-given want-yes-no 17", "liquids-before want-whole 18",
		"wash table-unknown 19", "list list-unknown 21", "line list-missing 23", "day line-day 27", "line line-empty 29", "day line-days 33", "fi key-unknown 37",
	}, got)
	require.Equal(t, "Alder Ferry Hospital", s.Program.Hospital)
	require.Equal(t, 35, s.Program.Get(plan.ClotDays))
	require.False(t, s.Program.Own(plan.FirstMin) || s.Program.Own(plan.FirstMax))
	require.Len(t, s.Lines, 1)
	require.Equal(t, "Reading lamp", s.Lines[0].Text)
	for _, language := range guide.Languages {
		for _, f := range faults {
			text := FaultText(voiceOf(language), f)
			require.NotContains(t, text, "settings.fault")
			require.NotContains(t, text, "problem.")
			require.NotContains(t, text, "{")
			require.Regexp(t, `^(Line|Línea) \d+: .*\.$`, text)
		}
	}
	require.Contains(t, FaultText(voiceOf("en"), faults[1]), "between 1 day and 14 days")
}

// What is no file of settings is told in one sentence.
func TestWhatIsNoFileOfSettings(t *testing.T) {
	for text, code := range map[string]string{
		"":                                faultEmpty,
		"# nothing\n":                     faultEmpty,
		strings.Repeat("a = 1\n", 200000): faultLarge,
		"\x89PNG\r\n\x1a\n\x00\x00":       faultBinary,
		"hospital = \"\xff\"":             faultBinary,
	} {
		s, faults := ReadFile(text, fileToday)
		require.Len(t, faults, 1)
		require.Equal(t, code, faults[0].Code)
		require.Equal(t, Settings{}, s)
		require.NotContains(t, FaultText(voiceOf("es"), faults[0]), "{")
	}
	_, faults := ReadFile(strings.Repeat("%\n", 3000), fileToday)
	require.Len(t, faults, mostFaults+1)
	require.Equal(t, faultMany, faults[mostFaults].Code)
}

// Lines of more than one list have a bound, and what is over it is named.
func TestTooManyLines(t *testing.T) {
	s, faults := ReadFile(strings.Repeat("[[line]]\nlist = \"pack\"\nen = \"Book\"\n", MostLines+2), fileToday)
	require.Len(t, s.Lines, MostLines)
	require.Len(t, faults, 2)
	require.Equal(t, plan.LinesMany, faults[0].Code)
	require.Equal(t, 3*MostLines+1, faults[0].Line)
}

// Settings that were read go through the desk's address and back.
func TestAFileGoesThroughTheAddress(t *testing.T) {
	data, err := os.ReadFile("../../testdata/desk/alder-ferry.toml")
	require.NoError(t, err)
	for _, text := range []string{string(data), strings.Replace(string(data), "number = 2", "", 1)} {
		s, faults := ReadFile(text, fileToday)
		require.Empty(t, faults)
		again, err := ReadAddress(Address(&s))
		require.NoError(t, err)
		require.Equal(t, s, again, "also where the page does not know the number")
	}
}
