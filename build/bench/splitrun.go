package bench

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"newel/build/bench/split/families"
	"newel/build/bench/split/programme"
	"newel/build/bench/split/stages"
	"newel/build/peers"
	"newel/build/tools"
	"newel/core/assign"
)

// splitRounds is how often each stage of a family is timed after a warm-up. Some take a second.
const splitRounds = 3

// highsLimit is how many seconds HiGHS gets for one solve; a level is one, but for the
// first, which is three.
const highsLimit = 10

// contest is one family as both solved it.
type contest struct {
	families.Family
	ours   []float64 // by stage, milliseconds
	highs  []float64 // the same
	ended  []bool    // by stage: HiGHS proved all levels of it; else its time is at least that
	found  assign.Answer
	offers []int  // by helper
	peer   string // what it stood against
}

// readFamily reads a committed family.
func readFamily(root string, f *families.Family) (*assign.Problem, string, error) {
	name := filepath.Join(root, "testdata", "split", f.File())
	text, err := os.ReadFile(name)
	if err != nil {
		return nil, name, err
	}
	p, err := families.Read(string(text))
	return p, name, err
}

// contend has both solve every family.
func contend(ctx context.Context, root string, wasm []string, all []families.Family) (contests []contest, err error) {
	peer, err := peers.Start(root, peers.HiGHS)
	if err != nil {
		return nil, err
	}
	defer peer.Close()
	for _, f := range all {
		c := contest{Family: f, peer: "HiGHS " + peer.Version}
		p, name, err := readFamily(root, &f)
		if err != nil {
			return nil, err
		}
		for _, h := range p.Helpers {
			c.offers = append(c.offers, h.Offer)
		}
		if err := c.runOurs(ctx, wasm, name, p); err != nil {
			return nil, err
		}
		if err := c.runHighs(peer, p); err != nil {
			return nil, fmt.Errorf("%s: %w", f.File(), err)
		}
		contests = append(contests, c)
	}
	return contests, nil
}

// runOurs times ours, and asks that WebAssembly gives the answer that is given here.
func (c *contest) runOurs(ctx context.Context, wasm []string, file string, p *assign.Problem) error {
	out, err := tools.Command{
		Step: "running build/bench/split with " + c.File(), Env: tools.CleanEnv(),
		Name: wasm[0], Args: append(slices.Clone(wasm[1:]), strconv.Itoa(splitRounds), file),
	}.Stdout(ctx)
	if err != nil {
		return err
	}
	var r stages.Report
	if err := json.NewDecoder(bufio.NewReader(strings.NewReader(out))).Decode(&r); err != nil || len(r.Ms) != len(stages.All) {
		return fmt.Errorf("build/bench/split measured nothing of %s: %s", c.File(), out)
	}
	if here := assign.Solve(p, assign.Options{}); !reflect.DeepEqual(here, r.Answer) {
		return fmt.Errorf("%s: the split in WebAssembly is another one than natively: they must be the same", c.File())
	}
	for _, ms := range r.Ms {
		c.ours = append(c.ours, median(ms))
	}
	c.found = r.Answer
	return nil
}

// runHighs times HiGHS, level by level, each fixed at what it found. It stops at the first
// level that it does not prove in its time. Where both have proven the levels so far, the
// values are the same, or one of the proofs is false.
func (c *contest) runHighs(peer programme.Asker, p *assign.Problem) error {
	model, judge := programme.NewModel(p), programme.NewJudge(p)
	total, ended, same := 0.0, true, true
	for level := range assign.LevelEnd {
		if ended {
			found, err := model.Ask(peer, judge, level, highsLimit)
			if err != nil {
				return err
			}
			total, ended = total+found.Ms, found.Proven
			ours := c.found.Values[level]
			same = same && ended && ours.Proven
			if same && ours.Got != found.Value {
				return fmt.Errorf("level %d: ours claims %v and HiGHS %v as proven: one is false", level, ours.Got, found.Value)
			}
			if ended {
				model.Fix(level, found.Value)
			}
		}
		if slices.ContainsFunc(stages.All, func(s stages.Stage) bool { return s.Until == level }) {
			c.highs, c.ended = append(c.highs, total), append(c.ended, ended)
		}
	}
	return nil
}
