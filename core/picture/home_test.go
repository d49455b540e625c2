package picture_test

import (
	"encoding/xml"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/picture"
)

// wholeHome has a post at every place.
func wholeHome() *picture.Home {
	h := &picture.Home{Name: `<"'&>`, Rooms: picture.HomeRooms{
		Bedroom: "Bedroom", Bathroom: "Bathroom", Ways: "Ways through the home", Sitting: "Living room", Kitchen: "Kitchen and cupboards",
	}}
	for place := 1; place < picture.HomePlaces; place++ {
		h.Posts = append(h.Posts, picture.HomePost{Place: picture.HomePlace(place), Number: place, Done: place%2 == 0})
	}
	return h
}

// Every post has a place of its own: no knob lies upon another's knob or foot, or over the
// edge. The circle is that of the drawing; 2 units lie between.
func TestPostsOfTheHomeStandApart(t *testing.T) {
	posts := wholeHome().Posts
	for i, a := range posts {
		ax, ay := a.At()
		require.Greater(t, ax, picture.Knob+4)
		require.Less(t, ax, picture.Wide-picture.Knob-2)
		require.Greater(t, ay, picture.Knob+4)
		require.Less(t, ay+picture.PostFoot, picture.HomeTall-4)
		for j, b := range posts {
			bx, by := b.At()
			if i == j {
				continue
			}
			require.GreaterOrEqual(t, math.Hypot(float64(ax-bx), float64(ay-by)), 2*picture.Knob+2.0, "places %d and %d", a.Place, b.Place)
			// The stem, from the knob to the foot.
			nearest := min(max(by, ay), ay+picture.PostFoot)
			require.GreaterOrEqual(t, math.Hypot(float64(ax-bx), float64(nearest-by)), picture.Knob+2.0, "the stem of %d and the knob of %d", a.Place, b.Place)
		}
	}
}

// XML 1.0: what is printed is well formed, whatever the names are; and SVG 2, 11.10.2.1: text
// that is set around its middle stands the same where the page runs from right to left.
func TestTheHomeIsWellFormed(t *testing.T) {
	text := picture.HomeDrawing(wholeHome())
	d := xml.NewDecoder(strings.NewReader(text))
	texts, name := 0, ""
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		if start.Name.Local == "text" {
			texts++
		}
		for _, a := range start.Attr {
			require.NotContains(t, []string{"style", "id", "fill", "stroke", "text-anchor"}, a.Name.Local)
			if a.Name.Local == "aria-label" {
				name = a.Value
			}
		}
	}
	require.Equal(t, `<"'&>`, name)
	require.Equal(t, picture.HomePlaces-1+6, texts, "a number a post, and the names of five rooms, one of them in two lines")
}

// What has no post and is not in every home is not drawn.
func TestOnlyWhatIsThereIsDrawn(t *testing.T) {
	whole := wholeHome()
	for _, place := range []picture.HomePlace{picture.Tub, picture.Shower, picture.Pet} {
		h := wholeHome()
		h.Posts = without(h.Posts, place)
		require.NotEqual(t, drawn(whole), drawn(h), "place %d", place)
	}
	h := wholeHome()
	h.Posts = without(h.Posts, picture.StairsFoot)
	require.Equal(t, drawn(whole), drawn(h), "there is one more post at the stairs")
	h.Posts = without(h.Posts, picture.StairsRail)
	require.NotEqual(t, drawn(whole), drawn(h))
}

// drawn is the drawing without its posts.
func drawn(h *picture.Home) string {
	text, _, _ := strings.Cut(picture.HomeDrawing(h), `<g class="home-post`)
	return text
}

func without(posts []picture.HomePost, place picture.HomePlace) (left []picture.HomePost) {
	for _, p := range posts {
		if p.Place != place {
			left = append(left, p)
		}
	}
	return left
}
