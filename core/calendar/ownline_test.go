package calendar

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/plan"
)

// with is a plan with own lines.
func with(lines ...plan.Line) func(*plan.Plan) { return func(p *plan.Plan) { p.Lines = lines } }

// uids gives the UID of each entry by what it says.
func uids(t *testing.T, file string) map[string]string {
	ids := map[string]string{}
	for _, c := range parse(t, file).Children {
		if c.Name == "VEVENT" {
			ids[line(c, "UID")] = line(c, "SUMMARY")
		}
	}
	return ids
}

// Lines of the family's own that come, go and move change no UID: neither of each other nor of
// what the list holds by itself. Source: RFC 5545 3.8.4.7 (a UID is one thing's, for good) and
// RFC 5546 2.1.5, by which an event with a known UID replaces it.
func TestOwnLinesMoveNoUID(t *testing.T) {
	lamp := plan.Line{ID: 5, List: plan.Packing, Day: -4, Text: "Reading lamp"}
	bag := plan.Line{ID: 9, List: plan.Packing, Day: -6, Text: "Get the big bag down"}
	papers := plan.Line{ID: 12, List: plan.Packing, Day: -1, Text: "Papers"} // a day on which the list has its own
	var plain map[string]string
	for n, lines := range [][]plan.Line{nil, {lamp}, {lamp, bag}, {bag, papers}, {lamp, bag, papers}} {
		file, _ := write(t, family(t, with(lines...)), everything(), "")
		ids := uids(t, file)
		for _, l := range lines {
			c := one(t, file, l.Text)
			require.Equal(t, uid(77, "line."+map[uint32]string{5: "5", 9: "9", 12: "12"}[l.ID]), line(c, "UID"))
			delete(ids, line(c, "UID"))
		}
		if n == 0 {
			plain = ids
		}
		require.Equal(t, plain, ids, "what the plan makes by itself has the same entries")
	}
}

// What is taken out says what it was: the words are remembered on the device, since the plan
// has them no more.
func TestAnOwnLineThatWasTakenOutSaysWhatItWas(t *testing.T) {
	long := strings.Repeat("x", plan.MaxText)
	var many []plan.Line
	for i := range 30 {
		many = append(many, plan.Line{ID: uint32(i + 1), List: plan.Packing, Day: -i - 2, Text: "Thing " + string(rune('A'+i))})
	}
	many = append(many, plan.Line{ID: 40, List: plan.Ready, Day: -3, Text: "Ask Mr. Ode: at 3, or 4; \"ring\""}, plan.Line{ID: 41, List: plan.Ready, Day: -3, Text: long})
	_, memory := write(t, family(t, with(many...)), everything(), "")
	file, after := write(t, family(t), everything(), memory)
	require.Equal(t, len(many), strings.Count(file, "STATUS:CANCELLED")-strings.Count(string(plainCancelled(t)), "STATUS:CANCELLED"))
	for _, l := range many[:31] {
		c := one(t, file, "Taken out of the plan: "+l.Text)
		require.Equal(t, "CANCELLED", line(c, "STATUS"))
	}
	require.NotEmpty(t, one(t, file, "Taken out of the plan: "+long[:plan.MaxName-1]+"…"))
	again, same := write(t, family(t), everything(), after)
	require.Equal(t, []string{file, after}, []string{again, same})
	back, _ := write(t, family(t, with(many...)), everything(), after)
	require.NotContains(t, back, "Taken out of the plan: Thing")
}

// plainCancelled is a file of the plan without lines, in which the duty that was taken out is.
func plainCancelled(t *testing.T) string {
	file, _ := write(t, family(t), everything(), "")
	return file
}

// Whatever stands in a memory, what is read of it is clean and short.
func TestWordsOfADamagedMemory(t *testing.T) {
	_, memory := write(t, family(t, with(plan.Line{ID: 5, List: plan.Packing, Day: -4, Text: "lamp"})), everything(), "")
	head, _, found := strings.Cut(memory, "\tlamp\n")
	require.True(t, found)
	head = head[strings.LastIndexByte(head, '\n')+1:]
	for words, want := range map[string]string{
		"\u202elamp\x07 x": "lamp x", "a\tb": "a b", strings.Repeat("🙂", 500): strings.Repeat("🙂", plan.MaxName-1) + "…", "\xff": "", "": "",
	} {
		list := readMemory(head + "\t" + words + "\n")
		require.Len(t, list, 1)
		require.Equal(t, want, list[0].words)
	}
}
