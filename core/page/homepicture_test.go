package page_test

import (
	"fmt"
	"math/rand"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"newel/core/app"
	"newel/core/page"
	"newel/core/picture"
	"newel/core/plan"
	"newel/core/schedule"
)

// homeless are the steps of the home that belong to no one place of it.
var homeless = map[string]bool{}

// A step that is added to the home's list gets a place in its drawing, in the room that the
// table names, or is named as having none.
func TestEveryStepOfTheHomeHasItsPlace(t *testing.T) {
	rooms := map[string][]picture.HomePlace{
		"ways":     {picture.Sill, picture.Rug, picture.FreeWay, picture.Cord},
		"stairs":   {picture.StairsFoot, picture.StairsRail},
		"sitting":  {picture.Chair, picture.Pet},
		"kitchen":  {picture.Shelf},
		"bedroom":  {picture.Bed, picture.NightLight},
		"bathroom": {picture.Tub, picture.Shower, picture.GrabBar},
	}
	taken := map[picture.HomePlace]string{}
	for i := range schedule.Kinds {
		k := &schedule.Kinds[i]
		place := page.HomePlace(k.ID)
		if k.List != "home" {
			require.Equal(t, picture.NoPlace, place, "%s is not of the home's list", k.ID)
			continue
		}
		if place == picture.NoPlace {
			require.True(t, homeless[k.ID], "%s has no place in the drawing of the home", k.ID)
			continue
		}
		require.Contains(t, rooms[k.Part], place, "%s is drawn in another room than %s", k.ID, k.Part)
		require.Empty(t, taken[place], "%s stands where %s does", k.ID, taken[place])
		taken[place] = k.ID
	}
	require.Len(t, taken, picture.HomePlaces-1, "a place without a step")
}

// The numbers in the drawing are those of the lines below it, each once and in their order,
// and filled are just those that are done, whatever the home is like and whatever is ticked.
func TestTheNumbersOfTheHomeAreThoseOfItsList(t *testing.T) {
	rnd := rand.New(rand.NewSource(8))
	seen := map[int]bool{}
	for range 60 {
		p := harmless.plan(t)
		p.Facts = plan.HomeAnswered
		for _, f := range plan.FactKeys {
			if rnd.Intn(2) == 0 {
				p.Facts |= f.Fact
			}
		}
		for i := range schedule.Kinds {
			if k := &schedule.Kinds[i]; k.List == "home" && rnd.Intn(3) == 0 {
				p = p.WithTick(plan.Tick{Code: k.Code}, true)
			}
		}
		if rnd.Intn(2) == 0 {
			p = p.WithLine(plan.Line{ID: 64, List: plan.HomeSetUp, Day: plan.NoDay, Text: "Lend the long ramp"})
		}
		r := at(p, -20)
		r.Path = "/guide/home"
		seen[numbersAgree(t, app.Handle(r).HTML)] = true
		r.Path = "/"
		numbersAgree(t, app.Handle(r).HTML)
	}
	require.Greater(t, len(seen), 3, "homes of several kinds")
}

// numbersAgree looks at the one drawing of a screen and the lines with numbers, and says how
// many there are.
func numbersAgree(t *testing.T, text string) int {
	var posts, lines []string
	for _, n := range elements(parsed(t, "home", text)) {
		class, _ := attribute(n, "class")
		switch {
		case strings.HasPrefix(class, "home-post"):
			posts = append(posts, fmt.Sprint(words(n), strings.Contains(class, "done")))
		case n.Data == "form" && class == "tick":
			if number := find(n, "home-number"); number != nil {
				_, checked := attribute(findTag(n, "input", "checkbox"), "checked")
				lines = append(lines, fmt.Sprint(words(number), checked))
			}
		}
	}
	require.NotEmpty(t, posts)
	require.Equal(t, lines, posts)
	for i, post := range posts {
		require.True(t, strings.HasPrefix(post, strconv.Itoa(i+1)), post)
	}
	return len(posts)
}

func words(n *html.Node) string {
	text := ""
	for c := range n.Descendants() {
		if c.Type == html.TextNode {
			text += c.Data
		}
	}
	return strings.TrimSpace(text)
}

func find(n *html.Node, class string) *html.Node {
	for c := range n.Descendants() {
		if have, _ := attribute(c, "class"); have == class {
			return c
		}
	}
	return nil
}

func findTag(n *html.Node, tag, kind string) *html.Node {
	for c := range n.Descendants() {
		if have, _ := attribute(c, "type"); c.Data == tag && have == kind {
			return c
		}
	}
	return nil
}

// Without a plan the drawing has a post for every step, and none is done.
func TestTheHomeWithoutAPlan(t *testing.T) {
	r := app.Request{Path: "/guide/home", Zone: "America/Chicago", Language: "en-US", Random: make([]byte, 16), Kept: map[string]string{}}
	text := app.Handle(r).HTML
	require.Equal(t, picture.HomePlaces-1, strings.Count(text, `<g class="home-post">`))
	require.Equal(t, picture.HomePlaces-1, strings.Count(text, `class="home-number"`))
}
