package bundle

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// smallPage is a page of few files, whose static page has a place for the version.
func smallPage() map[string][]byte {
	return map[string][]byte{
		"index.html":          []byte(`<script data-version="00000000"></script>`),
		"core-ABCDEFG2.wasm":  []byte("a core of some length, so that it is among the last"),
		"whole-ABCDEFG2.wasm": []byte("whole"),
		"page-ABCDEFG2.js":    []byte("1"),
		"licenses.txt":        []byte("a license"),
		"icon-192.png":        []byte("a picture"),
	}
}

// repository is the real one: the worker's code is bundled as it is.
func repository(t *testing.T) string {
	root, err := filepath.Abs("../..")
	require.NoError(t, err)
	return root
}

func withWorker(t *testing.T, change func(map[string][]byte)) (files map[string][]byte, version string) {
	t.Helper()
	files = smallPage()
	change(files)
	require.NoError(t, addWorker(repository(t), files, false))
	found := regexp.MustCompile(`^const newelVersion="([A-Z2-7]{8})",newelFiles=`).FindSubmatch(files["worker.js"])
	require.NotNil(t, found, string(files["worker.js"][:80]))
	return files, string(found[1])
}

func nothing(map[string][]byte) {}

// The list is held to the standard's own example of how a hash is written (Subresource Integrity 3.1:
// "sha256-", base 64), by working it out for the files as they are written.
func TestWorkerListsTheFilesAsTheyAre(t *testing.T) {
	files, version := withWorker(t, nothing)
	require.Contains(t, string(files["index.html"]), `data-version="`+version+`"`)
	line, _, _ := strings.Cut(string(files["worker.js"]), ";\n")
	_, list, _ := strings.Cut(line, "newelFiles=")
	var rows [][2]string
	require.NoError(t, json.Unmarshal([]byte(list), &rows))
	var names []string
	for _, row := range rows {
		name := row[0]
		names = append(names, name)
		if name == "" {
			name = "index.html"
		}
		sum := sha256.Sum256(files[name])
		require.Equal(t, "sha256-"+base64.StdEncoding.EncodeToString(sum[:]), row[1], name)
	}
	require.Equal(t, []string{"page-ABCDEFG2.js", "", "core-ABCDEFG2.wasm", "whole-ABCDEFG2.wasm"}, names,
		"the small ones first, the larger core last, and nothing that the page does not need")
}

func TestWorkerChangesExactlyWhenSomethingDoes(t *testing.T) {
	files, version := withWorker(t, nothing)
	again, same := withWorker(t, nothing)
	require.Equal(t, files, again)
	require.Equal(t, version, same)
	for name, change := range map[string]func(map[string][]byte){
		"a page": func(f map[string][]byte) { f["index.html"] = append(f["index.html"], '!') },
		"a name": func(f map[string][]byte) {
			f["page-ABCDEFG3.js"] = f["page-ABCDEFG2.js"]
			delete(f, "page-ABCDEFG2.js")
		},
		"a file":  func(f map[string][]byte) { f["page-ABCDEFG2.js"] = []byte("2") },
		"another": func(f map[string][]byte) { f["more.txt"] = []byte("more") },
	} {
		_, other := withWorker(t, change)
		require.NotEqual(t, version, other, name)
	}
	_, same = withWorker(t, func(f map[string][]byte) { f["licenses.txt"] = []byte("another") })
	require.Equal(t, version, same, "what is not kept makes no version")
}

func TestPageWithoutAPlaceForItsVersion(t *testing.T) {
	files := smallPage()
	files["es.html"] = []byte("<script>")
	require.ErrorContains(t, addWorker(repository(t), files, false), "es.html has no place for its version")
}

// Node runs both workers as a browser would load them: as plain scripts.
func TestWorkersArePlainScripts(t *testing.T) {
	for _, withdraw := range []bool{false, true} {
		files := smallPage()
		require.NoError(t, addWorker(repository(t), files, withdraw))
		check := `const on = []; globalThis.self = { registration: { scope: "https://x.example/" }, addEventListener: (name) => on.push(name) };
			new (require("vm").Script)(require("fs").readFileSync(0, "utf8")).runInThisContext(); process.stdout.write(on.join())`
		node := exec.Command("node", "-e", check)
		node.Stdin = strings.NewReader(string(files["worker.js"]))
		out, err := node.CombinedOutput()
		require.NoError(t, err, string(out))
		require.Equal(t, map[bool]string{false: "install,activate,message,fetch", true: "install,activate"}[withdraw], string(out))
	}
}
