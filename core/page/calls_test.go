package page_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"newel/core/app"
	"newel/core/plan"
)

// What has been reviewed, by whom and when, stands on every page; a translation says it of
// itself too.
func TestWhoHasReviewedTheText(t *testing.T) {
	p := harmless.plan(t)
	foot := func(language string) string {
		r := at(p, -9)
		r.Language = language
		_, after, _ := strings.Cut(app.Handle(r).HTML, `<p class="reviewed">`)
		text, _, _ := strings.Cut(after, "</p>")
		return text
	}
	require.Equal(t, "This text has not yet been reviewed by a hospital.", foot("en"))
	require.Contains(t, foot("es"), "no revisada por un traductor médico")
	p.Program.Texts[plan.ReviewedBy], p.Program.Texts[plan.ReviewedOn] = "Alder Ferry joint center", "2026-11-02"
	p.Program.Texts[plan.TranslatedBy] = "Ana Ruiz"
	require.Regexp(t, `^Reviewed by Alder Ferry joint center on Monday, November 2.*\.$`, foot("en"))
	require.Contains(t, foot("es"), "Traducción revisada por Ana Ruiz.")
	require.NotContains(t, foot("es"), "no revisada")
}

// The hospital's own numbers stand under every page of a plan, and no other.
func TestTheHospitalsNumbersAreOnEveryPage(t *testing.T) {
	p := withFamily(ptr(harmless.plan(t)), "Ana")
	p.Program.Texts[plan.EmergencyNumber] = "112"
	require.True(t, p.Program.Set(plan.Fever, 383))
	for _, path := range []string{
		"/", "/facts", "/me", "/guide", "/guide/home", "/guide/signs", "/sources", "/about", "/device", "/device/wipe", "/split", "/split/suggest", "/helper/1", "/helper/new", "/duty/1",
		"/duty/1/change", "/duty/new/pets", "/who/drive-there", "/calendar", "/import", "/link", "/link/part", "/link/lock", "/link/afresh", "/say-back",
	} {
		r := at(p, -9)
		r.Path = path
		text := app.Handle(r).HTML
		require.Contains(t, text, `href="tel:112"`, path)
		require.NotContains(t, text, "tel:911", path)
		if path != "/facts" { // it suggests the numbers of several countries
			require.NotContains(t, text, "911", path)
		}
		require.Contains(t, text, "38.3 °C (100.9 °F)", path)
		require.Contains(t, text, `href="tel:5550142"`, path)
	}
}
