package work

import (
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/app"
)

// What is timed must be the plan's page, not a refusal or the front page.
func TestDemoRendersThePlan(t *testing.T) {
	html := app.Handle(demo()).HTML
	require.Contains(t, html, "Alder Ferry Hospital")
	render := Demo()
	require.Equal(t, len(html), render())
	require.Equal(t, len(html), render(), "the same page every time")
	require.Greater(t, Entries(), 30)
}
