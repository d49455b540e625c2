package bundle

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/tools"
)

// probe is compiled beside a hospital's programs. It says what a copy of the page knows, makes a
// patient's link there, and reads it back.
const probe = `package main

import (
	"fmt"
	"strings"

	"newel/core/desk"
	"newel/core/link"
	"newel/core/page"
	"newel/core/plan"
	"newel/core/wall"
)

func main() {
	home := plan.BaseOf(plan.Home)
	surgery, _ := wall.ParseDate("2027-03-09")
	fragment := desk.Starter(&home, desk.Patient{Surgery: surgery, Arrival: 330, Facts: home.Given}, 12345)
	d, err := link.Decode(fragment)
	if err != nil {
		panic(err)
	}
	p := d.Plan()
	fmt.Println("home", plan.Home, "link", len(fragment))
	fmt.Println(p.Program.Hospital, p.Program.Phone, p.Zone, p.Program.Get(plan.WashDays), p.Program.Get(plan.Fever), p.Facts, len(p.Lines), p.Lines[0].In("es"))
	for number := range plan.Programs {
		fmt.Println("knows", number)
	}
	for _, language := range []string{"en", "es"} {
		html := page.Frame(language, page.Assets{})
		fmt.Println(language, len(html), strings.Contains(html, "Alder Ferry Hospital"), strings.Contains(html, "tel:5550142"), strings.Contains(html, "101 °F"))
	}
}
`

func probed(t *testing.T, files ...string) string {
	t.Helper()
	root, err := filepath.Abs("../..")
	require.NoError(t, err)
	temp := t.TempDir()
	put(t, temp, "main.go", probe)
	o := Options{Root: root, Programs: files, Log: func(text string) { t.Log(text) }}
	o.Overlay, err = mergeOverlay("", filepath.Join(root, "build", "probe", "main.go"), filepath.Join(temp, "main.go"), filepath.Join(temp, "probe.json"))
	require.NoError(t, err)
	list, err := withPrograms(o, temp)
	require.NoError(t, err)
	out, err := tools.Command{
		Step: "running the probe", Dir: root, Env: tools.CleanEnv(), Name: "go",
		Args: []string{"run", "-overlay=" + list, "./build/probe"},
	}.Run(t.Context())
	require.NoError(t, err)
	return out
}

// A hospital's own copy has its file's numbers and lines, its links carry a number in their place,
// and its static page names the hospital and its phone.
func TestAHospitalsOwnCopy(t *testing.T) {
	example := filepath.Join("..", "..", "testdata", "desk", "alder-ferry.toml")
	text, err := os.ReadFile(example)
	require.NoError(t, err)
	later := filepath.Join(put(t, t.TempDir(), "later.toml", strings.NewReplacer("number = 2", "number = 3", "wash-days = 5", "wash-days = 6").Replace(string(text))), "later.toml")
	out := probed(t, example, later)
	require.Regexp(t, `home 3 link [123]\d\n`, out, "fewer than 40 characters; the settings themselves take hundreds")
	require.Contains(t, out, "Alder Ferry Hospital 555-0142 America/Chicago 6 1010 ")
	require.Contains(t, out, " 3 Traiga la carpeta azul de la clase\n")
	for _, known := range []string{"knows 1\n", "knows 2\n", "knows 3\n"} {
		require.Contains(t, out, known)
	}
	require.Regexp(t, `en \d+ true true true\n`, out)
	require.Regexp(t, `es \d+ true true true\n`, out)
}

func TestSettingsThatCannotBeUsedStopTheBuild(t *testing.T) {
	folder := put(t, t.TempDir(),
		"bad.toml", "hospital = \"A\"\nphone = \"555-0142\"\nwash-days = 99\nwash-day = 1\n",
		"short.toml", "zone = \"America/Chicago\"\nnumber = 4\n",
		"a.toml", "hospital = \"A\"\nphone = \"555-0142\"\nzone = \"America/Chicago\"\nnumber = 4\n",
		"none.toml", "hospital = \"A\"\nphone = \"555-0142\"\nzone = \"America/Chicago\"\n")
	read := func(names ...string) error {
		o := Options{Root: folder, Log: func(string) {}}
		for _, name := range names {
			o.Programs = append(o.Programs, filepath.Join(folder, name))
		}
		_, err := withPrograms(o, folder)
		return err
	}
	err := read("bad.toml", "short.toml")
	require.ErrorContains(t, err, "bad.toml: Line 3: wash-days: ")
	require.ErrorContains(t, err, "bad.toml: Line 4: wash-day ")
	require.ErrorContains(t, err, "short.toml: hospital or phone is missing")
	require.ErrorContains(t, read("a.toml", "a.toml"), "a.toml: number: 4 is another file's number")
	require.ErrorContains(t, read("none.toml"), "none.toml: number is missing")
	require.ErrorContains(t, read("gone.toml"), "cannot be read")
	require.NoError(t, read("a.toml"))
}

// What a number says never changes, since links hold it (plan.Programs): a copy in whose place another
// one would change that is left as it is. How is ours; no published source.
func TestANumberDoesNotChangeWhatItSays(t *testing.T) {
	const head = "hospital = \"A\"\nphone = \"555-0142\"\nzone = \"America/Chicago\"\n"
	folder := put(t, t.TempDir(), "old.toml", head+"number = 4\n", "changed.toml", head+"number = 4\nwash-days = 6\n", "next.toml", head+"number = 5\nwash-days = 6\n")
	out := t.TempDir()
	make := func(names ...string) error {
		o := Options{Root: folder, Out: out, Log: func(string) {}, more: map[string][]byte{}}
		for _, name := range names {
			o.Programs = append(o.Programs, filepath.Join(folder, name))
		}
		if _, err := withPrograms(o, folder); err != nil {
			return err
		}
		return os.WriteFile(filepath.Join(out, ledgerFile), o.more[ledgerFile], 0o644)
	}
	require.NoError(t, make("old.toml"))
	require.NoError(t, make("old.toml"), "the same once more")
	require.ErrorContains(t, make("changed.toml"), "number 4 says something else in the copy")
	require.NoError(t, make("old.toml", "next.toml"))
	require.NoError(t, make("next.toml"))
}

// ASA 2017 and 2023 (testdata/schedule/fasting.json): clear liquids until 2 hours before the procedure.
// A file that allows them later is built, since a hospital's own rule holds, and the build says so.
func TestALaxRuleIsSaidWhenACopyIsMade(t *testing.T) {
	const head = "hospital = \"A\"\nphone = \"555-0142\"\nzone = \"America/Chicago\"\nnumber = 4\n"
	folder := put(t, t.TempDir(), "lax.toml", head+"liquids-before = 2\nprep-minutes = 0\n", "strict.toml", head+"liquids-before = 180\n")
	said := func(name string) (all []string) {
		o := Options{Root: folder, Log: func(s string) { all = append(all, s) }, Programs: []string{filepath.Join(folder, name)}}
		_, err := withPrograms(o, folder)
		require.NoError(t, err)
		return all
	}
	require.Regexp(t, `^lax\.toml: liquids-before: `, strings.Join(said("lax.toml"), "\n"))
	require.Empty(t, said("strict.toml"))
}
