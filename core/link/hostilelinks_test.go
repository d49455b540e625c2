package link

import (
	"flag"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/hostile"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/repeat"
)

// writeHostile writes testdata/hostile/links.txt anew: go test ./core/link -run HostileLinks -write-hostile
var writeHostile = flag.Bool("write-hostile", false, "write testdata/hostile/links.txt anew")

const hostileLinks = "../../testdata/hostile/links.txt"

const hostileHead = `# Links that somebody might make to do harm: a name and the fragment, each with a sound checksum. Made by
# core/link/hostilelinks_test.go, which also checks that these are they; core/app opens each.
`

// enemies are the links, in an order. What is over a bound is written past the checks; what the form of links has no
// way of saying, such as broken UTF-8 (core/pack refuses it), is no link and is not in the list.
func enemies(t *testing.T) (names []string, links map[string]string) {
	links = map[string]string{}
	keep := func(name string, d *merge.Doc) {
		defer func() { _ = recover() }() // the coder's own word that nothing of this kind can be written
		if fragment, _ := written(d, "", false); fragment != "" {
			names, links[name] = append(names, name), fragment
		}
	}
	add := func(name string, change func(d *merge.Doc, duty uint32)) {
		p := withFamily(t)
		d := merge.New(p)
		change(d, p.Duties[0].ID)
		keep(name, d)
	}
	texts, order, err := hostile.Texts("../..")
	require.NoError(t, err)
	for _, name := range order {
		text := texts[name]
		add("text-"+name, func(d *merge.Doc, duty uint32) {
			for _, f := range []merge.Field{merge.Patient, merge.Hospital, merge.Address, merge.Phone} {
				set(d, f, 0, 0, text)
			}
			for _, f := range []merge.Field{merge.Title, merge.Place, merge.Note} {
				set(d, f, duty, 0, text)
			}
			d.Set(merge.Key{Field: merge.Helper, Name: text}, []merge.Version{{Stamp: merge.Stamp{Actor: merge.Maker, N: 1}, Value: "1"}})
		})
	}
	for _, value := range []string{"-5", "4000000000"} {
		for _, f := range []merge.Field{merge.Length, merge.Own, merge.Way, merge.Walk, merge.Early, merge.Kind, merge.Source, merge.Need} {
			add("number-"+value+"-"+strconv.Itoa(int(f)), func(d *merge.Doc, duty uint32) { set(d, f, duty, 0, value) })
		}
	}
	for name, r := range map[string]repeat.Rule{
		"rule-huge-count": {First: 20_900, At: 600, Freq: repeat.Daily, Every: 1, Count: 1 << 30}, "rule-year-9999": {First: 2_932_896, At: 600, Every: 1},
		"rule-to-9999": {First: 20_900, At: 600, Freq: repeat.Daily, Every: 1, Last: 2_932_896}, "rule-negative-time": {First: 20_900, At: -600, Every: 1},
		"rule-many": {First: 20_900, At: 600, Freq: repeat.Daily, Every: 1, Count: repeat.MaxCount}, "rule-every-0": {First: 20_900, At: 600, Freq: repeat.Daily},
	} {
		add(name, func(d *merge.Doc, duty uint32) { set(d, merge.Pattern, duty, 0, merge.RuleText(r)) })
	}
	for _, day := range []string{"2932896", "-1", "0", "47482"} { // 31 December 9999; before 1970; 1 January 1970; 1 January 2100
		add("surgery-"+day, func(d *merge.Doc, _ uint32) { set(d, merge.Surgery, 0, 0, day) })
	}
	for _, n := range []int{plan.MostHelpers + 1, 10_000} {
		keep("helpers-"+strconv.Itoa(n), manyHelpers(t, n))
	}
	keep("every-day-for-everybody", heavy(t, 60, func(d *merge.Doc, id uint32) { set(d, merge.Pattern, id, 0, monthlyText) }))
	slices.Sort(names)
	return names, links
}

// The committed links are those that are made here, so that a new text or a new form is in them; and each is
// refused, or a document that is sound.
func TestHostileLinksAreRefusedOrSound(t *testing.T) {
	names, links := enemies(t)
	var file strings.Builder
	file.WriteString(hostileHead)
	opened, refused := 0, 0
	for _, name := range names {
		file.WriteString(name + " " + links[name] + "\n")
		check(t, links[name])
		if _, err := Decode(links[name]); err == nil {
			opened++
		} else {
			refused++
		}
	}
	if *writeHostile {
		require.NoError(t, os.WriteFile(hostileLinks, []byte(file.String()), 0o600))
	}
	committed, err := os.ReadFile(hostileLinks)
	require.NoError(t, err)
	require.Equal(t, string(committed), file.String(), "write the file anew, with -write-hostile")
	require.Greater(t, opened, 30)
	require.Greater(t, refused, 10)
	for _, want := range []string{"helpers-10000", "every-day-for-everybody", "surgery-2932896", "text-override", "text-zero-width", "text-homoglyphs", "text-nul", "text-javascript-address"} {
		require.Contains(t, names, want)
	}
}
