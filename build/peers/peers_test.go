package peers

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A machine without a peer is told what to do; the comparison fails and is not passed over.
func TestAMissingPeerSaysWhatToDo(t *testing.T) {
	for _, name := range All {
		_, err := Start(t.TempDir(), name)
		require.ErrorContains(t, err, "the peer "+name+" does not answer: go run ./build test installs what it needs")
	}
}

func TestEveryPeerSaysWhoItIs(t *testing.T) {
	for _, name := range All {
		p := start(t, name)
		require.Regexp(t, `^\d+\.\d+\.\d+`, p.Version, name)
	}
}

// What a library throws is an answer, and the peer lives on.
func TestAFaultIsAnAnswer(t *testing.T) {
	for _, name := range []string{IcalJS, RruleJS, Dateutil} {
		p := start(t, name)
		_, err := p.Expand("FREQ=OFTEN", "2027-03-01T10:30", 3)
		require.ErrorContains(t, err, name)
		dates, err := p.Expand("FREQ=DAILY", "2027-03-01T10:30", 2)
		require.NoError(t, err)
		require.Equal(t, []string{"2027-03-01T10:30", "2027-03-02T10:30"}, dates)
	}
}
