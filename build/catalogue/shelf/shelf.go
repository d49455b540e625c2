// Package shelf makes the catalogue's folder and serves it. Make runs build/catalogue/write, so that
// the screens come from the templates as they are now; Handler serves the folder, which is no part of
// the site.
//
// The folder holds a document for each state and language (NAME.LANGUAGE.html), states.json, the page's
// own style and typeface, and index.html, which shows them all. The pseudo-language (build/pseudo) is
// among the languages: it stands for one that is longer and goes from right to left.
package shelf

import (
	"context"
	"embed"
	"encoding/json"
	"fmt"
	"html/template"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"newel/build/pseudo"
	"newel/build/tools"
)

//go:embed index.html.tmpl index.css index.js
var own embed.FS

// state is one of the catalogue's, as states.json has it.
type state struct{ Group, Name, What string }

// Make writes the catalogue of the repository root into the folder out, which it replaces. dist is a
// bundled folder, of which it takes the style and the typeface.
func Make(ctx context.Context, root, dist, out string) error {
	if err := os.RemoveAll(out); err != nil {
		return err
	}
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	style, err := copyStyle(dist, out)
	if err != nil {
		return err
	}
	languages, err := languagesOf(root)
	if err != nil {
		return err
	}
	if err := write(ctx, root, style, out, "", languages...); err != nil {
		return err
	}
	temp, err := os.MkdirTemp("", "newel-catalogue-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temp)
	overlay, err := pseudo.Overlay(root, temp)
	if err != nil {
		return err
	}
	// Apart from the others, whose pages would else offer it.
	if err := write(ctx, root, style, out, overlay, pseudo.Language); err != nil {
		return err
	}
	return writeIndex(out, append(languages, pseudo.Language))
}

func write(ctx context.Context, root, style, out, overlay string, languages ...string) error {
	args := []string{"run", "-trimpath", "-buildvcs=false", "-overlay=" + overlay, "./build/catalogue/write", root, style, out}
	_, err := tools.Command{
		Step: "writing the catalogue", Dir: root, Env: tools.CleanEnv(), Name: "go", Args: append(args, languages...),
		Advice: "mend the state that is named above, in build/catalogue, or the screen that it goes through",
	}.Run(ctx)
	return err
}

// languagesOf are the page's languages, English first as on the page.
func languagesOf(root string) ([]string, error) {
	entries, err := os.ReadDir(filepath.Join(root, "core", "guide", "text"))
	if err != nil {
		return nil, err
	}
	all := []string{"en"}
	for _, e := range entries {
		if e.IsDir() && e.Name() != "en" {
			all = append(all, e.Name())
		}
	}
	return all, nil
}

// styleName is the file for the page's style, which stands in the page itself there.
const styleName = "page.css"

// copyStyle copies the style and what it refers to, and gives its name.
func copyStyle(dist, out string) (string, error) {
	page, err := os.ReadFile(filepath.Join(dist, "index.html"))
	if err != nil {
		return "", fmt.Errorf("the page cannot be read for its style: %w; make it anew with go run ./build bundle", err)
	}
	_, rest, begins := strings.Cut(string(page), "<style>")
	style, _, ends := strings.Cut(rest, "</style>")
	if !begins || !ends {
		return "", fmt.Errorf("%s/index.html has no <style>: make it anew with go run ./build bundle", dist)
	}
	if err := os.WriteFile(filepath.Join(out, styleName), []byte(style), 0o644); err != nil {
		return "", err
	}
	var files []string
	for _, ext := range []string{"woff2", "svg", "png"} {
		more, err := filepath.Glob(filepath.Join(dist, "*."+ext))
		if err != nil {
			return "", err
		}
		files = append(files, more...)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			return "", err
		}
		if err := os.WriteFile(filepath.Join(out, filepath.Base(file)), data, 0o644); err != nil {
			return "", err
		}
	}
	return styleName, nil
}

// group is a heading of the index.
type group struct {
	Title  string
	ID     string
	States []state
}

// writeIndex writes the page that shows all states.
func writeIndex(out string, languages []string) error {
	data, err := os.ReadFile(filepath.Join(out, "states.json"))
	if err != nil {
		return err
	}
	var states []state
	if err := json.Unmarshal(data, &states); err != nil {
		return err
	}
	page, err := template.ParseFS(own, "index.html.tmpl")
	if err != nil {
		return err
	}
	var html strings.Builder
	err = page.Execute(&html, map[string]any{"Groups": grouped(states), "Languages": languages, "Count": len(states)})
	if err != nil {
		return err
	}
	for _, name := range []string{"index.css", "index.js"} {
		text, err := own.ReadFile(name)
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(out, name), text, 0o644); err != nil {
			return err
		}
	}
	return os.WriteFile(filepath.Join(out, "index.html"), []byte(html.String()), 0o644)
}

func grouped(states []state) []group {
	var all []group
	for _, s := range states {
		at := slices.IndexFunc(all, func(g group) bool { return g.Title == s.Group })
		if at < 0 {
			at = len(all)
			all = append(all, group{Title: s.Group, ID: fmt.Sprintf("group-%d", at+1)})
		}
		all[at].States = append(all[at].States, s)
	}
	return all
}
