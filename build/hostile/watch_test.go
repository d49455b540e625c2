package hostile

import (
	"os"
	"os/exec"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// What has no end ends the program, with the sentence that says what it was; what ends in time does not. The
// program is this test once more, told by its environment to go on for ever.
func TestWatch(t *testing.T) {
	if os.Getenv("NEWEL_ENDLESS") == "1" {
		patience = 50 * time.Millisecond
		defer Watch("counting")()
		for n := 0; n >= 0; n = (n + 1) % 1000 {
		}
	}
	Watch("nothing")()
	again := exec.Command(os.Args[0], "-test.run=TestWatch")
	again.Env = append(os.Environ(), "NEWEL_ENDLESS=1")
	out, err := again.CombinedOutput()
	require.Error(t, err)
	require.Contains(t, string(out), "there is still no end of: counting")
}
