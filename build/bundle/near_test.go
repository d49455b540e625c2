package bundle

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/tools"
)

// The near core does without what prints and inspects values of any type: with it, it was 46 kB
// (brotli) more to download. What needs a little of such a package writes that little itself.
func TestTheNearCoreIsWithoutHeavyPackages(t *testing.T) {
	list, err := tools.Command{
		Step: "listing what the near core is made of", Dir: "../..", Env: tools.WasmEnv(),
		Name: "go", Args: []string{"list", "-tags=near", "-deps", "./wasm/near"}, Advice: "mend the Go code at the place named above",
	}.Stdout(context.Background())
	require.NoError(t, err)
	have := strings.Fields(list)
	require.Contains(t, have, "newel/core/app")
	for _, heavy := range []string{
		"fmt", "reflect", "os", "internal/poll", "encoding/binary", "encoding/hex", "encoding/base64", "hash/fnv", "math/big", "net/url",
		"github.com/teambition/rrule-go", "github.com/emersion/go-ical", "newel/core/calendar",
	} {
		require.NotContains(t, have, heavy)
	}
}
