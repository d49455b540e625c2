package page_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/link"
)

// everyScreen is each screen with plain and with odd texts.
func everyScreen(t *testing.T, look func(name, text string)) {
	for _, x := range []texts{harmless, same(""), same(`<"'&>`)} {
		for name, text := range screens(t, x) {
			look(name, text)
		}
	}
}

// HTML standard, 3.2.6: an id is unique in its tree. A morphing library matches by
// it, and so does every label.
func TestIdsAreUnique(t *testing.T) {
	everyScreen(t, func(name, text string) {
		seen := map[string]bool{}
		for _, n := range elements(parsed(t, name, text)) {
			if id, ok := attribute(n, "id"); ok {
				require.NotEmpty(t, id, name)
				require.False(t, seen[id], "%s: the id %s stands twice", name, id)
				seen[id] = true
			}
		}
	})
}

// WCAG 2.2, 1.3.1 and 4.1.2: what names or describes a thing is there.
func TestWhatIsPointedAtExists(t *testing.T) {
	everyScreen(t, func(name, text string) {
		all := elements(parsed(t, name, text))
		ids := map[string]string{}
		for _, n := range all {
			if id, ok := attribute(n, "id"); ok {
				ids[id] = n.Data
			}
		}
		for _, n := range all {
			for _, key := range []string{"for", "aria-describedby", "aria-labelledby", "aria-controls", "list"} {
				value, ok := attribute(n, key)
				require.False(t, ok && strings.TrimSpace(value) == "", "%s: an empty %s on %s %v", name, key, n.Data, n.Attr)
				for id := range strings.FieldsSeq(value) {
					require.NotEmpty(t, ids[id], "%s: %s of %s points at %s, which is not there", name, key, n.Data, id)
				}
			}
			// A jump on the page, not a link that holds a plan.
			href, _ := attribute(n, "href")
			_, path := attribute(n, "data-path")
			if to, ok := strings.CutPrefix(href, "#"); ok && !path && to != "start" && to != "demo" && !isPlan(to) {
				require.NotEmpty(t, ids[to], "%s: the link %q leads to nothing", name, href)
			}
		}
	})
}

func isPlan(fragment string) bool {
	_, err := link.Decode(fragment)
	return err == nil
}

// WCAG 2.2, 1.3.1 (technique H42) and 2.4.6: one h1, and no level is left out.
func TestHeadingsDoNotSkipALevel(t *testing.T) {
	everyScreen(t, func(name, text string) {
		level := 0
		for _, n := range elements(parsed(t, name, text)) {
			if len(n.Data) != 2 || n.Data[0] != 'h' || n.Data[1] < '1' || n.Data[1] > '6' {
				continue
			}
			now := int(n.Data[1] - '0')
			require.False(t, level == 0 && now != 1, "%s begins with %s", name, n.Data)
			require.False(t, level > 0 && now == 1, "%s has two h1", name)
			require.LessOrEqual(t, now, level+1, "%s: %s %q follows h%d", name, n.Data, content(n), level)
			require.NotEmpty(t, strings.TrimSpace(content(n)), "%s: an empty %s", name, n.Data)
			level = now
		}
		require.NotZero(t, level, name)
	})
}

// WCAG 2.2, 4.1.2: every control has a name.
func TestEveryControlHasAName(t *testing.T) {
	everyScreen(t, func(name, text string) {
		all := elements(parsed(t, name, text))
		labels := map[string]bool{}
		for _, n := range all {
			if id, ok := attribute(n, "for"); ok && n.Data == "label" && strings.TrimSpace(content(n)) != "" {
				labels[id] = true
			}
		}
		for _, n := range all {
			switch n.Data {
			case "input", "textarea", "select":
				kind, _ := attribute(n, "type")
				id, _ := attribute(n, "id")
				wrapped := n.Parent.Data == "label" && strings.TrimSpace(content(n.Parent)) != ""
				require.True(t, kind == "hidden" || wrapped || labels[id], "%s: an input without a label: %v", name, n.Attr)
			case "button", "a", "summary", "legend":
				require.NotEmpty(t, strings.TrimSpace(content(n)), "%s: an empty %s %v", name, n.Data, n.Attr)
			}
		}
	})
}
