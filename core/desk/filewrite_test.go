package desk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
	"newel/core/plan"
)

// A file has no number that nobody chose: where there is no common practice it gives no example.
// The ends of a range are on one scale, and written as the file wants them.
func TestTheFileGivesNoExamplesOfMedicalNumbers(t *testing.T) {
	text := WriteFile(&Settings{}, voiceOf("en"))
	require.Contains(t, text, "from 95 °F to 108 °F, or from 35 °C to 42 °C.\n# fever = \"\"\n")
	require.Contains(t, text, "# bowel-days =\n")
	require.Contains(t, text, `Common practice: "23:00". From "17:00" to "24:00".`)
	require.Contains(t, text, `Common practice: "08:30". From "00:00" to "24:00".`)
	s, faults := ReadFile("bowel-days =\nfever = \"\"\nhospital = \"Alder Ferry Hospital\"", fileToday)
	require.Len(t, faults, 2)
	require.False(t, s.Program.Own(plan.Fever) || s.Program.Own(plan.BowelDays))
}

// The example's number is no hospital's: a file of its settings has none, so that it does not
// become another hospital's. A number that this page does not know is kept, and that is said.
func TestTheFileKeepsTheNumber(t *testing.T) {
	example := plan.BaseOf(1)
	again, faults := ReadFile(WriteFile(&example, voiceOf("en")), fileToday)
	require.False(t, Stops(faults))
	require.Zero(t, again.Program.Number)
	other := Settings{Zone: "America/Chicago"}
	other.Program.Number, other.Program.Hospital = 9, "Alder Ferry Hospital"
	for _, language := range guide.Languages {
		text := WriteFile(&other, voiceOf(language))
		require.Contains(t, text, voiceOf(language).Say("settings.file.number.lacks")+"\nnumber = 9\n")
		again, _ = ReadFile(text, fileToday)
		require.Equal(t, uint16(9), again.Program.Number)
	}
}
