package bench

import (
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"newel/build/bench/dates"
	"newel/build/peers"
	"newel/build/tools"
)

// vtimezone is New York's zone as ical.js is handed it: RFC 5545 3.6.5, the example
// with the rules that hold since 2007.
const vtimezone = "BEGIN:VTIMEZONE\r\nTZID:America/New_York\r\n" +
	"BEGIN:STANDARD\r\nDTSTART:20071104T020000\r\nRRULE:FREQ=YEARLY;BYDAY=1SU;BYMONTH=11\r\n" +
	"TZOFFSETFROM:-0400\r\nTZOFFSETTO:-0500\r\nTZNAME:EST\r\nEND:STANDARD\r\n" +
	"BEGIN:DAYLIGHT\r\nDTSTART:20070311T020000\r\nRRULE:FREQ=YEARLY;BYDAY=2SU;BYMONTH=3\r\n" +
	"TZOFFSETFROM:-0500\r\nTZOFFSETTO:-0400\r\nTZNAME:EDT\r\nEND:DAYLIGHT\r\nEND:VTIMEZONE"

// listing is what one program says of all dates of the rules.
type listing struct {
	Dates int       `json:"dates"`
	Sum   int64     `json:"sum"`  // of the instants, or of the times on the wall
	Wall  int64     `json:"wall"` // ours only: the sum on the wall
	Ms    []float64 `json:"ms"`
}

// perSecond is the dates that it lists in a second.
func (l listing) perSecond() float64 { return float64(l.Dates) * 1000 / median(l.Ms) }

// contender is one way of listing the dates, with its figures of all rounds.
type contender struct {
	what    string
	onWall  bool // its dates stay on the wall, without a zone: less work
	list    func() (listing, error)
	figures []float64
}

// repeating measures dates a second: ours in WebAssembly and natively, and the peers'.
// Ours, and the peers that can, place each date in its zone.
func repeating(ctx context.Context, root string) ([]Row, error) {
	if err := tools.Apt(ctx, "the comparisons with other calendars", tools.Peers, func(string) {}); err != nil {
		return nil, err
	}
	dir, remove, err := scratch()
	if err != nil {
		return nil, err
	}
	defer remove()
	native, wasm, err := programs(ctx, root, dir, "occurrences")
	if err != nil {
		return nil, err
	}
	all := append([]*contender{
		{what: "ours in WebAssembly", list: func() (listing, error) { return runOccurrences(ctx, wasm) }},
		{what: "ours natively", list: func() (listing, error) { return runOccurrences(ctx, native) }},
	}, others(root)...)
	if err := takeTurns(all); err != nil {
		return nil, err
	}
	return repeatRows(all), nil
}

func runOccurrences(ctx context.Context, words []string) (l listing, err error) {
	out, err := tools.Command{
		Step: "running build/bench/occurrences with " + filepath.Base(words[0]), Env: tools.CleanEnv(),
		Name: words[0], Args: append(slices.Clone(words[1:]), strconv.Itoa(perRound)),
	}.Stdout(ctx)
	if err != nil {
		return l, err
	}
	return l, json.Unmarshal([]byte(strings.TrimSpace(out)), &l)
}

// others are the peers' ways of listing the dates.
func others(root string) (all []*contender) {
	for _, c := range []struct{ name, call, zone, does string }{
		{peers.IcalJS, "ical.js", vtimezone, "dates placed by a VTIMEZONE"},
		{peers.IcalJS, "ical.js", "", "dates on the wall only"},
		{peers.RruleJS, "rrule.js", "", "dates on the wall only"},
		{peers.Dateutil, "dateutil", dates.Zone, "dates placed by Python's zoneinfo"},
	} {
		one := &contender{onWall: c.zone == ""}
		one.list = func() (l listing, err error) {
			p, err := peers.Start(root, c.name) // a new process each round, like ours
			if err != nil {
				return l, err
			}
			defer p.Close()
			one.what = fmt.Sprintf("%s %s, %s", c.call, p.Version, c.does)
			return l, p.Ask("time", map[string]any{"rules": dates.Lines(), "zone": c.zone, "count": perRound}, &l)
		}
		all = append(all, one)
	}
	return all
}

// takeTurns lets each list in turn, round after round, and sees to it that all list
// the same dates.
func takeTurns(all []*contender) error {
	var first listing
	for round := range rounds {
		for i, c := range all {
			found, err := c.list()
			if err != nil {
				return err
			}
			if round == 0 && i == 0 {
				first = found
			}
			want := first.Sum
			if c.onWall {
				want = first.Wall
			}
			if found.Dates != first.Dates || found.Dates == 0 || found.Sum != want {
				return fmt.Errorf("%s lists %d dates that sum up to %d, %s lists %d with %d: they must be the same",
					all[0].what, first.Dates, want, c.what, found.Dates, found.Sum)
			}
			c.figures = append(c.figures, found.perSecond())
		}
	}
	return nil
}

// repeatRows makes the rows. More is better in all of them.
func repeatRows(all []*contender) []Row {
	wasm, native, icaljs, icaljsWall, rrulejs, dateutil := all[0], all[1], all[2], all[3], all[4], all[5]
	speed := func(c *contender) float64 { return median(c.figures) }
	row := func(name string, ours, peer *contender) Row {
		return compare("repeat/"+name, "dates/s", speed(ours), peer.what+"; "+ours.what+", placed in the zone", speed(peer))
	}
	fastest := slices.MaxFunc([]*contender{icaljs, icaljsWall, rrulejs}, func(a, b *contender) int {
		return int(speed(a) - speed(b))
	})
	return []Row{
		row("wasm-vs-fastest-js", wasm, fastest),
		row("native-vs-dateutil", native, dateutil),
		row("rrule.js", wasm, rrulejs),
		row("ical.js", wasm, icaljs),
		row("dateutil", wasm, dateutil),
	}
}
