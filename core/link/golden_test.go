package link

import (
	"crypto/sha256"
	"encoding/base64"
	"flag"
	"math/rand"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/bench/link/families"
	"newel/core/merge"
	"newel/core/plan"
	"newel/core/wall"
)

// keepGolden writes the files of testdata/link/v3 that do not exist yet; none is ever
// written again:
//
//	go test ./core/link -run Version3 -keep
var keepGolden = flag.Bool("keep", false, "write golden links that do not exist yet")

// The links in testdata/link/v3 were made on the day this version was frozen. Families
// hold their links for months: each opens for ever, as the registers that stand beside it,
// and is the link that these registers have.
func TestLinksOfVersion3OpenForEver(t *testing.T) {
	if *keepGolden {
		for name, d := range goldenDocs(t) {
			keep(t, name, Encode(d), "", d)
		}
		p := withFamily(t)
		keep(t, "part", EncodePart(p, "Dana"), "Dana", merge.New(partOfPlan(p, "Dana")))
	}
	files, err := filepath.Glob("../../testdata/link/v3/*.txt")
	require.NoError(t, err)
	require.Len(t, files, 1+len(goldenDocs(t)))
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			fragment, listing, found := strings.Cut(string(data), "\n")
			require.True(t, found)
			d, h, part, err := decode(fragment)
			require.NoError(t, err)
			require.Equal(t, listing, listed(d, part))
			require.Equal(t, fragment, encode(d, part, h.Part))
		})
	}
}

func keep(t *testing.T, name, fragment, part string, d *merge.Doc) {
	file := "../../testdata/link/v3/" + name + ".txt"
	if _, err := os.Stat(file); err == nil {
		return
	}
	require.NoError(t, os.WriteFile(file, []byte(fragment+"\n"+listed(d, part)), 0o644))
}

// listed writes a document for people: the acts that are in it, then each register with
// its versions, as field/Of/Sub/Name = value @device.act.
func listed(d *merge.Doc, part string) string {
	var b strings.Builder
	stamp := func(s merge.Stamp) string { return strconv.Itoa(int(s.Actor)) + "." + strconv.Itoa(int(s.N)) }
	b.WriteString("number " + strconv.FormatUint(uint64(d.Number), 10) + "\n")
	if part != "" {
		b.WriteString("part " + strconv.Quote(part) + "\n")
	}
	for _, s := range d.Seen() {
		b.WriteString("seen " + stamp(s) + "\n")
	}
	for _, k := range d.Keys() {
		b.WriteString(strconv.Quote(k.String()))
		for _, v := range d.Get(k) {
			b.WriteString(" = " + strconv.Quote(v.Value) + " @" + stamp(v.Stamp))
		}
		b.WriteString("\n")
	}
	return b.String()
}

// goldenDocs are the documents of the golden links: between them they use every part of
// the form.
func goldenDocs(t *testing.T) map[string]*merge.Doc {
	docs := map[string]*merge.Doc{"unknown-arrival": docOf(starter(t)), "duties": docOf(withFamily(t)), "fullest": docOf(fullest(t))}
	for _, p := range families.All() {
		docs[p.Name] = p.Doc
	}
	mine, theirs := docOf(withFamily(t)), docOf(withFamily(t))
	p := mine.Plan()
	p.Arrival, p.Duties[0].Who = 345, 2
	mine = mine.WithHand(77, "Dana").Change(77, p)
	q := theirs.Plan()
	q.Arrival, q.Surgery, q.Duties[2].Dropped, q.Patient = wall.NoClock, q.Surgery+7, true, "Róża Łęcka 王"
	q.Helpers = append(q.Helpers, "Grandma")
	q.Duties[0].Who, q.Duties[0].Takes = 3, nil
	theirs = theirs.Change(4_000_000, q)
	both, err := merge.Join(mine, theirs)
	require.NoError(t, err)
	docs["questions"] = both
	docs["apart"] = apart(t)
	later := docOf(starter(t))
	later.SetSeen(merge.Stamp{Actor: 99, N: 3})
	// Far from what pages will have for long: its first number, 42, has a meaning by now.
	later.Set(merge.Key{Field: 200, Sub: 5}, []merge.Version{{Stamp: merge.Stamp{Actor: 99, N: 2}, Value: "later \x00"}})
	later.Set(merge.Key{Field: merge.Fact, Sub: 30}, []merge.Version{{Stamp: merge.Stamp{Actor: 99, N: 3}, Value: "1"}})
	docs["from-a-later-page"] = later
	docs["own-lines"] = docOf(withLines(t))
	return docs
}

// apart is a document in which all that stands in the head was written twice.
func apart(t *testing.T) *merge.Doc {
	p := family(t)
	p.Joint = plan.Hip
	q, r := p, p
	q.Surgery, q.Arrival, q.Stay, q.Joint, q.Operation = p.Surgery+3, 400, plan.SameDay, plan.Knee, plan.Revision
	r.Surgery, r.Arrival, r.Stay, r.Joint, r.Operation = p.Surgery+1, 405, plan.Undecided, plan.Knee, plan.BothSides
	d, err := merge.Join(docOf(p).Change(500, q), docOf(p).Change(400, r))
	require.NoError(t, err)
	return d
}

// Dates in a link are places among the dates of their rule, and a rule is written as
// core/merge writes it. If either came out different one day, exceptions in links that
// families hold would fall on other days without anybody noticing.
func TestTheDatesOfRulesAreFrozen(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	sum := sha256.New()
	for range 3_000 {
		rule := anyRule(r)
		sum.Write([]byte(merge.RuleText(rule)))
		for _, day := range datesOf(rule) {
			sum.Write([]byte(day.String()))
		}
	}
	require.Equal(t, "U-duT229ztVEyeuTHbLmzHydTjQl-6EtXAFLLg7kcFg", base64.RawURLEncoding.EncodeToString(sum.Sum(nil)), "links of version 3 depend on this: a change needs the old way beside it, for them")
}
