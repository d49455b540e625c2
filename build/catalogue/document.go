package catalogue

import (
	"fmt"
	"html"
	"regexp"
	"strings"
)

// Everything that runs or that is fetched for what runs.
var scripts = regexp.MustCompile(`(?s)<script\b.*?</script>\n?|<link rel="preload"[^>]*>\n?|<link rel="alternate"[^>]*>\n?`)

var (
	title = regexp.MustCompile(`<title>.*?</title>`)
	root  = regexp.MustCompile(`<html lang="[^"]*" dir="[^"]*">`)
)

// fill puts a screen into the static page.
func fill(page string, s Screen, why string) (string, error) {
	page = scripts.ReplaceAllString(page, "")
	page = replace(title, page, "<title>"+html.EscapeString(s.Title)+"</title>")
	page = replace(root, page, `<html lang="`+s.Language+`" dir="`+s.Direction+`">`)
	if s.HTML != "" {
		var err error
		if page, err = within(page, s.HTML); err != nil {
			return "", err
		}
	}
	if id, isID := strings.CutPrefix(why, "#"); isID {
		if id == "stood" {
			page = stood(page)
		}
		return unhidden(page, id)
	}
	if why != "" {
		return troubled(page, why)
	}
	return page, nil
}

func replace(pattern *regexp.Regexp, text, by string) string {
	at := pattern.FindStringIndex(text)
	if at == nil {
		return text
	}
	return text[:at[0]] + by + text[at[1]:]
}

// within replaces the inside of the element "app", which is followed by the element "fetching".
func within(page, inside string) (string, error) {
	const begin, end = `<div id="app" tabindex="-1">`, `</div><section id="fetching"`
	from, to := strings.Index(page, begin), strings.LastIndex(page, end)
	if from < 0 || to < from {
		return "", fmt.Errorf("the static page has no %s that is followed by %s: mend build/catalogue/document.go to fit core/page/frame.qtpl", begin, end)
	}
	return page[:from+len(begin)] + inside + page[to:], nil
}

var stoodWhen = regexp.MustCompile(`(?s)(<strong id="stood-when"\s+data-today="([^"]*)"[^>]*>)(</strong>)`)

// stood fills in as of when the page is, as web/stood.ts does.
func stood(page string) string {
	return stoodWhen.ReplaceAllStringFunc(page, func(line string) string {
		parts := stoodWhen.FindStringSubmatch(line)
		return parts[1] + strings.Replace(parts[2], "{time}", "8:55", 1) + parts[3]
	})
}

// unhidden shows the element with an id, as scripts of the page do.
func unhidden(page, id string) (string, error) {
	at := strings.Index(page, ` id="`+id+`"`)
	end := at + strings.Index(page[max(at, 0):], ">")
	if at < 0 || !strings.HasSuffix(page[:end], " hidden") {
		return "", fmt.Errorf("the static page has no hidden element with the id %q", id)
	}
	return strings.TrimSuffix(page[:end], " hidden") + page[end:], nil
}

// troubled shows a sentence of trouble as web/trouble.ts does.
func troubled(page, why string) (string, error) {
	box, sentence := `<div id="trouble" class="trouble" role="alert"`, `<p data-why="`+why+`" hidden>`
	at := strings.Index(page, box)
	if at < 0 || !strings.Contains(page, sentence) {
		return "", fmt.Errorf("the static page has no sentence for the trouble %q", why)
	}
	line := strings.IndexByte(page[at:], '\n') + at
	page = page[:at] + strings.Replace(page[at:line], " hidden>", ">", 1) + page[line:]
	return strings.Replace(page, sentence, strings.Replace(sentence, " hidden", "", 1), 1), nil
}
