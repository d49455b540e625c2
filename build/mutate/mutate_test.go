package mutate

import (
	"bytes"
	"go/format"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const ages = "build/mutate/testdata/ages"

// root is the repository's folder.
func root(t *testing.T) string {
	t.Helper()
	dir, err := filepath.Abs("../..")
	require.NoError(t, err)
	return dir
}

// survivorsOfAges were found by reading ages.go: they are what its tests cannot
// notice. Each of the other faults in it is noticed by one of its five tests.
var survivorsOfAges = []string{
	ages + `/ages.go Count | n := 0 | 0 becomes one less`,
	ages + `/ages.go Fare | if age < 3 { | 3 becomes one less`,
	ages + `/ages.go Fare | if age < 3 { | 3 becomes one more`,
	ages + `/ages.go Fare | if age < 3 { | in "age < 3", < becomes <=`,
	ages + `/ages.go Never | return a << 1 | 1 becomes one less`,
	ages + `/ages.go Never | return a << 1 | 1 becomes one more`,
	ages + `/ages.go Never | return a << 1 | an empty value is given back for "a << 1"`,
	ages + `/ages.go Never | return a << 1 | in "a << 1", << becomes >>`,
}

// TestFaultsOfASmallPackage tries all faults of a package whose tests are known by heart.
func TestFaultsOfASmallPackage(t *testing.T) {
	r, err := tryPackage(t.Context(), root(t), ages, func(string) bool { return true })
	require.NoError(t, err)
	survivors := r.survivors()
	slices.Sort(survivors)
	assert.Equal(t, survivorsOfAges, survivors)

	ends := map[string]end{}
	for i, m := range r.tried {
		ends[m.Name()] = r.ends[i]
	}
	for name, want := range map[string]end{
		`Adult | return age >= grown | in "age >= grown", >= becomes >`:                  failed,
		`First | if len(words) == 0 { | condition "len(words) == 0" becomes false`:       crashed,
		`Count | n++ | "n++" is left out`:                                                endless,
		`Count | n := 0 | 0 becomes one less`:                                            survived,
		`Never | return a << 1 | in "a << 1", << becomes >>`:                             unreached,
		` | var grown = 18 | 18 becomes one more`:                                        failed,
		`Odd | break | break becomes continue`:                                           failed,
		`Odd | if n%2 == 1 && i > 0 || n == 7 { | in "n%2 == 1 && i > 0", && becomes ||`: failed,
	} {
		got, made := ends[ages+"/ages.go "+name]
		assert.True(t, made, name)
		assert.Equal(t, want, got, name)
	}
}

// TestWhatIsJudged holds each thing that fails a run against a report made by hand.
func TestWhatIsJudged(t *testing.T) {
	r := report{folder: "core/x"}
	for i := range 20 {
		m := Mutant{ID: i + 1, File: "core/x/a.go", Func: "F", Line: "a < b", Change: "c", Twin: i + 1}
		r.all, r.tried, r.ends = append(r.all, m.Name()), append(r.tried, m), append(r.ends, failed)
	}
	r.ends[3], r.ends[4], r.ends[5] = survived, survived, unreached
	known := map[string]string{r.all[3]: "why", r.all[4]: "why", r.all[5]: "why"}
	assert.Empty(t, r.judge(known, true), "17 of 20 are 85 %% and all have a reason")

	r.ends[6] = survived
	known[r.all[6]] = "why"
	assert.Contains(t, strings.Join(r.judge(known, true), "\n"), "catch 80.0 %")
	assert.Empty(t, r.judge(known, false), "some faults say nothing of the share")

	delete(known, r.all[6])
	assert.Equal(t, []string{"no test notices this, and build/mutate/survivors.txt gives no reason why: " + r.all[6]}, r.judge(known, false))
	r.ends[6] = failed
	known[r.all[7]] = "why"
	assert.Equal(t, []string{"a test notices this now: take it from build/mutate/survivors.txt: " + r.all[7]}, r.judge(known, true))
	delete(known, r.all[7])
	known["core/x/a.go Gone | x | y"], known["core/other/a.go F | x | y"] = "why", "why"
	assert.Equal(t, []string{"the source has changed: look at it again, and at its reason in build/mutate/survivors.txt: core/x/a.go Gone | x | y"}, r.judge(known, true))
}

func TestReasonsAreRead(t *testing.T) {
	reasons, problems := parseList("# One reason\n# on two lines.\na\nb\n\n# Another.\nc\n")
	assert.Empty(t, problems)
	assert.Equal(t, map[string]string{"a": "One reason on two lines.", "b": "One reason on two lines.", "c": "Another."}, reasons)
	_, problems = parseList("a\n# Why.\nb\nb\n")
	assert.Len(t, problems, 2, "a has no reason, and b is there twice")
}

// TestFaultsOfTheCoreAreGo puts all faults into the packages that are tried in long runs: the
// text stays Go, no line moves, and no fault has another's name.
func TestFaultsOfTheCoreAreGo(t *testing.T) {
	for _, folder := range Packages {
		p, err := load(t.Context(), root(t), folder)
		require.NoError(t, err)
		mutants, files := p.mutate()
		assert.Greater(t, len(mutants), 500, folder)
		names := map[string]bool{}
		for _, m := range mutants {
			assert.False(t, names[m.Name()], m.Name())
			names[m.Name()] = true
		}
		for name, text := range files {
			_, err := format.Source([]byte(text))
			assert.NoError(t, err, name)
			before, err := os.ReadFile(filepath.Join(p.dir, name))
			require.NoError(t, err)
			assert.Equal(t, bytes.Count(before, []byte("\n")), strings.Count(text, "\n"), name)
		}
	}
}

// TestTheListIsInOrder: every listed survivor is a fault that can be made, and has one reason.
func TestTheListIsInOrder(t *testing.T) {
	list, problems, err := readList(root(t))
	require.NoError(t, err)
	for _, folder := range Packages {
		p, err := load(t.Context(), root(t), folder)
		require.NoError(t, err)
		mutants, _ := p.mutate()
		r := report{folder: folder}
		for _, m := range mutants {
			r.all = append(r.all, m.Name())
		}
		problems = append(problems, r.gone(list)...)
	}
	assert.Empty(t, problems)
}

// TestTestsThatFailAnyway: a package whose tests fail without a fault has nothing to say.
func TestTestsThatFailAnyway(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	write("go.mod", "module bad\n\ngo 1.26\n")
	require.NoError(t, os.Mkdir(filepath.Join(dir, "x"), 0o755))
	write("x/x.go", "package x\n\nfunc F(a int) int { return a + 1 }\n")
	write("x/x_test.go", "package x\n\nimport \"testing\"\n\nfunc TestF(t *testing.T) {\n\tif F(1) != 3 {\n\t\tt.Fatal()\n\t}\n}\n")
	_, err := tryPackage(t.Context(), dir, "x", func(string) bool { return true })
	assert.ErrorContains(t, err, "a test fails without any fault")
}
