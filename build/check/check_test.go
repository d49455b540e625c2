package check

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/build/templates"
)

// The rules are the project's own (the layering table of its design, the
// purity list of its core), so there is no outside source to compare with:
// each gate is shown to pass a good sample and to name a bad one.

// tree writes files, given as name, text pairs, and returns their folder.
func tree(t *testing.T, files ...string) string {
	t.Helper()
	root := t.TempDir()
	for i := 0; i < len(files); i += 2 {
		path := filepath.Join(root, files[i])
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(files[i+1]), 0o644))
	}
	return root
}

func run(t *testing.T, gate func(string) ([]string, error), files ...string) []string {
	t.Helper()
	problems, err := gate(tree(t, files...))
	require.NoError(t, err)
	return problems
}

func TestPurityPasses(t *testing.T) {
	require.Empty(t, run(t, Purity,
		"core/a/a.go", "package a\n\nimport (\n\t\"net/url\"\n\t\"time\"\n)\n\nvar _ = time.UTC\nvar _ = url.PathEscape\n",
		"core/a/a_test.go", "package a\n\nimport \"os\"\n\nvar _ = os.Args\n",
		"build/x/x.go", "package x\n\nimport \"os\"\n\nfunc f() { go f(); _ = os.Args }\n"))
}

func TestPurityFindsImports(t *testing.T) {
	for _, closed := range []string{
		"syscall/js", "os", "os/exec", "net", "net/http", "net/http/httptest", "encoding/json", "regexp",
		"html/template", "math/rand", "math/rand/v2", "crypto/rand", "log", "log/slog",
	} {
		problems := run(t, Purity, "core/a/a.go", "package a\n\nimport _ \""+closed+"\"\n")
		require.Equal(t, []string{"core/a/a.go imports " + closed + ", which the core does without"}, problems)
	}
}

func TestPurityFollowsOurOwnImports(t *testing.T) {
	problems := run(t, Purity,
		"core/a/a.go", "package a\n\nimport _ \"newel/help\"\n",
		"help/h.go", "package help\n\nimport _ \"newel/more\"\n",
		"more/m.go", "package more\n\nimport _ \"os\"\n")
	require.Equal(t, []string{"more/m.go imports os, which the core does without"}, problems)
}

func TestPurityFindsCalls(t *testing.T) {
	cases := []struct{ imports, statement, want string }{
		{`"time"`, "_ = time.Now()", "uses time.Now"},
		{`clock "time"`, "_ = clock.Now", "uses time.Now"},
		{`"time"`, "_ = time.Local", "uses time.Local"},
		{`"time"`, "_, _ = time.LoadLocation(\"\")", "uses time.LoadLocation"},
		{`"time"`, "_ = time.Since(time.Time{})", "uses time.Since"},
		{`"time"`, "_ = time.Time{}.Local()", "calls Local()"},
		{`. "time"`, "_ = Now()", "imports time under no name"},
		{`_ "sort"`, "go f()", "starts a goroutine"},
	}
	for _, c := range cases {
		problems := run(t, Purity, "core/a/a.go", "package a\n\nimport "+c.imports+"\n\nfunc f() { "+c.statement+" }\n")
		require.Len(t, problems, 1, c.statement)
		require.Contains(t, problems[0], c.want)
		require.Contains(t, problems[0], "core/a/a.go")
	}
}

func TestLayers(t *testing.T) {
	cases := []struct{ file, imports, want string }{
		{"core/merge/a.go", "newel/core/plan", ""},
		{"core/merge/a.go", "newel/core/zone", ""},
		{"core/merge/a.go", "newel/core/merge/inner", ""},
		{"core/merge/inner/a.go", "newel/core/plan", ""},
		{"core/merge/a.go", "newel/core/link", "core/merge may import only core/plan, core/repeat, core/zone, core/wall"},
		{"core/plan/a.go", "newel/core/schedule", "core/plan may import only core/repeat, core/zone, core/wall"},
		{"core/zone/a.go", "newel/core/plan", "core/zone may import only nothing of ours"},
		{"core/page/a.go", "newel/core/desk", ""},
		{"core/page/a.go", "newel/core/app", "core/page may import only the rooms of core above it"},
		{"core/page/a.go", "newel/build/tools", "core/page may import only"},
		{"core/app/a.go", "newel/core/page", ""},
		{"wasm/near/main.go", "newel/core/app", ""},
		{"wasm/near/main.go", "newel/core/page", "wasm may import only core/app"},
		{"build/bundle/a.go", "newel/build/site", ""},
		{"build/bundle/a.go", "newel/core/app", ""},
		{"build/bundle/a.go", "newel/wasm", "build may import only"},
		{"build/site/a.go", "newel/build/tools", "build/site may import only"},
		{"build/site/a.go", "newel/core/zone", "build/site may import only"},
		{"build/site/a.go", "github.com/andybalholm/brotli", "standard library only"},
		{"build/site/a.go", "net/http", ""},
		{"core/other/a.go", "sort", "is in no room"},
		{"core/app/a.go", "newel/core/other", "in no room"},
		{"core/plan/a_test.go", "newel/core/app", ""},
	}
	for _, c := range cases {
		problems := run(t, Layers, c.file, "package a\n\nimport _ \""+c.imports+"\"\n")
		if c.want == "" {
			require.Empty(t, problems, c)
			continue
		}
		require.Len(t, problems, 1, c)
		require.Contains(t, problems[0], c.want)
	}
}

func TestRawTags(t *testing.T) {
	cases := []struct{ body, want string }{
		{"{%s x %}{%d 1 %}{%z b %}{%v x %}{%q x %}{%j x %}{%u x %}{% if x == y %}{% endif %}", ""},
		{"{%= Other() %}{%= v.Other(1) %}{%=h Other() %}", ""},
		{"{%s= x %}", "{% s= x %}"},
		{"{%- s= x -%}", "{% s= x %}"},
		{"{%z= b %}", "{% z= b %}"},
		{"{%v= x %}", "{% v= x %}"},
		{"{%sz= b %}", "{% sz= b %}"},
		{"{%= Unknown() %}", "{% = Unknown() %}"},
		{"{%=q Other() %}", "{% =q Other() %}"},
		{"{%= raw %}", "{% = raw %}"},
		{"{% code qw.N().S(x) %}", "with .N()"},
	}
	for _, c := range cases {
		text := "{% func Page(x string) %}\n" + c.body + "\n{% endfunc %}\n{% func (v *View) Other() %}{% endfunc %}\n"
		problems := run(t, RawTags, "core/page/a.qtpl", text)
		if c.want == "" {
			require.Empty(t, problems, c.body)
			continue
		}
		require.Len(t, problems, 1, c.body)
		require.Contains(t, problems[0], c.want)
		require.Contains(t, problems[0], "core/page/a.qtpl:2")
	}
}

func TestRawTagsAllowList(t *testing.T) {
	tags := []fileTag{{"a.qtpl", "s= x", 1}}
	require.Empty(t, judgeTags(tags, map[string]string{"a.qtpl: s= x": "made of digits only"}))
	problems := judgeTags(nil, map[string]string{"a.qtpl: s= x": "made of digits only"})
	require.Len(t, problems, 1)
	require.Contains(t, problems[0], "nowhere any more")
}

func TestFormat(t *testing.T) {
	require.Empty(t, run(t, Format, "a.go", "package a\n"))
	require.Equal(t, []string{"b/a.go is not as gofmt writes it: run gofmt -w b/a.go"}, run(t, Format, "b/a.go", "package  a\n"))
	require.Len(t, run(t, Format, "a.go", "pack age a\n"), 1)
}

func TestRegistries(t *testing.T) {
	require.Empty(t, run(t, Registries, "package-lock.json", "{}", "README.md", "see go.dev", "node_modules/a", registryHosts[0]))
	require.Contains(t, run(t, Registries, "package-lock.json", `{"resolved": "x"}`)[0], `"resolved"`)
	for _, host := range registryHosts {
		problems := run(t, Registries, "a/b.txt", "from https://"+strings.ToUpper(host)+"/x")
		require.NotEmpty(t, problems)
		require.Contains(t, problems[0], "a/b.txt names the registry")
	}
}

func TestTemplatesStale(t *testing.T) {
	template := "{% func Hi(x string) %}{%s x %}{% endfunc %}"
	root := tree(t, "core/page/a.qtpl", template)
	problems, err := templates.Stale(root)
	require.NoError(t, err)
	require.Len(t, problems, 1, "not generated yet")

	changed, err := templates.Write(root)
	require.NoError(t, err)
	require.Equal(t, []string{"core/page/a.qtpl.go"}, changed)
	problems, err = templates.Stale(root)
	require.NoError(t, err)
	require.Empty(t, problems)

	require.NoError(t, os.WriteFile(filepath.Join(root, "core/page/a.qtpl"), []byte(template+"\n{% func B() %}{% endfunc %}"), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(root, "core/page/old.qtpl.go"), []byte("package page\n"), 0o644))
	problems, err = templates.Stale(root)
	require.NoError(t, err)
	require.Len(t, problems, 2)
	require.Contains(t, problems[0], "core/page/a.qtpl.go is not what its template gives")
	require.Contains(t, problems[1], "core/page/old.qtpl.go has no template any more")
}
