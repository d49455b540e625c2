package split

import (
	"flag"
	"fmt"
	"math/rand"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"newel/core/link"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/schedule"
)

// writeOutcomes writes the files of testdata/outcomes anew, for whoever has changed what a family is proposed; what
// that means for each of these families then stands in the difference:
//
//	go test ./core/split -run Outcomes -outcomes
var writeOutcomes = flag.Bool("outcomes", false, "write what is found and proposed for the families of testdata/outcomes")

const (
	outcomes   = "../../testdata/outcomes"
	outcomesOf = 112 // families
)

// What invented families of every kind are told and proposed, word for word. The other tests of this package say
// what must be true of any proposal; this one says that nothing of it changes without somebody seeing it. It is no proof that
// they are right (the families are invented; no published source). They are kept as links, so that they stay the same.
func TestOutcomesChangeOnlyWithTheirFiles(t *testing.T) {
	for n := range outcomesOf {
		file := filepath.Join(outcomes, fmt.Sprintf("family-%03d.txt", n))
		data, err := os.ReadFile(file)
		if err != nil && *writeOutcomes {
			data = []byte(link.Encode(merge.New(randomFamily(t, rand.New(rand.NewSource(int64(n)))))) + "\n")
		} else {
			require.NoError(t, err)
		}
		fragment, want, _ := strings.Cut(string(data), "\n")
		d, err := link.Decode(fragment)
		require.NoError(t, err)
		got := outcomeOf(build(t, d.Plan()), n)
		if *writeOutcomes {
			require.NoError(t, os.WriteFile(file, []byte(fragment+"\n"+got), 0o644))
			continue
		}
		require.Equal(t, want, got, file)
	}
}

// outcomeOf is all that is found and proposed for a family; n says what is asked.
func outcomeOf(s *schedule.Schedule, n int) string {
	w := &outcomeText{s: s}
	ask := Ask{Scope: Scope(n % 2), Now: start(s)}
	if n%4 == 3 {
		ask.Now = ask.Now.Add(time.Duration(20*24+n) * time.Hour)
	}
	if n%3 == 1 {
		ask.Held = func(duty int) bool { return duty%5 < n%4 }
	}
	if n%5 == 2 {
		ask.Fixed = func(duty int) bool { return duty%7 == n%7 }
	}
	w.report(Look(s, ask.Now), ask)
	p := Suggest(s, ask)
	w.proposal(&p)
	after := Apply(s.Plan, s, ask.Now, p.Lines)
	w.settings(&after)
	return w.String()
}

// outcomeText writes for people.
type outcomeText struct {
	strings.Builder
	s *schedule.Schedule
}

func (w *outcomeText) line(format string, args ...any) { fmt.Fprintf(w, format+"\n", args...) }

func (w *outcomeText) who(who uint8) string {
	if who == 0 {
		return "nobody"
	}
	return w.s.Plan.Helpers[who-1]
}

func (w *outcomeText) duty(i int) string {
	d := &w.s.Duties[i]
	return strconv.Itoa(i) + " " + d.ID + " " + stamp(d.There.From) + "-" + stamp(d.Ends.To)
}

func stamp(t time.Time) string {
	if t.IsZero() {
		return "?"
	}
	return t.Format("2 Jan 15:04")
}

func (w *outcomeText) report(r *Report, ask Ask) {
	w.line("\nFound, from %s on: %v", stamp(ask.Now), r.Count)
	for _, f := range r.Findings {
		text := w.duty(f.Duty) + ": " + w.who(f.Who) + ", " + states[f.State]
		if why := w.reasons(f.Why); why != "" {
			text += ": " + why
		}
		w.line("%s", text)
	}
	for _, g := range r.Gaps {
		w.line("nobody there %s to %s, branch %d, must %v", stamp(g.From), stamp(g.To), g.Branch, g.Must)
	}
	w.loads(r.Loads)
	w.line("takable %v", r.Takable(ask.Fixed))
}

func (w *outcomeText) reasons(why []Reason) string {
	var all []string
	for _, r := range why {
		text := whys[r.Why]
		if r.Why >= AtWork {
			text += " " + stamp(r.From) + "-" + stamp(r.Until)
		}
		if r.Why == HasOther {
			text += " has " + strconv.Itoa(r.Other)
		}
		all = append(all, text)
	}
	return strings.Join(all, ", ")
}

func (w *outcomeText) loads(all []Load) {
	for _, l := range all {
		w.line("%s has %d, then %d, offered %d", w.who(l.Who), l.Before, l.After, l.Offer)
	}
}

func (w *outcomeText) proposal(p *Proposal) {
	w.line("\nProposed: open %v, beyond %d", p.Open, p.Beyond)
	for _, l := range p.Lines {
		w.line("%s: %s to %s because %v", w.duty(l.Duty), w.who(l.From), w.who(l.To), l.Because)
		for _, o := range l.Others {
			w.line("  not %s: %s", w.who(o.Who), w.reasons(o.Why))
		}
	}
	for _, c := range p.Changes {
		w.line("if %s (%s, weekday %d, day %s, clock %d, starts %v, end %d): %v", w.who(c.Who), whys[c.Why], c.Weekday, stamp(c.Day), c.Clock, c.Starts, c.End, c.Covers)
	}
	w.loads(p.Loads)
}

// settings is who has what in a plan.
func (w *outcomeText) settings(p *plan.Plan) {
	w.line("\nAccepted: %v %v", p.Cover, p.Shifts)
	for i := range p.Duties {
		d := &p.Duties[i]
		w.line("%d: %d %v %v", d.ID, d.Who, d.On, d.Takes)
	}
}
