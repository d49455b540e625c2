package catalogue

import (
	"go/ast"
	"go/parser"
	"go/token"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/guide"
)

var vectors = sync.OnceValues(func() (Vectors, error) { return ReadVectors("../..") })

func states(t *testing.T) []State {
	v, err := vectors()
	require.NoError(t, err)
	return States(v)
}

// all are the screens of all states in English, which several tests look at.
var all = sync.OnceValues(func() (map[string]Screen, error) {
	v, err := vectors()
	made := map[string]Screen{}
	for _, s := range States(v) {
		if made[s.Name], err = s.Screen("en"); err != nil {
			return nil, err
		}
	}
	return made, err
})

func screens(t *testing.T) map[string]Screen {
	made, err := all()
	require.NoError(t, err)
	return made
}

func TestNamesAreFileNames(t *testing.T) {
	plain, known := regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`), map[string]bool{}
	for _, s := range states(t) {
		require.Regexp(t, plain, s.Name)
		require.False(t, known[s.Name], "%s is there twice", s.Name)
		known[s.Name] = true
		require.NotEmpty(t, s.Group, s.Name)
		require.Regexp(t, `^[A-Z].*\.$`, s.What, s.Name)
	}
}

// The states that the catalogue was asked for.
func TestTheStatesThatWereAskedFor(t *testing.T) {
	made := screens(t)
	for _, name := range []string{
		"no-plan", "not-yet-known", "nothing-tomorrow", "one-helper", "example", "twelve-helpers", "everything-uncovered", "everything-covered",
		"weeks-before", "evening-before", "surgery-before-leaving", "surgery-under-way", "surgery-recovery-room", "home-the-same-day", "in-recovery",
		"therapy-weeks", "over", "damaged-link", "newer-link", "locked-link", "offline", "storage-off", "merged-with-questions", "surgery-moved",
		"very-long", "hostile", "turned-round", "arabic", "hebrew",
	} {
		require.Contains(t, made, name)
	}
}

// A state that shows the same as another one shows not what its name says.
func TestNoTwoStatesAreOne(t *testing.T) {
	known, same := map[string]string{}, []string{}
	for _, s := range states(t) {
		html, err := s.Document(screens(t)[s.Name], "page.css")
		require.NoError(t, err)
		if known[html] != "" {
			same = append(same, s.Name+" is "+known[html])
		}
		known[html] = s.Name
	}
	require.Empty(t, same)
}

// WCAG 2.2: a language (3.1.1), a title (2.4.2), a heading (2.4.6). Without scripts, since the states are
// what they are.
func TestDocuments(t *testing.T) {
	for _, language := range guide.Languages {
		for _, s := range states(t) {
			screen, err := s.Screen(language)
			require.NoError(t, err)
			html, err := s.Document(screen, "page-X.css")
			require.NoError(t, err)
			require.Equal(t, 1, strings.Count(html, "<h1"), "%s in %s", s.Name, language)
			require.NotContains(t, html, "<script", s.Name)
			require.NotContains(t, html, "no-core", s.Name)
			require.NotContains(t, html, "<title></title>", s.Name)
			require.Contains(t, html, `href="page-X.css"`, s.Name)
			if s.Name != "other-language" {
				require.Contains(t, html, `<html lang="`+language+`" dir="`+guide.Direction(language)+`"`, s.Name)
			}
			if id, isID := strings.CutPrefix(s.why, "#"); isID {
				require.Regexp(t, `<\w+ id="`+id+`"[^>]*[^n]>`, html, s.Name)
				require.NotRegexp(t, `<\w+ id="`+id+`"[^>]* hidden>`, html, s.Name)
				require.Equal(t, id == "stood", strings.Contains(html, "8:55.</strong>"), s.Name)
			} else if s.why != "" {
				require.Regexp(t, `<div id="trouble"[^>]*"(ltr|rtl)">`, html, s.Name)
				require.Contains(t, html, `<p data-why="`+s.why+`">`, s.Name)
			}
		}
	}
}

// kindOf leaves out which duty, helper, day or name a path is about.
func kindOf(path string) string {
	path = strings.TrimPrefix(path, "#")
	path = regexp.MustCompile(`\d+`).ReplaceAllString(path, "N")
	path = regexp.MustCompile(`^/desk/class/.*`).ReplaceAllString(path, "/desk/class/…")
	return regexp.MustCompile(`^(/who|/calendar/duty|/calendar/who)/[^/]+$`).ReplaceAllString(path, "$1/…")
}

// Every link and every form of every screen leads to something that is a state too.
func TestEveryWayOnIsInAState(t *testing.T) {
	asked := map[string]bool{}
	for _, s := range screens(t) {
		asked[kindOf(s.Path)] = true
		for _, path := range s.Asked {
			asked[kindOf(path)] = true
		}
	}
	ways, missing := regexp.MustCompile(`(?:data-path|action|formaction)="(/[^"]*)"`), map[string]string{}
	for name, s := range screens(t) {
		for _, m := range ways.FindAllStringSubmatch(s.HTML, -1) {
			if kind := kindOf(m[1]); !asked[kind] {
				missing[kind] = name
			}
		}
	}
	require.Empty(t, missing, "these paths are in no state; beside each, a state that leads there")
}

// Every path that is written in the sources of core/app is asked for by some state.
func TestEveryPathOfTheCoreIsInAState(t *testing.T) {
	asked := []string{}
	for _, s := range screens(t) {
		asked = append(append(asked, s.Path), s.Asked...)
	}
	var missing []string
	for _, path := range paths(t) {
		if !slices.ContainsFunc(asked, func(a string) bool {
			return a == path || strings.HasPrefix(a, strings.TrimSuffix(path, "/")+"/") || strings.HasSuffix(a, path)
		}) {
			missing = append(missing, path)
		}
	}
	require.Empty(t, missing)
}

// paths are the texts in core/app that are paths.
func paths(t *testing.T) []string {
	packages, err := parser.ParseDir(token.NewFileSet(), "../../core/app", nil, parser.SkipObjectResolution)
	require.NoError(t, err)
	path, all := regexp.MustCompile(`^/[a-z-]+(/[a-z-]*)*$`), []string{}
	for name, file := range packages["app"].Files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if text, ok := n.(*ast.BasicLit); ok && text.Kind == token.STRING {
				if value, err := strconv.Unquote(text.Value); err == nil && path.MatchString(value) {
					all = append(all, value)
				}
			}
			return true
		})
	}
	require.Greater(t, len(all), 30)
	return all
}

// What a screen no longer has is said, not passed over.
func TestATapOnNothing(t *testing.T) {
	p := newPhone("en").of(family()).press("/nowhere")
	require.ErrorContains(t, p.fault, "no form for /nowhere")
	lost := State{Name: "lost", reach: func(p *phone) { p.of(family()).press("/nowhere").send("/split") }}
	_, err := lost.Screen("en")
	require.ErrorContains(t, err, "lost in en")
}
