package bench

import (
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"newel/build/tools"
)

// linkTiming is what build/bench/link prints.
type linkTiming struct {
	Fragment string    `json:"fragment"`
	Encode   []float64 `json:"encode"`
	Decode   []float64 `json:"decode"`
}

func runLink(ctx context.Context, words []string) (l linkTiming, err error) {
	out, err := tools.Command{
		Step: "running build/bench/link with " + filepath.Base(words[0]), Env: tools.CleanEnv(),
		Name: words[0], Args: append(slices.Clone(words[1:]), strconv.Itoa(perRound)),
	}.Stdout(ctx)
	if err != nil {
		return l, err
	}
	err = json.Unmarshal([]byte(strings.TrimSpace(out)), &l)
	if err == nil && (l.Fragment == "" || len(l.Encode) == 0 || len(l.Decode) == 0) {
		err = fmt.Errorf("build/bench/link measured nothing: %s", out)
	}
	return l, err
}

// dashed makes the name of a part fit into the name of a row.
func dashed(name string) string {
	if name == "" {
		return "unnamed"
	}
	return strings.ReplaceAll(name, " ", "-")
}
