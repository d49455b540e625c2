package main

import (
	"encoding/json"

	"newel/core/guide"
	"newel/core/page"
)

// manifest is a web application manifest (W3C Web Application Manifest, 1 "members").
type manifest struct {
	ID         string `json:"id"` // the same in all languages: they are one application
	Name       string `json:"name"`
	ShortName  string `json:"short_name"`
	What       string `json:"description"`
	Language   string `json:"lang"`
	Direction  string `json:"dir"`
	Start      string `json:"start_url"`
	Scope      string `json:"scope"`
	Display    string `json:"display"`
	Background string `json:"background_color"`
	Theme      string `json:"theme_color"`
	Icons      []icon `json:"icons"`
}

type icon struct {
	Source  string `json:"src"`
	Sizes   string `json:"sizes"`
	Type    string `json:"type"`
	Purpose string `json:"purpose"`
}

// manifestOf makes the manifest in a language. It starts at the word that has the shell open the
// plan that was looked at last (web/last.ts).
func manifestOf(language string) ([]byte, error) {
	v := guide.Voice{Book: guide.Open(language)}
	return json.MarshalIndent(manifest{
		ID: "./", Name: v.Say("app.name"), ShortName: v.Say("app.name"), What: v.Say("app.what"),
		Language: language, Direction: guide.Direction(language),
		Start: "./#last", Scope: "./", Display: "standalone",
		Background: page.PaperLight, Theme: page.PaperLight,
		Icons: []icon{
			{"icon-192.png", "192x192", "image/png", "any"},
			{"icon-512.png", "512x512", "image/png", "any"},
			{"icon-maskable-512.png", "512x512", "image/png", "maskable"},
			{"icon.svg", "any", "image/svg+xml", "any"},
		},
	}, "", " ")
}
