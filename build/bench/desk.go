package bench

import (
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"newel/build/bench/desk/rows"
	"newel/build/peers"
	"newel/build/tools"
)

// deskTiming is what build/bench/desk prints.
type deskTiming struct {
	Bytes  int       `json:"bytes"`
	States [4]int    `json:"states"`
	Text   string    `json:"text"` // the table
	Ms     []float64 `json:"ms"`
}

// desks measures a table of a thousand patients, from the pasted text to the text with links
// and messages, in milliseconds. The goal in the browser is a second.
func desks(ctx context.Context, root string) ([]Row, error) {
	peer, err := peers.Start(root, peers.CSV)
	if err != nil {
		return nil, err
	}
	defer peer.Close()
	dir, remove, err := scratch()
	if err != nil {
		return nil, err
	}
	defer remove()
	native, wasm, err := programs(ctx, root, dir, "desk")
	if err != nil {
		return nil, err
	}
	var inWasm, inNative, inPeer []float64
	for range rounds {
		a, err := runDesk(ctx, wasm)
		if err != nil {
			return nil, err
		}
		b, err := runDesk(ctx, native)
		if err != nil {
			return nil, err
		}
		if a.Bytes != b.Bytes || a.States != b.States {
			return nil, fmt.Errorf("WebAssembly wrote %d bytes %v and native %d bytes %v: they must be the same table", a.Bytes, a.States, b.Bytes, b.States)
		}
		c, err := peerTable(peer, b.Text)
		if err != nil {
			return nil, err
		}
		inWasm, inNative, inPeer = append(inWasm, median(a.Ms)), append(inNative, median(b.Ms)), append(inPeer, median(c))
	}
	what := "Python " + peer.Version + ", csv, strptime and a link of JSON + deflate 9, without checks and messages"
	all := compare("desk/rows", "ms", median(inWasm), what, median(inPeer))
	all.Must, all.Goal = 1000, 500
	return []Row{all, compare("desk/rows-native", "ms", median(inNative), what, median(inPeer))}, nil
}

// peerTable times the peer with the same table.
func peerTable(peer *peers.Peer, text string) ([]float64, error) {
	var answer struct {
		Rows int       `json:"rows"`
		Ms   []float64 `json:"ms"`
	}
	s := rows.Settings()
	question := map[string]any{"text": text, "count": perRound, "settings": map[string]any{
		"zone": s.Zone, "hospital": s.Program.Hospital, "address": s.Program.Address, "phone": s.Program.Phone, "wash": 4,
	}}
	err := peer.Ask("time", question, &answer)
	if err == nil && answer.Rows != rows.Count {
		err = fmt.Errorf("the peer made %d rows of %d", answer.Rows, rows.Count)
	}
	return answer.Ms, err
}

func runDesk(ctx context.Context, words []string) (d deskTiming, err error) {
	out, err := tools.Command{
		Step: "running build/bench/desk with " + filepath.Base(words[0]), Env: tools.CleanEnv(),
		Name: words[0], Args: append(slices.Clone(words[1:]), strconv.Itoa(perRound)),
	}.Stdout(ctx)
	if err != nil {
		return d, err
	}
	err = json.Unmarshal([]byte(strings.TrimSpace(out)), &d)
	if err == nil && (len(d.Ms) == 0 || d.States[0] > 0 || d.States[3] == 0) {
		err = fmt.Errorf("build/bench/desk measured nothing, or made no links: %v", d.States)
	}
	return d, err
}
