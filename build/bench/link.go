package bench

import (
	"context"
	"fmt"

	"newel/build/bench/link/families"
	"newel/build/peers"
	"newel/core/link"
	"newel/core/pack"
)

// linkPeers is the script that packs the plans with other people's libraries, as
// build/peers finds it.
const linkPeers = "../bench/link/peers.mjs"

// packers are the peers in the order of the rows, with what each is. The first is what the
// plain row of a plan is compared with.
var packers = []struct{ row, what string }{
	{"json-deflate", "natural JSON + deflate 9"},
	{"json", "natural JSON"},
	{"json-lz-string", "natural JSON + lz-string"},
	{"json-brotli", "natural JSON + brotli 11"},
	{"cbor-deflate", "CBOR + deflate 9"},
	{"yjs-deflate", "Yjs + deflate 9, its own history"},
	{"automerge", "Automerge, its own history"},
}

// limits are how long each link must be at most, and should be, in characters.
var limits = map[string]struct{ must, goal float64 }{
	"starter": {20, 16}, "settings": {200, 150}, "family": {410, 340}, "family-merge": {550, 433},
}

// links measures how long links are, in characters, where their bits go, and how long they
// take to read and to write.
func links(ctx context.Context, root string) ([]Row, error) {
	peer, err := peers.Start(root, linkPeers)
	if err != nil {
		return nil, err
	}
	defer peer.Close()
	var rows []Row
	plans := families.All()
	for i := range plans {
		sizes, err := packed(peer, &plans[i])
		if err != nil {
			return nil, err
		}
		rows = append(rows, sizeRows(&plans[i], len(link.Encode(plans[i].Doc)), sizes)...)
	}
	for i := range plans {
		rows = append(rows, bitRows(plans[i].Name, link.Spend(plans[i].Doc))...)
	}
	times, err := linkTimes(ctx, root, peer, &plans[len(plans)-1])
	return append(rows, times...), err
}

// step is a families.Step as the script is handed it. Only acts say what the plan is.
type step struct {
	By   uint32           `json:"by"`
	From *uint32          `json:"from"`
	Plan families.Natural `json:"plan"`
}

// handed is what the packers get of a plan, and its steps.
func handed(p *families.Plan) (natural families.Natural, steps []step) {
	if !p.Stamped() {
		natural = families.Unstamped(p.Doc)
		return natural, []step{{Plan: natural}}
	}
	for _, s := range p.Steps {
		steps = append(steps, step{uint32(s.By), (*uint32)(s.From), families.Unstamped(s.Doc)})
	}
	return families.Stamped(p.Doc), steps
}

// packed gives the lengths of a plan as the peers pack it.
func packed(peer *peers.Peer, p *families.Plan) (sizes map[string]int, err error) {
	natural, steps := handed(p)
	return sizes, peer.Ask("sizes", map[string]any{"plan": natural, "steps": steps}, &sizes)
}

// sizeRows makes the rows of one plan.
func sizeRows(p *families.Plan, ours int, sizes map[string]int) []Row {
	row := func(name, what string, peer int) Row {
		return compare("link/"+name, "characters", float64(ours), what, float64(peer))
	}
	stamps := ""
	if p.Stamped() {
		stamps = ", with stamps"
	}
	first := row(p.Name, packers[0].what+stamps, sizes[packers[0].row])
	first.Must, first.Goal = limits[p.Name].must, limits[p.Name].goal
	rows := []Row{first}
	for _, packer := range packers {
		rows = append(rows, row(p.Name+"/"+packer.row, packer.what+stamps, sizes[packer.row]))
	}
	return rows
}

// bitRows says where the bits of a link's body go. What each part is compared with is the
// whole body, so that the ratio is its share.
func bitRows(name string, parts []pack.Part) (rows []Row) {
	var whole float64
	for _, part := range parts {
		whole += part.Bits
	}
	for _, part := range parts {
		if part.Bits > 0 {
			rows = append(rows, compare("link/"+name+"/bits/"+dashed(part.Name), "bits", part.Bits, "the whole body", whole))
		}
	}
	return rows
}

// linkTimes measures reading and writing in WebAssembly, against the same natively and
// against what a script does by itself.
func linkTimes(ctx context.Context, root string, peer *peers.Peer, p *families.Plan) ([]Row, error) {
	dir, remove, err := scratch()
	if err != nil {
		return nil, err
	}
	defer remove()
	native, wasm, err := programs(ctx, root, dir, "link")
	if err != nil {
		return nil, err
	}
	natural, _ := handed(p)
	ours, figures := link.Encode(p.Doc), map[string][]float64{}
	for range rounds {
		for _, program := range []struct {
			what  string
			words []string
		}{{"wasm", wasm}, {"native", native}} {
			found, err := runLink(ctx, program.words)
			if err != nil {
				return nil, err
			}
			if found.Fragment != ours {
				return nil, fmt.Errorf("the link written by %s is another one than here: it must be the same", program.what)
			}
			figures[program.what+"/decode"] = append(figures[program.what+"/decode"], median(found.Decode))
			figures[program.what+"/encode"] = append(figures[program.what+"/encode"], median(found.Encode))
		}
		for _, op := range []string{"decode", "encode"} {
			var answer struct{ Ms []float64 }
			if err := peer.Ask(op, map[string]any{"plan": natural, "count": perRound}, &answer); err != nil {
				return nil, err
			}
			figures["script/"+op] = append(figures["script/"+op], median(answer.Ms))
		}
	}
	return timeRows(figures), nil
}

// timeRows makes the rows of the times.
func timeRows(figures map[string][]float64) (rows []Row) {
	for _, op := range []struct{ name, script string }{
		{"decode", "inflate and JSON.parse in Node, which check nothing"},
		{"encode", "JSON.stringify and deflate 9 in Node"},
	} {
		wasm := median(figures["wasm/"+op.name])
		rows = append(rows,
			compare("link/"+op.name, "ms", wasm, "the same natively", median(figures["native/"+op.name])),
			compare("link/"+op.name+"/json-deflate", "ms", wasm, op.script, median(figures["script/"+op.name])))
	}
	return rows
}
