package guide

import (
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
	"newel/core/schedule"
	"newel/core/wall"
)

// textFile gives the lines of a file of words, as they stand in the sources.
func textFile(t *testing.T, language, name string) []string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("text", language, name+".txt"))
	require.NoError(t, err)
	return strings.Split(string(data), "\n")
}

// sentences gives every text of a language with the place where it stands: each
// title, line and reason of the entries, and each word.
func sentences(t *testing.T, language string) map[string]string {
	t.Helper()
	b := Open(language)
	all := map[string]string{}
	for key, text := range b.words {
		all["words "+key] = text
	}
	for id, e := range b.entries {
		all["["+id+"] title"] = e.Title
		for _, l := range e.How {
			all["["+id+"] "+l.Text] = l.Text
		}
		for part, text := range map[string]string{"coach": e.Coach, "patient": e.Patient, "why": e.Why} {
			if text != "" {
				all["["+id+"] "+part] = text
			}
		}
	}
	return all
}

// whole is an entry as one lower-case text.
func whole(e Entry) string {
	parts := []string{e.Title}
	for _, l := range e.How {
		parts = append(parts, l.Text)
	}
	return strings.ToLower(strings.Join(append(parts, e.Coach, e.Patient, e.Why), "\n"))
}

// everyPlan makes plans of every sort that matters for the choice of words: each
// operation, each stay, with and without an arrival and a drive, with each fact
// alone, none and all.
func everyPlan(t *testing.T) []plan.Plan {
	t.Helper()
	surgery, err := wall.ParseDate("2027-03-09")
	require.NoError(t, err)
	facts := []plan.Facts{0, plan.HomeAnswered, plan.AllFacts, plan.AllFacts &^ (plan.NoSurgicalSoap | plan.TeamTimes)}
	for _, f := range plan.FactKeys {
		facts = append(facts, plan.HomeAnswered|f.Fact)
	}
	var all []plan.Plan
	for _, f := range facts {
		for _, op := range []plan.Operation{plan.First, plan.Revision, plan.BothSides} {
			for _, stay := range []plan.Stay{plan.OneNight, plan.SameDay, plan.Undecided} {
				p := plan.Plan{Surgery: surgery, Arrival: 330, Zone: "America/Chicago", Drive: 40, Parking: 15, Facts: f, Operation: op, Stay: stay}
				all = append(all, p)
				p.Arrival = wall.NoClock
				all = append(all, p)
				p.Drive = plan.Unknown
				all = append(all, p)
				p.Surgery-- // a Monday: the day before is on the weekend
				all = append(all, p)
			}
		}
	}
	return all
}

// usedEntries are the ids of every entry that some plan asks for: steps and duties
// with their variants.
func usedEntries(t *testing.T) map[string]bool {
	t.Helper()
	used := map[string]bool{}
	for _, p := range everyPlan(t) {
		s, err := schedule.Build(p)
		require.NoError(t, err)
		for _, d := range s.Duties {
			used[d.ID] = true
		}
		for _, st := range s.Steps {
			used[st.ID] = true
			if st.Variant != "" {
				used[st.ID+"."+st.Variant] = true
			}
		}
	}
	return used
}

func sorted[V any](m map[string]V) []string {
	var keys []string
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}
