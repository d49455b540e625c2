package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What is not clear is explained again and said back again (AHRQ, Health Literacy Universal
// Precautions Toolkit, 3rd edition, Tool 5). How it is stored is ours; no published source.
func TestWhatIsSaidBackStaysOnTheDevice(t *testing.T) {
	p := started(t)
	before := p.fragment
	p.send("/say-back")
	require.Equal(t, "/say-back", p.path)
	require.Contains(t, p.text(), "6 questions to go.")
	for _, id := range []string{"wash", "food", "drink", "leave", "home"} {
		p.send("/say-back", "q", id, "said", "clear")
	}
	require.Equal(t, "ask-emergency", p.last.Focus, "what is still open comes next")
	require.NotContains(t, p.text(), "The result")
	p.send("/say-back", "q", "emergency", "said", "again")
	require.Equal(t, "said", p.last.Focus)
	require.Contains(t, p.part("said"), "5 of 6 answers are clear.")
	require.Contains(t, p.part("said"), "when to call 911")
	require.Equal(t, before, p.fragment, "it is no part of the plan")

	p.send("/say-back", "act", "send")
	require.NotNil(t, p.last.Send)
	require.Contains(t, p.last.Send.Text, "5 of 6 answers are clear. Please explain again: when to call 911.")
	require.Equal(t, before, p.last.Send.Fragment)

	p.send("/say-back", "act", "afresh")
	require.Contains(t, p.text(), "6 questions to go.")
	for key := range p.kept {
		require.False(t, strings.HasPrefix(key, keySaid), key)
	}
}

// What no page of ours sends or stores changes nothing. Common practice, no published source.
func TestOddAnswersToSayBack(t *testing.T) {
	p := started(t)
	for _, fields := range [][]string{{"q", "wash"}, {"q", "nothing", "said", "clear"}, {"q", "wash", "said", "x"}, {"said", "clear"}, {"act", "send"}} {
		p.send("/say-back", fields...)
		require.Contains(t, p.text(), "6 questions to go.", fields)
		require.Nil(t, p.last.Send)
	}
	for _, kept := range []string{"wash", "wash\tclear", "wash\tclear\tnonsense", "\n\n\t\t", "food\tsoso\t.time"} {
		p.kept[keySaid+planKey(p.plan().Number)] = kept
		p.send("/say-back")
		require.Contains(t, p.text(), "6 questions to go.", kept)
	}
}
