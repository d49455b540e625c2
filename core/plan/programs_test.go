package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A number in a link says the same for ever, so what each stands for is written down here
// a second time, by hand: an entry may be added and never changed.
func TestProgramsThatComeWithThePageNeverChange(t *testing.T) {
	fixed := map[uint16]Known{
		1: {Zone: "America/Chicago", Program: Program{
			Number: 1, Hospital: "Alder Ferry Hospital", Address: "12 Millrace Road, Alder Ferry", Phone: "555-0142",
		}},
	}
	require.Equal(t, fixed, Programs)
	for number, known := range Programs {
		require.NotZero(t, number)
		require.LessOrEqual(t, number, uint16(MaxProgram))
		require.Equal(t, known, BaseOf(number))
		require.False(t, known.Program.Lacks())
		p, today := sound(t)
		p.Program, p.Zone = known.Program, known.Zone
		require.Empty(t, Check(&p, today))
	}
}

func TestAProgramThatThisPageDoesNotHaveIsCommonPractice(t *testing.T) {
	require.Equal(t, Known{}, BaseOf(0))
	require.False(t, new(Program).Lacks())
	known := BaseOf(MaxProgram)
	require.Equal(t, Known{Program: Program{Number: MaxProgram}}, known)
	require.True(t, known.Program.Lacks())
	for r, info := range Rules {
		require.Equal(t, info.Common, known.Program.Get(Rule(r)))
	}
}
